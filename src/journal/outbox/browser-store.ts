import { promisifyRequest } from 'idb-keyval';
import { z } from '../../torque/zod.ts';
import { durableStore } from '../database.ts';
import type { DatabaseDeps } from '../database.ts';
import type { OutboxStore, Unsent } from './store.ts';

const databaseVersion = 1;

const unsentSchema = z.object({ job: z.string(), seq: z.number(), id: z.string(), hash: z.string(), body: z.string() });
const refusedSchema = unsentSchema.extend({ status: z.number() });
const settingsSchema = z.object({ endpoint: z.string(), key: z.string(), secret: z.string(), isOn: z.boolean() });

const key = (kind: 'unsent' | 'refused', { job, seq }: Unsent): IDBValidKey => [kind, job, seq];
const all = (kind: 'unsent' | 'refused'): IDBKeyRange => IDBKeyRange.bound([kind], [kind, []]);

/** The outbox in the browser, in a database of its own so that nothing in it can stand in the way of a job's events. */
export function browserOutboxStore(deps: DatabaseDeps, database = 'undertray-outbox'): OutboxStore {
  const use = durableStore({ database, store: 'outbox', version: databaseVersion }, deps);

  return {
    putIn: (job) =>
      use('readonly', async (store) => {
        const found: unknown = await promisifyRequest<unknown>(store.get(['put-in', job]));
        return typeof found === 'number' ? found : 0;
      }),
    add: (job, upTo, entries) =>
      use('readwrite', (store) => {
        for (const entry of entries) store.put(entry, key('unsent', entry));
        store.put(upTo, ['put-in', job]);
      }),
    first: (limit) =>
      use('readonly', async (store) => {
        const found = await promisifyRequest<unknown[]>(store.getAll(all('unsent'), limit));
        return found.map((value) => unsentSchema.safeParse(value).data).filter((entry) => entry !== undefined);
      }),
    remove: (entries) =>
      use('readwrite', (store) => {
        for (const entry of entries) store.delete(key('unsent', entry));
      }),
    refuse: (entry, status) =>
      use('readwrite', (store) => {
        store.put({ ...entry, status }, key('refused', entry));
        store.delete(key('unsent', entry));
      }),
    refused: () =>
      use('readonly', async (store) => {
        const found = await promisifyRequest<unknown[]>(store.getAll(all('refused')));
        return found.map((value) => refusedSchema.safeParse(value).data).filter((entry) => entry !== undefined);
      }),
    retryRefused: () =>
      use('readwrite', async (store) => {
        const found = await promisifyRequest<unknown[]>(store.getAll(all('refused')));
        for (const value of found) {
          const entry = unsentSchema.safeParse(value).data;
          if (entry === undefined) continue;
          store.put(entry, key('unsent', entry));
          store.delete(key('refused', entry));
        }
      }),
    counts: () =>
      use('readonly', async (store) => {
        const [unsent, refused] = await Promise.all([
          promisifyRequest(store.count(all('unsent'))),
          promisifyRequest(store.count(all('refused'))),
        ]);
        return { unsent, refused };
      }),
    settings: () =>
      use('readonly', async (store) => settingsSchema.safeParse(await promisifyRequest<unknown>(store.get('settings'))).data ?? null),
    keepSettings: (settings) =>
      use('readwrite', (store) => {
        if (settings === null) store.delete('settings');
        else store.put(settings, 'settings');
      }),
  };
}
