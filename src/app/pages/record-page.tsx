import { useEffect, useMemo, useRef, useState } from 'react';
import { calendarFile, calendarType } from '../../journal/formats/calendar.ts';
import { csvFile, csvType } from '../../journal/formats/csv.ts';
import { xapiFile, xapiType } from '../../journal/formats/xapi.ts';
import { xesFile, xesType } from '../../journal/formats/xes.ts';
import { dueFollowUps } from '../../journal/follow-ups.ts';
import { jobFile, logFileType } from '../../journal/log-file.ts';
import type { ReadJob, StoredJob } from '../../journal/port.ts';
import { sheetHtml } from '../../journal/sheet/sheet.ts';
import { saveFile } from '../platform/save-file.ts';
import { useServices } from '../services.ts';
import { useWords } from '../words/words.ts';
import { packFor } from '../../phrasing/packs.ts';
import { PageTop } from './page-top.tsx';

/** What is kept of a job: its sheet to print, and the record in every form in which somebody may want it. */
export function RecordPage({ job }: { readonly job: string }) {
  const words = useWords();
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
      <PageTop title={words.record.title} />
      {found === null ? <p className="quiet">…</p> : found.ok ? <Kept stored={found.stored} /> : <NotReadable job={job} found={found} />}
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

function Kept({ stored }: { readonly stored: StoredJob }) {
  const words = useWords();
  const frame = useRef<HTMLIFrameElement>(null);
  const sheet = useMemo(() => sheetHtml(stored), [stored]);
  const due = dueFollowUps(stored);
  const name = `${stored.plan.procedure.id}-${stored.plan.build.id}-${stored.job.slice(0, 8)}`;
  const logged = [{ job: stored.job, plan: stored.plan, events: stored.events }];
  const save = (ending: string, type: string, pieces: Iterable<string> | null) => {
    if (pieces !== null) saveFile(`${name}.${ending}`, type, pieces);
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
      <div className="row">
        <button type="button" className="primary" onClick={() => frame.current?.contentWindow?.print()}>
          {words.record.print}
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
        <button type="button" disabled={due.length === 0} onClick={() => save('ics', calendarType, [calendarFile(logged) ?? ''])}>
          {words.record.calendar}
        </button>
      </div>
      {due.length === 0 ? null : (
        <section className="stack">
          <h2>{words.record.followUps}</h2>
          <ul>
            {due.map(({ followUp }) => (
              <li key={followUp.id}>{packFor('en').say({ kind: 'follow-up', followUp }).show}</li>
            ))}
          </ul>
        </section>
      )}
      {/* The sheet is a document of its own, without script; the sandbox keeps it so. Same origin, because printing it needs a hold on it. */}
      <iframe ref={frame} title={words.record.sheet} srcDoc={sheet} sandbox="allow-same-origin allow-modals" className="sheet-frame" />
    </>
  );
}
