import { beforeEach, describe, expect, it } from 'vitest';
import type { EngineEvent, OpenEngine, Surroundings } from '../../../src/speech/recognition/engine.ts';
import { NetworkFault } from '../../../src/speech/recognition/hearing-station.ts';
import { createWorkerEngine } from '../../../src/speech/recognition/worker-engine.ts';
import { ManualClock, settle } from '../doubles/manual-clock.ts';
import { ScriptedHearing, ScriptedMicrophone, stationWorkers } from '../doubles/scripted-hearing.ts';
import { grammar } from '../doubles/speech-bench.ts';

let clock: ManualClock;
let hearing: ScriptedHearing;
let microphone: ScriptedMicrophone;
let fault: Error | null;
let station: ReturnType<typeof stationWorkers>;
let engine: ReturnType<typeof createWorkerEngine>;
let events: EngineEvent[];
let shares: number[];
let surroundings: Surroundings[];

beforeEach(() => {
  clock = new ManualClock();
  hearing = new ScriptedHearing();
  microphone = new ScriptedMicrophone();
  fault = null;
  events = [];
  shares = [];
  surroundings = [];
  station = stationWorkers((_language, onProgress) => {
    onProgress(5, 10);
    return fault ? Promise.reject(fault) : Promise.resolve(hearing);
  });
  engine = createWorkerEngine({
    makeWorker: station.makeWorker,
    microphone,
    clock,
    languages: ['en'],
    onProgress: (loaded, total) => shares.push(loaded / total),
    onSurroundings: (told) => surroundings.push(told),
    finishWithin: 2_000,
  });
});

async function open(): Promise<OpenEngine> {
  await engine.load('en');
  const opened = await engine.open(null, (event) => events.push(event));
  if (opened.kind !== 'open') throw new Error(opened.message);
  await settle();
  return opened;
}

describe('loading', () => {
  it('makes one worker however often it is asked, and tells how far it is', async () => {
    const [first, second] = await Promise.all([engine.load('en'), engine.load('en')]);
    expect([first, second, await engine.load('en')]).toEqual([{ kind: 'loaded' }, { kind: 'loaded' }, { kind: 'loaded' }]);
    expect(station.workers).toHaveLength(1);
    expect(shares).toEqual([0.5]);
  });

  it('can be tried again after the network failed', async () => {
    fault = new NetworkFault('offline');
    await expect(engine.load('en')).resolves.toMatchObject({ kind: 'refused', error: 'network' });
    expect(station.workers[0]?.terminated).toBe(true);
    fault = null;
    await expect(engine.load('en')).resolves.toEqual({ kind: 'loaded' });
  });

  it('calls a model that is not what it should be no fault of the network', async () => {
    fault = new Error('not a model');
    await expect(engine.load('en')).resolves.toMatchObject({ kind: 'refused', error: 'service-not-allowed' });
  });

  it('hands over the voice that it is to listen for, from before the loading and after it', async () => {
    const layer = { rows: 1, width: 1, weights: new Float32Array(1), bias: new Float32Array(1) };
    engine.useVoice({ net: 'one', layer });
    await engine.load('en');
    engine.useVoice(null);
    await settle();
    expect(hearing.voices).toEqual([{ net: 'one', layer }, null]);
  });

  it('hands over the grammar that was set before', async () => {
    engine.setGrammar(grammar('kit'));
    engine.setGrammar(grammar('stating'));
    await engine.load('en');
    expect(hearing.grammars.map(({ state }) => state)).toEqual(['stating']);
    engine.setGrammar(grammar('fastening'));
    await settle();
    expect(hearing.grammars.at(-1)?.state).toBe('fastening');
  });
});

describe('listening', () => {
  it('passes the sound on at 16 kHz and gives each event its time on the page’s clock', async () => {
    microphone.sampleRate = 48000;
    const first = await open();
    microphone.sound(48000);
    await settle();
    expect(hearing.pushed).toBeGreaterThan(15_900);
    expect(hearing.pushed).toBeLessThanOrEqual(16_000);
    first.discard();
    const since = hearing.pushed;
    microphone.beganAt = 4_000;
    await open();
    hearing.next = [
      { kind: 'speech-start', at: since + 8_000 },
      { kind: 'heard', alternatives: [{ text: 'step done', confidence: 0.8 }], from: since + 8_000, to: since + 16_000 },
    ];
    microphone.sound(480);
    await settle();
    expect(events).toEqual([
      { kind: 'speech-start', time: 4_500 },
      { kind: 'heard', alternatives: [{ text: 'step done', confidence: 0.8 }], from: 4_500, to: 5_000 },
    ]);
  });

  it('tells of loud surroundings apart from what is heard', async () => {
    await open();
    hearing.next = [{ kind: 'surroundings', tooLoud: true, noise: -20, speech: null }];
    microphone.sound(160);
    await settle();
    expect(events).toEqual([]);
    expect(surroundings).toMatchObject([{ tooLoud: true }]);
  });

  it('lets one session listen at a time', async () => {
    await open();
    await expect(engine.open(null, () => undefined)).resolves.toMatchObject({ kind: 'refused', error: 'audio-capture' });
  });

  it('gives a track on to the microphone’s place, and a refusal back', async () => {
    await engine.load('en');
    const track = {} as MediaStreamTrack;
    microphone.refusal = { kind: 'refused', error: 'not-allowed', message: '' };
    await expect(engine.open(track, () => undefined)).resolves.toMatchObject({ error: 'not-allowed' });
    expect(microphone.tracks).toEqual([track]);
    microphone.refusal = null;
    await expect(engine.open(null, () => undefined)).resolves.toMatchObject({ kind: 'open' });
  });
});

describe('ending', () => {
  it('tells what can be made of the sound so far before it has finished', async () => {
    const opened = await open();
    hearing.leftOver = [{ kind: 'rejected', why: 'unclear', text: 'step', from: 0, to: 0 }];
    await opened.finish();
    expect(events).toMatchObject([{ kind: 'rejected', why: 'unclear' }]);
    expect(microphone.isOpen).toBe(false);
    microphone.sound(160);
    await settle();
    expect(hearing.pushed).toBe(0);
  });

  it('does not wait for ever for a worker that is stuck', async () => {
    const opened = await open();
    station.workers[0]!.terminated = true;
    let finished = false;
    void opened.finish().then(() => {
      finished = true;
    });
    await clock.advance(1_999);
    expect(finished).toBe(false);
    await clock.advance(1);
    expect(finished).toBe(true);
    expect(clock.pending).toBe(0);
  });

  it('tells nothing after it was discarded, and forgets the utterance under way', async () => {
    const opened = await open();
    hearing.next = [{ kind: 'partial', text: 'step' }];
    microphone.sound(160);
    opened.discard();
    await settle();
    expect(events).toEqual([]);
    expect(hearing.calls.at(-1)).toBe('reset');
    await expect(engine.open(null, () => undefined)).resolves.toMatchObject({ kind: 'open' });
  });

  it('is told when the microphone goes away', async () => {
    await open();
    microphone.onLost();
    expect(events).toMatchObject([{ kind: 'lost', error: 'audio-capture' }]);
    expect(microphone.isOpen).toBe(false);
  });

  it('is told when the worker breaks, by itself or in the recogniser, and loads afresh', async () => {
    await open();
    hearing.throws = true;
    microphone.sound(160);
    await settle();
    expect(events).toMatchObject([{ kind: 'lost', error: 'service-not-allowed' }]);
    hearing.throws = false;
    events = [];
    await open();
    station.workers.at(-1)?.crash('terminated by the system');
    expect(events).toMatchObject([{ kind: 'lost', error: 'service-not-allowed' }]);
    expect(station.workers).toHaveLength(2);
  });

  it('leaves nothing open when it is put away', async () => {
    await open();
    engine.dispose();
    expect(microphone.isOpen).toBe(false);
    expect(station.workers[0]?.terminated).toBe(true);
  });
});
