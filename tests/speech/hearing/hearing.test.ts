import { beforeAll, describe, expect, it } from 'vitest';
import { dialogueStates, type DialogueState } from '../../../src/phrasing/intents.ts';
import { createHearing, type HearingModels } from '../../../src/speech/hearing/hearing.ts';
import type { Hearing, HearingEvent } from '../../../src/speech/hearing/port.ts';
import { benchGrammar, meaningOf } from '../../bench/voice/commands.ts';
import { lead, type Condition } from '../../bench/voice/conditions.ts';
import { numberEar, readBack, spokenNumber } from '../../bench/voice/numbers.ts';
import { listen, quickBlock } from '../../bench/voice/trial.ts';
import type { BenchVoice } from '../../bench/voice/voices.ts';
import { inRoom, joined, linda, quiet, slt, spoken } from './clips.ts';
import { hearingModels } from './models.ts';

let models: HearingModels;
let hearing: Hearing;

beforeAll(async () => {
  models = await hearingModels();
  hearing = createHearing(models);
}, 60_000);

function understood(state: DialogueState, sound: Float32Array, nameFirst = false): string[] {
  hearing.setGrammar(benchGrammar(state, nameFirst));
  hearing.reset();
  return listen(hearing, sound, quickBlock).flatMap(({ event }) =>
    event.kind === 'heard' ? [meaningOf(state, nameFirst, event.alternatives)] : [],
  );
}

const said = (state: DialogueState, voice: BenchVoice, text: string, condition?: Condition): string[] =>
  understood(state, inRoom(spoken(voice, text), condition));

const commands: readonly (readonly [DialogueState, string, string])[] = [
  ['fastening', 'what torque', 'torque'],
  ['fastening', "that's done", 'done:1'],
  ['fastening', 'which socket', 'socket'],
  ['fastening', 'how many left', 'how-many-left'],
  ['stating', 'say again', 'repeat'],
  ['checking', 'yes correct', 'yes'],
  ['checking', 'previous step', 'back'],
  ['kit', 'I have it', 'done:1'],
  ['paused', 'carry on', 'carry-on'],
];

describe('the ear', { timeout: 60_000 }, () => {
  it('waits over the app’s own voice until a command fits no better, so that it can be told from what only resembles it', () => {
    const app = spoken(slt, 'Eight carrier bolts, seventeen millimetre socket, half an inch drive.');
    const jsgf = '#JSGF V1.0;\ngrammar over;\npublic <command> = stop | hold on;';
    const fit = (text: string, from: number, pastBest: number): number => {
      const person = joined(quiet(from), spoken(linda, text));
      const ear = createHearing(models, { pastBest });
      ear.setGrammar({ ...benchGrammar('fastening', false), jsgf, overOwnVoice: true });
      const heard = listen(ear, inRoom(app.map((sample, i) => sample + 2 * (person[i] ?? 0))), quickBlock);
      return heard.flatMap(({ event }) => (event.kind === 'heard' ? [event.alternatives[0]?.confidence ?? 0] : []))[0] ?? 0;
    };
    const tries = ['stop', 'hold on'].flatMap((text) =>
      [0.6, 0.9, 1.2, 1.5].map((from) => [fit(text, from, 2), fit(text, from, 0)] as const),
    );
    for (const [atBest, atOnce] of tries) expect(atBest).toBeGreaterThanOrEqual(atOnce);
    expect(tries.some(([atBest, atOnce]) => atBest > atOnce)).toBe(true);
  });

  it.each(commands)('hears in the state %s "%s" as %s, from a voice that it never heard before', (state, text, intent) => {
    expect(said(state, slt, text)).toEqual([intent]);
  });

  it.each(commands.slice(0, 4))('hears in the state %s "%s" as %s over a compressor 10 dB under the voice', (state, text, intent) => {
    expect(said(state, linda, text, { name: 'compressor', level: 10 })).toEqual([intent]);
  });

  /** Seconds of sound from the end of the voice to the decision. */
  function decidedAfter(state: DialogueState, text: string): number {
    const voice = spoken(slt, text);
    hearing.setGrammar(benchGrammar(state, false));
    hearing.reset();
    const heard = listen(hearing, inRoom(voice)).find(({ event }) => event.kind === 'heard');
    return (heard?.at ?? Infinity) / 16000 - lead - voice.length / 16000;
  }

  it('decides at once where nothing else can follow, and waits where something can', () => {
    expect(decidedAfter('fastening', 'which socket')).toBeLessThan(0.32);
    // "how many" may become "how many left".
    expect(decidedAfter('stating', 'how many')).toBeGreaterThan(0.4);
  });

  it('hears what may be said in the state and nothing else', () => {
    expect(said('confirming', slt, 'what torque')).toEqual([]);
    expect(said('closed', slt, "that's done")).toEqual([]);
  });

  it.each([
    'did you see the match last night',
    'she said the train was late as usual',
    'that thing has been leaking for weeks',
    'he paid nearly four thousand for it',
    'good morning',
    'nice one',
    'thank you very much',
    'my brother left the ladder behind the shed',
  ])('makes nothing of "%s"', (text) => {
    expect(said('fastening', slt, text)).toEqual([]);
  });

  it('makes nothing of noise alone', () => {
    const voice = spoken(slt, 'what torque');
    for (const name of ['compressor', 'impact', 'idle', 'pink'] as const) {
      const drowned = inRoom(voice, { name, level: -40 });
      const loudest = drowned.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
      expect(
        understood(
          'fastening',
          drowned.map((sample) => (sample / loudest) * 0.4),
        ),
      ).toEqual([]);
    }
  });

  it('lets "stop" through on the spot, before the pause that ends other commands', () => {
    for (const voice of [slt, linda]) {
      const sound = spoken(voice, 'stop');
      expect(understood('fastening', inRoom(sound))).toEqual(['stop']);
      expect(delayOf('fastening', sound)).toBeLessThan(delayOf('fastening', spoken(voice, 'hold on')));
    }
  });

  it('waits longer after what could still go on than after what is complete', () => {
    // "How many" may go on to "how many left"; nothing follows "say again".
    expect(delayOf('fastening', spoken(slt, 'how many'))).toBeGreaterThan(delayOf('fastening', spoken(slt, 'say again')) + 0.1);
    expect(delayOf('fastening', spoken(slt, 'say again'))).toBeLessThan(0.5);
  });

  it('takes a command with a breath in it for one', () => {
    const pause = joined(inRoom(spoken(slt, 'how many')).slice(0, -16000), quiet(0.1), spoken(slt, 'left'), quiet(1));
    expect(understood('fastening', pause)).toEqual(['how-many-left']);
  });

  it('counts with the name first only what comes after the name, but for "stop"', () => {
    const alone = inRoom(spoken(linda, 'what torque'));
    expect(understood('fastening', alone, true)).toEqual([]);
    expect(understood('fastening', inRoom(spoken(linda, 'undertray what torque')), true)).toEqual(['torque']);
    expect(understood('fastening', inRoom(spoken(linda, 'stop')), true)).toEqual(['stop']);
    // The name, a moment, the command.
    const parted = joined(inRoom(spoken(linda, 'undertray')), alone);
    expect(understood('fastening', parted, true)).toEqual(['torque']);
  });

  it('says that the place is too loud when a compressor drowns everything, for the tip that is spoken then', () => {
    const own = createHearing(models);
    own.setGrammar(benchGrammar('fastening', false));
    const roar = inRoom(quiet(6)).map((sample, i) => sample + 0.35 * Math.sin(i * 0.19) * (1 + Math.sin(i * 0.0055)));
    const told = listen(own, roar, quickBlock).flatMap(({ event }) => (event.kind === 'surroundings' ? [event.tooLoud] : []));
    expect(told).toEqual([true]);
  });

  it('tells of no speech in a quiet room', () => {
    hearing.setGrammar(benchGrammar('fastening', false));
    hearing.reset();
    expect(eventsOf(inRoom(quiet(3)))).toEqual([]);
  });

  it('tells of beginning, end and place of what it heard in the order in which they come', () => {
    hearing.setGrammar(benchGrammar('fastening', false));
    hearing.reset();
    const events = eventsOf(inRoom(spoken(slt, 'what torque')));
    expect(events.filter(({ kind }) => kind !== 'partial').map(({ kind }) => kind)).toEqual(['speech-start', 'speech-end', 'heard']);
  });

  it('makes an end of an utterance when told to, as when a key is let go', () => {
    hearing.setGrammar(benchGrammar('fastening', false));
    hearing.reset();
    const sound = inRoom(spoken(linda, 'what torque'));
    const early = listen(hearing, sound.subarray(0, sound.length - 16000)).filter(({ event }) => event.kind === 'heard');
    const flushed = hearing.flush().filter(({ kind }) => kind === 'heard');
    expect([...early, ...flushed]).toHaveLength(1);
  });

  it.each(dialogueStates)('accepts the grammar of the state %s and hears "stop" in it, and with the name first too', (state) => {
    const sound = inRoom(spoken(linda, 'stop'));
    expect(understood(state, sound)).toEqual(['stop']);
    expect(understood(state, sound, true)).toEqual(['stop']);
  });
});

describe('spoken numbers', { timeout: 60_000 }, () => {
  // Every 167th from 15 on: teens, tens and hundreds.
  const values = Array.from({ length: 6 }, (_, index) => (index * 167 + 15) % 1000);

  it('come back through the ear with their unit, and none as another when said both ways', async () => {
    const ear = await numberEar();
    const outcomes = values.map((value) => {
      const { apart, together } = spokenNumber(value);
      return [apart, together].map((text) => ({ text, ...readBack(ear, slt, text, value) }));
    });
    const all = outcomes.flat();
    expect(all.filter(({ outcome }) => outcome === 'right').length).toBeGreaterThanOrEqual(all.length * 0.8);
    // The app says figures first and then the word: whoever mistakes the one has the other.
    expect(outcomes.filter((both) => both.every(({ outcome }) => outcome === 'wrong'))).toEqual([]);
  });
});

/** From the end of the voice to the decision, in seconds of sound. */
function delayOf(state: DialogueState, sound: Float32Array): number {
  hearing.setGrammar(benchGrammar(state, false));
  hearing.reset();
  const heard = listen(hearing, inRoom(sound)).find(({ event }) => event.kind === 'heard');
  if (heard === undefined) throw new Error('Nothing was heard.');
  return heard.at / 16000 - lead - sound.length / 16000;
}

function eventsOf(sound: Float32Array): HearingEvent[] {
  return listen(hearing, sound).map(({ event }) => event);
}
