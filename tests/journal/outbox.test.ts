import { IDBFactory, IDBKeyRange, IDBObjectStore } from 'fake-indexeddb';
import * as fc from 'fast-check';
import { afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { answerOf, millisecondsUntil } from '../../src/journal/outbox/answers.ts';
import { browserOutboxStore } from '../../src/journal/outbox/browser-store.ts';
import { makeOutbox, requestPatience } from '../../src/journal/outbox/outbox.ts';
import type { Outbox, OutboxStatus } from '../../src/journal/outbox/outbox.ts';
import { backOff, largestBatch, senderStart, senderStep } from '../../src/journal/outbox/sender.ts';
import type { SenderEvent } from '../../src/journal/outbox/sender.ts';
import { readSettings } from '../../src/journal/outbox/settings.ts';
import { statements } from '../../src/journal/formats/xapi.ts';
import { RecordStore } from './record-store.ts';
import type { Fault } from './record-store.ts';
import { everyEvent, jobOf, sampleJob } from './sample-log.ts';
import type { Journal } from '../../src/journal/port.ts';
import { memoryJournal } from '../../src/journal/memory.ts';
import { sendFinished } from '../../src/journal/outbox/finished.ts';
import { happening, sampleHappenings } from './sample.ts';

let server: RecordStore;

beforeAll(() => {
  vi.stubGlobal('IDBKeyRange', IDBKeyRange);
});
beforeEach(async () => {
  server = await RecordStore.open();
});
afterEach(async () => {
  vi.restoreAllMocks();
  await server.close();
});

/** A device whose time passes only when somebody waits for it: each wait is noted and over at once. */
function device(indexedDB = new IDBFactory()) {
  const waits: number[] = [];
  const patience = new Set<() => void>();
  const open = (): Outbox => {
    const after = (milliseconds: number, act: () => void): (() => void) => {
      if (milliseconds === requestPatience) {
        patience.add(act);
        return () => patience.delete(act);
      }
      waits.push(milliseconds);
      const timer = setImmediate(act);
      return () => clearImmediate(timer);
    };
    const store = browserOutboxStore({ indexedDB, after: () => () => undefined });
    return makeOutbox({ store, fetch, after, now: () => Date.UTC(2031, 3, 14, 12), chance: () => 0 });
  };
  server.onSilence = () => [...patience].forEach((act) => act());
  return { open, waits, indexedDB };
}

/** Resolves as soon as the outbox stands like that. */
function until(outbox: Outbox, is: (status: OutboxStatus) => boolean): Promise<OutboxStatus> {
  return new Promise((resolve) => {
    const look = (status: OutboxStatus): void => {
      if (!is(status)) return;
      stop();
      resolve(status);
    };
    const stop = outbox.watch(look);
    queueMicrotask(() => look(outbox.status()));
  });
}

const allSent = ({ phase, unsent, refused }: OutboxStatus) => phase === 'idle' && unsent === 0 && refused === 0;
const idsOf = (...jobs: Parameters<typeof statements>[0][]) => jobs.flatMap((job) => [...statements(job)].map(({ id }) => id));

async function sendThrough(...faults: Fault[]): Promise<ReturnType<typeof device>> {
  const made = device();
  const outbox = made.open();
  server.faults.push(...faults);
  await outbox.keepSettings(server.settings);
  expect(await outbox.put(sampleJob)).toEqual({ ok: true, added: sampleJob.events.length });
  await until(outbox, allSent);
  expect([...server.stored.keys()].toSorted()).toEqual(idsOf(sampleJob).toSorted());
  return made;
}

describe('sending to a record store', () => {
  it('stores every statement once, in batches', async () => {
    const outbox = device().open();
    await outbox.keepSettings(server.settings);
    await outbox.put(sampleJob);
    await outbox.put(everyEvent);
    await until(outbox, allSent);
    expect([...server.stored.keys()].toSorted()).toEqual(idsOf(sampleJob, everyEvent).toSorted());
    expect(server.seen.every(({ ids }) => ids.length <= largestBatch)).toBe(true);
    expect(server.seen.length).toBeLessThan(5);
  });

  it('sends only what is new of a job that has gone on', async () => {
    const outbox = device().open();
    await outbox.keepSettings(server.settings);
    expect(await outbox.put(jobOf('job', sampleHappenings.slice(0, 10)))).toEqual({ ok: true, added: 10 });
    await until(outbox, allSent);
    expect(await outbox.put(jobOf('job', sampleHappenings))).toEqual({ ok: true, added: sampleHappenings.length - 10 });
    expect(await outbox.put(jobOf('job', sampleHappenings))).toEqual({ ok: true, added: 0 });
    await until(outbox, allSent);
    expect(server.seen.flatMap(({ ids }) => ids)).toHaveLength(sampleHappenings.length);
  });

  it('survives a connection that drops before the store has stored', async () => {
    const { waits } = await sendThrough({ kind: 'drop before storing' }, { kind: 'drop before storing' });
    expect(waits).toEqual([backOff(0, 0), backOff(1, 0)]);
  });

  it('survives a connection that drops after the store has stored, and stores nothing twice', async () => {
    await sendThrough({ kind: 'drop after storing' });
    expect(server.seen).toHaveLength(2);
  });

  it('survives an answer that ends in the middle', async () => {
    await sendThrough({ kind: 'half an answer' });
  });

  it('survives a store that crashes in the middle of a batch', async () => {
    await sendThrough({ kind: 'store a part and drop', count: 7 });
  });

  it('takes only what the store has named for stored', async () => {
    await sendThrough({ kind: 'store and name a part', count: 3 }, { kind: 'store and name a part', count: 0 });
    expect(server.seen[1]?.ids).toHaveLength(sampleJob.events.length - 3);
  });

  it('waits as long as a busy store asks, and no nudge shortens it', async () => {
    const { waits } = await sendThrough(
      { kind: 'answer', status: 429, headers: { 'retry-after': '120' } },
      { kind: 'answer', status: 503, headers: { 'retry-after': 'Mon, 14 Apr 2031 12:05:00 GMT' } },
      { kind: 'answer', status: 429 },
    );
    expect(waits).toEqual([120_000, 300_000, backOff(2, 0)]);
    const [told] = senderStep({ ...senderStart, phase: 'waiting', told: true }, { type: 'nudged' });
    expect(told.phase).toBe('waiting');
  });

  it('backs off from a broken server and tries again', async () => {
    const { waits } = await sendThrough(...[500, 502, 504].map((status) => ({ kind: 'answer', status }) as const));
    expect(waits).toEqual([0, 1, 2].map((failures) => backOff(failures, 0)));
  });

  it('gives up waiting for a store that says nothing, whether it stored or not', async () => {
    await sendThrough({ kind: 'say nothing', stores: false }, { kind: 'say nothing', stores: true });
    expect(server.seen).toHaveLength(3);
  });

  it('does not take a page that answers 200 to everything for a record store', async () => {
    const { waits } = await sendThrough({ kind: 'answer', status: 200, body: '<html>Welcome to the guest network</html>' });
    expect(waits).toHaveLength(1);
  });

  it('knows its own statements again in a store that calls any known id a conflict', async () => {
    server.conflictsOnSame = true;
    await sendThrough({ kind: 'store a part and drop', count: 5 });
    expect(server.seen.filter(({ method }) => method === 'GET')).toHaveLength(5);
  });

  it('puts aside the one statement that the store has otherwise, and sends the rest', async () => {
    const outbox = device().open();
    await outbox.keepSettings(server.settings);
    const [id] = idsOf(sampleJob).slice(12);
    server.stored.set(id ?? '', { id, something: 'else' });
    await outbox.put(sampleJob);
    await until(outbox, ({ phase, unsent }) => phase === 'idle' && unsent === 0);
    expect(outbox.status()).toMatchObject({ refused: 1 });
    expect(await outbox.refused()).toMatchObject([{ id, seq: 12, status: 409 }]);
    expect(server.stored.size).toBe(sampleJob.events.length);
  });

  it('puts aside what the store finds wrong, and sends it again when told to', async () => {
    const outbox = device().open();
    await outbox.keepSettings(server.settings);
    const one = jobOf('job', sampleHappenings.slice(0, 1));
    server.faults.push({ kind: 'answer', status: 400 });
    await outbox.put(one);
    await until(outbox, ({ phase, refused }) => phase === 'idle' && refused === 1);
    await outbox.retryRefused();
    await until(outbox, allSent);
    expect([...server.stored.keys()]).toEqual(idsOf(one));
  });

  it('sends smaller batches to a store that finds them too large', async () => {
    await sendThrough({ kind: 'answer', status: 413 }, { kind: 'answer', status: 413 });
    expect(server.seen.slice(0, 3).map(({ ids }) => ids.length)).toEqual([31, 16, 8]);
  });

  it('stops when it is not let in, loses nothing, and goes on with a new key', async () => {
    const outbox = device().open();
    await outbox.keepSettings({ ...server.settings, secret: 'wrong' });
    await outbox.put(sampleJob);
    expect(await until(outbox, ({ phase }) => phase === 'halted')).toMatchObject({ halted: 'not-let-in', unsent: sampleJob.events.length });
    expect(server.seen).toEqual([]);
    await outbox.keepSettings(server.settings);
    await until(outbox, allSent);
    expect(server.stored.size).toBe(sampleJob.events.length);
  });

  it('keeps everything while there is nowhere to send it, or the address is wrong', async () => {
    const outbox = device().open();
    await outbox.put(sampleJob);
    expect(await until(outbox, ({ phase }) => phase === 'halted')).toMatchObject({
      halted: 'no-settings',
      unsent: sampleJob.events.length,
    });
    await outbox.keepSettings({ ...server.settings, endpoint: `${server.settings.endpoint}/elsewhere` });
    expect(await until(outbox, ({ halted }) => halted !== 'no-settings' && halted !== null)).toMatchObject({ halted: 'wrong-address' });
  });

  it('goes on after the app was closed in the middle', async () => {
    const { open } = device();
    const first = open();
    server.faults.push({ kind: 'store a part and drop', count: 4 }, ...Array<Fault>(3).fill({ kind: 'drop before storing' }));
    await first.put(sampleJob);
    await until(first, ({ phase }) => phase === 'halted');
    await first.keepSettings(server.settings);
    const second = open();
    second.nudge();
    await until(second, allSent);
    expect(server.stored.size).toBe(sampleJob.events.length);
  });

  it('loses and doubles nothing whatever goes wrong in whatever order', async () => {
    const fault = fc.oneof(
      fc.constantFrom<Fault>({ kind: 'drop before storing' }, { kind: 'drop after storing' }, { kind: 'half an answer' }),
      fc.nat(40).map((count): Fault => ({ kind: 'store a part and drop', count })),
      fc.nat(40).map((count): Fault => ({ kind: 'store and name a part', count })),
      fc.constantFrom(408, 413, 429, 500, 503).map((status): Fault => ({ kind: 'answer', status })),
      fc.boolean().map((stores): Fault => ({ kind: 'say nothing', stores })),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(fault, { maxLength: 8 }), fc.boolean(), async (faults, conflicts) => {
        server.stored.clear();
        server.conflictsOnSame = conflicts;
        await sendThrough(...faults);
        server.faults.length = 0;
      }),
      { numRuns: 20 },
    );
  });

  it('keeps the key out of everything but the one header', async () => {
    const { indexedDB, open } = device();
    const outbox = open();
    await outbox.keepSettings(server.settings);
    await outbox.put(sampleJob);
    await until(outbox, allSent);
    expect(JSON.stringify([...server.stored.values()])).not.toContain(server.settings.secret);
    expect(JSON.stringify(outbox.status())).not.toContain(server.settings.key);
    await outbox.keepSettings(null);
    expect(await browserOutboxStore({ indexedDB, after: () => () => undefined }).settings()).toBeNull();
  });

  it('says when the disk is too full to take a job in', async () => {
    const outbox = device().open();
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room left', 'QuotaExceededError');
    });
    expect(await outbox.put(sampleJob)).toMatchObject({ ok: false, code: 'not-stored-disk-full' });
    vi.restoreAllMocks();
    expect(await outbox.put(sampleJob)).toEqual({ ok: true, added: sampleJob.events.length });
  });
});

describe('the sending machine', () => {
  it('never stops trying and never sends on while it should wait', () => {
    const answer = fc.constantFrom<Extract<SenderEvent, { type: 'answered' }>['answer']>(
      { kind: 'stored', ids: 'all' },
      { kind: 'stored', ids: [] },
      { kind: 'rejected', status: 400 },
      { kind: 'busy', retryAfter: 5_000 },
      { kind: 'unreachable' },
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(answer, fc.integer({ min: 1, max: largestBatch }))), (answers) => {
        let [state, command] = senderStep(senderStart, { type: 'nudged' });
        for (const [given, count] of answers) {
          expect(command.do).toBe('send');
          [state, command] = senderStep(state, { type: 'answered', answer: given, count, chance: 0.5 });
          if (command.do === 'wait') {
            expect(state.phase).toBe('waiting');
            expect(command.milliseconds).toBeGreaterThan(0);
            [state, command] = senderStep(state, { type: 'waited' });
          } else if (command.do !== 'send') [state, command] = senderStep(state, { type: 'settled' });
          expect(state.size).toBeGreaterThanOrEqual(1);
          expect(state.size).toBeLessThanOrEqual(largestBatch);
        }
      }),
    );
  });

  it('waits twice as long each time, up to ten minutes, never all devices alike', () => {
    expect([0, 1, 2, 3].map((failures) => backOff(failures, 1))).toEqual([2_000, 4_000, 8_000, 16_000]);
    expect(backOff(500, 1)).toBe(600_000);
    expect(backOff(3, 0)).toBe(8_000);
  });

  it('looks again when something was put in while it found nothing left', () => {
    const [sending] = senderStep(senderStart, { type: 'nudged' });
    const [again] = senderStep(sending, { type: 'nudged' });
    expect(senderStep(again, { type: 'nothing-left' })[1]).toMatchObject({ do: 'send' });
    expect(senderStep(sending, { type: 'nothing-left' })[0]).toMatchObject({ phase: 'idle' });
  });
});

describe('what a record store answers', () => {
  it.each([
    [200, 'stored'],
    [204, 'stored'],
    [400, 'rejected'],
    [401, 'halted'],
    [403, 'halted'],
    [404, 'halted'],
    [405, 'halted'],
    [408, 'unreachable'],
    [409, 'rejected'],
    [413, 'rejected'],
    [429, 'busy'],
    [500, 'unreachable'],
    [503, 'busy'],
  ])('%i is %s', (status, kind) => {
    expect(answerOf({ status, retryAfter: null, body: '[]' }, 0)).toMatchObject({ kind });
  });

  it('is understood as a number of seconds or a date, and never as more than a day', () => {
    expect(millisecondsUntil('7', 0)).toBe(7_000);
    expect(millisecondsUntil('Thu, 01 Jan 1970 00:01:00 GMT', 0)).toBe(60_000);
    expect(millisecondsUntil('Thu, 01 Jan 1970 00:01:00 GMT', 90_000)).toBe(0);
    expect(millisecondsUntil('99999999', 0)).toBe(86_400_000);
    expect(millisecondsUntil('soon', 0)).toBeNull();
  });
});

describe('sending what is finished', () => {
  const finished = jobOf('a finished job', sampleHappenings);
  const underWay = jobOf('a job under way', sampleHappenings.slice(0, 10));

  async function journalWith(...jobs: readonly (typeof finished)[]): Promise<Journal> {
    const journal = memoryJournal({ session: 's' });
    for (const { job, plan, lines } of jobs) await journal.adopt(job, plan, lines);
    return journal;
  }

  it('is switched off until somebody switches it on, and then sends every signed job once', async () => {
    const [outbox, journal] = [device().open(), await journalWith(finished, underWay)];
    expect(await sendFinished(journal, outbox)).toEqual({ ok: true, jobs: 0 });
    await outbox.keepSettings({ ...server.settings, isOn: false });
    expect(await sendFinished(journal, outbox)).toEqual({ ok: true, jobs: 0 });
    expect(await until(outbox, ({ halted }) => halted === null || halted === 'switched-off')).toMatchObject({ last: null });
    expect(server.stored.size).toBe(0);
    await outbox.keepSettings(server.settings);
    expect(await sendFinished(journal, outbox)).toEqual({ ok: true, jobs: 1 });
    expect((await until(outbox, allSent)).last).toMatchObject({ answer: 'stored' });
    expect(await sendFinished(journal, outbox)).toEqual({ ok: true, jobs: 0 });
    expect([...server.stored.keys()].toSorted()).toEqual(idsOf(finished).toSorted());
  });

  it('sends what is followed up on later, and that alone', async () => {
    const [outbox, journal] = [device().open(), await journalWith(finished)];
    await outbox.keepSettings(server.settings);
    await sendFinished(journal, outbox);
    await until(outbox, allSent);
    await journal.open(finished.job);
    await journal.append(finished.job, [happening({ type: 'follow-up-done', followUp: 'again', name: 'Ana Quince', text: null }, 90_000)]);
    expect(await sendFinished(journal, outbox)).toEqual({ ok: true, jobs: 1 });
    await until(outbox, (status) => allSent(status) && server.stored.size === finished.events.length + 1);
    expect([...server.stored.values()].filter((statement) => JSON.stringify(statement).includes('Ana Quince'))).toHaveLength(1);
  });

  it('keeps what is unsent while it is switched off, and sends it afterwards', async () => {
    const [outbox, journal] = [device().open(), await journalWith(finished)];
    await outbox.keepSettings(server.settings);
    server.faults.push({ kind: 'drop before storing' });
    await sendFinished(journal, outbox);
    await outbox.keepSettings({ ...server.settings, isOn: false });
    await until(outbox, ({ halted }) => halted === 'switched-off');
    await outbox.keepSettings(server.settings);
    await until(outbox, allSent);
    expect(server.stored.size).toBe(finished.events.length);
  });
});

describe('the settings of a record store', () => {
  it.each([
    ['https://records.example/xapi', 'https://records.example/xapi'],
    [' https://records.example/xapi/statements/ ', 'https://records.example/xapi'],
    ['http://127.0.0.1:8080', 'http://127.0.0.1:8080'],
  ])('take %j', (endpoint, read) => {
    expect(readSettings({ endpoint, key: ' k ', secret: 's', isOn: true })).toEqual({
      ok: true,
      settings: { endpoint: read, key: 'k', secret: 's', isOn: true },
    });
  });

  it.each([
    ['records.example', 'k', 'not-an-address'],
    ['ftp://records.example', 'k', 'not-an-address'],
    ['https://user@records.example', 'k', 'not-an-address'],
    ['http://records.example/xapi', 'k', 'not-secure'],
    ['https://records.example/xapi', ' ', 'no-key'],
  ])('refuse %j with key %j', (endpoint, key, code) => {
    expect(readSettings({ endpoint, key, secret: 's', isOn: true })).toMatchObject({ ok: false, code });
  });
});
