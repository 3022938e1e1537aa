import { beforeAll, describe, expect, it } from 'vitest';
import { tryTakes } from '../../src/speech/enrolment/trial.ts';
import { TakeFinder, type Found } from '../../src/speech/enrolment/take-finder.ts';
import { createHearing, type HearingModels } from '../../src/speech/hearing/hearing.ts';
import { learnVoice, type OwnVoice, type Take } from '../../src/speech/hearing/own-voice.ts';
import { benchGrammar } from '../bench/voice/commands.ts';
import { inRoom, joined, linda, quiet, slt, spoken } from './hearing/clips.ts';
import { hearingModels } from './hearing/models.ts';

let models: HearingModels;

beforeAll(async () => {
  models = await hearingModels();
}, 60_000);

/** Sound as a microphone gives it, in blocks. */
function finding(text: string, sound: Float32Array): Found[] {
  const finder = new TakeFinder(models.network, models.dictionary);
  finder.ask(text);
  const found: Found[] = [];
  for (let at = 0; at < sound.length; at += 1280) found.push(...finder.push(sound.subarray(at, at + 1280)));
  return found;
}

describe('what was asked for', { timeout: 60_000 }, () => {
  it('is cut out of the sound, with a little quiet around it', () => {
    const voice = spoken(slt, 'what torque');
    const [take, ...more] = finding('what torque', inRoom(voice));
    expect(more).toEqual([]);
    expect(take).toMatchObject({ kind: 'take', text: 'what torque' });
    const seconds = take?.kind === 'take' ? take.sound.length / 16_000 : 0;
    expect(seconds).toBeGreaterThan(voice.length / 16_000);
    expect(seconds).toBeLessThan(voice.length / 16_000 + 0.9);
  });

  it.each([
    ['other words', 'my brother left the ladder behind the shed'],
    ['far too many', 'what torque and which socket and how many are left and where is the next one and why'],
  ])('is not found in %s', (_, text) => {
    expect(finding('what torque', inRoom(spoken(slt, text))).map(({ kind }) => kind)).toEqual(['unlike']);
  });

  it('is not looked for while nothing is asked', () => {
    const finder = new TakeFinder(models.network, models.dictionary);
    const sound = inRoom(spoken(slt, 'what torque'));
    expect(finder.push(sound)).toEqual([]);
    finder.ask('what torque');
    expect(finder.push(joined(quiet(0.5), sound)).map(({ kind }) => kind)).toEqual(['take']);
  });
});

describe('what is learnt of a voice', { timeout: 120_000 }, () => {
  const commands = ['what torque', 'say again', 'hold on', 'step done'];
  let takes: readonly Take[] = [];
  let own: OwnVoice;

  beforeAll(() => {
    takes = commands.map((text) => ({ text, sound: inRoom(spoken(slt, text)) }));
    own = learnVoice(models.network, models.dictionary, takes, { passes: 4, rate: 0.000_05, hold: 0.5, noises: [10] });
  });

  it('makes what was said likelier', () => {
    const confidence = (voice: OwnVoice | null) => {
      const hearing = createHearing(models);
      hearing.useVoice(voice);
      hearing.setGrammar(benchGrammar('stating', false));
      const events = hearing.push(inRoom(spoken(slt, 'what torque'), { name: 'pink', level: 10 }));
      const heard = [...events, ...hearing.flush()].find((event) => event.kind === 'heard');
      return heard?.alternatives[0]?.confidence ?? 0;
    };
    expect(confidence(own)).toBeGreaterThan(confidence(null));
  });

  it('leaves other voices as they were heard', () => {
    const trials = ['what torque', 'which socket', 'hold on'].map((text) => ({
      text,
      sound: spoken(linda, text),
      grammar: benchGrammar('stating', false),
    }));
    expect(tryTakes(models, own, trials).quiet).toEqual(trials.map(({ text }) => text));
  });

  it('is the same from the same takes, and not used on another network', () => {
    const again = learnVoice(models.network, models.dictionary, takes, { passes: 4, rate: 0.000_05, hold: 0.5, noises: [10] });
    expect(again.layer.bias).toEqual(own.layer.bias);
    const hearing = createHearing(models);
    expect(hearing.useVoice(own)).toBe(true);
    expect(hearing.useVoice({ ...own, net: 'another' })).toBe(false);
    expect(hearing.useVoice(null)).toBe(true);
  });

  it('keeps the times of what is heard when it is put in between', () => {
    const sound = inRoom(spoken(slt, 'what torque'));
    const begins = (exchange: boolean) => {
      const hearing = createHearing(models);
      hearing.setGrammar(benchGrammar('stating', false));
      hearing.push(quiet(2));
      if (exchange) hearing.useVoice(null);
      return hearing.push(sound).find((event) => event.kind === 'speech-start')?.at ?? -1;
    };
    expect(Math.abs(begins(true) - begins(false))).toBeLessThan(1600);
  });
});
