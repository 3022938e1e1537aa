import { describe, expect, it } from 'vitest';
import { verify } from '../../src/cli/verify.ts';
import { fileJournal } from '../../src/cli/file-journal.ts';
import { jobFile } from '../../src/journal/log-file.ts';
import { jobOf, sampleJob } from '../journal/sample-log.ts';
import { sampleHappenings, samplePlan } from '../journal/sample.ts';
import { scratchFolder } from './scratch-folder.ts';
import { runVerb } from './terminal.ts';

const { path, put } = scratchFolder();
const lines = [...jobFile(sampleJob)];
const log = put('log.jsonl', lines.join(''));

describe('verify', () => {
  it('finds an exported log whole', async () => {
    expect(await runVerb(verify, [log])).toEqual({ code: 0, out: [`job ${sampleJob.job}: 31 events, signed, whole`], err: [] });
  });

  it('says of a log that still grows that its end cannot be vouched for', async () => {
    const growing = path('growing.jsonl');
    await fileJournal({ path: growing, session: 's' }).begin('job', samplePlan, sampleHappenings.slice(0, 4));
    const ran = await runVerb(verify, [growing]);
    expect(ran).toMatchObject({ code: 0 });
    expect(ran.out[0]).toContain('job job: 4 events, open, whole; the log has no end mark');
  });

  it.each([
    [
      'a changed line',
      lines.with(9, lines[9]!.replace('"position":0', '"position":1')),
      'line 10: event 8 was changed: its hash does not fit',
    ],
    ['a missing line', lines.toSpliced(9, 1), 'line 10: event 8 is missing before this line'],
    ['a moved line', lines.with(9, lines[10]!).with(10, lines[9]!), 'line 10: event 9 is out of order'],
    ['a lost end', lines.slice(0, -1), 'the end is missing or another one: the header promises 31 events, 30 can be read'],
    ['a lost header', lines.slice(1), 'line 1: events without the header line of their job'],
  ])('finds %s', async (_, changed, found) => {
    const ran = await runVerb(verify, [put('changed.jsonl', changed.join(''))]);
    expect(ran.code).toBe(1);
    expect(ran.out).toContain(`  ${found}`);
  });

  it('gives the same as data', async () => {
    const two = put('two.jsonl', [...lines, ...jobFile(jobOf('other', sampleHappenings.slice(0, 3)))].toSpliced(9, 1).join(''));
    const ran = await runVerb(verify, [two, '--json']);
    expect(ran.code).toBe(1);
    expect(ran.out.map((line) => JSON.parse(line) as unknown)).toMatchObject([
      {
        job: sampleJob.job,
        events: 30,
        status: 'signed',
        sealed: true,
        whole: false,
        faults: [{ line: 10, code: 'missing', from: 8, to: 8 }],
      },
      { job: 'other', events: 3, status: 'open', sealed: true, whole: true, faults: [] },
    ]);
  });

  it('ends with 2 when there is nothing to check', async () => {
    expect(await runVerb(verify, [path('nowhere.jsonl')])).toMatchObject({ code: 2, out: [] });
    expect(await runVerb(verify, [])).toMatchObject({ code: 2, out: [] });
    expect(await runVerb(verify, [put('text.txt', '')])).toMatchObject({ code: 2, out: [] });
  });

  it('takes any file for a log without falling over', async () => {
    expect(await runVerb(verify, ['/bin/ls'])).toMatchObject({ code: 1 });
  });
});
