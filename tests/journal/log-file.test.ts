import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chainAfter, startOf } from '../../src/journal/chain.ts';
import { storedJob } from '../../src/journal/book.ts';
import { faultText } from '../../src/journal/fault-text.ts';
import { headerLine, jobHeader } from '../../src/journal/header.ts';
import { importLog, jobFile, readLog } from '../../src/journal/log-file.ts';
import { memoryJournal } from '../../src/journal/memory.ts';
import { recordedLine } from '../../src/journal/record.ts';
import { sampleHappenings, samplePlan } from './sample.ts';

function stored(job: string, count = sampleHappenings.length) {
  return storedJob(
    job,
    samplePlan,
    chainAfter(startOf(samplePlan), sampleHappenings.slice(0, count), { job, session: 's' }).map(recordedLine),
  );
}

const whole = stored('job-1');
const file = [...jobFile(whole)].join('');
const fileLines = file.trimEnd().split('\n');

function faultsOf(lines: readonly string[]) {
  return readLog(lines.join('\n')).flatMap(({ faults }) => faults);
}

describe('a log file', () => {
  it('carries the plan and exactly the stored lines', () => {
    expect(readLog(file)).toEqual([
      { job: 'job-1', plan: samplePlan, events: whole.events, lines: whole.lines, faults: [], isSealed: true },
    ]);
  });

  it('bears carriage returns, a byte order mark and empty lines', () => {
    expect(readLog(`\uFEFF${file.replaceAll('\n', '\r\n\r\n')}`)).toEqual(readLog(file));
  });

  it('may hold several jobs, even mixed', () => {
    const other = [...jobFile(stored('job-2'))].join('').trimEnd().split('\n');
    const mixed = [fileLines[0]!, other[0]!, ...fileLines.slice(1).flatMap((line, index) => [line, other[index + 1]!])];
    expect(readLog(mixed.join('\n')).map(({ job, faults, lines }) => [job, faults, lines.length])).toEqual([
      ['job-1', [], whole.lines.length],
      ['job-2', [], whole.lines.length],
    ]);
  });

  it('shows that its end is missing', () => {
    expect(faultsOf(fileLines.slice(0, -2))).toEqual([{ line: 0, code: 'ends-early', promised: 31, found: 29 }]);
  });

  it('shows that its header is missing, changed or of another plan', () => {
    expect(faultsOf(fileLines.slice(1))).toEqual([{ line: 1, code: 'header-missing' }]);
    expect(faultsOf(fileLines.with(0, fileLines[0]!.replace('"value":47', '"value":74')))).toContainEqual({
      line: 1,
      code: 'header-changed',
    });
    expect(faultsOf(fileLines.with(0, `${fileLines[0]!} `))).toContainEqual({ line: 1, code: 'header-rewritten' });
    const otherPlan = { ...samplePlan, build: { id: 'M', name: 'Build M' } };
    const forged = headerLine(jobHeader('job-1', otherPlan, { events: 31, last: whole.events.at(-1)!.hash }));
    expect(faultsOf(fileLines.with(0, forged))).toEqual([{ line: 2, code: 'other-plan' }]);
  });

  it('shows every single lost, doubled, moved or altered line, and says which in words', () => {
    const place = fc.nat(fileLines.length - 1);
    const change = fc.oneof(
      place.map((from) => fileLines.toSpliced(from, 1)),
      place.map((from) => fileLines.toSpliced(from, 0, fileLines[from]!)),
      fc.tuple(place, place).map(([from, to]) => fileLines.with(from, fileLines[to]!).with(to, fileLines[from]!)),
      fc.tuple(place, fc.nat(), fc.string({ unit: 'binary', minLength: 1, maxLength: 3 })).map(([from, at, text]) => {
        const line = fileLines[from]!;
        return fileLines.with(from, line.slice(0, at % line.length) + text + line.slice((at % line.length) + 1));
      }),
    );
    fc.assert(
      fc.property(change, (changed) => {
        // A carriage return or nothing but space put at the end of a line is no change of what it says.
        fc.pre(changed.join('\n').replaceAll('\r\n', '\n') !== fileLines.join('\n'));
        const faults = faultsOf(changed);
        expect(faults.length).toBeGreaterThan(0);
        for (const fault of faults) expect(faultText(fault)).toMatch(/^(line \d+: )?\S/u);
      }),
      { numRuns: 120 },
    );
  });

  it('never makes the reader throw', () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.string(), fc.json(), fc.constantFrom(...fileLines))), (lines) =>
        Array.isArray(readLog(lines.join('\n'))),
      ),
    );
  });
});

describe('importing', () => {
  it('takes each job in once, recognises what it has, and refuses what is not whole', async () => {
    const journal = memoryJournal({ session: 'here' });
    const second = [...jobFile(stored('job-2', 5))].join('');
    const broken = [...jobFile(stored('job-3'))].toSpliced(4, 1).join('');
    const outcomes = async (text: string) =>
      (await importLog(journal, readLog(text))).map(({ job, answer }) => [job, answer.ok ? answer.outcome : answer.code]);
    expect(await outcomes(file + second + broken)).toEqual([
      ['job-1', 'new'],
      ['job-2', 'new'],
      ['job-3', 'record-corrupt'],
    ]);
    expect(await outcomes([...jobFile(stored('job-2'))].join('') + file)).toEqual([
      ['job-2', 'extended'],
      ['job-1', 'already-here'],
    ]);
    const found = await journal.read('job-1');
    expect(found.ok && [...jobFile(found.stored)].join('')).toBe(file);
  });
});
