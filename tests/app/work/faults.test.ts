import { IDBKeyRange } from 'fake-indexeddb';
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { en } from '../../../src/app/words/en.ts';
import { fr } from '../../../src/app/words/fr.ts';
import type { Runner } from '../../../src/app/work/runner.ts';
import { startRunner } from '../../../src/app/work/runner.ts';
import { clockWatch } from '../../../src/app/work/watches.ts';
import { foldJob } from '../../../src/job/fold.ts';
import type { StoredJob } from '../../../src/journal/port.ts';
import type { Locks } from '../../../src/journal/tab-lock.ts';
import { languages } from '../../../src/phrasing/language.ts';
import type { FailureCode } from '../../../src/phrasing/lines.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { makeGroup, makePlan } from '../../job/plans.ts';
import type { Device } from '../../journal/fake-device.ts';
import { device, fillDisk, onAdd, tamper } from '../../journal/fake-device.ts';
import { FakeLocks } from '../../journal/fake-locks.ts';

beforeAll(() => {
  vi.stubGlobal('IDBKeyRange', IDBKeyRange);
});
afterEach(() => {
  vi.restoreAllMocks();
});

const plan = makePlan([{ id: 'bolts', groups: [makeGroup('cover', 8)] }, { id: 'last' }]);
const job = 'a job';
const done = { type: 'done', count: 1 } as const;

interface Clock {
  wall: number;
  mono: number;
}

interface Work {
  readonly runner: Runner;
  readonly spoken: string[];
  readonly clock: Clock;
  /** The voice is still at the last thing that it was given. */
  speaking: boolean;
}

/** The work screen without a screen: the real runner over the real journal, in storage that can be made to fail. */
async function work({ app }: Device, session: string, locks: Locks | null = null, clock: Clock = { wall: 1.8e12, mono: 0 }): Promise<Work> {
  const journal = app(session, locks);
  const opened = await journal.open(job);
  const spoken: string[] = [];
  const state = { speaking: false };
  const runner = startRunner({
    journal,
    job,
    plan,
    events: opened.ok ? opened.stored.events : [],
    now: () => ({ moment: { wall: clock.wall, offset: 60, mono: (clock.mono += 10) }, session }),
    words: (line) => packFor('en').say(line),
    speak: (text) => spoken.push(text),
    hush: () => {
      state.speaking = false;
    },
    isSpeaking: () => state.speaking,
    set: () => undefined,
  });
  await runner.begin({ person: 'Alex', group: null });
  return {
    runner,
    spoken,
    clock,
    get speaking() {
      return state.speaking;
    },
    set speaking(is) {
      state.speaking = is;
    },
  };
}

const bolts = ({ runner }: Work): number =>
  runner
    .view()
    .dialogue.job.work.steps.get(0)
    ?.groups[0]?.passesDone.filter((passes) => passes > 0).length ?? 0;

async function stored({ app }: Device): Promise<StoredJob> {
  const read = await app('reader').read(job);
  if (!read.ok) throw new Error(read.code);
  return read.stored;
}

const said = (code: FailureCode): string => packFor('en').say({ kind: 'failure', code }).say;

/** Told aloud and on the screen, and the job still stands where the last acknowledged event left it. */
async function expectTold(one: Work, code: FailureCode, storage: Device | null): Promise<void> {
  expect(one.spoken.at(-1)).toContain(said(code));
  expect(one.runner.view().trouble).toBe(code);
  if (storage === null) return;
  const { events, faults } = await stored(storage);
  expect(faults).toEqual([]);
  expect(foldJob(plan, events)).toEqual(one.runner.view().dialogue.job);
}

describe('a fault while a fastener is counted', () => {
  it.each<[string, FailureCode, (storage: Device) => void]>([
    ['a full disk', 'not-stored-disk-full', () => fillDisk(0)],
    [
      'a database that does not answer',
      'not-stored-blocked',
      ({ ring }) =>
        onAdd((_, add) => {
          queueMicrotask(ring);
          return add();
        }),
    ],
  ])('%s: nothing is counted, it is said, and the same word counts once storage works again', async (_, code, fail) => {
    const storage = device();
    const one = await work(storage, 'first');
    await one.runner.intent(done);
    fail(storage);
    await one.runner.intent(done);
    expect(bolts(one)).toBe(1);
    vi.restoreAllMocks();
    await expectTold(one, code, storage);
    await one.runner.intent(done);
    expect(bolts(one)).toBe(2);
    expect(one.runner.view().trouble).toBeNull();
    expect(foldJob(plan, (await stored(storage)).events)).toEqual(one.runner.view().dialogue.job);
  });

  it('a database that a newer version has taken over: nothing is counted, and nothing of the newer one is touched', async () => {
    const storage = device();
    const one = await work(storage, 'first');
    await one.runner.intent(done);
    await new Promise<void>((resolve) => {
      const newer = storage.indexedDB.open('undertray', 2);
      newer.onsuccess = () => {
        newer.result.close();
        resolve();
      };
    });
    await one.runner.intent(done);
    expect(bolts(one)).toBe(1);
    await expectTold(one, 'not-stored-newer-version', null);
  });

  it('storage that the browser cleared is written again from the tab, and that is said behind the answer', async () => {
    const storage = device();
    const one = await work(storage, 'first');
    await one.runner.intent(done);
    await tamper(storage.indexedDB, (store) => store.clear());
    one.speaking = true;
    await one.runner.intent(done);
    await one.runner.clock();
    expect(bolts(one)).toBe(2);
    await expectTold(one, 'storage-evicted', storage);
    expect(one.runner.view().captions.at(-2)?.text).toMatch(/next/iu);
  });

  it('a record with a line that cannot be read goes on, and keeps the line', async () => {
    const storage = device();
    await (await work(storage, 'first')).runner.intent(done);
    await tamper(storage.indexedDB, (store) => store.put('{"v":2,"job":"a j', ['event', job, 2]));
    const later = await work(storage, 'second');
    await later.runner.trouble('record-corrupt');
    await expectTold(later, 'record-corrupt', null);
    const before = (await stored(storage)).lines;
    await later.runner.intent(done);
    const after = await stored(storage);
    expect(after.lines.slice(0, before.length)).toEqual(before);
    expect(after.lines.length).toBeGreaterThan(before.length);
    expect(after.faults).toMatchObject([{ line: 3, code: 'unreadable' }]);
  });
});

describe('two tabs', () => {
  it('only one counts; the other says why, and goes on from where the first left off', async () => {
    const storage = device();
    const shared = new FakeLocks();
    const [first, second] = [shared.tab(), shared.tab()];
    const one = await work(storage, 'first', first.locks);
    await one.runner.intent(done);
    const other = await work(storage, 'second', second.locks);
    await other.runner.intent(done);
    expect(bolts(other)).toBe(1);
    await expectTold(other, 'not-stored-other-tab', storage);
    await one.runner.intent(done);
    expect(bolts(one)).toBe(2);
    first.end();
    const next = await work(storage, 'third', second.locks);
    expect(bolts(next)).toBe(2);
  });
});

describe('a tab that is thrown away', () => {
  it('in the middle of storing has acknowledged nothing that is not there afterwards', async () => {
    const storage = device();
    const one = await work(storage, 'first');
    await one.runner.intent(done);
    const acknowledged = one.runner.view().events.length;
    // The tab dies while the next one is on its way to the disk: nobody hears the answer.
    onAdd((_, add) => {
      one.runner.end();
      return add();
    });
    await one.runner.intent(done);
    vi.restoreAllMocks();
    expect(one.runner.view().dialogue.job.events).toBe(acknowledged);
    const { events, faults } = await stored(storage);
    expect(faults).toEqual([]);
    expect(events.length).toBeGreaterThanOrEqual(acknowledged);
    const next = await work(storage, 'second');
    expect(bolts(next)).toBeGreaterThanOrEqual(1);
    expect(next.spoken[0]).toContain(packFor('en').say({ kind: 'welcome-back', title: 'A job' }).say);
    await next.runner.intent(done);
    expect((await stored(storage)).faults).toEqual([]);
  });
});

describe('clocks', () => {
  const hours = 3_600_000;

  it('see nothing in time that passes, in a tab in the background either, nor in a clock that is put right by seconds', () => {
    const look = clockWatch({ wall: 0, mono: 0 });
    expect(look({ wall: 1000, mono: 1000 })).toBeNull();
    expect(look({ wall: 61_000, mono: 61_000 })).toBeNull();
    expect(look({ wall: 65_000, mono: 62_000 })).toBeNull();
  });

  it.each([
    ['asleep for hours, with a clock that counts on', { wall: 5 * hours, mono: 5 * hours }, { kind: 'slept', jumped: 0 }],
    ['asleep for hours, with a clock that stands still', { wall: 5 * hours, mono: 1000 }, { kind: 'slept', jumped: 5 * hours - 1000 }],
    ['set back', { wall: -2 * hours, mono: 1000 }, { kind: 'clock-changed', jumped: -2 * hours - 1000 }],
    ['set forward a little', { wall: 60_000, mono: 1000 }, { kind: 'clock-changed', jumped: 59_000 }],
    ['asleep, and set back meanwhile', { wall: -2 * hours, mono: 5 * hours }, { kind: 'slept', jumped: -7 * hours }],
  ] as const)('%s', (_, second, news) => {
    const look = clockWatch({ wall: 0, mono: 0 });
    expect(look(second)).toEqual(news);
    expect(look({ wall: second.wall + 1000, mono: second.mono + 1000 })).toBeNull();
  });

  it('asleep for hours: it is said, the jump is on the record, timers that are due end, and the count goes on', async () => {
    const storage = device();
    const one = await work(storage, 'first');
    await one.runner.intent(done);
    one.clock.wall += 5 * hours;
    await one.runner.clockChanged('slept', 5 * hours);
    await expectTold(one, 'slept', storage);
    expect((await stored(storage)).events.at(-1)?.event).toEqual({ type: 'clock-jumped', milliseconds: 5 * hours });
    await one.runner.intent(done);
    expect(bolts(one)).toBe(2);
  });

  it('set back: it is said, the record stays whole and in order, and what was asked is still asked', async () => {
    const storage = device();
    const one = await work(storage, 'first');
    await one.runner.intent({ type: 'skip', scope: 'this', reason: 'damaged' });
    one.clock.wall -= 3 * hours;
    await one.runner.clockChanged('clock-changed', -3 * hours);
    await expectTold(one, 'clock-changed', storage);
    expect(one.runner.view().state).toBe('confirming');
    await one.runner.intent({ type: 'yes' });
    const { events, faults } = await stored(storage);
    expect(faults).toEqual([]);
    expect(events.map(({ seq }) => seq)).toEqual(events.map((_, index) => index));
    expect(events.at(-1)!.moment.wall).toBeLessThan(events[0]!.moment.wall);
    expect(events.at(-1)!.moment.mono).toBeGreaterThan(events[0]!.moment.mono);
  });
});

describe('a trouble that comes while something is being said', () => {
  it('cuts in, and what it cut off is said again behind it', async () => {
    const one = await work(device(), 'first');
    const welcome = one.spoken.at(-1) ?? '';
    one.speaking = true;
    await one.runner.trouble('storage-low');
    await one.runner.trouble('battery-low');
    expect(one.spoken.at(-1)).toBe(`${said('battery-low')} ${said('storage-low')} ${welcome}`);
    // A word from the person ends all of it.
    await one.runner.intent({ type: 'which-step' });
    await one.runner.trouble('storage-low');
    expect(one.spoken.at(-1)).toBe(said('storage-low'));
  });
});

describe('every fault', () => {
  const codes = Object.keys(en.trouble) as FailureCode[];

  it.each(languages)('is spoken and shown in words of its own (%s)', (language) => {
    const shown = (language === 'en' ? en : fr).trouble;
    const spoken = codes.map((code) => packFor(language).say({ kind: 'failure', code }).say);
    expect(new Set(spoken).size).toBe(codes.length);
    expect(new Set(codes.map((code) => shown[code])).size).toBe(codes.length);
    for (const text of [...spoken, ...Object.values(shown)]) expect(text).toMatch(/\p{L}{3,}.*[.?!]/u);
  });
});
