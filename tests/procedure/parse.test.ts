import { describe, expect, it } from 'vitest';
import { limits } from '../../src/procedure/format.ts';
import { problemText } from '../../src/procedure/problem.ts';
import { head, indented, problemsOf, read, withGroup, withSteps } from './written.ts';

const oneStep = '- { id: look, do: Look. }';

describe('a problem in a file', () => {
  it('names file, line, column, path, found and expected', () => {
    const text = withSteps(`- id: tighten\n  do: Tighten it.\n  fasteners:\n    - name: bolt\n      count: 8\n      torque: 90 Nms`);
    expect(problemsOf(text)).toEqual([
      {
        code: 'bad-value',
        file: 'practice.yaml',
        line: 20,
        column: 21,
        path: 'stages[0].steps[0].fasteners[0].torque',
        found: 'the text "90 Nms"',
        expected: 'a torque with its unit, such as "90 N·m", "90 N·m ±5", "90 N·m ±5%" or "90 N·m +5 -0"',
        build: null,
      },
    ]);
  });

  it('is told in one line that an editor can jump to', () => {
    const [problem] = problemsOf(withSteps('- { id: look }'));
    expect(problemText(problem!)).toBe(
      'practice.yaml:15:9: error missing: found nothing, expected text of 1 to 400 characters (stages[0].steps[0].do)',
    );
  });

  it('comes with all the others, in the order of the file', () => {
    const text = withSteps(
      '- { id: Look, do: Look. }\n- { id: feel, do: 5, helper: [] }\n- { id: hear, do: Hear., wait: { name: silence, for: long } }',
    );
    expect(problemsOf(text).map(({ path, line }) => `${path} ${line}`)).toEqual([
      'stages[0].steps[0].id 15',
      'stages[0].steps[1].do 16',
      'stages[0].steps[1].helper 16',
      'stages[0].steps[2].wait.for 17',
    ]);
  });

  it('says what a misspelt key was probably meant to be', () => {
    const [problem, ...rest] = problemsOf(withSteps('- id: look\n  do: Look.\n  stop sings: []'));
    expect(rest).toEqual([]);
    expect(problem).toMatchObject({
      code: 'unknown-key',
      line: 17,
      column: 9,
      found: 'the key "stop sings"',
      expected: '"stop signs": did you mean that?',
    });
  });

  it('lists the keys that would do where none is near', () => {
    const [problem] = problemsOf(withSteps('- { id: look, do: Look., wait: { name: a, for: 5 min, zzzzzz: 1 } }'));
    expect(problem).toMatchObject({ code: 'unknown-key', expected: 'one of id, name, for, blocks' });
  });

  it('lies inside the form that was evidently meant', () => {
    const text = withSteps('- { id: look, do: Look., hold: [{ ask: Well?, if no: { goo: look } }] }');
    expect(problemsOf(text).map(({ path, expected }) => [path, expected])).toEqual([
      ['stages[0].steps[0].hold[0].if no.goo', '"go": did you mean that?'],
    ]);
  });

  it('is told once when every build has it, and with the build when one has', () => {
    const group = 'name: bolt\ncount: { build K: 4, build M: four }\ndrive: hexx 13';
    expect(problemsOf(withGroup(group)).map(({ path, build }) => [path, build])).toEqual([
      ['stages[0].steps[0].fasteners[0].count.build M', 'M'],
      ['stages[0].steps[0].fasteners[0].drive', null],
    ]);
  });
});

describe('what YAML could smuggle in', () => {
  it.each([
    ['an alias', withSteps(oneStep, 'consumables: &a []\nparts: *a\n'), 'alias', 11, 17],
    ['a tag', withSteps('- { id: look, do: !!str Look. }'), 'tag', 15, 31],
    ['a key twice', withSteps('- { id: look, do: Look., do: Feel. }'), 'duplicate-key', 15, 32],
    ['a second document', `${withSteps(oneStep)}---\nmore: 1\n`, 'not-yaml', 16, 1],
    ['a key with power over objects', withSteps('- { id: look, do: Look., __proto__: { x: 1 } }'), 'bad-key', 15, 32],
    ['a list as a key', withSteps(oneStep, '? [a]\n: b\n'), 'bad-key', 11, 3],
    ['broken YAML', 'undertray: [1\nid: x\n', 'not-yaml', 2, 1],
  ])('%s is refused where it stands', (_what, text, code, line, column) => {
    expect(problemsOf(text)[0]).toMatchObject({ code, line, column });
  });

  it('leaves the prototype of objects alone', () => {
    problemsOf(withSteps('- { id: look, do: Look., __proto__: { tainted: 1 }, constructor: { prototype: { tainted: 1 } } }'));
    expect(({} as Record<string, unknown>).tainted).toBeUndefined();
  });

  it('refuses a text that is too long, before reading it', () => {
    expect(problemsOf('#'.repeat(limits.fileLength + 1))).toMatchObject([{ code: 'too-large', line: 1, column: 1 }]);
  });

  it.each([
    ['brackets', '['.repeat(50_000)],
    ['braces', '{a: '.repeat(50_000)],
    ['dashes', '- '.repeat(50_000)],
    ['indentation', Array.from({ length: 1_000 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')],
    ['levels that YAML would bear', withSteps(`- { id: look, do: ${'['.repeat(30)}${']'.repeat(30)} }`)],
  ])('refuses nesting by %s', (_what, text) => {
    expect(problemsOf(text)).toMatchObject([{ code: 'too-deep' }]);
  });

  it('stops telling after a while', () => {
    const text = withSteps(Array.from({ length: 500 }, (_, index) => `- { id: s${index} }`).join('\n'));
    const problems = problemsOf(text);
    expect(problems).toHaveLength(limits.problems + 1);
    expect(problems.at(-1)).toMatchObject({ code: 'too-many-problems', found: '300 more problems' });
  });

  it.each(['\u202e', '\u0007', '\u200f'])('refuses text with the invisible character %j', (character) => {
    expect(problemsOf(withSteps(`- { id: look, do: "Loo${character}k." }`))).toMatchObject([
      { expected: 'text without control characters' },
    ]);
  });
});

describe('a file that is no procedure', () => {
  it.each([
    ['nothing at all', '', 'bad-value'],
    ['a list', '- a\n- b\n', 'bad-value'],
    ['a word', 'hello', 'bad-value'],
    ['no builds', 'undertray: 1\n', 'missing'],
    ['builds without names', 'undertray: 1\nbuilds: {}\n', 'bad-value'],
    ['a build that is no name', 'undertray: 1\nbuilds: { "K 1": a }\n', 'bad-key'],
  ])('%s', (_what, text, code) => {
    expect(problemsOf(text)).toMatchObject([{ code }]);
  });

  it('of another version is refused', () => {
    expect(problemsOf(withSteps(oneStep).replace('undertray: 1', 'undertray: 2'))).toMatchObject([
      { line: 1, column: 12, path: 'undertray', found: 'the number 2', expected: '1, the version of the format' },
    ]);
  });
});

describe('differences by build', () => {
  it('choose a value anywhere, down to a whole list', () => {
    const file = read(
      withGroup(
        'name: { build K: nut, build M: bolt }\ncount: { build K: 4, other builds: 6 }\npasses:\n  build K: [snug]\n  build M: [30%, { build M: 100% }]\ntorque: 90 N·m',
      ),
    );
    const group = (build: string) => file.variants.get(build)!.stages[0]!.steps[0]!.fasteners[0]!;
    expect(group('K')).toMatchObject({ name: 'nut', count: 4, passes: [{ kind: 'seat' }] });
    expect(group('M')).toMatchObject({
      name: 'bolt',
      count: 6,
      passes: [
        { kind: 'share', percent: 30 },
        { kind: 'share', percent: 100 },
      ],
    });
  });

  it('leave out list entries that are only for other builds', () => {
    const file = read(withSteps('- { id: look, only: M, do: Look. }\n- { id: feel, only: [K, M], do: Feel. }'));
    const ids = (build: string) => file.variants.get(build)!.stages[0]!.steps.map(({ id }) => id);
    expect([ids('K'), ids('M')]).toEqual([['feel'], ['look', 'feel']]);
  });

  it('leave a value out where a build has an empty one', () => {
    const file = read(withGroup('name: bolt\ncount: 4\nangle: { build K: , build M: 90 }'));
    expect(file.variants.get('K')!.stages[0]!.steps[0]!.fasteners[0]!.angle).toBeUndefined();
    expect(file.forgotten).toEqual([]);
  });

  it('remember which builds were given nothing', () => {
    const file = read(withGroup('name: bolt\ncount: 4\nangle: { build M: 90 }'));
    expect(file.forgotten).toEqual([
      { place: { file: 'practice.yaml', line: 21, column: 20, path: 'stages[0].steps[0].fasteners[0].angle' }, builds: ['K'] },
    ]);
  });

  it('keep the places right behind entries that were left out', () => {
    const file = read(withSteps('- { id: look, only: [M], do: Look. }\n- { id: feel, do: { build K: Feel., build M: Taste. } }'));
    const place = file.locate('K', ['stages', 0, 'steps', 0, 'do']);
    expect(place).toEqual({ file: 'practice.yaml', line: 16, column: 36, path: 'stages[0].steps[1].do.build K' });
  });

  it.each([
    ['a build that is none', withGroup('name: bolt\ncount: { build K: 4, build Q: 4, build M: 4 }'), 'unknown-build', 20, 34],
    ['an only for a build that is none', withSteps('- { id: look, only: [Q], do: Look. }'), 'unknown-build', 15, 27],
    ['other keys beside build keys', withGroup('name: bolt\ncount: { build K: 4, build M: 4, max: 5 }'), 'mixed-build-keys', 20, 46],
    [
      'an id of its own for each build',
      withSteps(oneStep).replace('id: practice', 'id: { build K: a, build M: b }'),
      'mixed-build-keys',
      2,
      16,
    ],
  ])('refuse %s', (_what, text, code, line, column) => {
    expect(problemsOf(text)).toMatchObject([{ code, line, column }]);
  });

  it('must leave no build without what a step needs', () => {
    expect(problemsOf(withSteps('- { id: look, do: { build K: Look. } }'))).toMatchObject([
      { code: 'missing', build: 'M', path: 'stages[0].steps[0].do', found: 'nothing' },
    ]);
  });

  it('find nothing under names that every object has', () => {
    const text = withSteps(oneStep);
    expect(read(text).variants.get('toString')).toBeUndefined();
    expect(problemsOf(text.replace('{ K: short, M: long }', '{ K: short, toString: long }'))).toEqual([]);
  });
});

describe('a handwritten step', () => {
  it('reads every kind of thing a step can hold', () => {
    const file = read(
      `${head}sides:\n  - id: detour\n    title: Detour\n    steps:\n${indented('- { id: aside, do: Go aside. }', 6)}\n${withSteps(
        `- id: everything
  do: >-
    Do
    everything.
  why: Because.
  where: There.
  picture: pictures/there.svg
  cautions:
    - { signal: NOTICE, text: Mind. }
  tools: [mirror]
  uses: [stands]
  optional: It may wait.
  helper: Holds it.
  see: detour
  measure:
    - { name: gap, unit: mm, min: 0.1, max: 0.2, if outside: Again. }
  hold:
    - { ask: Well?, if no: { see: detour } }
  stop signs:
    - { ask: Hot?, if yes: { go: everything, advice: Let it cool. } }
  wait: { name: rest, for: 1 h 30 min, blocks: true }`,
      ).slice(head.length)}`,
    );
    const step = file.variants.get('K')!.stages[0]!.steps[0]!;
    expect(step.do).toBe('Do everything.');
    expect(step.measure[0]!['if outside']).toEqual({ advice: 'Again.' });
    expect(step.wait!.for).toBe(5400);
  });

  it.each(['http://example.org/a.png', '../a.png', '/etc/a.png', 'a.exe', 'javascript:a.png'])('refuses %s as a picture', (picture) => {
    expect(problemsOf(withSteps(`- { id: look, do: Look., picture: "${picture}" }`))).toMatchObject([
      { path: 'stages[0].steps[0].picture' },
    ]);
  });
});
