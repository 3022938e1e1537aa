import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lintProcedure } from '../../src/procedure/lint.ts';
import { parseProcedure } from '../../src/procedure/parse.ts';
import { planJob } from '../../src/procedure/plan.ts';

const flange = readFileSync(new URL('../../procedures/bench-flange.yaml', import.meta.url), 'utf8');
const fragments = [
  '[',
  ']',
  '{',
  '}',
  ':',
  '- ',
  '\n',
  '  ',
  '&a ',
  '*a',
  '!!map ',
  '"',
  "'",
  '|',
  '>',
  '#',
  '---\n',
  'build K: ',
  'only: ',
  '__proto__: ',
  '0',
  '-1',
  '1e999',
  '.nan',
  'null',
  '\u0000',
  '\ufeff',
  '😀',
];

/** Does with a text all that is ever done with a file; gives what came of it. */
function useAll(text: string): string {
  const parsed = parseProcedure(text, 'practice.yaml');
  if (!parsed.ok) {
    for (const problem of parsed.problems)
      expect([problem.line >= 1, problem.column >= 1, problem.found !== '', problem.expected !== '']).toEqual([true, true, true, true]);
    expect(parsed.problems.length).toBeGreaterThan(0);
    return 'refused';
  }
  for (const build of parsed.file.builds.keys()) planJob(parsed.file, { build, crib: null, today: '2026-01-01', spokenUnit: null });
  lintProcedure(parsed.file);
  return 'read';
}

describe('whatever a file holds, reading it never throws', () => {
  it('with pieces put in, taken out and doubled', () => {
    const change = fc.record({
      at: fc.nat(flange.length),
      length: fc.nat(40),
      put: fc.oneof(fc.constantFrom(...fragments), fc.string({ maxLength: 12 })),
    });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 6 }), (changes) => {
        const text = changes.reduce((so, { at, length, put }) => so.slice(0, at) + put + so.slice(at + length), flange);
        useAll(text);
      }),
      { numRuns: 60 },
    );
  });

  it('with whole values exchanged for others', () => {
    const lines = flange.split('\n');
    const values = [
      '8',
      '-3',
      '[]',
      '{}',
      '[[1]]',
      '{ build K: 1 }',
      '{ build K: , other builds: x }',
      'circle from 12',
      '1e9',
      'true',
      '',
      '~',
      '2000000',
    ];
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(lines.length - 1), fc.constantFrom(...values)), { minLength: 1, maxLength: 4 }), (exchanges) => {
        const changed = [...lines];
        for (const [index, value] of exchanges) changed[index] = (changed[index] ?? '').replace(/: .*$/, `: ${value}`);
        useAll(changed.join('\n'));
      }),
      { numRuns: 60 },
    );
  });

  it('with lines lost, doubled or moved', () => {
    const lines = flange.split('\n');
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(lines.length - 1), fc.nat(lines.length - 1)), { minLength: 1, maxLength: 4 }), (moves) => {
        const changed = [...lines];
        for (const [from, to] of moves) changed.splice(to, from % 2, changed[from] ?? '');
        useAll(changed.join('\n'));
      }),
      { numRuns: 40 },
    );
  });

  it('with anything at all', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 300, unit: 'binary' }), (text) => {
        useAll(text);
      }),
      { numRuns: 200 },
    );
  });

  it('and the unchanged file is read', () => {
    expect(useAll(flange)).toBe('read');
  });
});
