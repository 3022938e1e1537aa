import type { Journal, NotStored } from '../port.ts';
import type { Outbox } from './outbox.ts';

/**
 * Puts every signed job into the outbox, or what has been added to one since, when sending is switched on. Nothing is read of a job that
 * is in already. `jobs` says of how many there was something to put in.
 */
export async function sendFinished(
  journal: Pick<Journal, 'jobs' | 'read'>,
  outbox: Pick<Outbox, 'put' | 'putIn' | 'settings' | 'nudge'>,
): Promise<{ readonly ok: true; readonly jobs: number } | NotStored> {
  const settings = await outbox.settings();
  if (settings?.isOn !== true) return { ok: true, jobs: 0 };
  const found = await journal.jobs();
  if (!found.ok) return found;
  let jobs = 0;
  for (const { job, status, events } of found.jobs) {
    if (status !== 'signed' || (await outbox.putIn(job)) >= events) continue;
    const read = await journal.read(job);
    if (!read.ok) continue;
    const put = await outbox.put(read.stored);
    if (!put.ok) return put;
    jobs += 1;
  }
  // What was put in at an earlier time may still be waiting.
  outbox.nudge();
  return { ok: true, jobs };
}
