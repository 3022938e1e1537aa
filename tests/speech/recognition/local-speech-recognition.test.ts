import { beforeEach, describe, expect, it } from 'vitest';
import { recognitionErrorCodes, availabilityStatuses, recognitionQualities } from '../../../src/speech/ports.ts';
import { LocalSpeechGrammar, LocalSpeechGrammarList } from '../../../src/speech/recognition/grammar-list.ts';
import {
  LocalNoMatchEvent,
  LocalSpeechRecognitionErrorEvent,
  LocalSpeechRecognitionEvent,
} from '../../../src/speech/recognition/recognition-events.ts';
import { LocalSpeechRecognitionPhrase } from '../../../src/speech/recognition/recognition-phrases.ts';
import {
  LocalSpeechRecognitionAlternative,
  LocalSpeechRecognitionResult,
  LocalSpeechRecognitionResultList,
} from '../../../src/speech/recognition/recognition-results.ts';
import { bindLocalSpeechRecognition } from '../../../src/speech/recognition/local-speech-recognition.ts';
import { ManualClock, settle } from '../doubles/manual-clock.ts';
import { ScriptedEngine } from '../doubles/scripted-engine.ts';
import { constructorLengths, enumValues, expectMembers } from '../idl.ts';

let engine: ScriptedEngine;
let clock: ManualClock;
let SpeechRecognition: ReturnType<typeof bindLocalSpeechRecognition>;

beforeEach(() => {
  engine = new ScriptedEngine();
  clock = new ManualClock();
  SpeechRecognition = bindLocalSpeechRecognition({ engine, clock, noSpeechAfter: 8000, documentLanguage: () => 'en' });
});

const eventTypes = [
  'start',
  'audiostart',
  'soundstart',
  'speechstart',
  'speechend',
  'soundend',
  'audioend',
  'result',
  'nomatch',
  'error',
  'end',
];

/** A recognition and the list of the events that it gave. */
function recorded() {
  const recognition = new SpeechRecognition();
  const types: string[] = [];
  const events: Event[] = [];
  for (const type of eventTypes) {
    recognition.addEventListener(type, (event) => {
      types.push(type);
      events.push(event);
    });
  }
  const results = () => events.filter((event) => event instanceof LocalSpeechRecognitionEvent);
  const errors = () => events.flatMap((event) => (event instanceof LocalSpeechRecognitionErrorEvent ? [event.error] : []));
  return { recognition, types, events, results, errors };
}

function textsOf(event: LocalSpeechRecognitionEvent | undefined): string[] {
  return Array.from({ length: event?.results.length ?? 0 }, (_, index) => event?.results.item(index)?.item(0)?.transcript ?? '');
}

const audioTrack = (kind: string, readyState: string) => ({ kind, readyState }) as MediaStreamTrack;

describe('the members that the Web Speech API defines', () => {
  const classes = (): [string, { readonly prototype: object; readonly name: string; readonly length: number }][] => [
    ['SpeechRecognition', SpeechRecognition],
    ['SpeechRecognitionEvent', LocalSpeechRecognitionEvent],
    ['SpeechRecognitionErrorEvent', LocalSpeechRecognitionErrorEvent],
    ['SpeechRecognitionResult', LocalSpeechRecognitionResult],
    ['SpeechRecognitionResultList', LocalSpeechRecognitionResultList],
    ['SpeechRecognitionAlternative', LocalSpeechRecognitionAlternative],
    ['SpeechRecognitionPhrase', LocalSpeechRecognitionPhrase],
    ['SpeechGrammar', LocalSpeechGrammar],
    ['SpeechGrammarList', LocalSpeechGrammarList],
  ];

  it('are all there, with the right kind and number of arguments', () => {
    for (const [name, subject] of classes()) {
      expectMembers(name, subject);
      for (const length of constructorLengths(name)) expect(subject.length, `${name} constructor`).toBe(length);
    }
  });

  it('take the values of its enumerations', () => {
    expect([...recognitionErrorCodes]).toEqual(enumValues('SpeechRecognitionErrorCode'));
    expect([...availabilityStatuses]).toEqual(enumValues('AvailabilityStatus'));
    expect([...recognitionQualities]).toEqual(enumValues('SpeechRecognitionQuality'));
  });

  it('start with the defaults of the standard', () => {
    const recognition = new SpeechRecognition();
    expect(recognition).toBeInstanceOf(EventTarget);
    const { lang, continuous, interimResults, maxAlternatives, unspokenPunctuation, processLocally, phrases, grammars } = recognition;
    expect({ lang, continuous, interimResults, maxAlternatives, unspokenPunctuation, processLocally }).toEqual({
      lang: '',
      continuous: false,
      interimResults: false,
      maxAlternatives: 1,
      unspokenPunctuation: false,
      processLocally: false,
    });
    expect(phrases).toHaveLength(0);
    expect(grammars).toHaveLength(0);
    for (const type of eventTypes) expect(Reflect.get(recognition, `on${type}`)).toBeNull();
  });

  it('convert what is written to them', () => {
    const recognition = new SpeechRecognition();
    Object.assign(recognition, { lang: 7, continuous: 1, interimResults: '', maxAlternatives: -1 });
    expect(recognition.lang).toBe('7');
    expect(recognition.continuous).toBe(true);
    expect(recognition.interimResults).toBe(false);
    expect(recognition.maxAlternatives).toBe(4294967295);
  });

  it('hold phrases only', () => {
    const recognition = new SpeechRecognition();
    const phrase = new LocalSpeechRecognitionPhrase('step done', 2);
    recognition.phrases = [phrase];
    recognition.phrases.push(phrase);
    expect(recognition.phrases.map(({ phrase: text, boost }) => [text, boost])).toEqual([
      ['step done', 2],
      ['step done', 2],
    ]);
    expect(() => recognition.phrases.push('step done' as never)).toThrow(TypeError);
    expect(() => new LocalSpeechRecognitionPhrase('x', 10.5)).toThrow(expect.objectContaining({ name: 'SyntaxError' }));
    expect(new LocalSpeechRecognitionPhrase('x').boost).toBe(1);
  });

  it('call the handler attributes in the place where they were first set', () => {
    const recognition = new SpeechRecognition();
    const calls: string[] = [];
    recognition.onstart = () => calls.push('first');
    recognition.addEventListener('start', () => calls.push('listener'));
    recognition.onstart = () => calls.push('replaced');
    recognition.dispatchEvent(new Event('start'));
    recognition.onstart = null;
    recognition.dispatchEvent(new Event('start'));
    expect(calls).toEqual(['replaced', 'listener', 'listener']);
  });
});

describe('a session', () => {
  it('tells one utterance in order and ends by itself', async () => {
    const { recognition, types, results } = recorded();
    recognition.start();
    expect(types).toEqual([]);
    await settle();
    expect(types).toEqual(['start', 'audiostart']);
    engine.say('step done', 0.75, 100);
    expect(types).toEqual(['start', 'audiostart', 'soundstart', 'speechstart', 'speechend', 'soundend', 'audioend', 'result', 'end']);
    const result = results()[0]?.results.item(0);
    expect(result?.isFinal).toBe(true);
    expect(result?.[0]?.transcript).toBe('step done');
    expect(result?.[0]?.confidence).toBe(0.75);
    expect(engine.isOpen).toBe(false);
  });

  it('stamps the beginning of speech with the time when somebody began to speak', async () => {
    const { recognition, events } = recorded();
    recognition.start();
    await settle();
    engine.tell({ kind: 'speech-start', time: 1234 });
    expect(events.at(-1)?.timeStamp).toBe(1234);
  });

  it('goes on after a result when continuous, and never touches a final one again', async () => {
    const { recognition, results, types } = recorded();
    recognition.continuous = true;
    recognition.interimResults = true;
    recognition.start();
    await settle();
    engine.say('step done');
    const first = results()[0]?.results.item(0);
    engine.tell({ kind: 'speech-start', time: 2000 }, { kind: 'partial', text: 'what' }, { kind: 'partial', text: 'what torque' });
    engine.tell({ kind: 'heard', alternatives: [{ text: 'what torque', confidence: 0.8 }], from: 2000, to: 2600 });
    engine.say('hold on', 0.9, 4000);
    expect(results().map(({ resultIndex }) => resultIndex)).toEqual([0, 1, 1, 1, 2]);
    expect(results().map(textsOf)).toEqual([
      ['step done'],
      ['step done', ' what'],
      ['step done', ' what torque'],
      ['step done', ' what torque'],
      ['step done', ' what torque', ' hold on'],
    ]);
    for (const event of results()) {
      expect(event.results.item(0)).toBe(first);
      const finality = Array.from({ length: event.results.length }, (_, index) => event.results.item(index)?.isFinal);
      expect(finality).toEqual(finality.toSorted((a, b) => Number(b) - Number(a)));
      for (let index = 0; index < event.resultIndex; index++) expect(event.results.item(index)?.isFinal).toBe(true);
    }
    expect(types).not.toContain('end');
    recognition.stop();
    await settle();
    expect(types.filter((type) => type === 'end')).toHaveLength(1);
  });

  it('gives no interim results unless asked', async () => {
    const { recognition, results } = recorded();
    recognition.start();
    await settle();
    engine.tell({ kind: 'speech-start', time: 0 }, { kind: 'partial', text: 'what' });
    expect(results()).toHaveLength(0);
  });

  it('keeps no more alternatives than asked, the most confident first', async () => {
    const { recognition, results } = recorded();
    recognition.maxAlternatives = 2;
    recognition.start();
    await settle();
    const alternatives = [
      { text: 'fifty', confidence: 0.6 },
      { text: 'fifteen', confidence: 0.3 },
      { text: 'fifty five', confidence: 0.1 },
    ];
    engine.tell({ kind: 'heard', alternatives, from: 0, to: 500 });
    const result = results()[0]?.results.item(0);
    expect(result?.length).toBe(2);
    expect(result?.item(0)?.transcript).toBe('fifty');
    expect(result?.item(2)).toBeNull();
  });

  it('says that nothing matched, and why, and takes back the interim result', async () => {
    const { recognition, types, events } = recorded();
    recognition.continuous = true;
    recognition.interimResults = true;
    recognition.start();
    await settle();
    engine.tell({ kind: 'speech-start', time: 0 }, { kind: 'partial', text: 'torque' });
    engine.tell({ kind: 'rejected', why: 'not-a-command', text: 'torque', from: 0, to: 900 });
    expect(types.slice(-5)).toEqual(['result', 'speechend', 'soundend', 'result', 'nomatch']);
    const withdrawn = events.at(-2);
    if (!(withdrawn instanceof LocalSpeechRecognitionEvent)) throw new Error('no result');
    expect(withdrawn.resultIndex).toBe(withdrawn.results.length);
    const last = events.at(-1);
    if (!(last instanceof LocalNoMatchEvent)) throw new Error('no nomatch');
    expect(last.why).toBe('not-a-command');
    expect(last.results.item(0)?.isFinal).toBe(false);
  });

  it('throws InvalidStateError when started twice, and not when started again after its end', async () => {
    const { recognition, types } = recorded();
    recognition.start();
    expect(() => recognition.start()).toThrow(expect.objectContaining({ name: 'InvalidStateError' }));
    await settle();
    expect(() => recognition.start()).toThrow(expect.objectContaining({ name: 'InvalidStateError' }));
    engine.say('step done');
    recognition.start();
    await settle();
    engine.say('step done');
    expect(types.filter((type) => type === 'end')).toHaveLength(2);
  });

  it('may be started again from the end handler, and from the error handler', async () => {
    const { recognition, types } = recorded();
    let again = 1;
    recognition.onerror = () => {
      if (again-- > 0) recognition.start();
    };
    recognition.start();
    await settle();
    recognition.abort();
    await settle();
    engine.say('step done');
    expect(types.filter((type) => type === 'end')).toHaveLength(2);
    expect(types.filter((type) => type === 'start')).toHaveLength(2);
  });

  it('gives no result after abort, one error "aborted" and one end', async () => {
    const { recognition, types, errors } = recorded();
    recognition.start();
    await settle();
    engine.tell({ kind: 'speech-start', time: 0 });
    recognition.abort();
    recognition.abort();
    recognition.stop();
    engine.say('step done');
    await settle();
    expect(types).toEqual(['start', 'audiostart', 'soundstart', 'speechstart', 'speechend', 'soundend', 'audioend', 'error', 'end']);
    expect(errors()).toEqual(['aborted']);
  });

  it('ends once when aborted or stopped before it began to listen', async () => {
    for (const how of ['abort', 'stop'] as const) {
      const { recognition, types, results } = recorded();
      recognition.start();
      recognition[how]();
      await settle();
      expect(types.filter((type) => type === 'end')).toHaveLength(1);
      expect(types).not.toContain('start');
      expect(results()).toHaveLength(0);
      expect(engine.isOpen).toBe(false);
    }
  });

  it('ignores stop and abort when nothing is under way', async () => {
    const { recognition, types } = recorded();
    recognition.stop();
    recognition.abort();
    await settle();
    expect(types).toEqual([]);
  });

  it('returns what was already said when stopped', async () => {
    const { recognition, types, results } = recorded();
    recognition.continuous = true;
    recognition.start();
    await settle();
    engine.tell({ kind: 'speech-start', time: 0 });
    engine.leftOver = [{ kind: 'heard', alternatives: [{ text: 'what torque', confidence: 0.7 }], from: 0, to: 400 }];
    recognition.stop();
    await settle();
    expect(results().map(textsOf)).toEqual([['what torque']]);
    expect(types.at(-1)).toBe('end');
  });

  it('ends with no-speech when nobody speaks, once, and not while somebody speaks', async () => {
    const silent = recorded();
    silent.recognition.start();
    await clock.advance(7999);
    expect(silent.errors()).toEqual([]);
    await clock.advance(1);
    expect(silent.errors()).toEqual(['no-speech']);
    expect(silent.types.slice(-3)).toEqual(['audioend', 'error', 'end']);

    const speaking = recorded();
    speaking.recognition.start();
    await clock.advance(5000);
    engine.tell({ kind: 'speech-start', time: clock.now() });
    await clock.advance(20000);
    expect(speaking.errors()).toEqual([]);
  });

  it('waits without limit when continuous', async () => {
    const { recognition, types } = recorded();
    recognition.continuous = true;
    recognition.start();
    await clock.advance(3_600_000);
    expect(types).toEqual(['start', 'audiostart']);
  });

  it.each([
    ['not-allowed', 'audio-capture'],
    ['audio-capture', 'network'],
  ] as const)('ends with the error when the microphone is refused (%s) or the model cannot be had', async (open, load) => {
    const refused = recorded();
    engine.nextOpen = { kind: 'refused', error: open, message: 'no' };
    refused.recognition.start();
    await settle();
    expect(refused.types).toEqual(['error', 'end']);
    expect(refused.errors()).toEqual([open]);
    const unloaded = recorded();
    engine.nextLoad = { kind: 'refused', error: load, message: 'no' };
    unloaded.recognition.start();
    await settle();
    expect(unloaded.types).toEqual(['error', 'end']);
    expect(unloaded.errors()).toEqual([load]);
  });

  it('ends with the error when the microphone goes away', async () => {
    const { recognition, types, errors } = recorded();
    recognition.start();
    await settle();
    engine.tell({ kind: 'lost', error: 'audio-capture', message: 'unplugged' });
    expect(types).toEqual(['start', 'audiostart', 'audioend', 'error', 'end']);
    expect(errors()).toEqual(['audio-capture']);
  });

  it('refuses a language that it has no model for, and phrases that it cannot use', async () => {
    const german = recorded();
    german.recognition.lang = 'de-DE';
    german.recognition.start();
    await settle();
    expect(german.errors()).toEqual(['language-not-supported']);
    const biased = recorded();
    biased.recognition.phrases.push(new LocalSpeechRecognitionPhrase('step done'));
    biased.recognition.start();
    await settle();
    expect(biased.errors()).toEqual(['phrases-not-supported']);
    expect(biased.types).toEqual(['error', 'end']);
  });

  it('listens to a given track, and only to a live audio one', async () => {
    const { recognition } = recorded();
    const track = audioTrack('audio', 'live');
    recognition.start(track);
    await settle();
    expect(engine.track).toBe(track);
    const other = new SpeechRecognition();
    expect(() => other.start(audioTrack('video', 'live'))).toThrow(expect.objectContaining({ name: 'InvalidStateError' }));
    expect(() => other.start(audioTrack('audio', 'ended'))).toThrow(expect.objectContaining({ name: 'InvalidStateError' }));
    // A refused start is no start.
    expect(() => other.start(track)).not.toThrow();
  });
});

describe('what is available', () => {
  it('says so for the languages of the model', async () => {
    await expect(SpeechRecognition.available({ langs: ['en-US', 'en-GB'] })).resolves.toBe('available');
    await expect(SpeechRecognition.available({ langs: ['en', 'de'] })).resolves.toBe('unavailable');
    await expect(SpeechRecognition.available({ langs: ['no tag!'] })).rejects.toMatchObject({ name: 'SyntaxError' });
  });

  it('fetches the models when asked to install', async () => {
    await expect(SpeechRecognition.install({ langs: ['en-US'] })).resolves.toBe(true);
    expect(engine.loads).toBe(1);
    await expect(SpeechRecognition.install({ langs: [] })).resolves.toBe(false);
    engine.nextLoad = { kind: 'refused', error: 'network', message: 'offline' };
    await expect(SpeechRecognition.install({ langs: ['en'] })).resolves.toBe(false);
  });
});

describe('the events', () => {
  it('need what the standard requires of them', () => {
    const results = new LocalSpeechRecognitionResultList([]);
    expect(new LocalSpeechRecognitionEvent('result', { results }).resultIndex).toBe(0);
    expect(() => new LocalSpeechRecognitionEvent('result', {} as never)).toThrow(TypeError);
    expect(new LocalSpeechRecognitionErrorEvent('error', { error: 'network' }).message).toBe('');
    expect(() => new LocalSpeechRecognitionErrorEvent('error', {} as never)).toThrow(TypeError);
  });
});
