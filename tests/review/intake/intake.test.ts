import { describe, expect, it } from 'vitest';
import { makeIntake } from '../../../src/review/intake/intake.ts';
import { encodeUtf8 } from '../../../src/review/intake/utf8.ts';
import { runFaults } from '../../../src/review/logbook.ts';
import type { Beat } from '../logs.ts';
import { carriedOut, cellsOf, readLogs, runOf, signedOff, start, textOf } from '../logs.ts';

const whole = runOf([...carriedOut('one', 40), ...carriedOut('two', 20), ...signedOff]);
const lines = textOf(whole).trimEnd().split('\n');
const joined = (list: readonly string[]): string => list.map((line) => `${line}\n`).join('');

describe('reading logs', () => {
  it('comes to the same however the bytes are cut', () => {
    const text = textOf(whole);
    const expected = cellsOf(readLogs({ a: text }));
    for (const piece of [1, 7, 64, 1000]) expect(cellsOf(readLogs({ a: text }, { piece }))).toEqual(expected);
    expect(Object.keys(expected)).toEqual(['one', 'two']);
    expect(expected['one']).toMatchObject({ active: 40_000, ended: 1, visits: 1, work: 1 });
  });

  it('reads a last line without a line feed', () => {
    expect(readLogs({ a: textOf(whole).trimEnd() }).report.used).toBe(whole.length);
  });

  it('uses the rest when lines are broken, and says which', () => {
    const text = joined([lines[0]!, 'not json', ...lines.slice(1, 4), '{"v":1,"job":"x"}', lines[4]!.slice(0, 50), ...lines.slice(4)]);
    const { report, logbook } = readLogs({ 'a.jsonl': text });
    expect(report.used).toBe(whole.length);
    expect(report.faults).toEqual({ 'not-json': 2, 'wrong-shape': 1 });
    expect(report.examples).toEqual([
      { file: 'a.jsonl', line: 2, fault: 'not-json' },
      { file: 'a.jsonl', line: 6, fault: 'wrong-shape' },
      { file: 'a.jsonl', line: 7, fault: 'not-json' },
    ]);
    expect(logbook.runs.faults[0]).toBe(0);
  });

  it('shows some examples of each fault, however often the first one comes', () => {
    const { report } = readLogs({ a: joined([...lines, ...Array<string>(300).fill('not json'), '{"v":1,"job":"x"}']) });
    expect(report.faults).toEqual({ 'not-json': 300, 'wrong-shape': 1 });
    expect(report.examples.length).toBeLessThan(100);
    expect(report.examples.at(-1)).toMatchObject({ fault: 'wrong-shape', line: lines.length + 301 });
  });

  it('leaves out lines of another version and counts them', () => {
    const text = joined([...lines, lines[1]!.replace('"v":2', '"v":3'), lines[2]!.replace('"v":2', '"v":7')]);
    const { report } = readLogs({ a: text });
    expect(report.faults).toEqual({ 'other-version': 2 });
    expect(report.used).toBe(whole.length);
  });

  it('keeps the time of an event that it does not know', () => {
    const strange = lines.map((line) => line.replace('"type":"step-carried-out"', '"type":"step-sung-to"'));
    const read = readLogs({ a: joined(strange) });
    expect(read.report.faults).toEqual({ 'unknown-event': 2 });
    expect(cellsOf(read)['one']).toMatchObject({ active: 40_000, ended: 1 });
  });

  it('takes each line once, though a file comes twice', () => {
    const text = textOf(whole);
    const read = readLogs({ a: text, b: text });
    expect(read.report.faults).toEqual({ duplicate: whole.length });
    expect(cellsOf(read)).toEqual(cellsOf(readLogs({ a: text })));
  });

  it('puts a run together again whose parts come in another order', () => {
    const expected = cellsOf(readLogs({ a: textOf(whole) }));
    const parts = { b: joined(lines.slice(3)), a: joined(lines.slice(0, 5)) };
    const read = readLogs(parts);
    expect(cellsOf(read)).toEqual(expected);
    expect(read.duplicates).toBe(2);
    expect(read.missing).toBe(0);
    expect(read.logbook.events.count).toBe(whole.length);
  });

  it('keeps two runs apart that stand mixed in one file', () => {
    const other = runOf([...carriedOut('one', 90), ...signedOff], { job: 'job-2', person: 'Bo Tarn' });
    const mixed = lines.flatMap((line, index) => [line, textOf(other).split('\n')[index] ?? '']);
    const read = readLogs({ a: joined(mixed) });
    expect(cellsOf(read, 0)).toEqual(cellsOf(readLogs({ a: textOf(whole) })));
    expect(cellsOf(read, 1)['one']).toMatchObject({ active: 90_000 });
  });

  it('says when lines are missing, and does not give their time to the wrong step', () => {
    const read = readLogs({ a: joined([...lines.slice(0, 3), ...lines.slice(5)]) });
    expect(read.missing).toBe(2);
    expect(read.logbook.runs.faults[0]! & runFaults.missing).toBe(runFaults.missing);
    expect(cellsOf(read)['two']).toMatchObject({ active: 20_000 });
  });

  it('marks a run whose lines were exchanged for others, from the links of their hashes', () => {
    const forged = runOf([...carriedOut('one', 15), ...carriedOut('two', 20), ...signedOff]);
    const text = joined([...lines.slice(0, 2), textOf(forged).split('\n')[2]!, ...lines.slice(3)]);
    const read = readLogs({ a: text });
    expect(read.logbook.runs.faults[0]! & runFaults.unlinked).toBe(runFaults.unlinked);
    expect(readLogs({ a: textOf(whole) }).logbook.runs.faults[0]).toBe(0);
  });

  it('keeps the links of hundreds of runs apart, each of which goes on in another file', () => {
    const beats = [...carriedOut('one', 40), ...signedOff];
    const runs = Array.from({ length: 300 }, (_, run) =>
      textOf(runOf(beats, { job: `job-${run}` }))
        .trimEnd()
        .split('\n'),
    );
    const torn = 277;
    runs[torn]![3] = runs[torn]![3]!.replace(/"previous":"./u, '"previous":"z');
    const read = readLogs({ a: joined(runs.flatMap((own) => own.slice(0, 3))), b: joined(runs.flatMap((own) => own.slice(3))) });
    const unlinked = [...read.logbook.runs.faults].flatMap((faults, run) => ((faults & runFaults.unlinked) === 0 ? [] : [run]));
    expect(unlinked).toEqual([torn]);
  });

  it('marks a run with two lines of one number and uses the first', () => {
    const forged = textOf(runOf([...carriedOut('one', 15), ...signedOff])).split('\n')[2]!;
    const read = readLogs({ a: joined([...lines.slice(0, 4), forged, ...lines.slice(4)]) });
    expect(read.report.faults).toEqual({ forked: 1 });
    expect(read.logbook.runs.faults[0]! & runFaults.forked).toBe(runFaults.forked);
    expect(cellsOf(read)['one']).toMatchObject({ active: 40_000 });
  });

  it('computes every hash where that is asked for, and marks a changed line', () => {
    const changed = lines.map((line, index) => (index === 2 ? line.replace('"mono":40500', '"mono":30500') : line));
    const isUnchanged = (line: string): boolean => lines.includes(line);
    const read = readLogs({ a: joined(changed) }, { isUnchanged });
    expect(read.report.hashes).toBe('computed');
    expect(read.report.faults).toEqual({ changed: 1 });
    expect(read.logbook.runs.faults[0]! & runFaults.changed).toBe(runFaults.changed);
  });

  it('passes over a line without end instead of filling the memory', () => {
    const intake = makeIntake();
    const piece = new Uint8Array(1_000_000).fill(0x78);
    intake.open('a');
    for (let times = 0; times < 33; times++) intake.feed(piece);
    intake.feed(encodeUtf8(`\n${textOf(whole)}`));
    intake.close();
    const report = intake.report();
    expect(report.faults).toEqual({ 'too-long': 1 });
    expect(report.used).toBe(whole.length);
    expect(report.lines).toBe(whole.length + 1);
  });

  it('reads nothing from an empty file', () => {
    const { report, logbook } = readLogs({ a: '' });
    expect([report.lines, logbook.runs.count, logbook.cells.count]).toEqual([0, 0, 0]);
  });
});

describe('whose time it is', () => {
  const step = 'fit';
  const timed = (...beats: readonly Beat[]): ReturnType<typeof cellsOf>[string] => cellsOf(readLogs({ a: textOf(runOf(beats)) }))[step]!;
  const begun: Beat = [5, null, { type: 'step-begun', step, visit: 0 }];
  const finished: Beat = [0, step, { type: 'step-finished', step, how: 'done' }];
  const tightened = (seconds: number, position: number): Beat => [
    seconds,
    step,
    { type: 'fastener-tightened', step, group: 'bolts', pass: 0, position },
  ];

  it('is the step’s from its beginning to its end, questions included', () => {
    expect(timed(begun, tightened(10, 0), [4, step, { type: 'asked', intent: 'torque' }], tightened(6, 1), finished)).toMatchObject({
      active: 20_000,
      questions: 1,
      work: 2,
    });
  });

  it('is nobody’s during a pause, whatever is asked meanwhile', () => {
    expect(
      timed(
        begun,
        tightened(10, 0),
        [3, step, { type: 'paused' }],
        [60, step, { type: 'asked', intent: 'time-left' }],
        [40, step, { type: 'resumed' }],
        tightened(7, 1),
        finished,
      ),
    ).toMatchObject({ active: 20_000, paused: 100_000 });
  });

  it('is waiting from the last piece of work to the end of the step’s own timer', () => {
    expect(
      timed(
        begun,
        tightened(10, 0),
        [30, step, { type: 'asked', intent: 'time-left' }],
        [270, step, { type: 'timer-ended', step }],
        finished,
      ),
    ).toMatchObject({ active: 10_000, waited: 300_000 });
  });

  it('stays work while another step’s timer ends', () => {
    expect(timed(begun, tightened(10, 0), [30, step, { type: 'timer-ended', step: 'earlier' }], tightened(5, 1), finished)).toMatchObject({
      active: 45_000,
      waited: 0,
    });
  });

  it('adds up over the visits of a step', () => {
    const again: Beat = [0, null, { type: 'step-begun', step, visit: 1 }];
    expect(
      timed(
        begun,
        tightened(10, 0),
        finished,
        ...carriedOut('next', 30),
        [2, null, { type: 'step-reopened', step, fresh: true }],
        again,
        tightened(8, 0),
        finished,
      ),
    ).toMatchObject({
      active: 18_000,
      visits: 2,
      stepBacks: 1,
      ended: 1,
    });
  });

  it('is by the wall clock, and away, from one run of the app to the next', () => {
    const [opened, ...rest] = runOf([begun, tightened(10, 0), tightened(5, 1), finished]);
    const later = rest.map((record, index) =>
      index < 2
        ? record
        : {
            ...record,
            session: 'second',
            moment: { ...record.moment, wall: record.moment.wall + 3_600_000, mono: record.moment.mono - 15_000 },
          },
    );
    const cells = cellsOf(readLogs({ a: textOf([opened!, ...later]) }));
    expect(cells[step]).toMatchObject({ active: 10_000, paused: 3_605_000 });
  });

  it('never runs backward, and a clock that does is marked', () => {
    const records = runOf([begun, tightened(10, 0), tightened(5, 1), finished]).map((record, index) =>
      index === 3 ? { ...record, moment: { ...record.moment, mono: 0 } } : record,
    );
    const read = readLogs({ a: textOf(records) });
    expect(read.logbook.runs.faults[0]! & runFaults.clock).toBe(runFaults.clock);
    expect(cellsOf(read)[step]!['active']).toBeGreaterThanOrEqual(10_000);
  });

  it('ends with the signature', () => {
    const { logbook } = readLogs({
      a: textOf(runOf([begun, tightened(10, 0), finished, ...signedOff, [5000, null, { type: 'asked', intent: 'help' }]])),
    });
    expect(logbook.runs.around[0]).toBe(8000);
    expect(logbook.runs.active[0]).toBe(10_000);
    expect(logbook.runs.begun[0]).toBe(start);
  });

  it('takes a hold’s answer back when it is undone', () => {
    const beats: readonly Beat[] = [
      begun,
      [5, step, { type: 'hold-answered', step, hold: 'flush', passed: true }],
      [2, step, { type: 'undone', seq: 2 }],
      [4, step, { type: 'hold-answered', step, hold: 'flush', passed: false }],
    ];
    expect(timed(...beats)).toMatchObject({ holdsPassed: 0, holdsFailed: 1, undos: 1 });
  });

  it('makes no step of an answer that names none, undone or not', () => {
    const stray = textOf(
      runOf([
        [0, null, { type: 'hold-answered', step: 'x', hold: 'flush', passed: true }],
        [1, null, { type: 'undone', seq: 1 }],
        ...carriedOut('one', 5),
      ]),
    );
    const read = readLogs({ a: stray.replace('"step":"x",', '') });
    expect(Object.keys(cellsOf(read))).toEqual(['one']);
  });
});
