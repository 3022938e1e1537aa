import { describe, expect, it } from 'vitest';
import { figure } from '../../src/cli/figure.ts';
import { runVerb } from './terminal.ts';

const run = async (...args: readonly string[]) => {
  const { code, out, err } = await runVerb(figure, args);
  return { exit: code, out, text: out.join('\n'), complaint: err.join('\n') };
};
const json = async (...args: readonly string[]) => {
  const { text, exit } = await run(...args, '--json');
  return { exit, figures: JSON.parse(text) as Record<string, unknown> };
};
const notSpecification = 'Calculated figures are no specification';

describe('converting', () => {
  it('keeps the source beside the conversion, rounded and not', async () => {
    const { out, exit } = await run('47 lbf·ft', '--to', 'N·m', '--to', 'lbf·in');
    expect(exit).toBe(0);
    expect(out).toEqual([
      'Source: 47 lbf·ft',
      'Converted: 64 N·m (unrounded 63.7234435716 N·m)',
      'Converted: 560 lbf·in (unrounded 564 lbf·in)',
    ]);
  });

  it('shows the band of the source', async () => {
    expect((await run('5 to 7 Nm')).out).toEqual(['Source: 6 N·m ±1 N·m']);
    expect((await run('25 Nm', '--band', '-0/+10')).out).toEqual(['Source: 25 N·m −0/+10 N·m']);
  });

  it('gives the same as JSON', async () => {
    const { exit, figures } = await json('47 lbf·ft', '--to', 'kgf·m');
    expect(exit).toBe(0);
    expect(figures).toMatchObject({
      source: { torque: { value: 47, unit: 'lbf·ft' }, band: null },
      conversions: [{ shown: { value: 6.5, unit: 'kgf·m' } }],
      calculated: ['conversions'],
    });
  });
});

describe('a wrench with an adapter', () => {
  const adapter = ['--lever', '400', '--adapter', '50', '--angle', '45'];

  it('is set by the corrected torque, on a mark, with what that gives', async () => {
    const { out, exit } = await run('90 N·m', ...adapter, '--wrench', '40-200/5');
    expect(exit).toBe(0);
    expect(out).toEqual([
      'Source: 90 N·m',
      'Setting with an adapter of 50 mm at 45° on a lever of 400 mm, calculated: 82.69 N·m',
      'Set the wrench to 85 N·m, 42.5 % of its maximum.',
      '  Calculated at the fastener: 92.51 N·m, +2.792 % off the target',
      '  Within the wrench’s tolerance: 88.81 N·m to 96.21 N·m',
      'Calculated figures are no specification: the maker’s manual gives that.',
    ]);
  });

  it('gives the setting alone where no wrench is given, and no correction at a right angle', async () => {
    expect((await run('90 N·m', '--lever', '400', '--adapter', '50')).text).toContain('calculated: 80 N·m');
    expect((await run('90 N·m', '--lever', '400', '--adapter', '50', '--angle', '90')).text).toContain('calculated: 90 N·m');
  });

  it('ends with 1 and the reason when the wrench will not do', async () => {
    const high = await run('300 N·m', '--wrench', '40-200/5');
    expect(high.exit).toBe(1);
    expect(high.text).toContain('ends at 200 N·m');
    const coarse = await run('117.391 N·m ±1 %', '--wrench', '40-200/5');
    expect(coarse.exit).toBe(1);
    expect(coarse.text).toContain('nearest, 115 N·m, is 2.04 % off');
    expect((await run('117.391 N·m ±1 %', '--wrench', '40-200/1')).exit).toBe(0);
  });

  it('warns of a setting low in the range, and takes a class for the tolerance', async () => {
    const { text, exit } = await run('8 N·m', '--wrench', '5-100/0.1', '--tolerance', 'ii-a');
    expect(exit).toBe(0);
    expect(text).toContain('Warning: It is set to 8 % of its maximum');
    expect(text).toContain('7.52 N·m to 8.48 N·m');
  });

  it('takes a wrench in another unit than the source', async () => {
    const { figures } = await json('47 lbf·ft', '--wrench', '20-100/1 Nm');
    expect(figures['wrench']).toMatchObject({ fits: true, set: { value: 64, unit: 'N·m' } });
  });
});

describe('a thread', () => {
  it('gets its assembly figures, called calculated', async () => {
    const { text, exit } = await run('--thread', 'M10x1.25', '--class', '10.9', '--mu', '0.12');
    expect(exit).toBe(0);
    expect(text).toContain('M10x1.25, calculated for a friction of 0.12: stress area 61.2 mm²');
    expect(text).toContain('10.9: proof load 50.79 kN');
    expect(text).toContain('preload 46.46 kN, torque 74.68 N·m');
    expect(text).toContain(notSpecification);
  });

  it('gets the usual classes where none is given, and the unit asked for', async () => {
    const { figures } = await json('--thread', 'M8');
    expect(figures['thread']).toMatchObject({ classes: [{ name: '8.8' }, { name: '10.9' }, { name: '12.9' }], preload: null });
    const inches = await json('30 lbf·ft', '--thread', '3/8-16', '--to', 'lbf·in');
    expect(inches.figures['thread']).toMatchObject({
      classes: [{ name: 'grade 2' }, { name: 'grade 5', assemblyTorque: { unit: 'lbf·in' } }, { name: 'grade 8' }],
    });
  });

  it('judges a torque, and ends with 1 when it is not plausible', async () => {
    const good = await run('16 lbf·ft', '--thread', 'M8', '--class', '8.8');
    expect(good.exit).toBe(0);
    expect(good.text).toContain('The torque is plausible.');
    const high = await run('16 lbf·ft', '--thread', 'M6');
    expect(high.exit).toBe(1);
    expect(high.text).toContain('The torque is too high');
    expect(high.text).toContain('proof load of 10.9, assumed');
    expect((await run('22 N·m', '--thread', 'M6', '--class', '8.8')).text).toContain('The torque is impossible');
    expect((await run('2 N·m', '--thread', 'M12')).text).toContain('The torque is too low');
  });
});

describe('bad usage', () => {
  it.each([
    [[], 'a torque, a thread, or both are needed'],
    [['bogus'], 'torque: found bogus, expected a value and a unit'],
    [['47', 'lbf·ft'], 'put quotes round it'],
    [['47 lbf·ft', '--to', 'bananas'], '--to: found bananas, expected a torque unit'],
    [['47 lbf·ft', '--band', 'narrow'], '--band: found narrow'],
    [['90 N·m', '--lever', '400'], '--lever and --adapter go together'],
    [['90 N·m', '--lever', 'long', '--adapter', '50'], '--lever: found long'],
    [['90 N·m', '--angle', '45'], '--angle needs an adapter'],
    [['90 N·m', '--lever', '50', '--adapter', '60', '--angle', '180'], 'expected an adapter shorter than the lever'],
    [['90 N·m', '--wrench', '200-40'], '--wrench: found 200-40'],
    [['90 N·m', '--tolerance', '4'], '--tolerance needs a wrench'],
    [['90 N·m', '--wrench', '40-200', '--tolerance', 'good'], '--tolerance: found good'],
    [['--wrench', '40-200', '--thread', 'M10'], '--wrench needs a torque'],
    [['--thread', 'M10x3'], '--thread: found M10x3'],
    [['--thread', 'M10', '--class', '7.7'], '--class: found 7.7'],
    [['--thread', 'M10', '--mu', '2'], '--mu: expected a friction between 0 and 1'],
    [['90 N·m', '--mu', '0.1'], '--mu needs a thread'],
    [['90 N·m', '--frob'], 'frob'],
  ])('%j is refused: %s', async (args, complaint) => {
    const result = await run(...args);
    expect(result.exit).toBe(2);
    expect(result.complaint).toContain(complaint);
    expect(result.out).toEqual([]);
  });
});

it('says in its help that what it calculates is no specification', () => {
  expect(figure.help).toContain(notSpecification);
});
