import { lazy } from 'react';
import { LibraryView } from './library-view.tsx';
import './author.css';

// The editor is most of all code here, and choosing what to edit needs none of it.
const BenchPage = lazy(() => import('./bench-page.tsx').then((module) => ({ default: module.BenchPage })));

/** The author's pages: the library, or one procedure on the bench. */
export function AuthorPage({ name }: { readonly name: string | null }) {
  return name === null ? <LibraryView /> : <BenchPage key={name} name={name} />;
}
