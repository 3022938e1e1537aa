import { describe, expect, it } from 'vitest';
import { planJob } from '../../src/procedure/plan.ts';
import type { KitItem } from '../../src/procedure/plan-types.ts';
import type { Crib } from '../../src/torque/crib.ts';
import type { Degrees, Millimetres } from '../../src/torque/quantities.ts';
import { smallCrib } from './crib.ts';
import { planOf, read, withGroup, withSteps } from './written.ts';

const bolt = (more: string) => `name: bolt\ncount: 4\ndrive: hex 18\nsquare: 1/2\n${more}`;

function planWith(text: string, crib: Crib | null = smallCrib, today = '2026-01-01') {
  const planned = planJob(read(text), { build: 'K', crib, today, spokenUnit: null });
  if (!planned.ok) throw new Error(JSON.stringify(planned.problems));
  return planned.plan;
}

const settingsOf = (text: string, crib?: Crib, today?: string) =>
  planWith(text, crib, today).steps[0]!.groups[0]!.passes.map(({ setting }) => setting);
const named = (kit: readonly KitItem[]) => kit.map(({ count, name, steps }) => `${count} ${name}: ${steps.join(' ')}`);

describe('the kit list', () => {
  it('has each thing once, with the steps that need it, by kind and size', () => {
    const text = withSteps(
      `- id: one
  do: One.
  tools: [lamp]
  uses: [glue, stands]
  fasteners:
    - { name: a, count: 2, drive: hex 13, square: 3/8, torque: 22 N·m, reach: [extension 75, universal joint, extension 75] }
    - { name: b, count: 2, drive: internal serration T50, square: 1/2, torque: 60 N·m, angle: 90 }
- id: two
  do: Two.
  tools: [lamp]
  fasteners:
    - { name: c, count: 2, drive: hex 10, square: 3/8, torque: 9 N·m, single use: true }
    - { name: d, count: 3, drive: hex 13, square: 3/8, torque: 22 N·m, part: new-d }
    - { name: e, count: 1, drive: hand }`,
      'parts:\n  - { id: new-d, name: bolt for d, count: 3, single use: true }\nconsumables:\n  - { id: glue, name: glue }\n',
    );
    expect(named(planOf(text).kit)).toEqual([
      '1 axle stand: one',
      '1 torque wrench for 9 N·m to 22 N·m, 3/8 drive: one two',
      '1 torque wrench for 60 N·m, 1/2 drive: one',
      '1 angle gauge: one',
      '1 1/2 drive ratchet: one',
      '1 3/8 drive ratchet: one two',
      '1 10 mm socket, 3/8 drive: two',
      '1 13 mm socket, 3/8 drive: one two',
      '1 T50 internal-serration bit, 1/2 drive: one',
      '2 75 mm extension, 3/8 drive: one',
      '1 universal joint, 3/8 drive: one',
      '1 lamp: one two',
      '3 bolt for d: two',
      '2 new c: two',
      '1 glue: one',
    ]);
  });

  it('knows a socket that a step asks for by name as the one that a fastener takes', () => {
    const text = withSteps(`- { id: undo, do: Undo it., tools: ["13 mm socket, 3/8 drive"] }
- { id: fit, do: Fit it., fasteners: [{ name: a, count: 2, drive: hex 13, square: 3/8, torque: 22 N·m }] }`);
    expect(planOf(text).kit.filter(({ name }) => name.startsWith('13 mm'))).toMatchObject([{ kind: 'socket', steps: ['undo', 'fit'] }]);
  });

  it('asks for as many single-use fasteners as all steps take together', () => {
    const group = 'fasteners: [{ name: seal bolt, count: 2, drive: hand, single use: true }]';
    const text = withSteps(`- { id: one, do: One., ${group} }\n- { id: two, do: Two., ${group} }`);
    expect(planOf(text).kit).toMatchObject([
      { name: 'axle stand' },
      { name: 'new seal bolt', count: 4, singleUse: true, steps: ['one', 'two'] },
    ]);
  });

  it('says nothing of what is owned without a crib', () => {
    expect(planOf(withGroup(bolt('torque: 90 N·m'))).kit.every(({ owned, instead }) => owned === null && instead === null)).toBe(true);
  });

  it('has ids of its own for everything', () => {
    const { kit } = planOf(withGroup(bolt('torque: 90 N·m\nreach: [extension, "with extension, 1/2 drive"]')));
    expect(new Set(kit.map(({ id }) => id)).size).toBe(kit.length);
  });
});

describe('a kit list for a crib', () => {
  const holdings = (text: string) => Object.fromEntries(planWith(text).kit.map(({ name, owned, instead }) => [name, instead ?? owned]));

  it('names the own wrench with every setting it will have', () => {
    expect(holdings(withGroup(bolt('torque: 100 N·m\npasses: [50%, 100%, check]')))).toMatchObject({
      '40–200 wrench, set to 50 N·m and 100 N·m': true,
      '18 mm socket, 1/2 drive': true,
      '1/2 drive ratchet': true,
      'axle stand': null,
    });
  });

  it('asks for a wrench where none of the own ones reaches', () => {
    expect(holdings(withGroup(bolt('torque: 300 N·m')))).toMatchObject({ 'torque wrench for 300 N·m, 1/2 drive': false });
  });

  it.each([
    [
      'a bihex of the same size for a hexagon',
      'drive: hex 16\nsquare: 1/2',
      '16 mm socket, 1/2 drive',
      '16 mm deep bihex socket, 1/2 drive',
    ],
    ['another square that can be driven', 'drive: hex 13\nsquare: 3/8', '13 mm socket, 3/8 drive', '13 mm socket, 1/2 drive'],
    ['an inch size that is a hair larger', 'drive: hex 17.9\nsquare: 1/2', '17.9 mm socket, 1/2 drive', '18 mm socket, 1/2 drive'],
    ['a longer extension', 'reach: [extension 150]\nsquare: 1/2', '150 mm extension, 1/2 drive', '250 mm extension, 1/2 drive'],
    [
      'two extensions together',
      'reach: [extension 120]\nsquare: 1/2',
      '120 mm extension, 1/2 drive',
      '75 mm and 50 mm extensions together, 1/2 drive',
    ],
    ['a bar for a ratchet', 'square: 3/8', '3/8 drive ratchet', '3/8 drive bar'],
    ['a step adapter on a ratchet', 'square: 1/4', '1/4 drive ratchet', '1/2 drive ratchet with a 1/2 to 1/4 step adapter'],
  ])('offers %s', (_what, group, wanted, instead) => {
    const text = withGroup(`name: bolt\ncount: 1\n${group}${group.includes('drive:') ? '' : '\ndrive: internal serration T50'}`);
    expect(planWith(text).kit.find(({ name }) => name === wanted)).toMatchObject({ owned: false, instead });
  });

  it.each([
    ['a smaller socket', 'drive: hex 19\nsquare: 1/2', '19 mm socket, 1/2 drive'],
    ['a shallow socket where a deep one is needed', 'drive: hex 18\nsquare: 1/2\nreach: [deep socket]', '18 mm deep socket, 1/2 drive'],
    ['a hexagon socket for a bihex head', 'drive: bihex 18\nsquare: 1/2', '18 mm bihex socket, 1/2 drive'],
    ['another serration', 'drive: internal serration T45\nsquare: 1/2', 'T45 internal-serration bit, 1/2 drive'],
  ])('never offers %s', (_what, group, wanted) => {
    expect(planWith(withGroup(`name: bolt\ncount: 1\n${group}`)).kit.find(({ name }) => name === wanted)).toMatchObject({
      owned: false,
      instead: null,
    });
  });

  it('knows other tools by their name, whatever the capitals', () => {
    expect(holdings(withSteps('- { id: a, do: A., tools: [lamp, mirror] }'))).toMatchObject({ lamp: true, mirror: false });
  });
});

describe('the advice for a pass', () => {
  it('gives the own wrench and its setting', () => {
    expect(settingsOf(withGroup(bolt('torque: 90 N·m ±5')))).toEqual([
      {
        fits: true,
        wrench: '40–200 wrench',
        wrenchId: expect.any(String) as unknown,
        set: { value: 90, unit: 'N·m' },
        corrected: false,
        warnings: [],
      },
    ]);
  });

  it('corrects for a crowfoot, by the length of the own one', () => {
    // 100 × 400 / (400 + 50 × cos 45°) = 91.88 (computed; formula NAVEDTRA 14315)
    expect(settingsOf(withGroup(bolt('torque: 100 N·m\nreach: [crowfoot 30 at 45]')))[0]).toMatchObject({
      fits: true,
      corrected: true,
      set: { value: 92, unit: 'N·m' },
    });
  });

  describe('an extension that leads aside', () => {
    const leadsAside = withGroup(bolt('torque: 100 N·m\nreach: [extension 300 at 45]'));
    const own = (centre: number, angle: number | null): Crib => ({
      ...smallCrib,
      adapters: [
        {
          id: 'bent',
          kind: 'extension',
          size: null,
          sizeUnit: null,
          square: '1/2',
          centre: centre as Millimetres,
          angle: angle as Degrees,
        },
      ],
    });

    // 100 · 400 / (400 + 300 · cos 45°) = 65.34, and with 50 mm 91.88: T·L/(L + E·cos θ), NAVEDTRA 14315.
    it.each([
      ['the length that the procedure gives', smallCrib, 65],
      ['the length of the own one', own(50, null), 92],
      ['the length that the procedure gives, where the own one is bent otherwise', own(50, 90), 65],
    ])('is set by %s', (_, crib, set) => {
      expect(settingsOf(leadsAside, crib)[0]).toMatchObject({ fits: true, set: { value: set, unit: 'N·m' }, corrected: true });
    });

    it('stands in the kit, with what would serve instead', () => {
      const held = (crib: Crib) => planWith(leadsAside, crib).kit.find(({ kind }) => kind === 'adapter');
      expect(held(own(300, 45))).toMatchObject({ name: '300 mm extension at 45°, 1/2 drive', owned: true });
      expect(held(own(250, null))).toMatchObject({ owned: false, instead: '250 mm extension for any angle, 1/2 drive' });
      expect(held(own(300, 90))).toMatchObject({ owned: false, instead: null });
    });

    it('cannot be worked out together with a crowfoot', () => {
      expect(settingsOf(withGroup(bolt('torque: 100 N·m\nreach: [extension 300 at 45, crowfoot 50 at 0]')))[0]).toMatchObject({
        fits: false,
      });
    });
  });

  it('keeps a crowfoot of unknown angle square to the wrench', () => {
    expect(settingsOf(withGroup(bolt('torque: 100 N·m\nreach: [crowfoot]')))[0]).toMatchObject({
      fits: true,
      corrected: false,
      set: { value: 100, unit: 'N·m' },
      warnings: [{ code: 'keep-square' }],
    });
  });

  it('takes the length that the procedure gives where no own crowfoot is written down', () => {
    const text = withGroup('name: bolt\ncount: 1\ndrive: hex 21\nsquare: 1/2\ntorque: 100 N·m\nreach: [crowfoot 100 at 0]');
    expect(settingsOf(text)[0]).toMatchObject({ fits: true, corrected: true, set: { value: 80, unit: 'N·m' } });
  });

  it('says before the job that a calibration is overdue', () => {
    expect(settingsOf(withGroup(bolt('torque: 90 N·m ±5')), smallCrib, '2026-12-01')[0]).toMatchObject({
      fits: true,
      warnings: [{ code: 'calibration-overdue', calibrated: '2025-11-01', due: '2026-11-01' }],
    });
  });

  it('says why no wrench fits', () => {
    const [setting] = settingsOf(withGroup('name: bolt\ncount: 4\ndrive: hex 18\nsquare: 1/2\ntorque: 300 N·m'));
    expect(setting).toMatchObject({
      fits: false,
      reasons: expect.arrayContaining([
        expect.objectContaining({ code: 'over-range', wrench: '40–200 wrench', max: { value: 200, unit: 'N·m' } }),
      ]) as unknown,
    });
  });

  it('belongs to passes with a torque alone', () => {
    expect(
      settingsOf(withGroup(bolt('torque: 100 N·m\nangle: 90\npasses: [snug, 100%, 90°]'))).map((setting) => setting?.fits ?? null),
    ).toEqual([null, true, null]);
  });
});
