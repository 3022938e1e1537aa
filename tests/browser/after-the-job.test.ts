import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { RecordStore } from '../journal/record-store.ts';
import { onwardByTouch } from './onward.ts';
import { at, press, startPractice } from './practice.ts';
import { barriers, launch, microphoneFlags, sayIntoWav, serveBuilt, stateOf, storedLines } from './rig.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'undertray-after-'));
  const wav = join(folder, 'microphone.wav');
  sayIntoWav(wav, ['the thread at bolt two is rusty'], 0.3);
  [browser, served] = await Promise.all([launch(microphoneFlags(wav, false)), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
  await rm(folder, { recursive: true });
});

const device = async (from = browser): Promise<{ readonly context: BrowserContext; readonly page: Page }> => {
  const context = await from.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' });
  return { context, page: await context.newPage() };
};

async function toTheFirstStep(page: Page): Promise<void> {
  await startPractice(page, served.address);
  while ((await stateOf(page)) !== 'stating') await onwardByTouch(page);
}

/** Plays the first spoken note of the page, and says how loud it got. */
const loudness = (page: Page): Promise<number> =>
  page
    .locator('audio')
    .first()
    .evaluate(async (audio: HTMLAudioElement) => {
      const context = new AudioContext();
      const analyser = context.createAnalyser();
      context.createMediaElementSource(audio).connect(analyser);
      await audio.play();
      const samples = new Float32Array(analyser.fftSize);
      let loudest = 0;
      await new Promise<void>((resolve) => {
        const look = setInterval(() => {
          analyser.getFloatTimeDomainData(samples);
          loudest = Math.max(loudest, ...samples);
          if (!audio.ended) return;
          clearInterval(look);
          resolve();
        }, 30);
      });
      await context.close();
      return loudest;
    });

/** Whether the first photo of the page shows more than one colour. */
const showsSomething = (page: Page): Promise<boolean> =>
  page
    .locator('.kept-photo')
    .first()
    .evaluate(async (photo: HTMLImageElement) => {
      await photo.decode();
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [photo.naturalWidth, photo.naturalHeight];
      const pen = canvas.getContext('2d');
      pen?.drawImage(photo, 0, 0);
      const colours = new Set(new Uint32Array(pen?.getImageData(0, 0, canvas.width, canvas.height).data.buffer ?? new ArrayBuffer(0)));
      return colours.size > 10;
    });

it('keeps a spoken note and a photo with their step, and hands all of it to another device by file', { timeout: 240_000 }, async () => {
  const { context, page } = await device();
  await toTheFirstStep(page);
  await press(page, 'note', 'stating');
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await page.locator('[data-recording]').waitFor();
  // The pause after the words ends it.
  await page.locator('.captions', { hasText: 'Recording kept' }).waitFor();
  await press(page, 'photo', 'stating');
  await page.locator('.captions', { hasText: 'Photo kept' }).waitFor();
  await page.locator('summary', { hasText: 'Notes: 2' }).click();
  expect(await loudness(page)).toBeGreaterThan(0.05);
  expect(await showsSomething(page)).toBe(true);
  await press(page, 'hold-on', 'paused');
  await page.locator('.actions [data-intent="hand-over"]').click();
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as a file' }).click();
  const file = await saved;
  expect(file.suggestedFilename()).toMatch(/^practice-plate-K-.*\.zip$/u);
  const path = join(folder, file.suggestedFilename());
  await file.saveAs(path);
  await page.getByText('Marked as handed over.', { exact: true }).waitFor();
  expect((await barriers(page)).map(({ id }) => id)).toEqual([]);

  const other = await device();
  await other.page.goto(`${served.address}#/take-in`);
  await other.page.locator('input[type="file"]').setInputFiles(path);
  await other.page.getByText('Taken in: Practice plate.').waitFor();
  await other.page.getByRole('link', { name: 'Go on with it' }).click();
  await other.page.getByRole('button', { name: 'Go on without voice' }).click();
  await at(other.page, 'paused');
  await press(other.page, 'carry-on', 'stating');
  await other.page.locator('summary', { hasText: 'Notes: 2' }).click();
  expect(await loudness(other.page)).toBeGreaterThan(0.05);
  expect(await showsSomething(other.page)).toBe(true);
  await press(other.page, 'done', 'fastening');

  // Taken in once more it is known, and the other device's own going on is kept.
  await other.page.goto(`${served.address}#/take-in`);
  await other.page.locator('input[type="file"]').setInputFiles(path);
  await other.page.getByText('has gone on further here').waitFor();
  await Promise.all([context.close(), other.context.close()]);
});

/** A film in which each picture stands for a while; only brightness, no colour. YUV4MPEG2, as MJPEG Tools describe it, from memory. */
function film(pictures: readonly Uint8Array[], width: number, height: number): Uint8Array {
  const grey = Buffer.alloc((width * height) / 2, 128);
  const frames = pictures.flatMap((luma) => Array.from({ length: 3 }, () => Buffer.concat([Buffer.from('FRAME\n'), luma, grey])));
  return Buffer.concat([Buffer.from(`YUV4MPEG2 W${width} H${height} F5:1 Ip A1:1 C420jpeg\n`), ...frames]);
}

it('hands a job over by codes, read off the screen by a camera', { timeout: 240_000 }, async () => {
  const [width, height] = [1280, 720];
  const { context, page } = await device();
  await toTheFirstStep(page);
  await press(page, 'hold-on', 'paused');
  await page.locator('.actions [data-intent="hand-over"]').click();
  await page.getByRole('button', { name: 'Show as codes' }).click();
  const code = page.locator('.code-picture');
  await code.waitFor();
  const hold = page.getByRole('button', { name: 'Hold this one' });
  if ((await hold.count()) > 0) await hold.click();
  const count = Number(/of (\d+)/u.exec((await code.getAttribute('alt')) ?? '')?.[1]);
  const pictures: Uint8Array[] = [];
  for (let shown = 0; shown < count; shown += 1) {
    // What the screen shows, as a camera that sees all of it would have it.
    const luma = await code.evaluate(
      async (picture: HTMLImageElement, [wide, high]) => {
        await picture.decode();
        const canvas = document.createElement('canvas');
        [canvas.width, canvas.height] = [wide, high];
        const pen = canvas.getContext('2d');
        if (pen === null) return '';
        pen.fillStyle = '#777';
        pen.fillRect(0, 0, wide, high);
        pen.imageSmoothingEnabled = false;
        pen.drawImage(picture, (wide - high) / 2, 0, high, high);
        const { data } = pen.getImageData(0, 0, wide, high);
        let text = '';
        for (let at = 0; at < data.length; at += 4) text += String.fromCharCode(data[at] ?? 0);
        return btoa(text);
      },
      [width, height] as const,
    );
    pictures.push(Buffer.from(luma, 'base64'));
    if (count > 1) await page.getByRole('button', { name: 'Next', exact: true }).click();
  }
  const before = (await storedLines(page)).filter((line) => line.includes('seq')).length;
  await context.close();
  const path = join(folder, 'codes.y4m');
  await writeFile(path, film(pictures, width, height));

  const phone = await launch([
    '--use-fake-ui-for-media-stream',
    '--use-fake-device-for-media-stream',
    `--use-file-for-fake-video-capture=${path}`,
  ]);
  const other = await device(phone);
  await other.page.goto(`${served.address}#/take-in`);
  await other.page.getByRole('button', { name: 'From codes, by camera' }).click();
  await other.page.getByText('Taken in: Practice plate.').waitFor({ timeout: 90_000 });
  await other.page.getByRole('link', { name: 'Go on with it' }).click();
  await other.page.getByRole('button', { name: 'Go on without voice' }).click();
  await press(other.page, 'carry-on', 'stating');
  // All that the first device had, and the carrying on.
  expect((await storedLines(other.page)).filter((line) => line.includes('seq')).length).toBe(before + 1);
  await phone.close();
});

/** The page's clock runs so far ahead, as when somebody opens the app on another day. */
const later = (hours: number) => `(() => {
  const Real = Date;
  const ahead = ${hours * 3_600_000};
  globalThis.Date = class extends Real {
    constructor(...given) { if (given.length === 0) super(Real.now() + ahead); else super(...given); }
    static now() { return Real.now() + ahead; }
  };
})()`;

it(
  'shows what is due when the app is opened again, logs it, and sends the finished record through a bad line',
  { timeout: 240_000 },
  async () => {
    const { context, page } = await device();
    await startPractice(page, served.address);
    for (let turn = 0; turn < 80 && (await stateOf(page)) !== 'closed'; turn += 1) await onwardByTouch(page);
    await at(page, 'closed');
    await page.goto(served.address);
    const look = page.locator('article[data-due]', { hasText: 'Look at the plate again' });
    await look.waitFor();
    expect(await look.getAttribute('data-due')).toBe('false');
    await page.locator('article[data-due]', { hasText: 'After 50 km' }).waitFor();

    await context.addInitScript(later(25));
    await page.reload();
    await page.locator('article[data-due="true"]', { hasText: 'due now' }).waitFor();
    expect((await barriers(page)).map(({ id }) => id)).toEqual([]);
    page.once('dialog', (dialog) => void dialog.accept());
    await look.getByRole('button', { name: 'Done, log it' }).click();
    await page.getByText('Logged. It is on the record').waitFor();
    await look.waitFor({ state: 'detached' });
    expect((await storedLines(page)).filter((line) => line.includes('follow-up-done'))).toHaveLength(1);

    const store = await RecordStore.open();
    try {
      // Twice the line drops, before and after storing; then the store says nothing, until the app is opened anew.
      store.faults.push({ kind: 'drop before storing' }, { kind: 'drop after storing' }, { kind: 'say nothing', stores: false });
      const silence = (): Promise<void> =>
        new Promise((resolve) => {
          store.onSilence = resolve;
        });
      const third = silence();
      await page.goto(`${served.address}#/settings`);
      await page.getByLabel('Address').fill(store.settings.endpoint);
      await page.getByLabel('Key', { exact: true }).fill(store.settings.key);
      await page.getByLabel('Secret').fill(store.settings.secret);
      await page.getByLabel('Send finished jobs').check();
      await page.getByRole('button', { name: 'Keep', exact: true }).click();
      const unsent = page.locator('[data-unsent]:not([data-unsent="0"])');
      await unsent.waitFor();
      const count = Number(await unsent.getAttribute('data-unsent'));
      expect(count).toBeGreaterThan(20);
      await third;
      expect(await unsent.getAttribute('data-unsent')).toBe(String(count));
      // Somebody who never opens the settings sees it too.
      store.faults.push({ kind: 'say nothing', stores: false });
      const fourth = silence();
      await page.goto(served.address);
      await page.getByText(`Waiting to be sent to the record store: ${count}`).waitFor();
      await fourth;
      await page.reload();
      await page.locator('nav').first().waitFor();
      await page.goto(`${served.address}#/settings`);
      await page.locator('[data-unsent="0"]').waitFor();
      // Sent five times, once stored without an answer: each statement is there, and none twice.
      expect(store.faults).toEqual([]);
      expect(store.seen.filter(({ method }) => method === 'POST').length).toBeGreaterThanOrEqual(5);
      expect(store.stored.size).toBe(count);
    } finally {
      await store.close();
      await context.close();
    }
  },
);
