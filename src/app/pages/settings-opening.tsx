import { useWords } from '../words/words.ts';
import { PageTop } from './page-top.tsx';

/** The top of the settings. */
export function SettingsOpening() {
  const text = useWords().settings;
  return (
    <>
      <PageTop title={text.title} />
      <p>{text.about}</p>
    </>
  );
}
