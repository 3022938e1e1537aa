import { beforeEach, expect, it } from 'vitest';
import type { ClipPlace, PlannedClip } from '../../../src/speech/synthesis/clip-plan.ts';
import type { FliteRenderer } from '../../../src/speech/synthesis/flite-renderer.ts';
import type { FliteStyle } from '../../../src/speech/synthesis/flite.ts';
import { createLocalSource } from '../../../src/speech/synthesis/local-source.ts';
import type { PlayingSound, SoundSource } from '../../../src/speech/synthesis/sound-source.ts';

const index = new Map<string, readonly ClipPlace[]>([['step done', ['end']]]);
const silent: PlayingSound = { pause: () => undefined, resume: () => undefined, stop: () => undefined };
const rendered = { samples: new Float32Array(10), sampleRate: 16000 };

let log: string[];
let styles: FliteStyle[];
let clipsReady: boolean;
let fliteWorks: boolean;
let source: SoundSource;

beforeEach(() => {
  log = [];
  styles = [];
  clipsReady = true;
  fliteWorks = true;
  const flite: FliteRenderer = {
    load: () => Promise.resolve(fliteWorks),
    isLoaded: true,
    render: (text, style) => {
      styles.push(style);
      log.push(`render ${text}`);
      return Promise.resolve(
        fliteWorks ? { kind: 'rendered', speech: rendered } : { kind: 'refused', error: 'synthesis-unavailable', message: '' },
      );
    },
    dispose: () => undefined,
  };
  source = createLocalSource({
    flite,
    playSpeech: (_speech, volume) => {
      log.push(`speech at ${volume}`);
      return silent;
    },
    clips: {
      index,
      voice: 'slt',
      player: {
        get isReady() {
          return clipsReady;
        },
        play: (clips: readonly PlannedClip[], volume: number) => {
          log.push(`${clips.length} clip at ${volume}`);
          return silent;
        },
      },
    },
  });
});

async function speak(text: string, change: { rate?: number; voice?: number } = {}) {
  const voice = source.voices[change.voice ?? 0]!;
  const sound = await source.prepare(text, { voice, rate: change.rate ?? 1, pitch: 1 });
  if (sound.kind === 'prepared')
    sound.play(
      0.7,
      () => undefined,
      () => undefined,
    );
  else log.push(`refused ${sound.error}`);
}

it('plays clips for what they cover, and has the synthesiser speak the rest', async () => {
  await speak('Step done.');
  await speak('Refit the breather.');
  expect(log).toEqual(['1 clip at 0.7', 'render Refit the breather.', 'speech at 0.7']);
});

it('leaves the clips aside at another rate, with another voice, and until they are loaded', async () => {
  await speak('Step done.', { rate: 0.8 });
  await speak('Step done.', { voice: 1 });
  clipsReady = false;
  await speak('Step done.');
  expect(log.filter((line) => line.startsWith('render'))).toHaveLength(3);
  expect(styles.map(({ voice, rate }) => `${voice} ${rate}`)).toEqual(['slt 0.8', 'rms 1', 'slt 1']);
});

it('still speaks what the clips cover when the synthesiser cannot be had', async () => {
  fliteWorks = false;
  await speak('Step done.', { rate: 0.8 });
  await speak('Refit the breather.');
  expect(log).toEqual(['render Step done.', '1 clip at 0.7', 'render Refit the breather.', 'refused synthesis-unavailable']);
});

it('offers voices of this device only', () => {
  expect(source.voices.every(({ localService }) => localService)).toBe(true);
  expect(source.voices.filter((voice) => voice.default)).toHaveLength(1);
});
