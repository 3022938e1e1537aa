import type { ProcedureFile } from '../../procedure/parse.ts';
import { useAuthorWords } from './words/words.ts';

/** Asks for the build where there is a choice. */
export function BuildPicker({
  file,
  build,
  setBuild,
}: {
  readonly file: ProcedureFile | null;
  readonly build: string;
  readonly setBuild: (build: string) => void;
}) {
  const { hear: text } = useAuthorWords();
  if (file === null || file.builds.size < 2) return null;
  return (
    <label>
      <span>{text.build}</span>
      <select value={build} onChange={(event) => setBuild(event.target.value)}>
        {[...file.builds].map(([id, name]) => (
          <option key={id} value={id}>{`${id}: ${name}`}</option>
        ))}
      </select>
    </label>
  );
}
