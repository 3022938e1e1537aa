import { beforeEach, describe, expect, it } from 'vitest';
import { synthesisErrorCodes } from '../../../src/speech/ports.ts';
import { LocalSpeechSynthesis } from '../../../src/speech/synthesis/local-speech-synthesis.ts';
import { LocalSpeechSynthesisErrorEvent, LocalSpeechSynthesisEvent } from '../../../src/speech/synthesis/synthesis-events.ts';
import { LocalSpeechSynthesisVoice } from '../../../src/speech/synthesis/synthesis-voice.ts';
import { LocalSpeechSynthesisUtterance } from '../../../src/speech/synthesis/utterance.ts';
import { ManualClock, settle } from '../doubles/manual-clock.ts';
import { ScriptedSource } from '../doubles/scripted-source.ts';
import { constructorLengths, enumValues, expectMembers } from '../idl.ts';

let clock: ManualClock;
let source: ScriptedSource;
let synthesis: LocalSpeechSynthesis;

beforeEach(() => {
  clock = new ManualClock();
  source = new ScriptedSource(clock);
  synthesis = new LocalSpeechSynthesis({ source, clock, documentLanguage: () => 'en' });
});

/** An utterance and what it told. */
function recorded(text: string) {
  const utterance = new LocalSpeechSynthesisUtterance(text);
  const types: string[] = [];
  const events: Event[] = [];
  for (const type of ['start', 'end', 'error', 'pause', 'resume', 'mark', 'boundary']) {
    utterance.addEventListener(type, (event) => {
      types.push(event instanceof LocalSpeechSynthesisErrorEvent ? `${type} ${event.error}` : type);
      events.push(event);
    });
  }
  return { utterance, types, events };
}

const status = () => ({ pending: synthesis.pending, speaking: synthesis.speaking, paused: synthesis.paused });

describe('the members that the Web Speech API defines', () => {
  it('are all there, with the right kind and number of arguments', () => {
    for (const [name, subject] of [
      ['SpeechSynthesis', LocalSpeechSynthesis],
      ['SpeechSynthesisUtterance', LocalSpeechSynthesisUtterance],
      ['SpeechSynthesisEvent', LocalSpeechSynthesisEvent],
      ['SpeechSynthesisErrorEvent', LocalSpeechSynthesisErrorEvent],
      ['SpeechSynthesisVoice', LocalSpeechSynthesisVoice],
    ] as const) {
      expectMembers(name, subject);
      for (const length of constructorLengths(name)) expect(subject.length, `${name} constructor`).toBe(length);
    }
    expect([...synthesisErrorCodes]).toEqual(enumValues('SpeechSynthesisErrorCode'));
  });

  it('start with the defaults of the standard', () => {
    expect(status()).toEqual({ pending: false, speaking: false, paused: false });
    const { text, lang, voice, volume, rate, pitch } = new LocalSpeechSynthesisUtterance();
    expect({ text, lang, voice, volume, rate, pitch }).toEqual({ text: '', lang: '', voice: null, volume: 1, rate: 1, pitch: 1 });
    expect(new LocalSpeechSynthesisUtterance(null as never).text).toBe('null');
    expect(new LocalSpeechSynthesisUtterance(undefined as never).text).toBe('undefined');
  });

  it('refuse values of the wrong kind', () => {
    const utterance = new LocalSpeechSynthesisUtterance('x');
    expect(() => (utterance.rate = NaN)).toThrow(TypeError);
    expect(() => (utterance.voice = {} as never)).toThrow(TypeError);
    expect(() => synthesis.speak('x' as never)).toThrow(TypeError);
    expect(() => new LocalSpeechSynthesisEvent('start', {} as never)).toThrow(TypeError);
    expect(() => new LocalSpeechSynthesisErrorEvent('error', { utterance } as never)).toThrow(TypeError);
  });

  it('list the voices of this device', () => {
    expect(synthesis.getVoices().map(({ name, localService }) => [name, localService])).toEqual([
      ['A', true],
      ['B', true],
    ]);
  });
});

describe('speaking', () => {
  it('begins, tells each clause and ends', async () => {
    const { utterance, types, events } = recorded('Four seven: forty-seven newton metres. Dry.');
    synthesis.speak(utterance);
    expect(types).toEqual([]);
    expect(status()).toEqual({ pending: true, speaking: false, paused: false });
    await settle();
    expect(types).toEqual(['start', 'boundary']);
    expect(status()).toEqual({ pending: false, speaking: true, paused: false });
    await clock.advance(3000);
    expect(types).toEqual(['start', 'boundary', 'boundary', 'boundary', 'end']);
    expect(status().speaking).toBe(false);
    const boundaries = events.filter((event) => event instanceof LocalSpeechSynthesisEvent && event.type === 'boundary');
    expect(
      boundaries.map((event) =>
        event instanceof LocalSpeechSynthesisEvent
          ? [event.name, utterance.text.slice(event.charIndex, event.charIndex + event.charLength), event.elapsedTime]
          : null,
      ),
    ).toEqual([
      ['sentence', 'Four seven:', 0],
      ['sentence', 'forty-seven newton metres.', 1],
      ['sentence', 'Dry.', 2],
    ]);
  });

  it('prepares the next clause while one is heard', async () => {
    synthesis.speak(new LocalSpeechSynthesisUtterance('One. Two. Three.'));
    await settle();
    expect(source.prepared.map(({ text }) => text)).toEqual(['One.', 'Two.']);
  });

  it('speaks one after the other in the order given', async () => {
    synthesis.speak(new LocalSpeechSynthesisUtterance('First.'));
    const second = recorded('Second.');
    synthesis.speak(second.utterance);
    await clock.advance(500);
    expect(status()).toEqual({ pending: true, speaking: true, paused: false });
    expect(second.types).toEqual([]);
    await clock.advance(1600);
    expect(source.log).toEqual(['play First. at 1', 'end First.', 'play Second. at 1', 'end Second.']);
    expect(second.types).toEqual(['start', 'boundary', 'end']);
  });

  it('hands volume, rate, pitch and voice on', async () => {
    const utterance = new LocalSpeechSynthesisUtterance('Loud.');
    const [, other] = synthesis.getVoices();
    Object.assign(utterance, { volume: 0.5, rate: 0.75, pitch: 1.5, voice: other });
    synthesis.speak(utterance);
    await settle();
    expect(source.prepared[0]?.style).toEqual({ voice: other, rate: 0.75, pitch: 1.5 });
    expect(source.log).toEqual(['play Loud. at 0.5']);
  });

  it('begins and ends a text without a sound in it', async () => {
    const { utterance, types } = recorded(' … ');
    synthesis.speak(utterance);
    await settle();
    expect(types).toEqual(['start', 'end']);
  });
});

describe('cancelling', () => {
  it('silences at once, with "interrupted" for what was heard and "canceled" for what was not', async () => {
    const heard = recorded('First. More.');
    const waiting = recorded('Second.');
    synthesis.speak(heard.utterance);
    synthesis.speak(waiting.utterance);
    await clock.advance(300);
    synthesis.cancel();
    expect(source.log.at(-1)).toBe('stop First.');
    expect(status()).toEqual({ pending: false, speaking: false, paused: false });
    await clock.advance(5000);
    expect(heard.types).toEqual(['start', 'boundary', 'error interrupted']);
    expect(waiting.types).toEqual(['error canceled']);
    expect(source.log).toHaveLength(2);
  });

  it('leaves what is spoken after it alone', async () => {
    synthesis.speak(recorded('Old.').utterance);
    synthesis.cancel();
    const fresh = recorded('New.');
    synthesis.speak(fresh.utterance);
    await clock.advance(1000);
    expect(fresh.types).toEqual(['start', 'boundary', 'end']);
    expect(source.log).toEqual(['play New. at 1', 'end New.']);
  });
});

describe('pausing', () => {
  it('holds the sound and goes on from there', async () => {
    const { utterance, types } = recorded('One. Two.');
    synthesis.speak(utterance);
    await clock.advance(400);
    synthesis.pause();
    synthesis.pause();
    await clock.advance(60_000);
    expect(status()).toEqual({ pending: false, speaking: true, paused: true });
    synthesis.resume();
    await clock.advance(599);
    expect(source.log).toEqual(['play One. at 1', 'pause One.', 'resume One.']);
    await clock.advance(1001);
    expect(types).toEqual(['start', 'boundary', 'pause', 'resume', 'boundary', 'end']);
  });

  it('holds back what is spoken meanwhile, which then starts without resume', async () => {
    const { utterance, types } = recorded('One.');
    synthesis.pause();
    synthesis.speak(utterance);
    await clock.advance(5000);
    expect(types).toEqual([]);
    expect(status()).toEqual({ pending: true, speaking: false, paused: true });
    synthesis.resume();
    await clock.advance(1000);
    expect(types).toEqual(['start', 'boundary', 'end']);
  });

  it('stays paused through a cancel', () => {
    synthesis.pause();
    synthesis.cancel();
    expect(synthesis.paused).toBe(true);
  });
});

describe('what cannot be spoken', () => {
  it.each([
    ['invalid-argument', { rate: 0.05 }],
    ['invalid-argument', { volume: 1.5 }],
    ['language-unavailable', { lang: 'fr-FR' }],
    ['text-too-long', { text: 'a '.repeat(20_000) }],
  ])('gives the error %s and goes on with the next', async (error, change) => {
    const { utterance, types } = recorded('One.');
    Object.assign(utterance, change);
    const next = recorded('Next.');
    synthesis.speak(utterance);
    synthesis.speak(next.utterance);
    await clock.advance(1000);
    expect(types).toEqual([`error ${error}`]);
    expect(next.types).toEqual(['start', 'boundary', 'end']);
  });

  it('gives the error of the source, before or after the sound has begun', async () => {
    source.refusal = { kind: 'refused', error: 'synthesis-failed', message: '' };
    const { utterance, types } = recorded('One.');
    synthesis.speak(utterance);
    await settle();
    expect(types).toEqual(['error synthesis-failed']);
    source.refusal = null;
    source.playRefusal = { kind: 'refused', error: 'not-allowed', message: '' };
    const blocked = recorded('One.');
    synthesis.speak(blocked.utterance);
    await clock.advance(0);
    expect(blocked.types).toEqual(['error not-allowed']);
  });

  it('accepts the least rate that the standard allows', async () => {
    const { utterance, types } = recorded('One.');
    utterance.rate = 0.1;
    synthesis.speak(utterance);
    await clock.advance(1000);
    expect(types.at(-1)).toBe('end');
  });

  it('throws for an utterance that another synthesis owns', () => {
    const { utterance } = recorded('One.');
    synthesis.speak(utterance);
    const other = new LocalSpeechSynthesis({ source, clock, documentLanguage: () => 'en' });
    expect(() => other.speak(utterance)).toThrow(DOMException);
  });
});
