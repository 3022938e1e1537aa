import { IDBKeyRange } from 'fake-indexeddb';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { theSpeechDesk } from '../../../src/app/platform/desk.ts';
import { startRunner } from '../../../src/app/work/runner.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { createHearing } from '../../../src/speech/hearing/hearing.ts';
import { benchGrammar } from '../../bench/voice/commands.ts';
import { NoiseBank } from '../../bench/voice/conditions.ts';
import { listen, quickBlock } from '../../bench/voice/trial.ts';
import { makePlan } from '../../job/plans.ts';
import { device } from '../../journal/fake-device.ts';
import { slt, spoken } from '../../speech/hearing/clips.ts';
import { hearingModels } from '../../speech/hearing/models.ts';
import { speechBench } from '../../speech/doubles/speech-bench.ts';

const { controllers } = vi.hoisted(() => ({ controllers: [] as unknown[] }));
vi.mock('../../../src/speech/browser-speech.ts', () => ({ createBrowserSpeech: () => controllers[0] }));

beforeAll(() => {
  vi.stubGlobal('IDBKeyRange', IDBKeyRange);
});
afterAll(() => {
  vi.unstubAllGlobals();
});

it('says and shows the tip to come closer once a compressor drowns the voice, and not before', { timeout: 60_000 }, async () => {
  const bench = speechBench({ ear: 'local', voice: 'local' });
  controllers[0] = bench.controller;
  const journal = device().app('first', null);
  const spokenLines: string[] = [];
  let time = 0;
  const runner = startRunner({
    journal,
    job: 'a job',
    plan: makePlan([{ id: 'only' }]),
    events: [],
    now: () => ({ moment: { wall: 1.8e12, offset: 60, mono: (time += 10) }, session: 'first' }),
    words: (line) => packFor('en').say(line),
    speak: (text) => spokenLines.push(text),
    hush: () => undefined,
    isSpeaking: () => false,
    set: () => undefined,
  });
  await journal.open('a job');
  await runner.begin({ person: 'Alex', group: null });
  const desk = theSpeechDesk();
  const told: Promise<void>[] = [];
  desk.onTrouble((code) => void told.push(runner.trouble(code)));
  await Promise.race([desk.begin(), bench.clock.advance(1000)]);

  const ear = createHearing(await hearingModels());
  ear.setGrammar(benchGrammar('fastening', false));
  const hear = async (sound: Float32Array) => {
    for (const { event } of listen(ear, sound, quickBlock)) if (event.kind === 'surroundings') bench.controller.tellSurroundings(event);
    await Promise.all(told);
  };
  const noises = new NoiseBank(() => []);
  const voice = spoken(slt, 'what torque');

  await hear(noises.mix(voice, { name: 'compressor', level: 20 }, 16000, 'usable'));
  expect(runner.view().trouble).toBeNull();

  const compressor = noises.of('compressor').slice(0, 8 * 16000);
  // As loud as the voice was at its loudest.
  await hear(compressor.map((sample) => sample * 0.1));
  const tip = packFor('en').say({ kind: 'failure', code: 'too-loud' }).say;
  expect(tip).toMatch(/too loud.*come closer/iu);
  expect(spokenLines.filter((text) => text.includes(tip))).toHaveLength(1);
  expect(runner.view().trouble).toBe('too-loud');
});
