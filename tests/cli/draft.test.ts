import { readFile, writeFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/cli/check.ts';
import { draft } from '../../src/cli/draft.ts';
import { scratchFolder } from './scratch-folder.ts';
import { runVerb } from './terminal.ts';

const { path, put } = scratchFolder();

const talk = [
  'WEBVTT',
  '',
  '00:00:01.000 --> 00:00:05.000',
  'Today the gearbox mount. It has four bolts, 16 mil, and they get 50 newton metres.',
  '',
  '00:00:05.000 --> 00:00:09.000',
  'Next the starter. Two bolts, thirteen millimetre. If it feels tight, stop, back it out.',
  '',
].join('\n');

describe('draft', () => {
  it('writes a procedure that check refuses, question by question, until each has its answer', async () => {
    const file = put('mount.vtt', talk);
    const out = path('mount.yaml');
    const ran = await runVerb(draft, [file, '-o', out]);
    expect(ran.code).toBe(0);
    expect(ran.err.filter((line) => line.endsWith('which torque?'))).toHaveLength(1);
    const yaml = await readFile(out, 'utf8');
    expect(yaml).toContain('torque: 50 N·m');
    expect(yaml).toContain('at: 0:00:05');
    const refused = await runVerb(check, [out]);
    expect(refused.code).toBe(1);
    expect(refused.out.filter((line) => /open questions\[\d+\]\.answer/.test(line))).toHaveLength(ran.err.length);
    const answered = yaml
      .replace('title:', 'vehicle: Brindle B4\nauthor: A tester\ntitle:')
      .replace(/^( {4})ask: /gm, "$1answer: look it up in the maker's manual\n$1ask: ");
    expect((await runVerb(check, [put('answered.yaml', answered)])).code).toBe(0);
  });

  it('prints groups, evidence and questions as JSON', async () => {
    const { code, out } = await runVerb(draft, [put('json.vtt', talk), '--json']);
    expect(code).toBe(0);
    const drafted = JSON.parse(out.join('\n')) as { groups: unknown[]; questions: unknown[]; stages: unknown[] };
    expect(drafted.groups).toMatchObject([
      { count: 4, size: '16', torque: 50, unit: 'N·m' },
      { count: 2, size: '13', torque: null },
    ]);
    expect(drafted.stages).not.toEqual([]);
  });

  it('ends with 1 where no fasteners are named, and with 2 where the file cannot be read', async () => {
    expect((await runVerb(draft, [put('chat.txt', 'Hello everybody, nice weather.')])).code).toBe(1);
    const missing = await runVerb(draft, [path('nothing.vtt')]);
    expect([missing.code, missing.err[0]]).toEqual([2, expect.stringContaining('cannot be read')]);
  });

  it('tells a file that is no text from one in which nothing is said, and reads UTF-16', async () => {
    const picture = await runVerb(draft, [put('picture.txt', 'PNG\0\0\0')]);
    expect([picture.code, picture.err[0]]).toEqual([2, expect.stringContaining('is no text')]);
    const empty = await runVerb(draft, [put('empty.vtt', 'WEBVTT\n')]);
    expect([empty.code, empty.err[0]]).toEqual([1, expect.stringContaining('found no words')]);
    const wide = path('wide.txt');
    await writeFile(wide, Buffer.from('\uFEFFThe mount has three bolts, 15 mil, 55 newton metres.', 'utf16le'));
    const { out } = await runVerb(draft, [wide, '--json']);
    expect((JSON.parse(out.join('\n')) as { groups: unknown[] }).groups).toMatchObject([{ count: 3, size: '15', torque: 55 }]);
  });
});
