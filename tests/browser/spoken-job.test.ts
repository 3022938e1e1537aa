import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { andStored, launch, microphoneFlags, sayIntoWav, serveBuilt, startJob, stateOf, storedLines } from './rig.ts';
import { recordSoundLevels, soundLevels, untilHeard } from './sound-levels.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'undertray-speech-'));
  const wav = join(folder, 'microphone.wav');
  // The pause leaves room for the whole answer: while it speaks, only an interruption is listened to.
  sayIntoWav(wav, ['what torque', "that's done"], 10);
  [browser, served] = await Promise.all([launch(microphoneFlags(wav, true)), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
  await rm(folder, { recursive: true });
});

it(
  'hears speech from the microphone on the device, answers aloud, counts the fastener and stores the events',
  { timeout: 300_000 },
  async () => {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, permissions: ['microphone'] });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    await recordSoundLevels(page);
    await page.addInitScript(() => {
      localStorage.setItem('undertray.settings', JSON.stringify({ v: 1, ear: 'local', voice: 'local', language: 'en' }));
    });
    await startJob(page, served.address, 'Eight-bolt flange exercise', 'K', 'Alex', 'Begin');
    // By touch to the fasteners, while the models load.
    for (let turn = 0; turn < 60 && (await stateOf(page)) !== 'fastening'; turn += 1) {
      const name = (await stateOf(page)) === 'checking' ? 'yes' : 'done';
      await andStored(page, () => page.locator(`.actions [data-intent="${name}"]`).first().click());
    }
    const before = (await soundLevels(page)).loudspeaker.length;
    const heard = page.locator('.captions', { hasText: 'Heard: “what torque”' });
    await heard.waitFor({ timeout: 100_000 });
    // The snug pass has no torque of its own, and the answer says so, aloud.
    await page.locator('.captions', { hasText: /No torque in this pass/u }).waitFor();
    await untilHeard(page, 0.01, before);
    await page.locator('.captions', { hasText: "Heard: “that's done”" }).waitFor({ timeout: 100_000 });
    await page.locator('.count', { hasText: /[1-8] of 8 done/u }).waitFor();
    const stored = await storedLines(page);
    expect(stored.some((line) => line.includes('asked') && line.includes('torque'))).toBe(true);
    expect(stored.some((line) => line.includes('fastener-tightened'))).toBe(true);
    expect(errors).toEqual([]);
    await context.close();
  },
);
