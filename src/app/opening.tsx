import { PageTop } from './pages/page-top.tsx';
import { useWords } from './words/words.ts';

/** The top of the start page. The build writes it into index.html as well, where it stands before any script has come. */
export function Opening() {
  const words = useWords();
  return (
    <>
      <PageTop title={words.name} home />
      <p>{words.tagline}</p>
      <p className="warn">{words.safety}</p>
    </>
  );
}
