import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockHour, duration } from '../../src/phrasing/en/durations.ts';
import { text } from '../../src/phrasing/en/text.ts';

const spoken = (written: string) => text(written).say;

describe('written English aloud', () => {
  it.each([
    ['Fit the 10 mm bolts.', 'Fit the ten millimetre bolts.'],
    ['Leave a gap of 10 mm at the top.', 'Leave a gap of ten millimetres at the top.'],
    ['a 16 mm deep socket', 'a one six, sixteen millimetre deep socket'],
    ['a hole 12mm deep', 'a hole twelve millimetres deep'],
    ['47 N·m', 'four seven: forty-seven newton metres'],
    ['47Nm ±2', 'four seven: forty-seven newton metres plus or minus two'],
    ['35 lb-ft', 'three five: thirty-five foot pounds'],
    ['12 N·m to 40 N·m', 'twelve to four zero, forty newton metres'],
    ['10 mm to 1 in', 'ten millimetres to one inch'],
    ['0.05-0.15 mm', 'zero point zero five to zero point one five millimetres'],
    ['5–7 turns', 'five to seven turns'],
    ['the 8-bolt flange', 'the eight-bolt flange'],
    ['turn it 90°', 'turn it nine zero, ninety degrees'],
    ['-20 °C', 'minus twenty degrees celsius'],
    ['65 %', 'sixty-five percent'],
    ['M10x1.5 bolts', 'M ten bolts'],
    ['M14 bolts', 'M one four bolts'],
    ['M8 x 25', 'M eight'],
    ['a T50 bit', 'a T five zero bit'],
    ['the Brindle B4', 'the Brindle B four'],
    ['1/2 drive', 'half inch drive'],
    ['a 9/16 in spanner', 'a nine sixteenths inch spanner'],
    ['a 1 1/2 in hose', 'a one and a half inch hose'],
    ['7½ turns', 'seven and a half turns'],
    ['at 1:30', 'at half past one'],
    ["at 12 o'clock", "at twelve o'clock"],
    ['1,250 rpm', 'one two five zero, one thousand two hundred and fifty r p m'],
    ['approx. 5 min', 'about five minutes'],
    ['clean, e.g. with a rag', 'clean, for example with a rag'],
    ['nuts & bolts', 'nuts and bolts'],
    ['left/right', 'left or right'],
    ['Stop; look.', 'Stop, look.'],
    ['Fit it (dry).', 'Fit it, dry.'],
    ['fit 2 in the holes', 'fit two in the holes'],
    ['the 6 mm hex bit', 'the six millimetre hex bit'],
  ])('"%s" is "%s"', (written, expected) => {
    expect(spoken(written)).toBe(expected);
  });

  it('leaves plain words as they are', () => {
    for (const sentence of [
      'Tie the caliper up to the spring, not by its hose.',
      'Does it turn evenly, without knocks?',
      "the maker's manual",
    ]) {
      expect(spoken(sentence)).toBe(sentence);
    }
  });

  it('shows what was written', () => {
    expect(text('47 N·m ±2')).toEqual({ say: expect.any(String) as string, show: '47 N·m ±2' });
  });

  it('leaves no figures and no markup whatever is written', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...Array.from('0123456789 .,-/±°%·xM¼½"mNinft<>&é:')), maxLength: 40 }), (written) => {
        expect(spoken(written)).not.toMatch(/[\d<>±°%½¼&]/u);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('times', () => {
  it.each([
    [600, 'ten minutes', '10 min'],
    [150, 'two minutes thirty', '2 min 30 s'],
    [60, 'one minute', '1 min'],
    [45, 'forty-five seconds', '45 s'],
    [30, 'three zero, thirty seconds', '30 s'],
    [133, 'two minutes, one three, thirteen seconds', '2 min 13 s'],
    [1800, 'three zero, thirty minutes', '30 min'],
    [3600, 'one hour', '1 h'],
    [5400, 'one hour, three zero, thirty minutes', '1 h 30 min'],
    [3630, 'one hour, three zero, thirty seconds', '1 h 30 s'],
    [0, 'no seconds', '0 s'],
    [-5, 'no seconds', '0 s'],
    [59.6, 'one minute', '1 min'],
    [61, 'one minute, one second', '1 min 1 s'],
    [3690, 'one hour, one minute thirty', '1 h 1 min 30 s'],
    [7325, 'two hours, two minutes, five seconds', '2 h 2 min 5 s'],
  ])('%d seconds', (seconds, say, show) => {
    expect(duration(seconds)).toEqual({ say, show });
  });

  it.each([
    [12, "twelve o'clock", "12 o'clock"],
    [0.5, 'half past twelve', 'half past 12'],
    [4.5, 'half past four', 'half past 4'],
  ])('hour %d of the clock', (hour, say, show) => {
    expect(clockHour(hour)).toEqual({ say, show });
  });
});
