import { PageTop } from '../pages/page-top.tsx';
import { useWords } from '../words/words.ts';
import { useWording } from './words/words.ts';

/** The top of the review as long as there is nothing to review. */
export function ReviewOpening() {
  const words = useWords();
  return (
    <>
      <PageTop title={words.nav.review} />
      <ReviewAbout />
    </>
  );
}

/** Where logs come from. */
export function ReviewAbout() {
  return <p className="no-print">{useWording().page.logs.about}</p>;
}
