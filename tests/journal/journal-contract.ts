import { expect, it } from 'vitest';
import type { Appended, Journal } from '../../src/journal/port.ts';
import { chainAfter, startOf } from '../../src/journal/chain.ts';
import { recordedLine } from '../../src/journal/record.ts';
import { happening, opened, sampleHappenings, samplePlan } from './sample.ts';

export const someJob = 'job-1';
const elsewhere = chainAfter(startOf(samplePlan), sampleHappenings, { job: someJob, session: 'elsewhere' }).map(recordedLine);

export async function storedLines(journal: Journal, job = someJob): Promise<readonly string[]> {
  const found = await journal.read(job);
  if (!found.ok) throw new Error(found.code);
  expect(found.stored.faults).toEqual([]);
  return found.stored.lines;
}

export function recordedOf(answer: Appended): readonly string[] {
  if (!answer.ok) throw new Error(`${answer.code}: ${answer.detail}`);
  return answer.recorded.map(recordedLine);
}

/** What every journal promises. `reopened` is the same storage after the app was closed and started again. */
export function journalContract(make: () => { readonly journal: Journal; readonly reopened: () => Journal }): void {
  it('gives back the plan and every event after a restart', async () => {
    const { journal, reopened } = make();
    const first = await journal.begin(someJob, samplePlan, [opened]);
    const rest = await journal.append(someJob, sampleHappenings.slice(1));
    const found = await reopened().open(someJob);
    expect(found).toMatchObject({ ok: true, writing: 'this-tab', stored: { job: someJob, plan: samplePlan, faults: [] } });
    expect(found.ok && found.stored.lines).toEqual([...recordedOf(first), ...recordedOf(rest)]);
    expect(found.ok && found.stored.events.map(({ event }) => event)).toEqual(sampleHappenings.map(({ event }) => event));
  });

  it('keeps one unbroken chain over restarts', async () => {
    const { journal, reopened } = make();
    await journal.begin(someJob, samplePlan, sampleHappenings.slice(0, 10));
    const second = reopened();
    await second.open(someJob);
    await second.append(someJob, sampleHappenings.slice(10, 20));
    const third = reopened();
    await third.open(someJob);
    await third.append(someJob, sampleHappenings.slice(20));
    expect(await storedLines(third)).toHaveLength(sampleHappenings.length);
  });

  it('stores batches that are asked for at once one behind the other', async () => {
    const { journal } = make();
    const answers = await Promise.all([
      journal.begin(someJob, samplePlan, [opened]),
      ...sampleHappenings.slice(1).map((entry) => journal.append(someJob, [entry])),
    ]);
    expect(await storedLines(journal)).toEqual(answers.flatMap(recordedOf));
  });

  it('does not write a job that nobody opened here', async () => {
    const { journal, reopened } = make();
    await journal.begin(someJob, samplePlan, [opened]);
    expect(await reopened().append(someJob, [sampleHappenings[1]!])).toMatchObject({ ok: false, code: 'not-stored-other-tab' });
    expect(await storedLines(journal)).toHaveLength(1);
  });

  it('does not begin a job twice', async () => {
    const { journal } = make();
    await journal.begin(someJob, samplePlan, [opened]);
    expect(await journal.begin(someJob, samplePlan, [opened])).toMatchObject({ ok: false });
    expect(await storedLines(journal)).toHaveLength(1);
  });

  it('says that a job is not there', async () => {
    const { journal } = make();
    expect(await journal.open(someJob)).toEqual({ ok: false, code: 'no-such-job' });
    expect(await journal.read(someJob)).toEqual({ ok: false, code: 'no-such-job' });
  });

  it('lists jobs newest first, with how they stand', async () => {
    const { journal } = make();
    await journal.begin('old', samplePlan, sampleHappenings);
    await journal.begin('left', samplePlan, [opened, happening({ type: 'left-open' }, 300)]);
    await journal.begin('gone on', samplePlan, [opened, happening({ type: 'left-open' }, 300), happening({ type: 'resumed' }, 900)]);
    const list = await journal.jobs();
    expect(list.ok && list.jobs.map(({ job, status, events }) => [job, status, events])).toEqual([
      ['gone on', 'open', 3],
      ['left', 'left-open', 2],
      ['old', 'signed', sampleHappenings.length],
    ]);
    expect(list.ok && list.jobs[2]).toMatchObject({
      title: samplePlan.procedure.title,
      build: 'K',
      person: 'Wren Ashdown',
      group: 'spring',
    });
  });

  it('forgets a removed job whole', async () => {
    const { journal, reopened } = make();
    await journal.begin(someJob, samplePlan, sampleHappenings);
    await journal.begin('job-2', samplePlan, [opened]);
    expect(await journal.remove(someJob)).toEqual({ ok: true });
    expect(await reopened().read(someJob)).toEqual({ ok: false, code: 'no-such-job' });
    expect(await storedLines(reopened(), 'job-2')).toHaveLength(1);
  });

  it('takes in a record from elsewhere once, and goes on with it', async () => {
    const { journal } = make();
    expect(await journal.adopt(someJob, samplePlan, elsewhere.slice(0, 8))).toEqual({ ok: true, outcome: 'new', added: 8 });
    expect(await journal.adopt(someJob, samplePlan, elsewhere.slice(0, 8))).toEqual({ ok: true, outcome: 'already-here', added: 0 });
    expect(await journal.adopt(someJob, samplePlan, elsewhere)).toEqual({ ok: true, outcome: 'extended', added: elsewhere.length - 8 });
    expect(await journal.adopt(someJob, samplePlan, elsewhere.slice(0, 3))).toEqual({ ok: true, outcome: 'longer-here', added: 0 });
    expect(await storedLines(journal)).toEqual(elsewhere);
    await journal.open(someJob);
    recordedOf(
      await journal.append(someJob, [happening({ type: 'noted', text: 'here', question: false, recording: null, media: null }, 400)]),
    );
    expect(await storedLines(journal)).toHaveLength(elsewhere.length + 1);
  });

  it('takes in what was added elsewhere while the job is open here, and chains to it', async () => {
    const { journal } = make();
    await journal.adopt(someJob, samplePlan, elsewhere.slice(0, 8));
    await journal.open(someJob);
    expect(await journal.adopt(someJob, samplePlan, elsewhere)).toMatchObject({ ok: true, outcome: 'extended' });
    recordedOf(
      await journal.append(someJob, [happening({ type: 'noted', text: 'here', question: false, recording: null, media: null }, 400)]),
    );
    expect(await storedLines(journal)).toHaveLength(elsewhere.length + 1);
  });

  it('keeps its own record when one from elsewhere goes another way', async () => {
    const { journal } = make();
    await journal.adopt(someJob, samplePlan, elsewhere.slice(0, 8));
    await journal.open(someJob);
    await journal.append(someJob, [sampleHappenings[9]!]);
    const before = await storedLines(journal);
    expect(await journal.adopt(someJob, samplePlan, elsewhere)).toEqual({ ok: false, code: 'parted', seq: 8 });
    expect(await storedLines(journal)).toEqual(before);
  });

  it('takes in no record that is damaged', async () => {
    const { journal } = make();
    expect(await journal.adopt(someJob, samplePlan, elsewhere.toSpliced(4, 1))).toMatchObject({ ok: false, code: 'record-corrupt' });
    expect(await journal.read(someJob)).toEqual({ ok: false, code: 'no-such-job' });
  });
}
