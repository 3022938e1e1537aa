import { beforeEach, describe, expect, it } from 'vitest';
import type { SaidPart } from '../../../src/app/author/recording/captions.ts';
import { startDictation, waysToWrite } from '../../../src/app/author/recording/dictation.ts';
import type { AvailabilityStatus, RecognitionErrorCode, RecognitionLike, ResultEventLike } from '../../../src/speech/ports.ts';

/** As strict as a browser's: it throws on a second start, and says nothing after its end. */
class FakeRecognition implements RecognitionLike {
  static made: FakeRecognition[] = [];
  static available?: () => Promise<AvailabilityStatus>;
  lang = '';
  continuous = false;
  interimResults = false;
  maxAlternatives = 1;
  processLocally = false;
  onstart: RecognitionLike['onstart'] = null;
  onspeechstart: RecognitionLike['onspeechstart'] = null;
  onspeechend: RecognitionLike['onspeechend'] = null;
  onresult: RecognitionLike['onresult'] = null;
  onnomatch: RecognitionLike['onnomatch'] = null;
  onerror: RecognitionLike['onerror'] = null;
  onend: RecognitionLike['onend'] = null;
  private started = false;
  constructor() {
    FakeRecognition.made.push(this);
  }
  start(): void {
    if (this.started) throw new Error('InvalidStateError');
    this.started = true;
  }
  stop(): void {
    this.end();
  }
  abort(): void {
    this.end();
  }
  hear(resultIndex: number, results: readonly (readonly [text: string, isFinal: boolean])[]): void {
    const list = results.map(([transcript, isFinal]) => ({ length: 1, isFinal, item: () => ({ transcript, confidence: 1 }) }));
    const event: ResultEventLike = { resultIndex, timeStamp: 0, results: { length: list.length, item: (index) => list[index] ?? null } };
    this.onresult?.(event);
  }
  fail(error: RecognitionErrorCode): void {
    this.onerror?.({ error, message: '' });
  }
  end(): void {
    this.onend?.({ timeStamp: 0 });
  }
}

let now = 0;
let parts: SaidPart[] = [];
let interim = '';
let stopped = 0;
const last = () => FakeRecognition.made.at(-1)!;
const start = () =>
  startDictation({
    Recognition: FakeRecognition,
    language: 'en-US',
    onDevice: true,
    seconds: () => now,
    onPart: (part) => parts.push(part),
    onInterim: (text) => (interim = text),
    onStopped: () => stopped++,
  });

beforeEach(() => {
  FakeRecognition.made = [];
  delete FakeRecognition.available;
  [now, parts, interim, stopped] = [0, [], '', 0];
});

describe('writing down a talk', () => {
  it('gives each sentence the time at which it began, and shows it while it is being heard', () => {
    start();
    expect(last()).toMatchObject({ continuous: true, interimResults: true, processLocally: true, lang: 'en-US' });
    now = 3;
    last().hear(0, [['two bolts', false]]);
    expect(interim).toBe('two bolts');
    now = 5;
    last().hear(0, [['two bolts on the bracket', true]]);
    expect(parts).toEqual([{ from: 3, to: 5, text: 'two bolts on the bracket' }]);
    expect(interim).toBe('');
  });

  it('takes a finished sentence once, however often the browser gives it', () => {
    start();
    last().hear(0, [['two bolts', true]]);
    last().hear(0, [
      ['two bolts', true],
      ['four nuts', true],
    ]);
    expect(parts.map(({ text }) => text)).toEqual(['two bolts', 'four nuts']);
  });

  it('goes on with a new session when the browser ends one', () => {
    start();
    last().hear(0, [['two bolts', true]]);
    last().end();
    expect(FakeRecognition.made).toHaveLength(2);
    now = 60;
    last().hear(0, [['four nuts', true]]);
    expect(parts.at(-1)).toEqual({ from: 60, to: 60, text: 'four nuts' });
    expect(stopped).toBe(0);
  });

  it('gives up after an error that will not pass, and after many sessions without a word', () => {
    start();
    last().fail('network');
    last().end();
    expect([FakeRecognition.made.length, stopped]).toEqual([1, 1]);
    FakeRecognition.made = [];
    start();
    for (let turn = 0; turn < 50; turn++) last().end();
    expect([FakeRecognition.made.length, stopped]).toEqual([20, 2]);
  });

  it('does not wait for an end that never comes', () => {
    start();
    last().fail('language-not-supported');
    expect(stopped).toBe(1);
  });

  it('ends when it is told to', () => {
    const dictation = start();
    dictation.stop();
    expect([FakeRecognition.made.length, stopped]).toEqual([1, 0]);
  });
});

describe('who may write it down', () => {
  it('the device where it can, the service only where it is allowed', async () => {
    expect(await waysToWrite(null, 'en-US', true)).toBe('none');
    expect(await waysToWrite(FakeRecognition, 'en-US', false)).toBe('none');
    expect(await waysToWrite(FakeRecognition, 'en-US', true)).toBe('remote');
    FakeRecognition.available = () => Promise.resolve('available');
    expect(await waysToWrite(FakeRecognition, 'en-US', true)).toBe('on-device');
    FakeRecognition.available = () => Promise.reject(new Error('not here'));
    expect(await waysToWrite(FakeRecognition, 'en-US', false)).toBe('none');
  });
});
