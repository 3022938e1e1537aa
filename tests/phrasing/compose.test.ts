import { describe, expect, it } from 'vitest';
import { line, listed, sentences } from '../../src/phrasing/compose.ts';
import type { Part } from '../../src/phrasing/compose.ts';
import { spelledStep } from '../../src/phrasing/spelled-step.ts';
import { bandInUnit, hasNoTarget, reachesFinal, settingDiffers } from '../../src/phrasing/torque-facts.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import { wordsOf } from '../../src/phrasing/words.ts';
import type { Degrees } from '../../src/torque/quantities.ts';
import { group, pass } from './samples.ts';

const whole = (...parts: readonly Part[]) => sentences(...parts).say;

describe('sentences', () => {
  it('get their capital and their full stop, and one of each', () => {
    expect(whole('step done', 'Go on.', null, 'is it tight?')).toBe('Step done. Go on. Is it tight?');
    expect(whole('stop!', 'wait…', 'he said "stop."')).toBe('Stop! Wait… He said "stop."');
    expect(whole('one. two? three! four')).toBe('One. Two? Three! Four.');
    expect(whole('is it tight?.', 'done..')).toBe('Is it tight? Done.');
  });

  it('end in no comma or colon, and have no gap before one', () => {
    expect(whole('left:', 'right,', 'up ;')).toBe('Left. Right. Up .');
    expect(whole('one , two,, three ,.')).toBe('One, two, three.');
    expect(whole('  one \n two  ')).toBe('One two.');
  });

  it('drop out where there is nothing in them', () => {
    expect(whole('', '  ', null)).toBe('');
    expect(sentences({ say: 'four seven', show: '47' }, { say: '', show: '±5' })).toEqual({ say: 'Four seven.', show: '47. ±5.' });
  });

  it('keep what is said apart from what is shown', () => {
    expect(line`left: ${{ say: 'two', show: '2' }} of ${'many'}${null}.`).toEqual({ say: 'left: two of many.', show: 'left: 2 of many.' });
  });

  it('are lists with their last word before the last', () => {
    expect(listed([], 'or').say).toBe('');
    expect(listed(['a'], 'or').say).toBe('a');
    expect(listed(['a', 'b'], 'or').say).toBe('a or b');
    expect(listed(['a', 'b', 'c'], 'or').say).toBe('a, b or c');
  });
});

describe('the number of a step', () => {
  const digits = (value: number) => String(value).split('').join(' ');
  it.each([
    ['12', '1 2'],
    ['A3', 'A 3'],
    ['A', 'A'],
    ['3b', '3b'],
    ['', ''],
  ])('%j is spelled "%s"', (number, say) => {
    expect(spelledStep(number, digits)).toEqual({ say, show: number });
  });
});

describe('a torque as it is spoken', () => {
  it('has a tolerance that is never wider for being converted, to two figures', () => {
    const torque = { value: 100, unit: 'N·m' } as const;
    expect(bandInUnit({ minus: 5, plus: 10 }, torque, 'N·m')).toEqual({ minus: 5, plus: 10 });
    // 3.688 and 7.376 lbf·ft.
    expect(bandInUnit({ minus: 5, plus: 10 }, torque, 'lbf·ft')).toEqual({ minus: 3.6, plus: 7.3 });
    expect(bandInUnit({ minus: 0, plus: 200 }, torque, 'lbf·ft')).toEqual({ minus: 0, plus: 140 });
    expect(bandInUnit({ minus: 0.05, plus: 0.05 }, torque, 'lbf·ft')).toEqual({ minus: 0.036, plus: 0.036 });
    // A whole figure stays what it is.
    expect(bandInUnit({ minus: 1, plus: 12 }, { value: 90, unit: 'daN·m' }, 'N·m')).toEqual({ minus: 10, plus: 120 });
  });

  it('is the final one only in value and in unit', () => {
    expect(reachesFinal(group(), pass())).toBe(true);
    expect(reachesFinal(group(), pass({ torque: { value: 54, unit: 'N·m' } }))).toBe(false);
    expect(reachesFinal(group(), pass({ torque: { value: 90, unit: 'lbf·ft' } }))).toBe(false);
    expect(reachesFinal(group(), pass({ torque: null }))).toBe(false);
    expect(reachesFinal(group({ torque: null }), pass())).toBe(false);
  });

  it('is missing only where there is neither torque nor angle, in any pass', () => {
    const seat = pass({ kind: 'seat', torque: null });
    expect(hasNoTarget(group({ torque: null, passes: [seat, seat] }))).toBe(true);
    expect(hasNoTarget(group({ torque: null, passes: [seat, pass()] }))).toBe(false);
    expect(hasNoTarget(group({ torque: null, passes: [seat, pass({ torque: null, angle: 90 as Degrees })] }))).toBe(false);
    expect(hasNoTarget(group({ passes: [seat] }))).toBe(false);
  });

  it('has a setting of its own only where a wrench fits and is set to something else', () => {
    const fits = { fits: true, wrench: 'Long', set: { value: 90, unit: 'N·m' }, corrected: false, warnings: [] } as const;
    expect(settingDiffers(pass({ setting: null }))).toBe(false);
    expect(settingDiffers(pass({ setting: { fits: false, reasons: [] } }))).toBe(false);
    expect(settingDiffers(pass({ setting: fits }))).toBe(false);
    expect(settingDiffers(pass({ setting: { ...fits, corrected: true } }))).toBe(true);
    expect(settingDiffers(pass({ setting: { ...fits, set: { value: 88, unit: 'N·m' } } }))).toBe(true);
    expect(settingDiffers(pass({ setting: { ...fits, set: { value: 90, unit: 'lbf·ft' } } }))).toBe(true);
  });
});

describe('what was heard, in plain words', () => {
  const words = (text: string) => wordsOf(text, packFor('en').lexicon.listening).join(' ');
  it.each([
    ['That’s DONE!', "that's done"],
    ['forty-seven point five', 'forty seven point five'],
    ['47mm', '47 mm'],
    ['47.5, please.', '47.5 please'],
    ['.5', '0.5'],
    ['set .5 now', 'set 0.5 now'],
    ['x.5', 'x.5'],
    ['five, six.', 'five six'],
    ['1,250', '1,250'],
    ['one - two', 'one two'],
    ['-5', '-5'],
    ['"stop" (now); go: on…', 'stop now go on'],
    ['  two   done ', 'two done'],
    ['90°', '90 °'],
    ['', ''],
    ['...', ''],
  ])('%j is "%s"', (text, plain) => {
    expect(words(text)).toBe(plain);
  });
});
