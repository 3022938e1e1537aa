import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { sheet } from '../../src/cli/sheet.ts';
import { jobFile } from '../../src/journal/log-file.ts';
import { sheetHtml } from '../../src/journal/sheet/sheet.ts';
import { everyEvent, sampleJob } from '../journal/sample-log.ts';
import { scratchFolder } from './scratch-folder.ts';
import { runVerb } from './terminal.ts';

const { path, put } = scratchFolder();
const lines = [...jobFile(sampleJob)];
const log = put('log.jsonl', lines.join(''));
const both = put('both.jsonl', [...lines, ...jobFile(everyEvent)].join(''));

describe('sheet', () => {
  it('writes the sheet that the app shows', async () => {
    expect(await runVerb(sheet, [log, '-o', path('sheet.html')])).toEqual({ code: 0, out: [], err: [] });
    expect(readFileSync(path('sheet.html'), 'utf8')).toBe(sheetHtml(sampleJob));
  });

  it('says as data what it wrote', async () => {
    const damaged = put('spoilt.jsonl', lines.toSpliced(9, 1).join(''));
    const ran = await runVerb(sheet, [damaged, '-o', path('data.html'), '--json']);
    expect(ran.code).toBe(1);
    expect(JSON.parse(ran.out.join(''))).toMatchObject({
      file: path('data.html'),
      format: 'html',
      jobs: [{ job: sampleJob.job, events: sampleJob.events.length - 1, faults: [{ code: 'missing' }] }],
    });
    expect(await runVerb(sheet, [log, '--json'])).toMatchObject({ code: 2, out: [] });
  });

  it('asks which job when there are several', async () => {
    const asked = await runVerb(sheet, [both]);
    expect(asked).toMatchObject({ code: 2, out: [] });
    expect(asked.err[0]).toContain(sampleJob.job);
    const ran = await runVerb(sheet, [both, '--job', sampleJob.job]);
    expect(ran.out.join('\n')).toBe(sheetHtml(sampleJob));
    expect(await runVerb(sheet, [both, '--job', 'none such'])).toMatchObject({ code: 2 });
  });

  it('makes a sheet of a damaged log that says so', async () => {
    const ran = await runVerb(sheet, [put('damaged.jsonl', lines.toSpliced(9, 1).join(''))]);
    expect(ran.code).toBe(1);
    expect(ran.out.join('\n')).toContain('damaged in 1 place');
  });

  it('makes none without a plan', async () => {
    expect(await runVerb(sheet, [put('headless.jsonl', lines.slice(1).join(''))])).toMatchObject({ code: 2, out: [] });
  });
});
