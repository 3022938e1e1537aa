import { appendFile, cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { eventsOf, launch, serveBuilt, startJob } from './rig.ts';

let browser: Browser;
let folder: string;
let served: Awaited<ReturnType<typeof serveBuilt>>;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'undertray-update-'));
  // A copy of its own, so that a newer version can be put there.
  await cp('dist', folder, { recursive: true });
  [browser, served] = await Promise.all([launch(), serveBuilt(folder)]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
  await rm(folder, { recursive: true });
});

/** A page that is loaded again forgets this. */
const mark = (page: Page) => page.evaluate('window.isSamePage = true');
const isSame = (page: Page): Promise<boolean> => page.evaluate(() => 'isSamePage' in window);
const waitingWorker = (page: Page): Promise<boolean> =>
  page.evaluate(async () => ((await navigator.serviceWorker.getRegistration())?.waiting ?? null) !== null);

it('a newer version waits for the end of a job, and then comes to every tab', { timeout: 240_000 }, async () => {
  const context = await browser.newContext({ viewport: { width: 1024, height: 768 } });
  const first = await context.newPage();
  await first.goto(served.address);
  await first.getByText('Ready for work without a network').waitFor({ timeout: 120_000 });

  const atWork = await context.newPage();
  await startJob(atWork, served.address, 'Eight-bolt flange exercise', 'K');
  await mark(atWork);
  const stored = await eventsOf(atWork);

  await appendFile(join(folder, 'sw.js'), '\n// A newer version.\n');
  await first.reload();
  await first.getByText('A newer version is ready.').waitFor({ timeout: 60_000 });
  await first.getByRole('button', { name: 'Take the newer version' }).click();
  await first.getByText('A job is open in a tab.').waitFor();
  expect(await waitingWorker(first)).toBe(true);
  expect(await isSame(atWork)).toBe(true);
  expect(await eventsOf(atWork)).toBe(stored);

  // The job is left: it goes on another day, and nothing holds the newer version back.
  await atWork.goto(`${served.address}#/`);
  await atWork.getByRole('link', { name: 'Go on' }).waitFor();
  await Promise.all([mark(first), mark(atWork)]);
  await first.getByRole('button', { name: 'Take the newer version' }).click();
  for (const page of [first, atWork]) {
    await page.waitForFunction(() => !('isSamePage' in window));
    await page.getByRole('link', { name: 'Go on' }).waitFor();
  }
  expect(await waitingWorker(first)).toBe(false);
  await atWork.getByRole('link', { name: 'Go on' }).click();
  await atWork.getByRole('button', { name: 'Go on without voice' }).click();
  await atWork.locator('.work').waitFor();
  expect(await eventsOf(atWork)).toBeGreaterThanOrEqual(stored);
  await context.close();
});
