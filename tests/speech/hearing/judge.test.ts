import { describe, expect, it } from 'vitest';
import { defaultOptions } from '../../../src/speech/hearing/hearing.ts';
import { judge, type Evidence, type SecondOpinion } from '../../../src/speech/hearing/judge.ts';

const settings = defaultOptions.judge;
const kinds = {
  isRisky: (text: string) => text === 'skip the step',
  hasNumber: (text: string) => text.startsWith('reading'),
  isUrgent: (text: string) => text === 'stop',
};
const heard = (text: string, parts: Partial<Evidence> = {}): Evidence => ({
  text,
  fit: -0.2,
  worstWord: -1,
  phones: 9,
  lead: 12,
  ...parts,
});
const says =
  (text: string, margin = 8) =>
  (): SecondOpinion => ({ text, phones: 9, margin: () => margin });
const silent = says('');
const asked = (): SecondOpinion => {
  throw new Error('nobody should have been asked');
};
const ruling = (evidence: readonly Evidence[], second: () => SecondOpinion, seconds = 1): string => {
  const made = judge(evidence, seconds, kinds, second, settings);
  return made.accepted ? made.text : '';
};

describe('the judge', () => {
  it('takes the network at its word where one sentence fits well and no other nearly so', () => {
    expect(ruling([heard('what torque'), heard('what size', { fit: -2, lead: -12 })], asked)).toBe('what torque');
  });

  it('asks for a second opinion where the fit is poor, a word is poor, or another sentence is close', () => {
    for (const parts of [{ fit: settings.sure.fit - 0.1 }, { worstWord: settings.sure.word - 0.1 }, { lead: settings.sure.lead - 0.1 }]) {
      expect(ruling([heard('what torque', parts)], silent)).toBe('');
      expect(ruling([heard('what torque', parts)], says('what torque'))).toBe('what torque');
    }
  });

  it('asks more of numbers, which differ by little', () => {
    const parts = { lead: (settings.sure.lead + settings.number.lead) / 2 };
    expect(ruling([heard('what torque', parts)], silent)).toBe('what torque');
    expect(ruling([heard('reading ninety', parts)], silent)).toBe('');
  });

  it('asks less of "stop"', () => {
    expect(ruling([heard('stop', { phones: 4, fit: settings.urgent.fit, lead: settings.urgent.lead })], asked)).toBe('stop');
    expect(ruling([heard('done', { phones: 4, fit: settings.urgent.fit, lead: settings.urgent.lead })], silent)).toBe('');
  });

  it('asks more of what is risky', () => {
    const parts = { fit: (settings.sure.fit + settings.risky.fit) / 2 };
    expect(ruling([heard('what torque', parts)], silent)).toBe('what torque');
    expect(ruling([heard('skip the step', parts)], silent)).toBe('');
  });

  it('never takes something risky on the second recogniser alone', () => {
    const evidence = [heard('skip that one', { lead: 0.3 }), heard('skip the step', { lead: -0.3 })];
    expect(ruling(evidence, says('skip the step', 20))).toBe('');
  });

  it('believes the second recogniser only in what the network holds for nearly as likely', () => {
    const close = [heard('go on', { lead: 1 }), heard('hold on', { lead: -1 })];
    expect(ruling(close, says('hold on'))).toBe('hold on');
    const far = [heard('go on', { lead: 1.4 }), heard('hold on', { lead: -settings.close - 1 })];
    expect(ruling(far, says('hold on'))).toBe('');
    expect(ruling(close, says('what torque', 20))).toBe('');
  });

  it('never takes a number on the second recogniser alone, which mistakes tens for teens', () => {
    const close = [heard('reading seventy', { lead: 2 }), heard('reading seventeen', { lead: -2 })];
    expect(ruling(close, says('reading seventeen', 20))).toBe('');
    expect(ruling(close, says('reading seventy'))).toBe('reading seventy');
  });

  it('hears nothing in what fits nothing, whatever the second recogniser says', () => {
    expect(ruling([heard('volume up', { fit: -8 })], asked)).toBe('');
    expect(ruling([], asked)).toBe('');
  });

  it('hears nothing in a sentence far too short for the time it is said to fill', () => {
    expect(ruling([heard('stop', { phones: 4 })], asked, 4)).toBe('');
  });
});

describe('where the second recogniser may be taken alone', () => {
  const alone = { ...settings, alone: { most: 4, risky: 7 } };
  const poor = [heard('what torque', { fit: -5 })];
  it.each([
    ['step done', 4, 'step done'],
    ['step done', 3.9, ''],
    ['skip the step', 6.9, ''],
    ['skip the step', 7, 'skip the step'],
    ['reading four', 6.9, ''],
    ['', 20, ''],
  ])('takes "%s" at a margin of %d for "%s"', (text, margin, taken) => {
    const made = judge(poor, 1, kinds, says(text, margin), alone);
    expect(made.accepted ? made.text : '').toBe(taken);
  });
});
