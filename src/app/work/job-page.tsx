import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import type { Recorded } from '../../job/events.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import { packFor } from '../../phrasing/packs.ts';
import { newJobPlan, releaseNewJob } from '../platform/new-jobs.ts';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import { useWords } from '../words/words.ts';
import { SpokenAlert } from './spoken-alert.tsx';
import { WorkScreen } from './work-screen.tsx';

type Opening =
  | { readonly kind: 'opening' }
  | { readonly kind: 'ready'; readonly plan: Plan; readonly events: readonly Recorded[]; readonly corrupt: boolean }
  | { readonly kind: 'other-tab' }
  | { readonly kind: 'failed'; readonly text: string };

/** Opens a job, or says why it cannot be worked on here, before anything of it is shown. */
export function JobPage({ job }: { readonly job: string }) {
  const words = useWords();
  const { journal } = useServices();
  const { settings } = useSettings();
  const pack = packFor(settings.language);
  const [opening, setOpening] = useState<Opening>({ kind: 'opening' });
  useEffect(() => {
    const givenUp = new AbortController();
    const open = async (): Promise<void> => {
      const plan = newJobPlan(job);
      if (plan !== null) {
        setOpening({ kind: 'ready', plan, events: [], corrupt: false });
        return;
      }
      const opened = await journal.open(job);
      if (givenUp.signal.aborted) return;
      if (!opened.ok) {
        setOpening({ kind: 'failed', text: opened.code === 'no-such-job' ? words.work.gone : words.trouble[opened.code] });
        return;
      }
      if (opened.writing === 'this-tab') {
        setOpening({ kind: 'ready', plan: opened.stored.plan, events: opened.stored.events, corrupt: opened.stored.faults.length > 0 });
        return;
      }
      if (opened.writing === 'newer-version') {
        setOpening({ kind: 'failed', text: words.work.newer });
        return;
      }
      setOpening({ kind: 'other-tab' });
      if (await journal.whenFree(job, givenUp.signal)) await open();
    };
    void open();
    return () => {
      givenUp.abort();
      releaseNewJob(job);
      void journal.release(job);
    };
  }, [job, journal, words]);
  if (opening.kind === 'ready')
    return <WorkScreen job={job} plan={opening.plan} events={opening.events} corrupt={opening.corrupt} pack={pack} />;
  return (
    <main className="page">
      {opening.kind === 'opening' ? (
        <p className="quiet">…</p>
      ) : (
        <SpokenAlert text={opening.kind === 'other-tab' ? words.work.otherTab : opening.text}>
          <Link className="button primary" href="/">
            {words.nav.back}
          </Link>
          <Link className="button" href={`/record/${job}`}>
            {words.start.record}
          </Link>
        </SpokenAlert>
      )}
    </main>
  );
}
