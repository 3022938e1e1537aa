import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { forms } from '../../src/procedure/notation.ts';
import { parseProcedure } from '../../src/procedure/parse.ts';
import { planJob } from '../../src/procedure/plan.ts';
import type { FaultWords } from '../../src/procedure/problem.ts';
import { faultInFrench, phraseInFrench } from '../../src/procedure/words/faults-fr.ts';
import { formatCrib, readCrib } from '../../src/torque/crib-file.ts';
import { parseThread } from '../../src/torque/threads.ts';
import { smallCrib } from './crib.ts';

const shipped = ['bench-flange.yaml', 'brindle-b4-final-drive.yaml', 'brindle-b4-cylinder-head.yaml'].map((name) =>
  readFileSync(new URL(`../../procedures/${name}`, import.meta.url), 'utf8'),
);

/** The phrases of faults that have no French. What the YAML library says is its own affair. */
function unknown(faults: readonly FaultWords[]): readonly string[] {
  const phrases = faults.filter(({ expected }) => expected !== 'YAML').flatMap(({ found, expected }) => [found, expected]);
  return phrases.filter((phrase) => phraseInFrench(phrase) === null);
}

function faultsOf(text: string): readonly FaultWords[] {
  const parsed = parseProcedure(text, 'x.yaml');
  if (!parsed.ok) return parsed.problems;
  return [...parsed.file.builds.keys()].flatMap((build) => {
    const planned = planJob(parsed.file, { build, crib: null, today: '2026-01-01', spokenUnit: null });
    return planned.ok ? [] : planned.problems;
  });
}

/** Another value in the place of one in a line "key: value", or another key: what a slip of an author looks like. */
const slips = [
  '',
  '-1',
  '7',
  '0',
  '[]',
  '[1]',
  '{ a: 1 }',
  'true',
  '"odd one"',
  `"${'x'.repeat(2000)}"`,
  'no-such-id',
  '&a 1',
  '!!int 3',
  'build Q',
];

describe('what is wrong with a file, in French', () => {
  it('knows every phrase of broken procedures', () => {
    const broken = fc.record({
      file: fc.nat(shipped.length - 1),
      line: fc.nat(400),
      slip: fc.constantFrom(...slips),
      part: fc.constantFrom('value', 'key', 'line', 'twice'),
    });
    fc.assert(
      fc.property(broken, ({ file, line, slip, part }) => {
        const lines = shipped[file]!.split('\n');
        const at = line % lines.length;
        const [, before = '', key = '', value = ''] = /^([\s-]*)([\w ]+):(.*)$/u.exec(lines[at] ?? '') ?? [];
        const changed = {
          value: [`${before}${key}: ${slip}`],
          key: [`${before}${key}x:${value}`],
          line: [],
          twice: [lines[at] ?? '', lines[at] ?? ''],
        }[part];
        expect(unknown(faultsOf([...lines.slice(0, at), ...changed, ...lines.slice(at + 1)].join('\n')))).toEqual([]);
      }),
      { numRuns: 80 },
    );
  });

  it.each([
    ['an empty list of answers', 'afterwards:\n  - id: seepage\n    say: Look.\n    after: []'],
    ['a language of its own', 'language: build Q'],
    ['a place that is a number', 'layout: [1]'],
    ['a place outside the picture', 'layout: [[0, 2]]'],
    ['no place', 'layout: []'],
  ])('knows the phrases of %s', (_, wrong) => {
    const key = /^[^:]+/u.exec(wrong)![0];
    const text = shipped[1]!.replace(new RegExp(`${key}:.*`, 'u'), wrong);
    const faults = faultsOf(text);
    expect(faults.length).toBeGreaterThan(0);
    expect(unknown(faults)).toEqual([]);
  });

  it('knows every phrase of broken tool cribs', () => {
    const whole = JSON.parse(formatCrib(smallCrib)) as Record<string, unknown>;
    const places = Object.entries(whole).flatMap(([list, items]) =>
      Array.isArray(items) ? items.flatMap((item: object, index) => Object.keys(item).map((field) => [list, index, field] as const)) : [],
    );
    const values = [undefined, null, -1, 1.5, 1e9, 'odd', '', 'x'.repeat(300), [], {}, true];
    for (const [list, index, field] of places) {
      for (const value of values) {
        const crib = structuredClone(whole) as Record<string, Record<string, unknown>[]>;
        crib[list]![index]![field] = value;
        const read = readCrib(crib);
        if (!read.ok) expect(unknown(read.problems), `${list}[${index}].${field}`).toEqual([]);
      }
    }
    for (const raw of [
      null,
      { format: 0 },
      { format: 99 },
      { format: 1, wrenches: {} },
      { format: 1, odd: 1 },
      { format: 1, rules: { squareLimits: 1 } },
    ]) {
      const read = readCrib(raw);
      if (!read.ok) expect(unknown(read.problems)).toEqual([]);
    }
  });

  it('knows each written form, and what threads are expected', () => {
    expect(Object.values(forms).filter((form) => phraseInFrench(form) === null)).toEqual([]);
    const threads = ['Q9', 'M15', 'M10x9', 'M15x9', '3/4-2', '0.9-UNX'].map(parseThread);
    const expected = threads.flatMap((thread) => (thread.ok ? [] : [thread.problem.expected]));
    expect(expected.length).toBeGreaterThan(3);
    expect(expected.filter((phrase) => phraseInFrench(phrase) === null)).toEqual([]);
  });

  it('keeps what the file says, and names the source of a YAML message', () => {
    expect(faultInFrench({ found: 'the text "12 N"', expected: 'one of K, M; did you mean M?' })).toEqual({
      found: 'le texte "12 N"',
      expected: 'l’un de K, M ; serait-ce M ?',
    });
    expect(faultInFrench({ found: 'All collection items must start at the same column', expected: 'YAML' }).found).toContain('YAML');
  });
});
