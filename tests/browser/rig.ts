import { AxeBuilder } from '@axe-core/playwright';
import type { ChildProcess } from 'node:child_process';
import { execFileSync, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { chromium } from 'playwright-core';
import { preview } from 'vite';

/** The browser to drive: CHROMIUM, or where Debian and others put it. */
export const chromiumPath = ((): string => {
  const found = [process.env['CHROMIUM'], '/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(
    (path) => path !== undefined && existsSync(path),
  );
  if (found === undefined) throw new Error('No Chromium found. Install one or set CHROMIUM; tests/setup.sh does that.');
  return found;
})();

export const plainFlags = ['--no-sandbox', '--disable-gpu', '--autoplay-policy=no-user-gesture-required'];

/** A microphone that hears a WAV file, and consent already given. */
export const microphoneFlags = (wav: string, loops: boolean): string[] => [
  '--use-fake-ui-for-media-stream',
  '--use-fake-device-for-media-stream',
  `--use-file-for-fake-audio-capture=${wav}${loops ? '' : '%noloop'}`,
];

/** Serves the built app, or a copy of it in another folder; `npm run build` must have run. */
export async function serveBuilt(outDir?: string): Promise<{ readonly address: string; close(): Promise<void> }> {
  const server = await preview({
    preview: { port: 0, host: '127.0.0.1' },
    logLevel: 'error',
    ...(outDir === undefined ? {} : { build: { outDir } }),
  });
  const address = server.resolvedUrls?.local[0];
  if (address === undefined) throw new Error('the preview server has no address');
  return { address, close: () => server.close() };
}

export const launch = (flags: readonly string[] = []): Promise<Browser> =>
  chromium.launch({ executablePath: chromiumPath, args: [...plainFlags, ...flags] });

/** A browser with a profile of its own that can be killed outright and started again on the same profile. */
export interface Mortal {
  readonly page: Page;
  readonly context: BrowserContext;
  /** SIGKILL to the whole process group: nothing is flushed, nobody is told. */
  readonly kill: () => Promise<void>;
}

export const newProfile = (): Promise<string> => mkdtemp(join(tmpdir(), 'undertray-profile-'));
export const dropProfile = (profile: string): Promise<void> => rm(profile, { recursive: true, force: true, maxRetries: 5 });

export async function launchMortal(profile: string): Promise<Mortal> {
  const child = spawn(
    chromiumPath,
    [...plainFlags, '--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`, '--no-first-run', 'about:blank'],
    {
      detached: true,
      stdio: ['ignore', 'ignore', 'pipe'],
    },
  );
  const endpoint = await debuggingEndpoint(child);
  const browser = await chromium.connectOverCDP(endpoint);
  const context = browser.contexts()[0];
  if (context === undefined) throw new Error('the browser has no context');
  const page = context.pages()[0] ?? (await context.newPage());
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  return {
    page,
    context,
    kill: async () => {
      if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
      await gone;
      await browser.close().catch(() => undefined);
    },
  };
}

function debuggingEndpoint(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    child.stderr?.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const found = /DevTools listening on (\S+)/u.exec(said)?.[1];
      if (found !== undefined) resolve(found);
    });
    child.once('exit', (code) => reject(new Error(`the browser ended with ${code ?? 'a signal'}: ${said.slice(-500)}`)));
  });
}

/** From the start page to the work screen of a procedure, with voice or without. */
export async function startJob(
  page: Page,
  address: string,
  procedure: string,
  build: string,
  person = 'Alex',
  how: 'Begin' | 'Go on without voice' = 'Go on without voice',
): Promise<void> {
  // A page behind another may be given no frames, and then nothing on it can be pressed.
  await page.bringToFront();
  await page.goto(address);
  const panel = page.locator('article', { has: page.getByRole('heading', { name: procedure }) }).last();
  await panel.getByRole('button', { name: 'Start' }).click();
  await panel.getByLabel('Which build?').selectOption(build);
  await panel.getByLabel('Your name, for the record').fill(person);
  await panel.getByRole('button', { name: 'Start' }).click();
  await page.getByRole('button', { name: how, exact: true }).click();
  // The screen stands before the job's first event is stored: a browser killed between the two rightly knows of no job.
  await page.locator('.work:not([data-events="0"])').waitFor();
}

export const stateOf = async (page: Page): Promise<string> => (await page.locator('.work').getAttribute('data-state')) ?? '';
export const eventsOf = async (page: Page): Promise<number> => Number(await page.locator('.work').getAttribute('data-events'));

/** Does something and waits until the job has stored what it led to. */
export async function andStored(page: Page, act: () => Promise<unknown>): Promise<void> {
  const before = await eventsOf(page);
  await act();
  await page.waitForFunction((count) => Number(document.querySelector('.work')?.getAttribute('data-events')) > count, before);
}

/** The machine's own recorded-speech voice saying phrases, with pauses, over faint noise: what a fake microphone is given. */
export function sayIntoWav(wav: string, phrases: readonly string[], pause = 2.5): void {
  const parts = phrases.flatMap((phrase, index) => {
    const part = `${wav}.${index}.wav`;
    execFileSync('flite', ['-voice', 'slt', '-t', phrase, '-o', part]);
    execFileSync('sox', [part, '-r', '48000', '-c', '1', `${part}.48k.wav`, 'pad', String(pause), '0']);
    return [`${part}.48k.wav`];
  });
  execFileSync('sox', [...parts, `${wav}.clean.wav`]);
  // Digital silence is nothing that a microphone ever gives.
  const seconds = execFileSync('soxi', ['-D', `${wav}.clean.wav`])
    .toString()
    .trim();
  execFileSync('sox', ['-n', '-R', '-r', '48000', '-c', '1', `${wav}.noise.wav`, 'synth', seconds, 'pinknoise', 'vol', '0.003']);
  execFileSync('sox', ['-m', '-v', '0.9', `${wav}.clean.wav`, '-v', '1', `${wav}.noise.wav`, '-b', '16', wav]);
}

/** Everything that the page's journal holds, a line of JSON an entry. */
export const storedLines = (page: Page): Promise<string[]> =>
  page.evaluate(
    () =>
      new Promise<string[]>((resolve, reject) => {
        const request = indexedDB.open('undertray');
        request.onerror = () => reject(new Error('the database does not open'));
        request.onsuccess = () => {
          const all = request.result.transaction('journal').objectStore('journal').getAll();
          all.onsuccess = () => resolve(all.result.map((value: unknown) => JSON.stringify(value)));
        };
      }),
  );

/** What axe finds against WCAG 2.2 AA. */
export const barriers = async (page: Page) =>
  (await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']).analyze()).violations;
