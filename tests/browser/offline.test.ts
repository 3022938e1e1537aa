import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { onwardByTouch } from './onward.ts';
import { eventsOf, launch, microphoneFlags, sayIntoWav, serveBuilt, startJob, stateOf } from './rig.ts';

let browser: Browser;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'undertray-offline-'));
  const wav = join(folder, 'microphone.wav');
  sayIntoWav(wav, ["that's done", 'what torque'], 9);
  browser = await launch(microphoneFlags(wav, true));
});
afterAll(async () => {
  await browser.close();
  await rm(folder, { recursive: true });
});

it(
  'after one visit it says that it is ready; then, with the server gone and the network off, a job goes on by voice',
  { timeout: 240_000 },
  async () => {
    const served = await serveBuilt();
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, permissions: ['microphone'] });
    await context.addInitScript(() => {
      localStorage.setItem('undertray.settings', JSON.stringify({ v: 1, ear: 'local', voice: 'local', language: 'en' }));
    });
    const visit = await context.newPage();
    await visit.goto(served.address);
    await visit.getByText('Ready for work without a network').waitFor({ timeout: 120_000 });
    await visit.close();

    await served.close();
    await context.setOffline(true);
    const page = await context.newPage();
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    await startJob(page, served.address, 'Eight-bolt flange exercise', 'K', 'Alex', 'Begin');
    for (let turn = 0; turn < 60 && (await stateOf(page)) !== 'fastening'; turn += 1) await onwardByTouch(page);
    // The microphone says "that's done" over and over: only the ear on this device can count that.
    const before = await eventsOf(page);
    await expect.poll(() => eventsOf(page), { timeout: 120_000, interval: 500 }).toBeGreaterThan(before);
    expect(await page.locator('.captions').innerText()).toMatch(/Heard: “(?:that's done|what torque)/u);
    // And the voice on this device has spoken: a voice that could not be fetched would have been told as a trouble.
    expect(await page.getByRole('alert').count()).toBe(0);
    expect(errors).toEqual([]);
    await context.close();
  },
);
