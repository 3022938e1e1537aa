import { useEffect } from 'react';
import { Link } from 'wouter';
import { sendFinished } from '../../journal/outbox/finished.ts';
import type { JobSummary } from '../../journal/summary.ts';
import { theJournal } from '../services.ts';
import { FollowUps } from './follow-ups.tsx';
import { theOutbox } from './stores.ts';
import { useRecordWords } from './use-record-words.ts';

/** What is due after signed jobs: first of all on the start page. */
export function Due({ jobs, onChanged }: { readonly jobs: readonly JobSummary[]; readonly onChanged: () => void }) {
  return <FollowUps jobs={jobs} onLogged={onChanged} />;
}

/** The start page's foot: taking in a job; and what is finished is sent, where that is switched on. */
export function HomeFoot() {
  const words = useRecordWords();
  const journal = theJournal();
  useEffect(() => {
    const send = () => {
      // Without storage there is nothing to send, and the journal has said so already.
      sendFinished(journal, theOutbox()).catch(() => undefined);
    };
    send();
    addEventListener('online', send);
    return () => removeEventListener('online', send);
  }, [journal]);
  return (
    <section className="stack">
      <h2>{words.takeIn.title}</h2>
      <p className="quiet">{words.takeIn.about}</p>
      <div className="row">
        <Link className="button" href="/take-in">
          {words.takeIn.title}
        </Link>
      </div>
    </section>
  );
}
