import { describe, expect, it } from 'vitest';
import { plausibleTorque } from '../../src/torque/plausibility.ts';
import type { Torque } from '../../src/torque/quantities.ts';
import { socketFits } from '../../src/torque/sockets.ts';
import { threadNamed } from './thread-named.ts';

const pounds = (value: number): Torque => ({ value, unit: 'lbf·ft' });
const verdict = (thread: string, className: string | null, torque: Torque, angled = false) =>
  plausibleTorque(threadNamed(thread), className, torque, angled)?.verdict;

// Facts of the trade (common practice): the small-hexagon head, its thread, the usual torque, and the next smaller thread.
const trade = [
  ['10', 'M6', [7, 8], 'M5'],
  ['12', 'M8', [16], 'M6'],
  ['14', 'M10', [28, 30, 33], 'M8'],
  ['17', 'M12', [47], 'M10'],
  ['19', 'M14', [84], 'M12'],
] as const;

describe('torques of the trade', () => {
  it.each(trade)('a small hexagon of %s mm goes with %s', (size, thread) => {
    expect(socketFits(threadNamed(thread), 'hex', size, 'mm').standards).toContain('small hexagon (JIS)');
  });

  it.each(trade)('what a %s mm head on %s usually gets is plausible, with the class known or not', (_, thread, torques) => {
    for (const value of torques) {
      expect(verdict(thread, '8.8', pounds(value))).toBe('plausible');
      expect(verdict(thread, null, pounds(value))).toBe('plausible');
    }
  });

  it.each(trade)('what a %s mm head on %s usually gets is beyond the proof load of the next smaller thread', (_, __, torques, smaller) => {
    for (const value of torques) expect(['too-high', 'impossible']).toContain(verdict(smaller, '8.8', pounds(value)));
  });

  it.each([
    ['M5', 8],
    ['M6', 16],
    ['M8', 47],
    ['M10', 84],
  ])('is not plausible on %s in any usual class either (%d lbf·ft)', (thread, value) => {
    expect(['too-high', 'impossible']).toContain(verdict(thread, null, pounds(value)));
  });

  it('84 lbf·ft are plausible on the larger threads', () => {
    for (const thread of ['M12x1.25', 'M14x1.5', 'M16']) expect(verdict(thread, '10.9', pounds(84))).toBe('plausible');
  });
});

describe('judging a torque', () => {
  const newtonMetres = (value: number): Torque => ({ value, unit: 'N·m' });

  it('calls impossible what even a rough thread turns into more than the proof load', () => {
    expect(verdict('M6', '8.8', newtonMetres(22))).toBe('impossible');
    expect(verdict('M6', null, newtonMetres(50))).toBe('impossible');
    expect(verdict('M6', '12.9', newtonMetres(22))).toBe('too-high');
  });

  it('takes 12.9 for possible but not for usual', () => {
    expect(verdict('M8', null, newtonMetres(46))).toBe('too-high');
    expect(verdict('M8', '12.9', newtonMetres(46))).toBe('plausible');
  });

  it('finds a loose one too low, unless an angle follows', () => {
    expect(verdict('M12', '8.8', newtonMetres(8))).toBe('too-low');
    expect(verdict('M12', null, newtonMetres(8))).toBe('too-low');
    expect(verdict('M12', '8.8', newtonMetres(8), true)).toBe('plausible');
  });

  it('lets an ordinary drain plug be', () => {
    expect(verdict('M14x1.5', null, newtonMetres(25))).toBe('plausible');
  });

  it('says why', () => {
    const why = plausibleTorque(threadNamed('M10'), '8.8', newtonMetres(48));
    expect(why).toMatchObject({ verdict: 'plausible', classAssumed: false, judgedBy: { name: '8.8' } });
    expect(why?.share).toBeCloseTo(0.872, 3);
    expect((why?.preload ?? 0) / (why?.proofLoad ?? 1)).toBe(why?.share);
    expect(why?.range.low).toBeLessThan(48);
    expect(why?.range.high).toBeGreaterThan(48);
  });

  it('names the weakest usual class that could take it', () => {
    expect(plausibleTorque(threadNamed('M10'), null, newtonMetres(48))).toMatchObject({ classAssumed: true, judgedBy: { name: '8.8' } });
    expect(plausibleTorque(threadNamed('M10'), null, newtonMetres(70))).toMatchObject({ classAssumed: true, judgedBy: { name: '10.9' } });
    expect(plausibleTorque(threadNamed('1/2-13'), null, pounds(75))).toMatchObject({ verdict: 'plausible', judgedBy: { name: 'grade 5' } });
  });

  it('has no opinion on a class that it does not know', () => {
    expect(plausibleTorque(threadNamed('M10'), 'titanium', newtonMetres(48))).toBeNull();
  });

  it('is plausible at both ends of the range it gives, and not beyond', () => {
    for (const thread of ['M6', 'M10x1.25', '3/8-16']) {
      const range = plausibleTorque(threadNamed(thread), null, newtonMetres(10))!.range;
      expect(verdict(thread, null, newtonMetres(range.low * 1.001))).toBe('plausible');
      expect(verdict(thread, null, newtonMetres(range.high * 0.999))).toBe('plausible');
      expect(verdict(thread, null, newtonMetres(range.low * 0.999))).toBe('too-low');
      expect(verdict(thread, null, newtonMetres(range.high * 1.001))).toBe('too-high');
    }
  });
});
