import { beforeAll, describe, expect, it } from 'vitest';
import { createHearing } from '../../../src/speech/hearing/hearing.ts';
import type { Hearing } from '../../../src/speech/hearing/port.ts';
import { splitText } from '../../../src/speech/voice/text-chunks.ts';
import { linda, slt, spoken } from './clips.ts';
import { hearingModels } from './models.ts';
import { lengthOf, obeyed, quietBefore } from './own-voice.ts';

let hearing: Hearing;

beforeAll(async () => {
  hearing = createHearing(await hearingModels());
}, 60_000);

const chunksOf = (text: string) => splitText(text, 80, true).map((chunk) => ({ text: chunk.text, sound: spoken(slt, chunk.text) }));

/** Lines with commands in them, or with what sounds like some. */
const lines = [
  "Say: that's done, what torque, hold on, or stop.",
  'Stopped. What did you feel? Does it bind?',
  'Skip the step? Say: yes correct, or no leave it.',
  'Number one, next. Four seven: forty-seven newton metres.',
  'Paused. Say carry on to go on.',
];

describe('the app and its own voice', { timeout: 60_000 }, () => {
  it.each(lines)('does not obey itself when it says "%s" as loud as anybody', (text) => {
    expect(obeyed(hearing, { chunks: chunksOf(text), state: 'fastening', besides: new Float32Array(0) })).toEqual([]);
  });

  it('does not obey itself in the states in which a yes decides', () => {
    for (const state of ['confirming', 'checking'] as const)
      expect(obeyed(hearing, { chunks: chunksOf(lines[2]!), state, besides: new Float32Array(0) })).toEqual([]);
  });

  it.each([
    ['stop stop', 'stop'],
    ['hold on', 'hold-on'],
  ])('obeys somebody who says "%s" over it, a little louder', (words, intent) => {
    const chunks = chunksOf('Eight carrier bolts. Seventeen millimetre socket, half an inch drive. Start at the front left.');
    const besides = new Float32Array(lengthOf(chunks));
    const gain = 10 ** (8 / 20);
    spoken(linda, words).forEach((sample, i) => (besides[quietBefore + 24000 + i] = sample * gain));
    expect(obeyed(hearing, { chunks, state: 'fastening', besides }).map((one) => one.intent)).toContain(intent);
  });
});
