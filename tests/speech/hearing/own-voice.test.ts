import { beforeAll, describe, expect, it } from 'vitest';
import { createHearing } from '../../../src/speech/hearing/hearing.ts';
import type { Hearing } from '../../../src/speech/hearing/port.ts';
import { linda, slt, spoken } from './clips.ts';
import { hearingModels } from './models.ts';
import type { OwnSpeech } from './own-voice.ts';
import { lengthOf, overhear, quietBefore, spokenPrompt } from './own-voice.ts';

let hearing: Hearing;

beforeAll(async () => {
  hearing = createHearing(await hearingModels());
}, 60_000);

const promptOf = (text: string) => spokenPrompt(text, (clause) => spoken(slt, clause));
const obeyed = (speech: OwnSpeech) => overhear(hearing, speech).filter(({ isObeyed }) => isObeyed);

/** Lines with commands in them, or with what sounds like some. */
const lines = [
  "Say: that's done, what torque, hold on, or stop.",
  'Stopped. What did you feel? Does it bind?',
  'Skip the step? Say: yes correct, or no leave it.',
  'Number one, next. Four seven: forty-seven newton metres.',
  'Paused. Say carry on to go on.',
  'Before you start, about your wrenches.',
  'Step one three skipped.',
];

describe('the app and its own voice', { timeout: 60_000 }, () => {
  it.each(lines)('does not obey itself when it says "%s" as loud as anybody', async (text) => {
    expect(obeyed({ utterances: await promptOf(text), state: 'fastening', besides: new Float32Array(0) })).toEqual([]);
  });

  it('does not obey itself in the states in which a yes decides', async () => {
    const utterances = await promptOf(lines[2]!);
    for (const state of ['confirming', 'checking'] as const)
      expect(obeyed({ utterances, state, besides: new Float32Array(0) })).toEqual([]);
  });

  it.each([
    ['stop stop', 'stop'],
    ['hold on', 'hold-on'],
  ])('obeys somebody who says "%s" over it, a little louder', async (words, intent) => {
    const utterances = await promptOf('Eight carrier bolts. Seventeen millimetre socket, half an inch drive. Start at the front left.');
    const besides = new Float32Array(lengthOf(utterances));
    const gain = 10 ** (8 / 20);
    spoken(linda, words).forEach((sample, i) => (besides[quietBefore + 24000 + i] = sample * gain));
    expect(obeyed({ utterances, state: 'fastening', besides }).map((one) => one.intent)).toContain(intent);
  });
});
