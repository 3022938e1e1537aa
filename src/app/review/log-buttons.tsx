import type { LogSource } from './protocol.ts';

export interface LogDoors {
  readonly onFiles: (files: readonly LogSource[]) => void;
  readonly onDemonstrate: () => void;
  /** Back from the invented workshop to the logs of this device. */
  readonly onOwn: () => void;
}

/** The ways in which logs come to the review. */
export function LogButtons({ onFiles, onDemonstrate }: Pick<LogDoors, 'onFiles' | 'onDemonstrate'>) {
  return (
    <div className="row no-print">
      <label className="button">
        Add logs
        <input
          type="file"
          multiple
          accept=".jsonl,.json,.ndjson,.txt,.gz"
          className="hidden-visually"
          onChange={({ target }) => {
            onFiles([...(target.files ?? [])].map((file) => ({ name: file.name, blob: file })));
            target.value = '';
          }}
        />
      </label>
      <button type="button" onClick={onDemonstrate}>
        Look at an invented workshop
      </button>
    </div>
  );
}
