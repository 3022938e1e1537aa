import type { Recordings } from './notes.ts';
import type { Journal, Stored } from './port.ts';

/**
 * Removes a job with its recordings and pictures. The record goes first, since another tab may be writing it and then nothing may go;
 * if the recordings then cannot be removed, the answer says so, and removing again finishes it.
 */
export async function removeJob(journal: Pick<Journal, 'remove'>, recordings: Pick<Recordings, 'removeJob'>, job: string): Promise<Stored> {
  const removed = await journal.remove(job);
  return removed.ok ? recordings.removeJob(job) : removed;
}
