import { describe, expect, it } from 'vitest';
import { planJob } from '../../src/procedure/plan.ts';
import { indented, planOf, planProblems, read, withGroup, withSteps } from './written.ts';

const groupOf = (group: string, build = 'K') => planOf(withGroup(group), build).steps[0]!.groups[0]!;

describe('the passes of a group', () => {
  it('are what the author wrote, with shares of the final torque and a circular last round', () => {
    const { passes } = groupOf(
      'name: bolt\ncount: 4\nlayout: circle from 12\ntorque: 100 N·m ±5\norder: cross\npasses: [snug, 30%, 100%, check]',
    );
    expect(
      passes.map(({ kind, torque, share, order }) => [kind, torque?.value ?? null, share, order.map((index) => index + 1).join()]),
    ).toEqual([
      ['seat', null, null, '1,3,2,4'],
      ['torque', 30, 30, '1,3,2,4'],
      ['torque', 100, 100, '1,3,2,4'],
      ['check', 100, null, '1,2,3,4'],
    ]);
  });

  it('are torque and then angle where the author only gave those', () => {
    const { passes, angle } = groupOf('name: bolt\ncount: 2\ntorque: 40 N·m\nangle: 90');
    expect(passes.map((pass) => [pass.kind, pass.torque?.value ?? null, pass.angle])).toEqual([
      ['torque', 40, null],
      ['angle', null, 90],
    ]);
    expect(angle).toBe(90);
  });

  it('add their angles up', () => {
    expect(groupOf('name: bolt\ncount: 2\ntorque: 40 N·m\npasses: [20 N·m, 40 N·m, 60°, 80°]').angle).toBe(140);
  });

  it('only seat where there is no torque', () => {
    const group = groupOf('name: plug\ncount: 1\ndrive: hand');
    expect(group).toMatchObject({ torque: null, passes: [{ kind: 'seat', torque: null }] });
  });

  it('never pass a drive that is not given for "by hand"', () => {
    expect(groupOf('name: bolt\ncount: 1\ntorque: 90 N·m').tool.kind).toBe('not given');
    expect(groupOf('name: cap\ncount: 1\ndrive: hand').tool.kind).toBe('hand');
  });

  it('differ by build', () => {
    const group = 'name: bolt\ncount: { build K: 4, build M: 6 }\ntorque: { build K: 78 N·m, build M: 90 N·m }\norder: cross';
    expect(['K', 'M'].map((build) => groupOf(group, build)).map(({ positions, torque }) => [positions.length, torque?.value])).toEqual([
      [4, 78],
      [6, 90],
    ]);
  });
});

describe('the positions of a group', () => {
  it('stand on the clock face, the first where the layout says', () => {
    const { positions } = groupOf('name: bolt\ncount: 4\nlayout: circle from 1:30');
    expect(positions.map(({ clock }) => clock)).toEqual([1.5, 4.5, 7.5, 10.5]);
    expect(positions[0]).toMatchObject({ x: 0.8182, y: 0.1818 });
  });

  it('have no hour in rows, and names from where they are', () => {
    const { positions } = groupOf('name: bolt\ncount: 4\nlayout: grid 2 x 2');
    expect(positions.map(({ name, clock }) => [name, clock])).toEqual([
      ['top left', null],
      ['top right', null],
      ['bottom left', null],
      ['bottom right', null],
    ]);
  });

  it('are where the author put them, crossed over by where they are', () => {
    const { positions, passes } = groupOf(
      'name: bolt\ncount: 4\npositions: [a, b, c, d]\nlayout: [[0, 0], [1, 0], [0, 1], [1, 1]]\norder: cross\ntorque: 9 N·m',
    );
    expect(positions.map(({ name, x, y, clock }) => [name, x, y, clock])).toEqual([
      ['a', 0, 0, 10.5],
      ['b', 1, 0, 1.5],
      ['c', 0, 1, 7.5],
      ['d', 1, 1, 4.5],
    ]);
    expect(passes[0]!.order.map((index) => positions[index]!.name).join('')).toMatch(/^(ad|da)(bc|cb)$/);
  });

  it('take every fastener of a group exactly once in each pass', () => {
    for (const order of ['cross', 'circular', 'spiral', 'draw-up', 'listed']) {
      for (const layout of ['circle from 3', 'grid 3 x 4', 'line']) {
        const { passes } = groupOf(
          `name: bolt\ncount: 12\nlayout: ${layout}\norder: ${order}\ntorque: 9 N·m\npasses: [snug, 50%, 100%, check]`,
        );
        for (const pass of passes) expect([...pass.order].sort((a, b) => a - b)).toEqual(Array.from({ length: 12 }, (_, index) => index));
      }
    }
  });
});

describe('the steps of a plan', () => {
  const text = withSteps(
    '- { id: one, do: One., see: detour }\n- { id: two, do: Two., hold: [{ ask: Well?, if no: { go: one, advice: Again. } }] }',
    `sides:\n  - id: detour\n    title: Detour\n    steps:\n${indented('- { id: aside, do: Aside. }\n- { id: further, do: Further., stop signs: [{ ask: Hot?, if yes: Wait. }] }', 6)}\n`,
  );

  it('are numbered on the main line, and by letter in side procedures', () => {
    expect(planOf(text).steps.map(({ id, index, number, side, stage }) => [id, index, number, side, stage.title, stage.number])).toEqual([
      ['one', 0, '1', null, 'Only stage', 1],
      ['two', 1, '2', null, 'Only stage', 1],
      ['aside', 2, 'A1', 'detour', 'Detour', 0],
      ['further', 3, 'A2', 'detour', 'Detour', 0],
    ]);
    expect(planOf(text).sides).toEqual([{ id: 'detour', title: 'Detour', stepIds: ['aside', 'further'] }]);
  });

  it('know where a check leads', () => {
    const { steps } = planOf(text);
    expect(steps[1]!.holds[0]).toEqual({ id: 'two.hold-1', ask: 'Well?', fail: { kind: 'go', step: 'one', advice: 'Again.' } });
    expect(steps[3]!.stopSigns[0]!.branch).toEqual({ kind: 'stay', advice: 'Wait.' });
  });

  it('stay put with advice where a check says nothing', () => {
    const [step] = planOf(withSteps('- { id: one, do: One., hold: [{ ask: Well? }], measure: [{ name: gap, unit: mm, max: 1 }] }')).steps;
    expect(step!.holds[0]!.fail.kind).toBe('stay');
    expect(step!.measures[0]!.outside).toMatchObject({ kind: 'stay' });
  });
});

describe('a plan that cannot be made', () => {
  it.each([
    ['a step twice', withSteps('- { id: a, do: A. }\n- { id: a, do: B. }'), 'duplicate-id', 'stages[0].steps[1].id'],
    [
      'a way to no step',
      withSteps('- { id: fit, do: A., hold: [{ ask: B?, if no: { go: fot } }] }'),
      'dangling-step',
      'stages[0].steps[0].hold[0].if no.go',
    ],
    ['a way to no side procedure', withSteps('- { id: a, do: A., see: b }'), 'dangling-side', 'stages[0].steps[0].see'],
    ['a supply that is none', withSteps('- { id: a, do: A., uses: [glue] }'), 'dangling-supply', 'stages[0].steps[0].uses[0]'],
    ['a part that is none', withGroup('name: bolt\ncount: 1\npart: new-bolt'), 'dangling-supply', 'stages[0].steps[0].fasteners[0].part'],
    [
      'names for fewer than the count',
      withGroup('name: bolt\ncount: 3\npositions: [a, b]'),
      'count-mismatch',
      'stages[0].steps[0].fasteners[0].positions',
    ],
    [
      'a name twice',
      withGroup('name: bolt\ncount: 2\npositions: [a, a]'),
      'duplicate-position',
      'stages[0].steps[0].fasteners[0].positions[1]',
    ],
    [
      'a layout for more than the count',
      withGroup('name: bolt\ncount: 3\nlayout: grid 2 x 2'),
      'layout-mismatch',
      'stages[0].steps[0].fasteners[0].layout',
    ],
    ['a share of no torque', withGroup('name: bolt\ncount: 3\npasses: [50%]'), 'bad-passes', 'stages[0].steps[0].fasteners[0].passes'],
    [
      'passes that stop short',
      withGroup('name: bolt\ncount: 3\ntorque: 9 N·m\npasses: [50%]'),
      'bad-passes',
      'stages[0].steps[0].fasteners[0].passes',
    ],
    [
      'passes that never reach the torque',
      withGroup('name: bolt\ncount: 3\ntorque: 9 N·m\npasses: [snug]'),
      'bad-passes',
      'stages[0].steps[0].fasteners[0].passes',
    ],
    [
      'passes that fall',
      withGroup('name: bolt\ncount: 3\ntorque: 9 N·m\npasses: [100%, 50%]'),
      'bad-passes',
      'stages[0].steps[0].fasteners[0].passes',
    ],
    [
      'angles that add up to another',
      withGroup('name: bolt\ncount: 3\ntorque: 9 N·m\nangle: 90\npasses: [100%, 60°]'),
      'angle-mismatch',
      'stages[0].steps[0].fasteners[0].angle',
    ],
  ])('because of %s says where', (_what, text, code, path) => {
    const [problem] = planProblems(text);
    expect(problem).toMatchObject({ code, path, build: 'K', file: 'practice.yaml' });
    expect(problem!.line).toBeGreaterThan(10);
  });

  it('says which step was probably meant', () => {
    expect(planProblems(withSteps('- { id: fit-cover, do: A., hold: [{ ask: B?, if no: { go: fit-covr } }] }'))[0]!.expected).toBe(
      'a step of the main line; did you mean "fit-cover"?',
    );
  });

  it('tells everything that is wrong at once', () => {
    expect(planProblems(withSteps('- { id: a, do: A., see: x, uses: [y] }\n- { id: a, do: B., see: z }'))).toHaveLength(4);
  });

  it('refuses side procedures that call each other in a circle', () => {
    const side = (id: string, see: string) => `  - id: ${id}\n    title: ${id}\n    steps: [{ id: in-${id}, do: A., see: ${see} }]\n`;
    const text = withSteps('- { id: a, do: A., see: x }', `sides:\n${side('x', 'y')}${side('y', 'x')}`);
    expect(planProblems(text).map(({ code }) => code)).toEqual(['side-in-circles', 'side-in-circles']);
  });

  it('refuses to jump out of a side procedure', () => {
    const text = withSteps(
      '- { id: a, do: A., see: x }',
      'sides:\n  - { id: x, title: X, steps: [{ id: b, do: B., hold: [{ ask: C?, if no: { go: a } }] }] }\n',
    );
    expect(planProblems(text)).toMatchObject([{ code: 'dangling-step', expected: 'a step of the same side procedure' }]);
  });

  it.each(['Q', 'toString', ''])('refuses the unknown build %j', (build) => {
    const planned = planJob(read(withSteps('- { id: a, do: A. }')), { build, crib: null, spokenUnit: null, today: '2026-01-01' });
    expect(planned).toMatchObject({ ok: false, problems: [{ code: 'unknown-build', expected: 'one of K, M' }] });
  });
});

it('labels invented values as such in the source that is read out', () => {
  const text = withSteps('- { id: a, do: A. }').replace('source: Invented.', 'source: Made for practice.\ninvented: true');
  expect(planOf(text).procedure.source).toBe('Invented values, for training only. Made for practice.');
});
