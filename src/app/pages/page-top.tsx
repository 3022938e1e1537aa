import { Link } from 'wouter';
import { useWords } from '../words/words.ts';

/** The heading of every screen but the work screen, with the ways to the others. */
export function PageTop({ title, home = false }: { readonly title: string; readonly home?: boolean }) {
  const words = useWords();
  return (
    <header className="page-top no-print">
      <h1>{title}</h1>
      <nav className="row" aria-label={words.name}>
        {home ? null : (
          <Link className="button" href="/">
            {words.nav.start}
          </Link>
        )}
        <Link className="button" href="/tools">
          {words.nav.tools}
        </Link>
        <Link className="button" href="/calculator">
          {words.nav.calculator}
        </Link>
        <Link className="button" href="/author">
          {words.nav.author}
        </Link>
        <Link className="button" href="/review">
          {words.nav.review}
        </Link>
        <Link className="button" href="/settings">
          {words.nav.settings}
        </Link>
      </nav>
    </header>
  );
}
