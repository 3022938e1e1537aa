import { describe, expect, it } from 'vitest';
import { makePasses, parseAngle, parseStage, parseStages, plainStages, totalAngle, usualStages } from '../../src/torque/passes.ts';
import type { Stage } from '../../src/torque/passes.ts';
import type { Degrees, Torque } from '../../src/torque/quantities.ts';

const order = [0, 2, 1, 3];
const round = [0, 1, 2, 3];
const newtonMetres = (value: number): Torque => ({ value, unit: 'N·m' });
const degrees = (value: number) => value as Degrees;
const torque = (value: number): Stage => ({ kind: 'torque', torque: newtonMetres(value) });
const angle = (value: number): Stage => ({ kind: 'angle', angle: degrees(value) });

function passes(stages: readonly Stage[], final: Torque | null) {
  const made = makePasses(stages, final, order, round);
  if (!made.ok) throw new Error(made.problems.map(({ code }) => code).join());
  return made.passes;
}

function codes(stages: readonly Stage[], final: Torque | null) {
  const made = makePasses(stages, final, order, round);
  return made.ok ? [] : made.problems.map(({ code, path }) => `${path} ${code}`);
}

describe('making passes', () => {
  it('takes shares of the final torque in its own unit and ends with a round in a circle', () => {
    const made = passes(usualStages, { value: 47, unit: 'lbf·ft' });
    expect(made.map(({ kind, torque: of, share }) => [kind, of?.value, of?.unit, share])).toEqual([
      ['torque', 14.1, 'lbf·ft', 30],
      ['torque', 30.55, 'lbf·ft', 65],
      ['torque', 47, 'lbf·ft', 100],
      ['check', 47, 'lbf·ft', null],
    ]);
    expect(made.map((pass) => pass.order)).toEqual([order, order, order, round]);
  });

  it('takes torques, then angles', () => {
    const made = passes([torque(20), torque(40), angle(60), angle(80)], newtonMetres(40));
    expect(made.map((pass) => pass.torque?.value ?? pass.angle)).toEqual([20, 40, 60, 80]);
    expect(totalAngle(made)).toBe(140);
  });

  it('keeps the angle of drawing up out of the angle of tightening', () => {
    expect(totalAngle(passes([{ kind: 'draw', angle: degrees(180) }, torque(40), angle(60)], newtonMetres(40)))).toBe(60);
  });

  it('gives each pass what its kind has, and nothing else', () => {
    const made = passes([{ kind: 'seat' }, { kind: 'draw', angle: degrees(180) }, torque(20), { kind: 'check' }], newtonMetres(20));
    expect(made).toEqual([
      { kind: 'seat', torque: null, angle: null, share: null, order },
      { kind: 'draw', torque: null, angle: 180, share: null, order },
      { kind: 'torque', torque: newtonMetres(20), angle: null, share: null, order },
      { kind: 'check', torque: newtonMetres(20), angle: null, share: null, order: round },
    ]);
    expect(totalAngle(made)).toBe(0);
  });

  it('makes one pass of a plain torque, and nothing more than is given', () => {
    expect(plainStages(newtonMetres(40), null)).toEqual([torque(40)]);
    expect(plainStages(newtonMetres(40), degrees(90))).toEqual([torque(40), angle(90)]);
    expect(plainStages(null, null)).toEqual([{ kind: 'seat' }]);
  });

  it.each<[string, Stage[], Torque | null, string[]]>([
    ['a share of nothing', [{ kind: 'share', percent: 30 }], null, ['[0] share-without-torque']],
    ['a share over a hundred', [{ kind: 'share', percent: 110 }], newtonMetres(44), ['[0] share-out-of-range', ' final-differs']],
    ['a share of naught', [{ kind: 'share', percent: 0 }, torque(44)], newtonMetres(44), ['[0] share-out-of-range']],
    ['a torque that falls', [torque(40), torque(20)], null, ['[1] torque-falls']],
    ['a torque twice', [torque(40), torque(40)], newtonMetres(40), ['[1] torque-falls']],
    ['a torque after an angle', [torque(20), angle(90), torque(40)], newtonMetres(40), ['[2] torque-after-angle']],
    ['a check after an angle', [torque(40), angle(90), { kind: 'check' }], newtonMetres(40), ['[2] nothing-to-check']],
    ['a check of nothing', [{ kind: 'seat' }, { kind: 'check' }], null, ['[1] nothing-to-check']],
    ['an end short of the final torque', [torque(20)], newtonMetres(40), [' final-differs']],
    ['no torque at all where there is a final one', [{ kind: 'seat' }], newtonMetres(40), [' final-differs']],
  ])('refuses %s', (_, stages, final, expected) => {
    expect(codes(stages, final)).toEqual(expected);
  });

  it('compares torques across units', () => {
    expect(codes([{ kind: 'torque', torque: { value: 12, unit: 'lbf·in' } }], { value: 1, unit: 'lbf·ft' })).toEqual([]);
    expect(codes([torque(20), { kind: 'torque', torque: { value: 15, unit: 'lbf·ft' } }], null)).toEqual([]);
    expect(codes([torque(20), { kind: 'torque', torque: { value: 14, unit: 'lbf·ft' } }], null)).toEqual(['[1] torque-falls']);
  });
});

describe('reading stages', () => {
  it.each<[string, Stage]>([
    ['30 %', { kind: 'share', percent: 30 }],
    ['30%', { kind: 'share', percent: 30 }],
    ['30 percent', { kind: 'share', percent: 30 }],
    ['20 N·m', torque(20)],
    ['20 Nm', torque(20)],
    ['+60°', angle(60)],
    ['60 deg', angle(60)],
    ['90 degrees', angle(90)],
    ['quarter turn', angle(90)],
    ['a quarter-turn', angle(90)],
    ['half a turn', angle(180)],
    ['12.5 %', { kind: 'share', percent: 12.5 }],
    ['100 per cent', { kind: 'share', percent: 100 }],
    ['+ 60 deg.', angle(60)],
    ['60 degree', angle(60)],
    ['another half turn', angle(180)],
    ['720°', angle(720)],
    ['Snug.', { kind: 'seat' }],
    ['hand  -  tight', { kind: 'seat' }],
    ['90-degree', angle(90)],
    ['snug', { kind: 'seat' }],
    ['hand-tight', { kind: 'seat' }],
    ['draw up', { kind: 'draw', angle: null }],
    ['draw 180°', { kind: 'draw', angle: degrees(180) }],
    ['draw up half a turn', { kind: 'draw', angle: degrees(180) }],
    ['check', { kind: 'check' }],
  ])('takes %s', (text, stage) => {
    expect(parseStage(text)).toEqual({ ok: true, value: stage });
  });

  it.each([
    ['1,000 %', 'ambiguous-number'],
    ['1.2.3 %', 'not-a-number'],
    ['about 30 %', 'not-a-stage'],
    ['30 % of 20 N·m', 'unknown-unit'],
    ['draw soon', 'not-a-number'],
    ['draw 900°', 'angle-out-of-range'],
    ['withdraw 90°', 'not-a-number'],
    // A turn back is no turn on.
    ['-60°', 'not-a-number'],
    ['+-60°', 'not-a-number'],
    ['-30 %', 'not-positive'],
    ['721°', 'angle-out-of-range'],
    ['0°', 'angle-out-of-range'],
    ['some turn', 'not-a-number'],
    ['turn by hand', 'not-a-stage'],
    ['110 %', 'share-out-of-range'],
    ['0 %', 'share-out-of-range'],
    ['900°', 'angle-out-of-range'],
    ['tight', 'not-a-stage'],
    ['20 bananas', 'unknown-unit'],
    ['20', 'no-unit'],
  ])('refuses %s with %s', (text, code) => {
    const stage = parseStage(text);
    expect(stage.ok ? 'read' : stage.problem).toMatchObject({ code, found: text });
  });

  it('reads several in a row', () => {
    expect(parseStages('25 N·m + 100°')).toEqual({ ok: true, value: [torque(25), angle(100)] });
    expect(parseStages('20 N·m → 40 N·m → +60° → +80°')).toEqual({ ok: true, value: [torque(20), torque(40), angle(60), angle(80)] });
    expect(parseStages('30 %, 65 %, 100 %, check')).toEqual({ ok: true, value: usualStages });
    expect(parseStages('25 N·m -> 100°; check')).toEqual({ ok: true, value: [torque(25), angle(100), { kind: 'check' }] });
    expect(parseStages('25 N·m +100°,')).toEqual({ ok: true, value: [torque(25), angle(100)] });
    expect(parseStages('snug, then 5,5 N·m, then a quarter turn')).toEqual({ ok: true, value: [{ kind: 'seat' }, torque(5.5), angle(90)] });
  });

  it('says which stage is wrong', () => {
    const stages = parseStages('20 N·m, 40 bananas');
    expect(stages.ok ? 'read' : stages.problem).toMatchObject({ path: '[1]', code: 'unknown-unit', found: '40 bananas' });
    expect(parseStages('').ok).toBe(false);
    const tooLong = parseStages('9'.repeat(321));
    expect(tooLong.ok ? 'read' : tooLong.problem).toMatchObject({ code: 'too-long', found: `${'9'.repeat(20)}…` });
    expect(parseStages('snug'.padEnd(320))).toEqual({ ok: true, value: [{ kind: 'seat' }] });
  });

  it('reads an angle by itself', () => {
    expect(parseAngle('another quarter turn')).toEqual({ ok: true, value: 90 });
    expect(parseAngle('90')).toEqual({ ok: true, value: 90 });
    expect(parseAngle('three-quarter turn')).toEqual({ ok: true, value: 270 });
    expect(parseAngle('half a turn')).toEqual({ ok: true, value: 180 });
    expect(parseAngle('22,5°')).toEqual({ ok: true, value: 22.5 });
    expect(parseAngle('90° then more').ok).toBe(false);
    expect(parseAngle('not another quarter turn').ok).toBe(false);
    expect(parseAngle('0°').ok).toBe(false);
    expect(parseAngle('soon').ok).toBe(false);
  });
});
