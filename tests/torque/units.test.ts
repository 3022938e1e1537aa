import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { torqueUnits } from '../../src/torque/quantities.ts';
import type { Torque } from '../../src/torque/quantities.ts';
import {
  convert,
  formatTorque,
  fromNewtonMetres,
  parseTorque,
  parseTorqueUnit,
  shareOfTorque,
  shownTorque,
  spokenRounding,
  toNewtonMetres,
} from '../../src/torque/units.ts';

const unit = fc.constantFrom(...torqueUnits);
const value = fc.double({ min: 1e-3, max: 1e5, noNaN: true });

describe('conversion', () => {
  it('comes back to where it began', () => {
    fc.assert(
      fc.property(value, unit, unit, (number, from, to) => {
        const back = convert(convert({ value: number, unit: from }, to), from);
        expect(Math.abs(back.value / number - 1)).toBeLessThan(1e-14);
      }),
    );
  });

  it('leaves a torque in its own unit untouched', () => {
    const torque: Torque = { value: 47, unit: 'lbf·ft' };
    expect(convert(torque, 'lbf·ft')).toBe(torque);
  });

  it('is exact within one system of units', () => {
    expect(convert({ value: 47, unit: 'lbf·ft' }, 'lbf·in').value).toBe(564);
    expect(convert({ value: 2, unit: 'lbf·in' }, 'ozf·in').value).toBe(32);
    expect(convert({ value: 0.7, unit: 'kgf·m' }, 'kgf·cm').value).toBe(70);
    expect(convert({ value: 9, unit: 'daN·m' }, 'N·m').value).toBe(90);
  });

  it('goes to newton metres and back', () => {
    fc.assert(
      fc.property(value, unit, (number, to) => {
        const torque = { value: number, unit: to };
        expect(Math.abs(fromNewtonMetres(toNewtonMetres(torque), to).value / number - 1)).toBeLessThan(1e-14);
      }),
    );
  });
});

describe('spoken rounding', () => {
  it('is never more than one percent off', () => {
    fc.assert(fc.property(value, (number) => Math.abs(spokenRounding(number) / number - 1) <= 0.01));
  });

  it('has no figure that could be spared', () => {
    fc.assert(
      fc.property(value, (number) => {
        const spoken = spokenRounding(number);
        const figures = [1, 2, 3].find((count) => Number(spoken.toPrecision(count)) === spoken) ?? 4;
        expect(figures).toBeLessThan(4);
        if (figures > 1) {
          expect(Math.abs(Number(number.toPrecision(figures - 1)) / number - 1)).toBeGreaterThan(0.01);
        }
      }),
    );
  });

  it.each([
    [18.4390537319, 18.4],
    [108.465435866512, 108],
    [95.883, 96],
    [59.0049, 59],
    [4.0566, 4.06],
    [101, 100],
    [99, 99],
  ])('says %d as %d', (exact, spoken) => {
    expect(spokenRounding(exact)).toBe(spoken);
  });

  it('never touches the value of the source itself', () => {
    expect(shownTorque({ value: 101, unit: 'N·m' }, 'N·m')).toEqual({ value: 101, unit: 'N·m' });
    expect(shownTorque({ value: 101, unit: 'N·m' }, null)).toEqual({ value: 101, unit: 'N·m' });
    expect(shownTorque({ value: 101, unit: 'N·m' }, 'lbf·ft')).toEqual({ value: 74, unit: 'lbf·ft' });
  });
});

describe('reading a torque', () => {
  it.each([
    ['47 lbf·ft', 47, 'lbf·ft'],
    ['47 ft-lb', 47, 'lbf·ft'],
    ['47 lb ft', 47, 'lbf·ft'],
    ['47 lb-ft', 47, 'lbf·ft'],
    ['47 ft/lbs', 47, 'lbf·ft'],
    ['47 ft. lbs.', 47, 'lbf·ft'],
    ['47lbft', 47, 'lbf·ft'],
    ['47 FT LBF', 47, 'lbf·ft'],
    ['47 foot pounds', 47, 'lbf·ft'],
    ['47 foot-pounds', 47, 'lbf·ft'],
    ['47 pound-force feet', 47, 'lbf·ft'],
    ['7½ lbf·ft', 7.5, 'lbf·ft'],
    ['7 1/2 lbf·ft', 7.5, 'lbf·ft'],
    ['89 in-lb', 89, 'lbf·in'],
    ['89 in. lbs.', 89, 'lbf·in'],
    ['89 inch pounds', 89, 'lbf·in'],
    ['90 Nm', 90, 'N·m'],
    ['90N·m', 90, 'N·m'],
    ['90 N.m', 90, 'N·m'],
    ['90 N-m', 90, 'N·m'],
    ['90 nm', 90, 'N·m'],
    ['90 newton metres', 90, 'N·m'],
    ['90 newton-meters', 90, 'N·m'],
    ['5,5 N m', 5.5, 'N·m'],
    ['1 200 N·m', 1200, 'N·m'],
    ['5.5 kgf.m', 5.5, 'kgf·m'],
    ['5.5 kg-m', 5.5, 'kgf·m'],
    ['5.5 mkg', 5.5, 'kgf·m'],
    ['5.5 kpm', 5.5, 'kgf·m'],
    ['55 kg·cm', 55, 'kgf·cm'],
    ['50 ozf-in', 50, 'ozf·in'],
    ['50 in oz', 50, 'ozf·in'],
    ['50 ounce inches', 50, 'ozf·in'],
    ['9 daNm', 9, 'daN·m'],
    ['9 daN·m', 9, 'daN·m'],
    ['9 decanewton metres', 9, 'daN·m'],
    ['  47  lbf·ft.  ', 47, 'lbf·ft'],
    ['47. N·m', 47, 'N·m'],
    ['1-1/2 lbf·ft', 1.5, 'lbf·ft'],
    ['1/2 lbf·ft', 0.5, 'lbf·ft'],
    ['0.001 N·m', 0.001, 'N·m'],
    ['1 Nm'.padEnd(80), 1, 'N·m'],
  ] as const)('takes %s', (text, number, of) => {
    expect(parseTorque(text)).toEqual({ ok: true, value: { value: number, unit: of } });
  });

  it.each([
    ['90', 'no-unit'],
    ['Nm', 'no-value'],
    ['', 'no-value'],
    ['about 5 Nm', 'no-value'],
    ['5 Nm 6', 'unknown-unit'],
    ['5 -5 Nm', 'unknown-unit'],
    ['-Nm', 'no-value'],
    ['−5 Nm', 'not-positive'],
    ['- 5 Nm', 'not-positive'],
    ['1 Nm'.padEnd(81), 'too-long'],
    ['-5 Nm', 'not-positive'],
    ['0 Nm', 'not-positive'],
    ['90 mNm', 'unknown-unit'],
    ['3 kN·m', 'unknown-unit'],
    ['12 N/m', 'unknown-unit'],
    ['12 m·N', 'unknown-unit'],
    ['12 lbf·m', 'unknown-unit'],
    ['47 pounds', 'unknown-unit'],
    ['1.5.2 Nm', 'not-a-number'],
    ['1,200 lbf·in', 'ambiguous-number'],
    ['1 Nm'.padEnd(500), 'too-long'],
  ] as const)('refuses %j with %s', (text, code) => {
    const result = parseTorque(text);
    expect(result.ok ? 'read' : result.problem.code).toBe(code);
  });

  it('says what was found and what was expected', () => {
    expect(parseTorque('47 pounds')).toEqual({
      ok: false,
      problem: {
        code: 'unknown-unit',
        path: '',
        found: '47 pounds',
        expected: 'a torque unit: N·m, lbf·ft, lbf·in, kgf·m, kgf·cm, ozf·in, daN·m',
      },
    });
  });

  it('reads back whatever is written out', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000_000 }), fc.constantFrom(1, 10, 1000), unit, (whole, divisor, of) => {
        const torque = { value: whole / divisor, unit: of };
        expect(parseTorque(formatTorque(torque))).toEqual({ ok: true, value: torque });
      }),
    );
  });

  it('answers every text without throwing', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 120 }), (text) => typeof parseTorque(text).ok === 'boolean'));
  });

  it('knows a unit on its own', () => {
    expect(parseTorqueUnit('foot pounds')).toEqual({ ok: true, value: 'lbf·ft' });
    expect(parseTorqueUnit(' Nm ')).toEqual({ ok: true, value: 'N·m' });
    expect(parseTorqueUnit('Nm'.padEnd(81)).ok).toBe(true);
    expect(parseTorqueUnit('my Nm').ok).toBe(false);
    expect(parseTorqueUnit('Nm more').ok).toBe(false);
    expect(parseTorqueUnit('bananas').ok).toBe(false);
  });
});

describe('writing a torque', () => {
  it('shows the source value without binary noise', () => {
    expect(formatTorque({ value: 47, unit: 'lbf·ft' })).toBe('47 lbf·ft');
    expect(formatTorque({ value: 0.1 + 0.2, unit: 'N·m' })).toBe('0.3 N·m');
    expect(formatTorque({ value: 1e-7, unit: 'kgf·m' })).toBe('0.0000001 kgf·m');
  });

  it('takes a share in the unit of the source', () => {
    expect(shareOfTorque({ value: 47, unit: 'lbf·ft' }, 30)).toEqual({ value: 14.1, unit: 'lbf·ft' });
  });
});
