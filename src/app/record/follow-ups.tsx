import { useState } from 'react';
import { Link } from 'wouter';
import type { JobSummary, SummedFollowUp } from '../../journal/summary.ts';
import type { Journal, NotStored } from '../../journal/port.ts';
import { packFor } from '../../phrasing/packs.ts';
import { now } from '../platform/clock.ts';
import { theJournal } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import { useWords } from '../words/words.ts';
import { useRecordWords } from './use-record-words.ts';

interface Open {
  readonly job: JobSummary;
  readonly one: SummedFollowUp;
}

/** What is still to be done after signed jobs: first what is due, then what has a date, then what only a distance or a count can tell. */
export function FollowUps({ jobs, onLogged }: { readonly jobs: readonly JobSummary[]; readonly onLogged: () => void }) {
  const words = useRecordWords();
  const troubles = useWords().trouble;
  const journal = theJournal();
  const { settings } = useSettings();
  const [message, setMessage] = useState<string | null>(null);
  // Read once: a list that reorders itself under the thumb is worse than one that is a minute old.
  const [present] = useState(() => now().moment.wall);
  const open = openFollowUps(jobs);
  if (open.length === 0) return message === null ? null : <p role="status">{message}</p>;
  const log = async ({ job, one }: Open, what: string) => {
    if (!confirm(words.followUps.sure(what))) return;
    const failed = await logFollowUp(journal, job.job, one.followUp.id, settings.person === '' ? (job.person ?? '') : settings.person);
    setMessage(failed === null ? words.followUps.logged : troubles[failed]);
    onLogged();
  };
  return (
    <section className="stack" aria-label={words.followUps.title}>
      <h2>{words.followUps.title}</h2>
      {message === null ? null : <p role="status">{message}</p>}
      <div className="panels">
        {open.map((entry) => {
          const { job, one } = entry;
          const what = packFor(settings.language).say({ kind: 'follow-up', followUp: one.followUp }).show;
          const isDue = one.due !== null && one.due <= present;
          return (
            <article key={`${job.job}/${one.followUp.id}`} className="panel" data-due={isDue}>
              <h3>{what}</h3>
              <p className="quiet small">{[job.title, `${job.vehicle} · ${job.build}`, job.person].filter(Boolean).join(' · ')}</p>
              {one.due === null ? (
                <p className="small">{words.followUps.whenReached}</p>
              ) : isDue ? (
                <p className="warn">{words.followUps.dueNow}</p>
              ) : (
                <p>{words.followUps.dueOn(dateText(one.due, settings.language))}</p>
              )}
              <div className="row">
                <button type="button" className={isDue ? 'primary' : ''} onClick={() => void log(entry, what)}>
                  {words.followUps.logDone}
                </button>
                <Link className="button" href={`/record/${job.job}`}>
                  {job.title}
                </Link>
              </div>
            </article>
          );
        })}
      </div>
    </section>
  );
}

/** Due first, then by date, then what no clock can tell. */
export function openFollowUps(jobs: readonly JobSummary[]): readonly Open[] {
  return jobs
    .filter(({ status }) => status === 'signed')
    .flatMap((job) => job.followUps.filter(({ isDone }) => !isDone).map((one) => ({ job, one })))
    .sort((a, b) => (a.one.due ?? Number.POSITIVE_INFINITY) - (b.one.due ?? Number.POSITIVE_INFINITY) || 0);
}

/** Adds the event to the job's own record. Null when it is on disk. */
export async function logFollowUp(
  journal: Pick<Journal, 'open' | 'append' | 'release'>,
  job: string,
  followUp: string,
  name: string,
): Promise<NotStored['code'] | 'record-corrupt' | 'storage-evicted' | null> {
  const opened = await journal.open(job);
  if (!opened.ok) return opened.code === 'no-such-job' ? 'storage-evicted' : opened.code;
  try {
    if (opened.writing !== 'this-tab') return opened.writing === 'other-tab' ? 'not-stored-other-tab' : 'not-stored-newer-version';
    const { moment } = now();
    const stored = await journal.append(job, [{ moment, step: null, event: { type: 'follow-up-done', followUp, name, text: null } }]);
    return stored.ok ? null : stored.code;
  } finally {
    await journal.release(job);
  }
}

export function dateText(wall: number, language: string): string {
  return new Date(wall).toLocaleString(language, { dateStyle: 'medium', timeStyle: 'short' });
}
