import { useWords } from '../words/words.ts';
import { PageTop } from './page-top.tsx';

/** The top of the start page. */
export function StartOpening() {
  const words = useWords();
  return (
    <>
      <PageTop title={words.name} home />
      <p>{words.tagline}</p>
      <p className="warn">{words.safety}</p>
    </>
  );
}
