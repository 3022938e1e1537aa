import { useCallback, useState } from 'react';
import { Link } from 'wouter';
import { adoptRecordings, readBundle } from '../../journal/bundle.ts';
import { faultText } from '../../journal/fault-text.ts';
import type { Unpacked } from '../../journal/hand-over/packed.ts';
import { importLog, readLog } from '../../journal/log-file.ts';
import type { Imported, LoggedJob } from '../../journal/log-file.ts';
import { headerLine, jobHeader } from '../../journal/header.ts';
import { FileButton } from '../pages/file-button.tsx';
import { PageTop } from '../pages/page-top.tsx';
import { useServices } from '../services.ts';
import { useWords } from '../words/words.ts';
import { CodeCamera } from './code-camera.tsx';
import { theRecordings } from './stores.ts';
import { useRecordWords } from './use-record-words.ts';
import type { RecordWords } from './words/en.ts';

interface Told {
  readonly key: string;
  readonly text: string;
  readonly isGood: boolean;
  /** A job that can be gone on with. */
  readonly job: string | null;
}

/** Takes in a job that another device has handed over: by file, or by codes held before the camera. */
export function TakeInPage() {
  const words = useRecordWords();
  const troubles = useWords().trouble;
  const { journal } = useServices();
  const [told, setTold] = useState<readonly Told[]>([]);
  const [isWatching, setWatching] = useState(false);
  const bad = (text: string): void => setTold([{ key: text, text, isGood: false, job: null }]);

  const takeIn = useCallback(
    async (jobs: readonly LoggedJob[], recordings: Parameters<typeof adoptRecordings>[1]) => {
      const imported = await importLog(journal, jobs);
      const failed = await adoptRecordings(theRecordings(), recordings);
      const lost: Told[] =
        failed.length === 0 ? [] : [{ key: 'lost', text: words.takeIn.notesLost(failed.length), isGood: false, job: null }];
      setTold([...imported.map((one, index) => tell(one, jobs[index], words.takeIn, troubles)), ...lost]);
    },
    [journal, words, troubles],
  );

  const fromFile = async (file: File) => {
    const read = readBundle(new Uint8Array(await file.arrayBuffer()));
    if (!read.ok) bad(read.code === 'packed' ? words.takeIn.packed : read.code === 'no-log' ? words.takeIn.nothing : words.takeIn.damaged);
    else if (read.jobs.length === 0) bad(words.takeIn.nothing);
    else await takeIn(read.jobs, read.recordings);
  };

  const fromCodes = useCallback(
    (unpacked: Unpacked) => {
      setWatching(false);
      if (!unpacked.ok) {
        const text = unpacked.code === 'newer-version' ? words.takeIn.newer : words.takeIn.damaged;
        setTold([{ key: text, text, isGood: false, job: null }]);
        return;
      }
      // The same door as for files, so that what comes by camera is checked no less.
      const { job, plan, lines } = unpacked;
      void takeIn(readLog([headerLine(jobHeader(job, plan, null)), ...lines].join('\n')), []);
    },
    [takeIn, words],
  );

  return (
    <main className="page">
      <PageTop title={words.takeIn.title} />
      <p>{words.takeIn.about}</p>
      <div className="row">
        <FileButton
          label={words.takeIn.file}
          accept=".jsonl,.zip,application/jsonl,application/zip"
          onFile={(file) => void fromFile(file)}
        />
        <button type="button" aria-pressed={isWatching} onClick={() => setWatching(!isWatching)}>
          {isWatching ? words.takeIn.stop : words.takeIn.codes}
        </button>
      </div>
      {isWatching ? <CodeCamera onRead={fromCodes} /> : null}
      <div role="status" className="stack">
        {told.map(({ key, text, isGood, job }) => (
          <div key={key} className="stack">
            <p className={isGood ? 'good' : 'trouble'}>{text}</p>
            {job === null ? null : (
              <div className="row">
                <Link className="button primary" href={`/job/${job}`}>
                  {words.takeIn.open}
                </Link>
              </div>
            )}
          </div>
        ))}
      </div>
    </main>
  );
}

function tell(
  { job, answer }: Imported,
  logged: LoggedJob | undefined,
  words: RecordWords['takeIn'],
  troubles: Readonly<Record<string, string>>,
): Told {
  const title = logged?.plan?.procedure.title ?? '?';
  const key = job ?? title;
  if (answer.ok) {
    const isOpen = logged?.events.every(({ event }) => event.type !== 'signed') === true;
    return { key, text: words.outcomes[answer.outcome](title, answer.added), isGood: true, job: isOpen ? job : null };
  }
  switch (answer.code) {
    case 'parted':
      return { key, text: words.parted(title, answer.seq), isGood: false, job: null };
    case 'record-corrupt': {
      const isNewer = answer.faults.some((fault) => 'why' in fault && fault.why === 'newer-version');
      const text = isNewer
        ? words.newer
        : answer.faults.length === 0
          ? words.nothing
          : words.corrupt(answer.faults.slice(0, 3).map(faultText).join('; '));
      return { key, text, isGood: false, job: null };
    }
    default:
      return { key, text: troubles[answer.code] ?? answer.code, isGood: false, job: null };
  }
}
