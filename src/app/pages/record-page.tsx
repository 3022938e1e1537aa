import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { Link } from 'wouter';
import { calendarFile, calendarType } from '../../journal/formats/calendar.ts';
import { csvFile, csvType } from '../../journal/formats/csv.ts';
import { xapiFile, xapiType } from '../../journal/formats/xapi.ts';
import { xesFile, xesType } from '../../journal/formats/xes.ts';
import { dueFollowUps } from '../../journal/follow-ups.ts';
import type { FollowUpDue } from '../../journal/follow-ups.ts';
import { jobFile, logFileType } from '../../journal/log-file.ts';
import type { ReadJob, StoredJob } from '../../journal/port.ts';
import { sheetHtml } from '../../journal/sheet/sheet.ts';
import { saveBlob, saveFile } from '../platform/save-file.ts';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import { useWords } from '../words/words.ts';
import { foldJob } from '../../job/fold.ts';
import { jobBundle } from '../../journal/bundle.ts';
import { packFor } from '../../phrasing/packs.ts';
import { KeptNotes } from '../notes/kept-notes.tsx';
import { dateText, logFollowUp } from '../record/follow-ups.tsx';
import { theRecordings } from '../record/stores.ts';
import { useRecordWords } from '../record/use-record-words.ts';
import { PageTop } from './page-top.tsx';

/** What is kept of a job: its sheet to print, and the record in every form in which somebody may want it. */
export function RecordPage({ job }: { readonly job: string }) {
  const words = useWords();
  const { journal } = useServices();
  const [found, setFound] = useState<ReadJob | null>(null);
  const read = useCallback(() => journal.read(job), [journal, job]);
  useEffect(() => {
    let current = true;
    void read().then((answer) => {
      if (current) setFound(answer);
    });
    return () => {
      current = false;
    };
  }, [read]);
  return (
    <main className="page">
      <PageTop title={words.record.title} />
      {found === null ? (
        <p className="quiet">…</p>
      ) : found.ok ? (
        <Kept stored={found.stored} onChanged={() => void read().then(setFound)} />
      ) : (
        <NotReadable job={job} found={found} />
      )}
    </main>
  );
}

function NotReadable({ job, found }: { readonly job: string; readonly found: Exclude<ReadJob, { ok: true }> }) {
  const words = useWords();
  return (
    <div className="trouble" role="alert">
      <p>{found.code === 'no-such-job' ? words.record.none : words.trouble[found.code]}</p>
      {found.code === 'record-corrupt' ? (
        // The lines are all that there is: they go out as they stand.
        <button
          type="button"
          onClick={() =>
            saveFile(
              `${job}.jsonl`,
              logFileType,
              [found.header, ...found.lines].map((line) => `${line}\n`),
            )
          }
        >
          {words.record.raw}
        </button>
      ) : null}
    </div>
  );
}

function Kept({ stored, onChanged }: { readonly stored: StoredJob; readonly onChanged: () => void }) {
  const words = useWords();
  const more = useRecordWords();
  const { settings } = useSettings();
  const frame = useRef<HTMLIFrameElement>(null);
  const [message, setMessage] = useState<string | null>(null);
  const sheet = useMemo(() => sheetHtml(stored, settings.language), [stored, settings.language]);
  const notes = useMemo(() => foldJob(stored.plan, stored.events).work.notes, [stored]);
  const due = dueFollowUps(stored);
  const isSigned = stored.events.some(({ event }) => event.type === 'signed');
  const name = `${stored.plan.procedure.id}-${stored.plan.build.id}-${stored.job.slice(0, 8)}`;
  const logged = [{ job: stored.job, plan: stored.plan, events: stored.events }];
  const save = (ending: string, type: string, pieces: Iterable<string> | null) => {
    if (pieces !== null) saveFile(`${name}.${ending}`, type, pieces);
  };
  const saveWhole = async () => {
    const made = await jobBundle(stored, theRecordings());
    if (made.ok) saveBlob(`${name}${made.ending}`, made.file);
    setMessage(made.ok ? (made.missing === 0 ? null : more.handOver.missingNotes(made.missing)) : words.trouble[made.code]);
  };
  return (
    <>
      {stored.faults.length > 0 ? (
        <p className="trouble" role="alert">
          {words.trouble['record-corrupt']}
        </p>
      ) : (
        <p className="good">{words.record.whole(stored.events.length)}</p>
      )}
      {message === null ? null : <p role="status">{message}</p>}
      <div className="row">
        <button type="button" className="primary" onClick={() => frame.current?.contentWindow?.print()}>
          {words.record.print}
        </button>
        <button type="button" title={more.record.wholeAbout} onClick={() => void saveWhole()}>
          {more.record.whole}
        </button>
        <button type="button" onClick={() => save('jsonl', logFileType, jobFile(stored))}>
          {words.record.jsonl}
        </button>
        <button type="button" onClick={() => save('csv', csvType, csvFile(logged))}>
          CSV
        </button>
        <button type="button" onClick={() => save('xes', xesType, xesFile(logged))}>
          XES
        </button>
        <button type="button" onClick={() => save('json', xapiType, xapiFile(logged))}>
          xAPI
        </button>
        <button
          type="button"
          disabled={due.every(({ done }) => done !== null)}
          onClick={() => save('ics', calendarType, [calendarFile(logged) ?? ''])}
        >
          {words.record.calendar}
        </button>
        {isSigned ? null : (
          <Link className="button" href={`/hand-over/${stored.job}`}>
            {more.record.handOver}
          </Link>
        )}
      </div>
      {due.length === 0 ? null : (
        <section className="stack">
          <h2>{words.record.followUps}</h2>
          <ul className="stack">
            {due.map((one) => (
              <FollowUpLine key={one.followUp.id} stored={stored} one={one} onChanged={onChanged} onTrouble={setMessage} />
            ))}
          </ul>
        </section>
      )}
      {notes.length === 0 ? null : (
        <section className="stack">
          <h2>{more.notes.title}</h2>
          <KeptNotes job={stored.job} plan={stored.plan} notes={notes} />
        </section>
      )}
      {/* The sheet is a document of its own, without script; the sandbox keeps it so. Same origin, because printing it needs a hold on it. */}
      <iframe ref={frame} title={words.record.sheet} srcDoc={sheet} sandbox="allow-same-origin allow-modals" className="sheet-frame" />
    </>
  );
}

interface FollowUpLineProps {
  readonly stored: StoredJob;
  readonly one: FollowUpDue;
  readonly onChanged: () => void;
  readonly onTrouble: (text: string) => void;
}

function FollowUpLine({ stored, one, onChanged, onTrouble }: FollowUpLineProps) {
  const words = useWords();
  const more = useRecordWords().followUps;
  const { journal } = useServices();
  const { settings } = useSettings();
  const { followUp, due, done } = one;
  const what = packFor(settings.language).say({ kind: 'follow-up', followUp }).show;
  const log = async () => {
    if (!confirm(more.sure(what))) return;
    const opened = stored.events.find(({ event }) => event.type === 'opened')?.event;
    const person = opened?.type === 'opened' ? (opened.person ?? '') : '';
    const failed = await logFollowUp(journal, stored.job, followUp.id, settings.person === '' ? person : settings.person);
    if (failed === null) onChanged();
    else onTrouble(words.trouble[failed]);
  };
  return (
    <li>
      {what}{' '}
      {done !== null ? (
        <span className="good">{more.doneBy(done.name, dateText(done.moment.wall, settings.language))}</span>
      ) : (
        <>
          {due === null ? null : <span className="quiet">{more.dueOn(dateText(due, settings.language))} </span>}
          <button type="button" onClick={() => void log()}>
            {more.logDone}
          </button>
        </>
      )}
    </li>
  );
}
