import { BenchPage } from './bench-page.tsx';
import { LibraryView } from './library-view.tsx';
import './author.css';

/** The author's pages: the library, or one procedure on the bench. */
export function AuthorPage({ name }: { readonly name: string | null }) {
  return name === null ? <LibraryView /> : <BenchPage key={name} name={name} />;
}
