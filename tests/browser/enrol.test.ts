import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { askedCommands } from '../../src/app/enrol/commands.ts';
import { barriers, launch, microphoneFlags, sayIntoWav, serveBuilt } from './rig.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'undertray-enrol-'));
  const wav = join(folder, 'microphone.wav');
  const commands = askedCommands('en').map(({ text }) => text);
  sayIntoWav(wav, [...commands, ...commands], 1.4);
  [browser, served] = await Promise.all([launch(microphoneFlags(wav, false)), serveBuilt()]);
}, 120_000);
afterAll(async () => {
  await browser.close();
  await served.close();
  await rm(folder, { recursive: true });
});

it('gets used to a voice in two rounds, says what that was worth, and forgets it when told to', { timeout: 300_000 }, async () => {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, permissions: ['microphone'] });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await page.addInitScript(() => {
    localStorage.setItem('undertray.settings', JSON.stringify({ v: 1, ear: 'local', voice: 'off', language: 'en', person: 'Alex' }));
  });
  await page.goto(`${served.address}#/settings`);
  await page.getByRole('link', { name: 'Get used to my voice' }).click();
  expect(await barriers(page)).toEqual([]);
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.getByText('First time: 1 of 12').waitFor({ timeout: 60_000 });
  await page.getByText('Second time: 1 of 12').waitFor({ timeout: 120_000 });
  await page.getByText(/^Done\./u).waitFor({ timeout: 120_000 });
  const rows = await page.locator('.enrol-effect tbody tr').allInnerTexts();
  expect(rows[0]).toMatch(/As you said them\s+\d+ of (?:8|9|1[012])\s+\d+ of/u);
  expect(rows[1]).toMatch(/With noise/u);
  expect(await barriers(page)).toEqual([]);
  // Whether it helped this voice is for the measurement to say; what is kept shows in the settings, and goes when told to.
  const isKept = await page.getByText('Done. I hear you better now.').isVisible();
  await page.goto(`${served.address}#/settings`);
  if (isKept) {
    await page.getByText(/Used to the voice of Alex since/u).waitFor();
    await page.getByRole('button', { name: 'Forget this voice' }).click();
    await page.getByText('Forgotten.').waitFor();
  } else await page.getByText('can get used to how you speak').waitFor();
  expect(errors).toEqual([]);
  await context.close();
});
