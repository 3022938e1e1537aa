import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import { sendFinished } from '../../journal/outbox/finished.ts';
import { theJournal } from '../services.ts';
import { useWords } from '../words/words.ts';
import { theOutbox } from './stores.ts';
import { useOutboxStatus } from './use-outbox-status.ts';
import { useRecordWords } from './use-record-words.ts';

/** Records whose plan cannot be read: they cannot go on, and must not vanish without a word either. */
export function Damaged({ jobs }: { readonly jobs: readonly string[] }) {
  const words = useWords();
  return (
    <div className="trouble stack" role="alert">
      <p>{words.trouble['record-corrupt']}</p>
      <div className="row">
        {jobs.map((job) => (
          <Link key={job} className="button" href={`/record/${job}`}>
            {`${words.start.record} ${job.slice(0, 8)}`}
          </Link>
        ))}
      </div>
    </div>
  );
}

/** The start page's foot: taking in a job; and what is finished is sent, where that is switched on. */
export function HomeFoot() {
  const words = useRecordWords();
  const journal = theJournal();
  const [outbox] = useState(theOutbox);
  const { unsent } = useOutboxStatus(outbox);
  useEffect(() => {
    const send = () => {
      // Without storage there is nothing to send, and the journal has said so already.
      sendFinished(journal, outbox).catch(() => undefined);
    };
    send();
    addEventListener('online', send);
    return () => removeEventListener('online', send);
  }, [journal, outbox]);
  return (
    <section className="stack">
      <h2>{words.takeIn.title}</h2>
      <p className="quiet">{words.takeIn.about}</p>
      <div className="row">
        <Link className="button" href="/take-in">
          {words.takeIn.title}
        </Link>
      </div>
      {unsent === null || unsent === 0 ? null : (
        <p role="status" className="row">
          <span data-unsent={unsent}>{words.outbox.unsentAtStart(unsent)}</span>
          <Link className="button" href="/settings">
            {words.outbox.title}
          </Link>
        </p>
      )}
    </section>
  );
}
