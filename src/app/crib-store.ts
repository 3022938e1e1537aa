import { createStore, entries, get, set } from 'idb-keyval';
import type { UseStore } from 'idb-keyval';
import type { Crib } from '../torque/crib.ts';
import { countOperations } from '../torque/crib.ts';
import { readCrib } from '../torque/crib-file.ts';

let opened: UseStore | null = null;
const store = (): UseStore => (opened ??= createStore('undertray-tools', 'crib'));
let ledger: UseStore | null = null;
const clicks = (): UseStore => (ledger ??= createStore('undertray-clicks', 'jobs'));

/** The crib as the person filled it in; null when there is none yet, or when storage does not answer. */
export async function loadOwnCrib(): Promise<Crib | null> {
  const raw = await get<unknown>('crib', store()).catch(() => undefined);
  if (raw === undefined) return null;
  const read = readCrib(raw);
  return read.ok ? read.crib : null;
}

/** The crib for planning, with the clicks of the jobs on this device. */
export async function loadCrib(): Promise<Crib | null> {
  const crib = await loadOwnCrib();
  return crib === null ? null : countedCrib(crib);
}

/** The crib with the clicks that jobs on this device have added since each wrench's calibration. */
export async function countedCrib(crib: Crib): Promise<Crib> {
  const jobs = await entries<string, JobClicks>(clicks()).catch(() => []);
  return jobs.reduce((counted, [, job]) => {
    return Object.entries(job.byWrench).reduce((one, [id, count]) => {
      const since = one.wrenches.find((wrench) => wrench.id === id)?.calibrated ?? '';
      return job.date > since ? countOperations(one, id, count) : one;
    }, counted);
  }, crib);
}

export const saveCrib = (crib: Crib): Promise<boolean> =>
  set('crib', crib, store()).then(
    () => true,
    () => false,
  );

/** Clicks of one job, by wrench id, as they stand; storing them again for the same job replaces them. */
export interface JobClicks {
  /** ISO date of the newest click. */
  readonly date: string;
  readonly byWrench: Readonly<Record<string, number>>;
}

export const keepClicks = (job: string, counted: JobClicks): Promise<void> => set(job, counted, clicks()).catch(() => undefined);
