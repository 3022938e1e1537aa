import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exportLog } from '../../src/cli/export.ts';
import { calendarFile } from '../../src/journal/formats/calendar.ts';
import { csvFile } from '../../src/journal/formats/csv.ts';
import { xapiFile } from '../../src/journal/formats/xapi.ts';
import { xesFile } from '../../src/journal/formats/xes.ts';
import { jobFile } from '../../src/journal/log-file.ts';
import { everyEvent, jobOf, sampleJob } from '../journal/sample-log.ts';
import { sampleHappenings } from '../journal/sample.ts';
import { scratchFolder } from './scratch-folder.ts';
import { runVerb } from './terminal.ts';

const { path, put } = scratchFolder();
const jobs = [sampleJob, everyEvent];
const file = jobs.flatMap((job) => [...jobFile(job)]);
const log = put('log.jsonl', file.join(''));

const texts = {
  jsonl: file.join(''),
  csv: [...csvFile(jobs)].join(''),
  xes: [...xesFile(jobs)].join(''),
  xapi: [...xapiFile(jobs)].join(''),
  ics: calendarFile(jobs) ?? '',
};

describe('export', () => {
  it.each(Object.entries(texts))('--to %s writes to a file what the app exports', async (format, text) => {
    const output = path(`out.${format}`);
    expect(await runVerb(exportLog, [log, '--to', format, '-o', output])).toEqual({ code: 0, out: [], err: [] });
    expect(readFileSync(output, 'utf8')).toBe(text);
  });

  it.each(Object.entries(texts))('--to %s prints the same when no file is named', async (format, text) => {
    const ran = await runVerb(exportLog, [log, '--to', format]);
    expect(ran.code).toBe(0);
    expect(`${ran.out.join('\n')}\n`).toBe(text);
  });

  it('gives back its own JSON Lines byte by byte', async () => {
    const output = path('again.jsonl');
    await runVerb(exportLog, [log, '--to', 'jsonl', '-o', output]);
    expect(readFileSync(output)).toEqual(readFileSync(log));
  });

  it('exports what can be read of a damaged log, and says so', async () => {
    const damaged = put('damaged.jsonl', file.with(5, 'not a line\n').join(''));
    const ran = await runVerb(exportLog, [damaged, '--to', 'csv']);
    expect(ran.code).toBe(1);
    expect(ran.err).toEqual([`${damaged}: line 6: cannot be read: expected one JSON object`]);
    const events = sampleJob.events.length + everyEvent.events.length;
    expect(ran.out.filter((line) => /,[0-9a-f]{64}\r$/u.test(line))).toHaveLength(events - 1);
  });

  it('says as data what it wrote', async () => {
    const ran = await runVerb(exportLog, [log, '--to', 'xes', '-o', path('data.xes'), '--json']);
    expect(ran).toMatchObject({ code: 0, err: [] });
    expect(JSON.parse(ran.out.join(''))).toEqual({
      file: path('data.xes'),
      format: 'xes',
      jobs: [sampleJob, everyEvent].map(({ job, events }) => ({ job, events: events.length, faults: [] })),
    });
  });

  it('makes no calendar of a job that nobody signed', async () => {
    const open = put('open.jsonl', [...jobFile(jobOf('job', sampleHappenings.slice(0, 9)))].join(''));
    expect(await runVerb(exportLog, [open, '--to', 'ics'])).toMatchObject({ code: 1, out: [] });
  });

  it.each([
    ['no log', ['--to', 'csv']],
    ['no format', [log]],
    ['an unknown format', [log, '--to', 'pdf']],
    ['data beside the export itself', [log, '--to', 'csv', '--json']],
    ['an unknown option', [log, '--to', 'csv', '--fast']],
    ['a log that is not there', [path('nowhere.jsonl'), '--to', 'csv']],
    ['a log without a job', [put('empty.jsonl', '\n\n'), '--to', 'csv']],
    ['a place that cannot be written to', [log, '--to', 'csv', '-o', path('no/such/folder.csv')]],
  ])('ends with 2 for %s', async (_, args) => {
    const ran = await runVerb(exportLog, args);
    expect(ran.code).toBe(2);
    expect(ran.out).toEqual([]);
    expect(ran.err).toHaveLength(1);
  });
});
