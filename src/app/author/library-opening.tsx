import { PageTop } from '../pages/page-top.tsx';
import { useAuthorWords } from './words/words.ts';

/** The top of the author's library. */
export function LibraryOpening() {
  const words = useAuthorWords();
  return (
    <>
      <PageTop title={words.title} />
      <p>{words.about}</p>
    </>
  );
}
