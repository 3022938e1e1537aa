import { describe, expect, it } from 'vitest';
import { findingText, type LintCode } from '../../src/procedure/finding.ts';
import { findings, indented, withGroup, withSteps } from './written.ts';

const codes = (text: string) => findings(text).map(({ code }) => code);
const words = (count: number) => Array.from({ length: count }, () => 'word').join(' ');
const side = `sides:\n  - id: aside\n    title: Aside\n    steps:\n${indented('- { id: in-side, do: Go aside. }', 6)}\n`;
const noStands = (text: string) => text.replace('supports:\n  - { id: stands, name: axle stand }\n', '');

/** For each rule: what it objects to, and the nearest thing that it accepts. */
const rules: readonly (readonly [LintCode, string, string])[] = [
  ['duplicate-id', withSteps('- { id: a, do: A. }\n- { id: a, do: B. }'), withSteps('- { id: a, do: A. }\n- { id: b, do: B. }')],
  [
    'dangling-step',
    withSteps('- { id: a, do: A., hold: [{ ask: B?, if no: { go: c } }] }'),
    withSteps('- { id: a, do: A., hold: [{ ask: B?, if no: { go: a } }] }'),
  ],
  ['dangling-side', withSteps('- { id: a, do: A., see: b }'), withSteps('- { id: a, do: A., see: aside }', side)],
  ['dangling-supply', withSteps('- { id: a, do: A., uses: [glue] }'), withSteps('- { id: a, do: A., uses: [stands] }')],
  [
    'count-mismatch',
    withGroup('name: b\ncount: 3\ndrive: hand\npositions: [x, y]'),
    withGroup('name: b\ncount: 2\ndrive: hand\npositions: [x, y]'),
  ],
  [
    'layout-mismatch',
    withGroup('name: b\ncount: 5\ndrive: hand\nlayout: grid 2 x 3'),
    withGroup('name: b\ncount: 6\ndrive: hand\nlayout: grid 2 x 3'),
  ],
  [
    'bad-passes',
    withGroup('name: b\ncount: 2\ndrive: hex 13\ntorque: 20 N·m\npasses: [50%]'),
    withGroup('name: b\ncount: 2\ndrive: hex 13\ntorque: 20 N·m\npasses: [50%, 100%]'),
  ],
  ['no-torque', withGroup('name: b\ncount: 2\ndrive: hex 13'), withGroup('name: b\ncount: 2\ndrive: hex 13\npasses: [snug]')],
  ['no-torque', withGroup('name: b\ncount: 2'), withGroup('name: b\ncount: 2\ndrive: hand')],
  ['no-drive', withGroup('name: b\ncount: 2\ntorque: 20 N·m'), withGroup('name: b\ncount: 2\ntorque: 20 N·m\ndrive: hex 13')],
  [
    'thread-unreadable',
    withGroup('name: b\ncount: 2\ndrive: hand\nthread: fat'),
    withGroup('name: b\ncount: 2\ndrive: hand\nthread: M8x1.25'),
  ],
  [
    'torque-too-high',
    withGroup('name: b\ncount: 2\nthread: M8x1.25\nclass: 8.8\ndrive: hex 13\ntorque: 40 N·m'),
    withGroup('name: b\ncount: 2\nthread: M8x1.25\nclass: 8.8\ndrive: hex 13\ntorque: 22 N·m'),
  ],
  [
    'torque-too-low',
    withGroup('name: b\ncount: 2\nthread: M12x1.75\nclass: 10.9\ndrive: hex 18\ntorque: 5 N·m'),
    withGroup('name: b\ncount: 2\nthread: M12x1.75\nclass: 10.9\ndrive: hex 18\ntorque: 5 N·m\nangle: 90'),
  ],
  [
    'socket-misfit',
    withGroup('name: b\ncount: 2\nthread: M8x1.25\ndrive: hex 16\ntorque: 22 N·m'),
    withGroup('name: b\ncount: 2\nthread: M8x1.25\ndrive: hex 12\ntorque: 22 N·m'),
  ],
  [
    'drive-overloaded',
    withGroup('name: b\ncount: 2\ndrive: hex 18\nsquare: 1/4\ntorque: 90 N·m'),
    withGroup('name: b\ncount: 2\ndrive: hex 18\nsquare: 1/2\ntorque: 90 N·m'),
  ],
  [
    'tolerance-too-tight',
    withGroup('name: b\ncount: 2\ndrive: hex 18\ntorque: 100 N·m ±3'),
    withGroup('name: b\ncount: 2\ndrive: hex 18\ntorque: 100 N·m ±4'),
  ],
  [
    'tolerance-too-tight',
    withGroup('name: b\ncount: 2\ndrive: hex 18\ntorque: 10 N·m ±5%'),
    withGroup('name: b\ncount: 2\ndrive: hex 18\ntorque: 10 N·m ±6%'),
  ],
  [
    'tolerance-too-tight',
    withGroup('name: b\ncount: 2\ndrive: hex 18\ntorque: 100 N·m +5 -0'),
    withGroup('name: b\ncount: 2\ndrive: hex 18\ntorque: 100 N·m +10 -0'),
  ],
  [
    'no-passes',
    withGroup('name: b\ncount: 6\norder: cross\ndrive: hex 18\ntorque: 90 N·m'),
    withGroup('name: b\ncount: 6\norder: cross\ndrive: hex 18\ntorque: 90 N·m\npasses: [50%, 100%]'),
  ],
  [
    'build-forgotten',
    withGroup('name: b\ncount: 1\ndrive: hand\ncondition: { build M: dry }'),
    withGroup('name: b\ncount: 1\ndrive: hand\ncondition: { build M: dry, build K: }'),
  ],
  [
    'unreachable-side',
    withSteps('- { id: a, do: A. }', side),
    withSteps('- { id: a, do: A., stop signs: [{ ask: Hot?, if yes: { see: aside } }] }', side),
  ],
  [
    'sounds-alike',
    withSteps('- { id: a, do: Clean the seat. }\n- { id: b, do: Clean the seed. }'),
    withSteps('- { id: a, do: Clean the seat. }\n- { id: b, do: Clean the rim. }'),
  ],
  ['too-long-to-hear', withSteps(`- { id: a, do: ${words(31)} }`), withSteps(`- { id: a, do: ${words(30)} }`)],
  [
    'too-long-to-hear',
    withSteps(`- { id: a, do: A., cautions: [{ signal: NOTICE, text: ${words(35)} }] }`),
    withSteps(`- { id: a, do: A., cautions: [{ signal: NOTICE, text: ${words(34)} }] }`),
  ],
  [
    'single-use-part-missing',
    withGroup('name: b\ncount: 1\ndrive: hand\nsingle use: true'),
    withGroup('name: b\ncount: 1\ndrive: hand\nsingle use: true\npart: new', 'parts: [{ id: new, name: new b }]\n'),
  ],
  [
    'too-few-parts',
    withGroup('name: b\ncount: 2\ndrive: hand\npart: new', 'parts: [{ id: new, name: new b }]\n'),
    withGroup('name: b\ncount: 2\ndrive: hand\npart: new', 'parts: [{ id: new, name: new b, count: 2 }]\n'),
  ],
  [
    'supply-unused',
    withSteps('- { id: a, do: A. }', 'consumables: [{ id: glue, name: glue }]\n'),
    withSteps('- { id: a, do: A., uses: [glue] }', 'consumables: [{ id: glue, name: glue }]\n'),
  ],
  [
    'hold-without-way-out',
    withSteps('- { id: a, do: A., hold: [{ ask: Well? }] }'),
    withSteps('- { id: a, do: A., hold: [{ ask: Well?, if no: Again. }] }'),
  ],
  [
    'measure-without-limits',
    withSteps('- { id: a, do: A., measure: [{ name: gap, unit: mm, if outside: Again. }] }'),
    withSteps('- { id: a, do: A., measure: [{ name: gap, unit: mm, max: 1, if outside: Again. }] }'),
  ],
  [
    'measure-without-way-out',
    withSteps('- { id: a, do: A., measure: [{ name: gap, unit: mm, max: 1 }] }'),
    withSteps('- { id: a, do: A., measure: [{ name: gap, unit: mm, max: 1, if outside: Again. }] }'),
  ],
  [
    'jack-without-support',
    noStands(withSteps('- { id: a, do: Raise it with the jack. }')),
    withSteps('- { id: a, do: Raise it with the jack. }'),
  ],
  [
    'jack-without-support',
    noStands(withSteps('- { id: a, do: Jack it up. }')),
    noStands(withSteps('- { id: a, do: Jack it up. }', 'before: [{ kind: support, check: It is on stands. }]\n')),
  ],
];

describe.each(rules)('the rule %s', (code, bad, good) => {
  it('objects, with a place, a message and advice', () => {
    const found = findings(bad).filter((finding) => finding.code === code);
    expect(found).toHaveLength(1);
    expect(found[0]!.line).toBeGreaterThan(8);
    expect(found[0]!.message.length).toBeGreaterThan(10);
    expect(found[0]!.advice.length).toBeGreaterThan(10);
  });

  it('accepts the nearest thing that is well', () => {
    expect(codes(good)).not.toContain(code);
  });
});

describe('a finding', () => {
  it('stands where the value stands, and is told in one line', () => {
    const [finding] = findings(withGroup('name: bolt\ncount: 2\nthread: M8x1.25\nclass: 8.8\ndrive: hex 16\ntorque: 22 N·m'));
    expect(findingText(finding!)).toBe(
      'practice.yaml:23:20: warning socket-misfit: hex 16 goes with no standard for M8x1.25. Measure it, or look up the thread again: the standards have 13 mm, 12 mm, 10 mm.',
    );
  });

  it('names the build where only one has it', () => {
    const text = withGroup(
      'name: bolt\ncount: 2\nthread: M8x1.25\nclass: 8.8\ndrive: hex 13\ntorque: { build K: 22 N·m, build M: 60 N·m }',
    );
    expect(findings(text).map(({ code, build, column }) => [code, build, column])).toEqual([['torque-too-high', 'M', 49]]);
  });

  it('is told once where every build has it', () => {
    expect(findings(withSteps('- { id: a, do: A., hold: [{ ask: Well? }] }')).map(({ build }) => build)).toEqual([null]);
  });

  it('never calls two different sides of the vehicle alike', () => {
    expect(codes(withSteps('- { id: a, do: Fit the left wheel. }\n- { id: b, do: Fit the right wheel. }'))).toEqual([]);
  });

  it('accepts the usual small hexagons by common practice, and objects one thread size smaller', () => {
    const group = (thread: string, drive: string, torque: string) =>
      withGroup(`name: b\ncount: 1\nthread: ${thread}\nclass: 8.8\ndrive: ${drive}\ntorque: ${torque}`);
    expect(codes(group('M6', 'hex 10', '7.5 lbf·ft'))).toEqual([]);
    expect(codes(group('M8', 'hex 12', '16 lbf·ft'))).toEqual([]);
    expect(codes(group('M10', 'hex 14', '30 lbf·ft'))).toEqual([]);
    expect(codes(group('M12', 'hex 17', '47 lbf·ft'))).toEqual([]);
    expect(codes(group('M5', 'hex 8', '7.5 lbf·ft'))).toEqual(['torque-too-high']);
    expect(codes(group('M6', 'hex 10', '16 lbf·ft'))).toEqual(['torque-too-high']);
    expect(codes(group('M8', 'hex 12', '30 lbf·ft'))).toEqual(['torque-too-high']);
    expect(codes(group('M10', 'hex 14', '47 lbf·ft'))).toEqual(['torque-too-high']);
  });
});
