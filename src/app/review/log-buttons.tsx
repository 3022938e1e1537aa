import type { LogSource } from './protocol.ts';
import { useWording } from './words/words.ts';

export interface LogDoors {
  readonly onFiles: (files: readonly LogSource[]) => void;
  readonly onDemonstrate: () => void;
  /** Back from the invented workshop to the logs of this device. */
  readonly onOwn: () => void;
}

/** What a folder may hold beside logs is left where it is. */
const looksLikeLog = /\.(jsonl|ndjson|json|txt|gz)$/iu;

/** The ways in which logs come to the review. */
export function LogButtons({ onFiles, onDemonstrate }: Pick<LogDoors, 'onFiles' | 'onDemonstrate'>) {
  const words = useWording().page.logs;
  const take = (input: HTMLInputElement, isWanted: (file: File) => boolean): void => {
    onFiles([...(input.files ?? [])].filter(isWanted).map((file) => ({ name: file.webkitRelativePath || file.name, blob: file })));
    input.value = '';
  };
  return (
    <div className="row no-print">
      <label className="button">
        {words.add}
        <input
          type="file"
          multiple
          accept=".jsonl,.json,.ndjson,.txt,.gz"
          className="hidden-visually"
          onChange={({ target }) => take(target, () => true)}
        />
      </label>
      <label className="button">
        {words.addFolder}
        <input
          type="file"
          // React's types do not know it; every browser that can open a folder does.
          {...{ webkitdirectory: '' }}
          className="hidden-visually"
          onChange={({ target }) => take(target, (file) => looksLikeLog.test(file.name))}
        />
      </label>
      <button type="button" onClick={onDemonstrate}>
        {words.demonstrate}
      </button>
    </div>
  );
}
