import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { build, preview } from 'vite';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { SpeechUnderTest } from './pages/speech-page.ts';
import { launch, microphoneFlags, sayIntoWav } from './rig.ts';

let folder: string;
let address: string;
let close: () => Promise<void>;
let browser: Browser;
let page: Page;
let errors: string[];

declare global {
  interface Window {
    readonly speechUnderTest: SpeechUnderTest;
  }
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'undertray-speech-parts-'));
  const wav = join(folder, 'microphone.wav');
  sayIntoWav(wav, ["that's done", 'what torque'], 3);
  const root = new URL('pages/', import.meta.url).pathname;
  const outDir = join(folder, 'built');
  const settings = {
    configFile: false,
    root,
    base: './',
    logLevel: 'error',
    // As in the project's own configuration.
    resolve: { alias: { 'blob-polyfill': new URL('../../src/speech/hearing/native-blob.ts', import.meta.url).pathname } },
    worker: { format: 'es' },
    build: { outDir, emptyOutDir: true, target: 'es2023', rolldownOptions: { input: join(root, 'speech.html') } },
  } as const;
  await build(settings);
  const server = await preview({ ...settings, preview: { port: 0, host: '127.0.0.1' } });
  address = `${server.resolvedUrls?.local[0] ?? ''}speech.html`;
  close = () => server.close();
  browser = await launch(microphoneFlags(wav, true));
});

afterAll(async () => {
  await browser.close();
  await close();
  await rm(folder, { recursive: true });
});

beforeEach(async () => {
  const context = await browser.newContext({ permissions: ['microphone'] });
  page = await context.newPage();
  errors = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto(address);
  await page.getByRole('button').click();
});

afterEach(async () => {
  await page.context().close();
  expect(errors).toEqual([]);
});

describe('the local recognition', () => {
  it('hears the microphone, with progress while it loads and events in the order of the standard', async () => {
    const { types, texts, others } = await page.evaluate(() => window.speechUnderTest.recognise(2));
    expect(texts.toSorted()).toEqual(["that's done", 'what torque']);
    expect(others.filter((other) => !['unclear', 'too-short', 'not-a-command'].includes(other))).toEqual([]);
    expect(types.slice(0, 4)).toEqual(['start', 'audiostart', 'soundstart', 'speechstart']);
    expect(types.indexOf('speechend')).toBeLessThan(types.indexOf('result'));
    expect(types.slice(-2)).toEqual(['audioend', 'end']);
    expect(types.filter((type) => type === 'end')).toHaveLength(1);
    const progress = await page.evaluate(() => window.speechUnderTest.progress);
    expect(progress.length).toBeGreaterThan(5);
    expect(progress.at(-1)).toBeCloseTo(1, 2);
    expect(progress).toEqual(progress.toSorted((a, b) => a - b));
  });

  it('hears a track, and the app’s own voice on it is intelligible', async () => {
    // Live sound differs a little from run to run, and a doubtful number is rather not heard than heard wrong. So: each is heard, none as another.
    const texts = ['Four seven newton metres.', 'One five newton metres.'];
    const heard = await page.evaluate((said) => window.speechUnderTest.hearOwnVoice(said), [...texts, ...texts, ...texts]);
    expect(new Set(heard)).toEqual(new Set(['four seven newton metres', 'one five newton metres']));
  });
});

describe('the local voice', () => {
  it('is heard from clips and from the synthesiser, and both end', async () => {
    const clips = await page.evaluate(() => window.speechUnderTest.speak('Four seven: forty-seven newton metres.'));
    expect(clips).toMatchObject({ outcome: 'ended', voice: 'local' });
    expect(clips.loudest).toBeGreaterThan(0.05);
    const unseen = await page.evaluate(() => window.speechUnderTest.speak('Refit the breather to the crossmember.'));
    expect(unseen).toMatchObject({ outcome: 'ended', voice: 'local' });
    expect(unseen.loudest).toBeGreaterThan(0.05);
    expect(unseen.seconds).toBeGreaterThan(1);
  });

  it('follows the volume', async () => {
    const text = 'Refit the breather to the crossmember.';
    const loud = await page.evaluate((said) => window.speechUnderTest.speak(said), text);
    const quiet = await page.evaluate((said) => window.speechUnderTest.speak(said, { volume: 0.25 }), text);
    expect(quiet.loudest / loud.loudest).toBeGreaterThan(0.15);
    expect(quiet.loudest / loud.loudest).toBeLessThan(0.4);
  });

  it('takes over where the browser has no voice, without being asked', async () => {
    const said = await page.evaluate(() => window.speechUnderTest.speak('Forty-seven newton metres.', { voice: 'automatic' }));
    expect(said).toMatchObject({ outcome: 'ended', voice: 'local' });
  });
});

it('sounds the earcons', async () => {
  for (const name of ['heard', 'caution'] as const) {
    const loudest = await page.evaluate((which) => window.speechUnderTest.earcon(which), name);
    expect(loudest).toBeGreaterThan(0.03);
  }
});

describe('the controller in a real browser', () => {
  it('falls over from the browser’s own recognition to the local one, and hears', async () => {
    const { heard, ear } = await page.evaluate(() =>
      window.speechUnderTest.converse({ ear: 'browser', remoteAllowed: true, voice: 'off' }, 1),
    );
    expect(ear).toMatchObject({ kind: 'local', audioLeavesDevice: false });
    expect(["local: that's done", 'local: what torque']).toContain(heard[0]);
  });

  it('never obeys itself when its own voice comes back into its microphone', async () => {
    const log = await page.evaluate(() =>
      window.speechUnderTest.overhear([
        'Step five. Refit the filler plug. Say: step done.',
        'One seven, seventeen millimetre socket. Four seven: forty-seven newton metres.',
        'Not understood. Say: what torque, step done, or how many left.',
        'Stopped. When it is safe, say: carry on.',
        'Next: left rear. Left: three.',
      ]),
    );
    expect(log.outcomes).toEqual(['ended', 'ended', 'ended', 'ended', 'ended']);
    expect(log.heard).toEqual([]);
  });
});
