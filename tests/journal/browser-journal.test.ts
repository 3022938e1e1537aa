import { forceCloseDatabase, IDBKeyRange } from 'fake-indexeddb';
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { browserJournal } from '../../src/journal/browser-journal.ts';
import { device, fillDisk, onAdd, tamper } from './fake-device.ts';
import { FakeLocks } from './fake-locks.ts';
import { journalContract, recordedOf, someJob, storedLines } from './journal-contract.ts';
import { happening, opened, sampleHappenings, samplePlan } from './sample.ts';

beforeAll(() => {
  vi.stubGlobal('IDBKeyRange', IDBKeyRange);
});
afterEach(() => {
  vi.restoreAllMocks();
});

const note = happening({ type: 'noted', text: 'more', question: false, recording: null, media: null }, 400);

describe('the journal in the browser', () => {
  journalContract(() => {
    const { app } = device();
    const shared = new FakeLocks();
    let tab = shared.tab();
    return {
      journal: app('first', tab.locks),
      reopened: () => {
        tab.end();
        tab = shared.tab();
        return app('later', tab.locks);
      },
    };
  });

  it('asks for strict durability whenever it writes', async () => {
    const { app } = device();
    const asked = vi.spyOn((await import('fake-indexeddb')).IDBDatabase.prototype, 'transaction');
    const journal = app('first');
    await journal.begin(someJob, samplePlan, [opened]);
    await journal.append(someJob, [note]);
    const writes = asked.mock.calls.filter(([, mode]) => mode === 'readwrite');
    expect(writes).toHaveLength(2);
    for (const [, , options] of writes) expect(options).toEqual({ durability: 'strict' });
  });

  it('answers only when the transaction is complete', async () => {
    const { app, indexedDB } = device();
    const journal = app('first');
    await journal.begin(someJob, samplePlan, [opened]);
    recordedOf(await journal.append(someJob, [note]));
    // A second connection sees what is committed and nothing else.
    let found: unknown;
    await tamper(indexedDB, (store) => {
      const request = store.get(['event', someJob, 1]);
      request.onsuccess = () => {
        found = request.result;
      };
    });
    expect(found).toContain('"noted"');
  });
});

describe('a full disk', () => {
  it('is said, and nothing of the batch is stored', async () => {
    const { app } = device();
    const journal = app('first');
    await journal.begin(someJob, samplePlan, [opened]);
    fillDisk(2);
    expect(await journal.append(someJob, sampleHappenings.slice(1, 6))).toMatchObject({ ok: false, code: 'not-stored-disk-full' });
    vi.restoreAllMocks();
    expect(await storedLines(journal)).toHaveLength(1);
    recordedOf(await journal.append(someJob, [note]));
    expect(await storedLines(journal)).toHaveLength(2);
  });

  it('is said when it shows only as the transaction is written down', async () => {
    const { app } = device();
    const journal = app('first');
    await journal.begin(someJob, samplePlan, [opened]);
    onAdd((store, add) => {
      const request = add();
      request.onsuccess = () => {
        Object.defineProperty(store.transaction, 'error', { value: new DOMException('no room left', 'QuotaExceededError') });
        store.transaction.abort();
      };
      return request;
    });
    expect(await journal.append(someJob, [note])).toMatchObject({ ok: false, code: 'not-stored-disk-full' });
    vi.restoreAllMocks();
    expect(await storedLines(journal)).toHaveLength(1);
  });

  it('does not begin a job that it cannot keep', async () => {
    const { app } = device();
    const journal = app('first');
    fillDisk(1);
    expect(await journal.begin(someJob, samplePlan, [opened])).toMatchObject({ ok: false, code: 'not-stored-disk-full' });
    vi.restoreAllMocks();
    expect(await journal.read(someJob)).toEqual({ ok: false, code: 'no-such-job' });
    recordedOf(await journal.begin(someJob, samplePlan, [opened]));
  });
});

describe('storage that does not answer', () => {
  it('becomes an answer when another tab keeps an older version open', async () => {
    const { app, indexedDB } = device();
    const older = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('undertray', 1);
      request.onsuccess = () => resolve(request.result);
    });
    // A build of tomorrow wants version 2 and is blocked by the tab above; this build has to wait behind it.
    const upgrade = indexedDB.open('undertray', 2);
    await new Promise((resolve) => (upgrade.onblocked = resolve));
    const atOnce = (_: number, act: () => void) => {
      queueMicrotask(act);
      return () => undefined;
    };
    const journal = browserJournal({ session: 'first', locks: null, indexedDB, after: atOnce });
    expect(await journal.begin(someJob, samplePlan, [opened])).toMatchObject({ ok: false, code: 'not-stored-blocked' });
    older.close();
    await new Promise((resolve) => (upgrade.onsuccess = resolve));
    upgrade.result.close();
    expect(await app('second').begin(someJob, samplePlan, [opened])).toMatchObject({ ok: false, code: 'not-stored-newer-version' });
  });

  it('takes the batch back when a transaction stays silent, so that the answer stays true', async () => {
    const { app, ring } = device();
    const journal = app('first');
    await journal.begin(someJob, samplePlan, [opened]);
    onAdd((_, add) => {
      queueMicrotask(ring);
      return add();
    });
    expect(await journal.append(someJob, [note])).toMatchObject({ ok: false, code: 'not-stored-blocked' });
    vi.restoreAllMocks();
    expect(await storedLines(journal)).toHaveLength(1);
    recordedOf(await journal.append(someJob, [note]));
  });

  it('makes way for a newer build and then says that it is the older one', async () => {
    const { app, indexedDB } = device();
    const journal = app('first');
    await journal.begin(someJob, samplePlan, [opened]);
    const upgrade = indexedDB.open('undertray', 2);
    await new Promise((resolve) => (upgrade.onsuccess = resolve));
    expect(await journal.append(someJob, [note])).toMatchObject({ ok: false, code: 'not-stored-newer-version' });
    const count = upgrade.result.transaction('journal').objectStore('journal').count(['event', someJob, 0]);
    await new Promise((resolve) => (count.onsuccess = resolve));
    expect(count.result).toBe(1);
  });
});

describe('storage that the browser clears', () => {
  it('is filled again from what the tab knows, with a notice', async () => {
    const { app, indexedDB } = device();
    const journal = app('first');
    await journal.begin(someJob, samplePlan, sampleHappenings);
    const before = await storedLines(journal);
    await tamper(indexedDB, (store) => store.clear());
    const answer = await journal.append(someJob, [note]);
    expect(answer).toMatchObject({ ok: true, notice: 'storage-evicted' });
    expect(await storedLines(journal)).toEqual([...before, ...recordedOf(answer)]);
    expect(await journal.append(someJob, [note])).toMatchObject({ ok: true, notice: null });
  });

  it('is filled again when the whole database went and its connection with it', async () => {
    const { app, indexedDB } = device();
    const connections: IDBDatabase[] = [];
    const open = indexedDB.open.bind(indexedDB);
    vi.spyOn(indexedDB, 'open').mockImplementation((...args) => {
      const request = open(...args);
      request.addEventListener('success', () => connections.push(request.result));
      return request;
    });
    const journal = app('first');
    await journal.begin(someJob, samplePlan, sampleHappenings);
    for (const connection of connections) forceCloseDatabase(connection as never);
    await new Promise((resolve) => (indexedDB.deleteDatabase('undertray').onsuccess = resolve));
    expect(await journal.append(someJob, [note])).toMatchObject({ ok: true, notice: 'storage-evicted' });
    expect(await storedLines(journal)).toHaveLength(sampleHappenings.length + 1);
  });
});

describe('a damaged record', () => {
  it('is opened with all that can be read, says what cannot, and goes on', async () => {
    const { app, indexedDB } = device();
    await app('first').begin(someJob, samplePlan, sampleHappenings);
    await tamper(indexedDB, (store) => store.put('{"v":1,"job":"job-', ['event', someJob, 5]));
    const journal = app('second');
    const found = await journal.open(someJob);
    expect(found).toMatchObject({ ok: true, writing: 'this-tab', stored: { faults: [{ line: 6, code: 'unreadable' }] } });
    expect(found.ok && found.stored.events).toHaveLength(sampleHappenings.length - 1);
    expect(found.ok && found.stored.lines).toHaveLength(sampleHappenings.length);
    recordedOf(await journal.append(someJob, [note]));
    const after = await journal.read(someJob);
    expect(after.ok && after.stored.faults).toHaveLength(1);
    expect(after.ok && after.stored.lines).toHaveLength(sampleHappenings.length + 1);
  });

  it('is gone on with under the next number when its last line is the damaged one', async () => {
    const { app, indexedDB } = device();
    await app('first').begin(someJob, samplePlan, sampleHappenings.slice(0, 3));
    await tamper(indexedDB, (store) => store.put({ not: 'a line' }, ['event', someJob, 2]));
    const journal = app('second');
    await journal.open(someJob);
    const answer = await journal.append(someJob, [note]);
    expect(answer).toMatchObject({ ok: true, recorded: [{ seq: 3 }] });
    const after = await journal.read(someJob);
    expect(after.ok && after.stored.faults).toMatchObject([{ line: 3, code: 'unreadable' }]);
  });

  it('hands out its lines when the plan itself is gone', async () => {
    const { app, indexedDB } = device();
    const journal = app('first');
    await journal.begin(someJob, samplePlan, sampleHappenings);
    await tamper(indexedDB, (store) => store.put('{"v":1,"kind":"job"}', ['job', someJob]));
    await tamper(indexedDB, (store) => store.delete(['summary', someJob]));
    const found = await app('second').open(someJob);
    expect(found).toMatchObject({ ok: false, code: 'record-corrupt' });
    expect(!found.ok && found.code === 'record-corrupt' && found.lines).toHaveLength(sampleHappenings.length);
    expect(await journal.jobs()).toMatchObject({ ok: true, jobs: [], damaged: [someJob] });
  });

  it('is not added to when a newer build has written in it', async () => {
    const { app, indexedDB } = device();
    await app('first').begin(someJob, samplePlan, sampleHappenings);
    await tamper(indexedDB, (store) => store.put('{"v":3,"new":"things"}', ['event', someJob, sampleHappenings.length]));
    const journal = app('second');
    expect(await journal.open(someJob)).toMatchObject({ ok: true, writing: 'newer-version' });
    expect(await journal.append(someJob, [note])).toMatchObject({ ok: false, code: 'not-stored-newer-version' });
    const after = await journal.read(someJob);
    expect(after.ok && after.stored.lines.at(-1)).toBe('{"v":3,"new":"things"}');
  });

  it('makes a lost or spoilt summary anew from the events', async () => {
    const { app, indexedDB } = device();
    const journal = app('first');
    await journal.begin(someJob, samplePlan, sampleHappenings);
    const before = await journal.jobs();
    await tamper(indexedDB, (store) => store.put({ job: 'nonsense' }, ['summary', someJob]));
    expect(await journal.jobs()).toEqual(before);
  });
});

describe('a tab that ends in the middle of a batch', () => {
  it('leaves either all of the batch or nothing', async () => {
    const { app } = device();
    const journal = app('first');
    await journal.begin(someJob, samplePlan, [opened]);
    let adds = 0;
    onAdd((store, add) => {
      const request = add();
      adds += 1;
      // What the browser does to the transactions of a page that goes away.
      if (adds === 3) store.transaction.abort();
      return request;
    });
    void journal.append(someJob, sampleHappenings.slice(1, 9));
    const later = app('later');
    expect(await later.open(someJob)).toMatchObject({ ok: true });
    expect(await storedLines(later)).toHaveLength(1);
    vi.restoreAllMocks();
    recordedOf(await later.append(someJob, sampleHappenings.slice(1)));
    expect(await storedLines(later)).toHaveLength(sampleHappenings.length);
  });
});

describe('two tabs', () => {
  it('let only one write; the other reads, and takes over when the first has gone', async () => {
    const { app } = device();
    const shared = new FakeLocks();
    const one = shared.tab();
    const two = shared.tab();
    const first = app('first', one.locks);
    const second = app('second', two.locks);
    await first.begin(someJob, samplePlan, [opened]);
    expect(await second.open(someJob)).toMatchObject({ ok: true, writing: 'other-tab' });
    expect(await second.append(someJob, [note])).toMatchObject({ ok: false, code: 'not-stored-other-tab' });
    const free = second.whenFree(someJob);
    recordedOf(await first.append(someJob, [note]));
    one.end();
    expect(await free).toBe(true);
    const found = await second.open(someJob);
    expect(found).toMatchObject({ ok: true, writing: 'this-tab' });
    expect(found.ok && found.stored.lines).toHaveLength(2);
    recordedOf(await second.append(someJob, [note]));
    expect(await storedLines(second)).toHaveLength(3);
  });

  it('hand a job over when the first lets go of it, and stop waiting when told to', async () => {
    const { app } = device();
    const shared = new FakeLocks();
    const first = app('first', shared.tab().locks);
    const second = app('second', shared.tab().locks);
    const third = app('third', shared.tab().locks);
    await first.begin(someJob, samplePlan, [opened]);
    const given = new AbortController();
    const givenUp = second.whenFree(someJob, given.signal);
    const free = third.whenFree(someJob);
    given.abort();
    expect(await givenUp).toBe(false);
    await first.release(someJob);
    expect(await free).toBe(true);
    expect(await first.append(someJob, [note])).toMatchObject({ ok: false, code: 'not-stored-other-tab' });
  });

  it('do not remove or extend what the other one writes', async () => {
    const { app } = device();
    const shared = new FakeLocks();
    const first = app('first', shared.tab().locks);
    const second = app('second', shared.tab().locks);
    await first.begin(someJob, samplePlan, [opened]);
    expect(await second.remove(someJob)).toMatchObject({ ok: false, code: 'not-stored-other-tab' });
    expect(await second.adopt(someJob, samplePlan, await storedLines(first))).toMatchObject({ ok: false, code: 'not-stored-other-tab' });
    expect(await storedLines(first)).toHaveLength(1);
  });

  it('cannot both store the same number, even without locks', async () => {
    const { app } = device();
    const first = app('first');
    const second = app('second');
    await first.begin(someJob, samplePlan, [opened]);
    await second.open(someJob);
    const answers = await Promise.all([first.append(someJob, [note]), second.append(someJob, [note])]);
    expect(answers.map((answer) => (answer.ok ? 'stored' : answer.code)).toSorted()).toEqual(['not-stored-other-tab', 'stored']);
    expect(await storedLines(first)).toHaveLength(2);
  });
});
