import { PageTop } from '../pages/page-top.tsx';
import { useWords } from '../words/words.ts';

/** The top of the tool crib. */
export function ToolsOpening() {
  const words = useWords();
  return (
    <>
      <PageTop title={words.nav.tools} />
      <p>{words.tools.about}</p>
    </>
  );
}
