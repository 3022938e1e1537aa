import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { onwardByTouch } from './onward.ts';
import { launch, microphoneFlags, sayIntoWav, serveBuilt, startJob, stateOf } from './rig.ts';
import { screens } from './screens.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'undertray-safe-'));
  const wav = join(folder, 'microphone.wav');
  sayIntoWav(wav, ['say again'], 8);
  [browser, served] = await Promise.all([launch(microphoneFlags(wav, true)), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
  await rm(folder, { recursive: true });
});

interface Watched {
  readonly context: BrowserContext;
  readonly page: Page;
  /** Whatever the content security policy forbade, in any document of the page. */
  readonly forbidden: string[];
  /** Every address that page, workers and service worker asked for. */
  readonly asked: string[];
}

async function watchedPage(settings: object): Promise<Watched> {
  const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, permissions: ['microphone'] });
  const forbidden: string[] = [];
  const asked: string[] = [];
  context.on('request', (request) => asked.push(request.url()));
  await context.exposeFunction('tellForbidden', (what: string) => forbidden.push(what));
  await context.addInitScript((kept) => {
    localStorage.setItem('undertray.settings', kept);
    addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI, sourceFile }) => {
      (window as unknown as { tellForbidden(what: string): void }).tellForbidden(`${violatedDirective} ${blockedURI} ${sourceFile}`);
    });
  }, JSON.stringify(settings));
  const page = await context.newPage();
  page.on('console', (message) => {
    // Workers have no listener of ours; the browser writes their violations to the console.
    if (/content security policy/iu.test(message.text())) forbidden.push(message.text());
  });
  return { context, page, forbidden, asked };
}

it(
  'a whole flange job, heard and spoken on the device, asks nobody but its own server and breaks no rule of its policy',
  { timeout: 240_000 },
  async () => {
    const { context, page, forbidden, asked } = await watchedPage({ v: 1, ear: 'local', voice: 'local', language: 'en' });
    await startJob(page, served.address, 'Eight-bolt flange exercise', 'K', 'Alex', 'Begin');
    for (let turn = 0; turn < 150 && (await stateOf(page)) !== 'closed'; turn += 1) {
      await onwardByTouch(page);
      // Once the ear is there, so are its worker, its WebAssembly and its audio worklet.
      if (turn === 20) await page.locator('.chip.good, .chip.warn').waitFor({ timeout: 60_000 });
    }
    expect(await stateOf(page)).toBe('closed');
    await page.getByRole('link', { name: 'See the record', exact: true }).click();
    await page.locator('iframe').waitFor();
    const { origin } = new URL(served.address);
    const away = asked.filter((url) => !url.startsWith(`${origin}/`) && !/^(?:blob|data|about):/u.test(url));
    expect(away).toEqual([]);
    // The recording does see the large ones, so an empty list above means something.
    expect(asked.some((url) => url.includes('/flite-'))).toBe(true);
    expect(asked.some((url) => url.includes('/soundswallower'))).toBe(true);
    expect(forbidden).toEqual([]);
    await context.close();
  },
);

it('no screen breaks a rule of the policy', { timeout: 120_000 }, async () => {
  const { context, page, forbidden } = await watchedPage({});
  for (const { path, en } of screens) {
    await page.goto(`${served.address}#/${path}`);
    await page.getByRole('heading', { level: 1, name: en }).waitFor();
  }
  await page.waitForLoadState('networkidle');
  expect(forbidden).toEqual([]);
  await context.close();
});

it('script in the page and code from text are refused, so a text that got through as markup would do nothing', async () => {
  const { context, page, forbidden } = await watchedPage({});
  await page.goto(served.address);
  const ran = await page.evaluate(async () => {
    const script = document.createElement('script');
    script.textContent = 'window.ranInline = true';
    document.body.append(script);
    const image = document.createElement('div');
    image.innerHTML = '<img src="x:" onerror="window.ranHandler = true">';
    document.body.append(image);
    // What the debugger runs by itself is free of the policy; what a timer runs is not.
    return new Promise<boolean>((resolve) => {
      setTimeout(() => {
        try {
          // eslint-disable-next-line @typescript-eslint/no-implied-eval, @typescript-eslint/no-unsafe-call -- it is what must fail
          new Function('return 1')();
          resolve(true);
        } catch {
          resolve(false);
        }
      });
    });
  });
  expect(ran).toBe(false);
  expect(await page.evaluate(() => 'ranInline' in window || 'ranHandler' in window)).toBe(false);
  await expect.poll(() => forbidden.length).toBeGreaterThanOrEqual(2);
  await context.close();
});
