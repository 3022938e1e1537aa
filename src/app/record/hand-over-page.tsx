import { useEffect, useMemo, useState } from 'react';
import { jobBundle } from '../../journal/bundle.ts';
import { codesOf, codeSvg } from '../../journal/hand-over/codes.ts';
import type { HandOverWay } from '../../job/events.ts';
import type { Journal, NotStoredCode, ReadJob, StoredJob } from '../../journal/port.ts';
import { now } from '../platform/clock.ts';
import { saveBlob } from '../platform/save-file.ts';
import { PageTop } from '../pages/page-top.tsx';
import { useServices } from '../services.ts';
import { useWords } from '../words/words.ts';
import { theRecordings } from './stores.ts';
import { useRecordWords } from './use-record-words.ts';

/** Gives a job to another device, as a file or as a row of codes on the screen. */
export function HandOverPage({ job }: { readonly job: string }) {
  const words = useRecordWords().handOver;
  const all = useWords();
  const { journal } = useServices();
  const [found, setFound] = useState<ReadJob | null>(null);
  useEffect(() => {
    let current = true;
    void journal.read(job).then((read) => {
      if (current) setFound(read);
    });
    return () => {
      current = false;
    };
  }, [journal, job]);
  return (
    <main className="page">
      <PageTop title={words.title} />
      {found === null ? (
        <p className="quiet">…</p>
      ) : found.ok ? (
        <Giving stored={found.stored} />
      ) : (
        <p className="trouble" role="alert">
          {found.code === 'no-such-job' ? all.record.none : all.trouble[found.code]}
        </p>
      )}
    </main>
  );
}

function Giving({ stored }: { readonly stored: StoredJob }) {
  const words = useRecordWords().handOver;
  const all = useWords();
  const { journal } = useServices();
  const [message, setMessage] = useState<string | null>(null);
  /** The record as it goes out: with the event that says so, once it is marked. */
  const [given, setGiven] = useState<StoredJob | null>(null);
  const { procedure, build } = stored.plan;
  const isSigned = stored.events.some(({ event }) => event.type === 'signed');

  /** Marks first, so that what goes out says itself that it was handed over, and the other side goes on behind it. */
  const mark = async (way: HandOverWay): Promise<StoredJob | null> => {
    if (isSigned || given !== null) return given ?? stored;
    const marked = await markHandedOver(journal, stored.job, way);
    if (!marked.ok) {
      setMessage(all.trouble[marked.code]);
      return null;
    }
    setGiven(marked.stored);
    return marked.stored;
  };

  const byFile = async () => {
    const going = await mark('file');
    if (going === null) return;
    const made = await jobBundle(going, theRecordings());
    if (!made.ok) {
      setMessage(all.trouble[made.code]);
      return;
    }
    saveBlob(`${procedure.id}-${build.id}-${stored.job.slice(0, 8)}${made.ending}`, made.file);
    setMessage([isSigned ? null : words.marked, made.missing === 0 ? null : words.missingNotes(made.missing)].filter(Boolean).join(' '));
  };

  const [shown, setShown] = useState<StoredJob | null>(null);
  const byCodes = async () => setShown(await mark('codes'));

  return (
    <>
      <h2>{procedure.title}</h2>
      <p>{isSigned ? words.finished : words.about}</p>
      {message === null || message === '' ? null : <p role="status">{message}</p>}
      <div className="panels">
        <section className="panel stack">
          <button type="button" className="primary" onClick={() => void byFile()}>
            {words.byFile}
          </button>
          <p className="small">{words.fileAbout}</p>
        </section>
        <section className="panel stack">
          <button type="button" className="primary" onClick={() => void byCodes()}>
            {words.byCodes}
          </button>
          <p className="small">{words.codesAbout}</p>
        </section>
      </div>
      {shown === null ? null : <Codes stored={shown} />}
    </>
  );
}

type Marked =
  | { readonly ok: true; readonly stored: StoredJob }
  | { readonly ok: false; readonly code: NotStoredCode | 'record-corrupt' | 'storage-evicted' };

async function markHandedOver(journal: Journal, job: string, way: HandOverWay): Promise<Marked> {
  const opened = await journal.open(job);
  if (!opened.ok) return { ok: false, code: opened.code === 'no-such-job' ? 'storage-evicted' : opened.code };
  try {
    if (opened.writing !== 'this-tab') {
      return { ok: false, code: opened.writing === 'other-tab' ? 'not-stored-other-tab' : 'not-stored-newer-version' };
    }
    // Handed over once is enough: the file may be saved again, and codes shown as well.
    const last = opened.stored.events.at(-1)?.event.type;
    if (last !== 'handed-over') {
      const stored = await journal.append(job, [{ moment: now().moment, step: null, event: { type: 'handed-over', way } }]);
      if (!stored.ok) return stored;
    }
    const read = await journal.read(job);
    return read.ok ? read : { ok: false, code: read.code === 'no-such-job' ? 'storage-evicted' : read.code };
  } finally {
    await journal.release(job);
  }
}

/** Milliseconds that a code stays: slow enough for a phone's camera to settle on it (common practice, not measured). */
const paces = [1600, 1000, 600, 350] as const;

function Codes({ stored }: { readonly stored: StoredJob }) {
  const words = useRecordWords().handOver;
  const [texts, setTexts] = useState<readonly string[] | 'too-large' | 'record-corrupt'>([]);
  const [at, setAt] = useState(0);
  const [pace, setPace] = useState(1);
  const [isHeld, setHeld] = useState(false);
  useEffect(() => {
    let current = true;
    void codesOf(stored).then((made) => {
      if (current) setTexts(made.ok ? made.texts : made.code);
    });
    return () => {
      current = false;
    };
  }, [stored]);
  const count = typeof texts === 'string' ? 0 : texts.length;
  useEffect(() => {
    if (isHeld || count < 2) return;
    const turn = setInterval(() => setAt((before) => (before + 1) % count), paces[pace] ?? paces[1]);
    return () => clearInterval(turn);
  }, [isHeld, count, pace]);
  const text = typeof texts === 'string' ? undefined : texts[at];
  const picture = useMemo(() => (text === undefined ? null : `data:image/svg+xml,${encodeURIComponent(codeSvg(text))}`), [text]);
  if (typeof texts === 'string') return <p className="trouble">{texts === 'too-large' ? words.tooLarge : words.damaged}</p>;
  if (picture === null) return <p className="quiet">…</p>;
  return (
    <section className="stack code-show">
      <img className="code-picture" src={picture} alt={words.code(at + 1, count)} data-text={text} />
      <p className="count">{words.code(at + 1, count)}</p>
      {count < 2 ? null : (
        <div className="row">
          <button type="button" disabled={pace === 0} onClick={() => setPace(pace - 1)}>
            {words.slower}
          </button>
          <button type="button" disabled={pace === paces.length - 1} onClick={() => setPace(pace + 1)}>
            {words.faster}
          </button>
          <button type="button" aria-pressed={isHeld} onClick={() => setHeld(!isHeld)}>
            {isHeld ? words.goOn : words.hold}
          </button>
          <button type="button" onClick={() => setAt((at + 1) % count)}>
            {words.next}
          </button>
        </div>
      )}
    </section>
  );
}
