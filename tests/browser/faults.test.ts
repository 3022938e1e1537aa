import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { doublesScript, pageWithDoubles } from './doubles.ts';
import { onwardByTouch } from './onward.ts';
import { at, press, startPractice } from './practice.ts';
import { launch, serveBuilt, stateOf, storedLines } from './rig.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;
let doubles: string;

beforeAll(async () => {
  [browser, served, doubles] = await Promise.all([
    launch(['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream']),
    serveBuilt(),
    doublesScript(),
  ]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

/** A device whose voice is a strict double, at the first step of a job. */
async function atWork(): Promise<{ readonly context: BrowserContext; readonly page: Page; readonly job: string }> {
  const page = await pageWithDoubles(browser, doubles);
  await startPractice(page, served.address, 'Begin');
  while ((await stateOf(page)) !== 'stating') await onwardByTouch(page);
  return { context: page.context(), page, job: /job\/([^/]+)$/u.exec(page.url())?.[1] ?? '' };
}

/** Waits until the voice has said it. */
const aloud = (page: Page, said: RegExp) =>
  page.waitForFunction(
    (pattern) =>
      new RegExp(pattern, 'iu').test(
        (window as unknown as { doubles: { synthesis: { spoken: readonly { text: string }[] } } }).doubles.synthesis.spoken
          .map(({ text }) => text)
          .join(' '),
      ),
    said.source,
  );

/** Told on the screen, and aloud. */
async function told(page: Page, shown: RegExp, said: RegExp): Promise<void> {
  await page.locator('.trouble', { hasText: shown }).waitFor();
  await aloud(page, said);
}

/** Reaches into the stored journal behind the app's back. */
const tamper = (page: Page, what: 'clear' | 'spoil an event' | 'spoil the plan') =>
  page.evaluate(
    (act) =>
      new Promise<void>((resolve) => {
        const request = indexedDB.open('undertray');
        request.onsuccess = () => {
          const transaction = request.result.transaction('journal', 'readwrite');
          const store = transaction.objectStore('journal');
          if (act === 'clear') store.clear();
          else
            store.getAllKeys().onsuccess = (event) => {
              const keys = (event.target as IDBRequest<IDBValidKey[]>).result as (readonly unknown[])[];
              const [kind, seq] = act === 'spoil the plan' ? ['job', undefined] : ['event', 2];
              const key = keys.find((one) => one[0] === kind && one[2] === seq);
              store.put('{"v":2,"job', key as IDBValidKey);
              if (act === 'spoil the plan') for (const one of keys) if (one[0] === 'summary') store.delete(one as IDBValidKey);
            };
          transaction.oncomplete = () => {
            request.result.close();
            resolve();
          };
        };
      }),
    what,
  );

const lines = async (page: Page): Promise<number> => (await storedLines(page)).filter((line) => line.includes('seq')).length;

it('storage that was cleared under the app is filled again, and so it says', async () => {
  const { context, page } = await atWork();
  const before = await lines(page);
  await tamper(page, 'clear');
  expect(await lines(page)).toBe(0);
  await press(page, 'done', 'fastening');
  await told(page, /had cleared stored records/u, /removed the record/u);
  expect(await lines(page)).toBeGreaterThan(before);
  // What the trouble cut off is said behind it.
  await aloud(page, /removed the record[\s\S]*Tighten the two plate bolts/u);
  await context.close();
});

it('a full disk: nothing counts, it is said, and the same press counts once there is room', async () => {
  const { context, page } = await atWork();
  const before = await lines(page);
  // The browser's own limit cannot be brought to bear on so little; its error can.
  await page.evaluate(`{
    const { add } = IDBObjectStore.prototype;
    window.mend = () => { IDBObjectStore.prototype.add = add; };
    IDBObjectStore.prototype.add = function () { throw new DOMException('no room left', 'QuotaExceededError'); };
  }`);
  await page.locator('.actions [data-intent="done"]').first().click();
  await told(page, /The disk is full/u, /full/u);
  expect(await stateOf(page)).toBe('stating');
  expect(await lines(page)).toBe(before);
  await page.evaluate('window.mend()');
  await press(page, 'done', 'fastening');
  await page.locator('.trouble').waitFor({ state: 'detached' });
  await context.close();
});

it('a device that slept and a clock that was set back are told, and are on the record', async () => {
  const { context, page } = await atWork();
  await page.evaluate(`{ const read = Date.now; Date.now = () => read.call(Date) - 3 * 3_600_000; }`);
  await told(page, /The clock of this device was changed/u, /clock/u);
  await page.evaluate(`{ const read = performance.now.bind(performance); performance.now = () => read() + 5 * 3_600_000; }`);
  await told(page, /The device was asleep/u, /asleep/u);
  await press(page, 'done', 'fastening');
  const jumps = (await storedLines(page)).filter((line) => line.includes('clock-jumped'));
  expect(jumps).toHaveLength(2);
  await context.close();
});

it('two tabs: the second says why it only looks on, and goes on by itself when the first is closed', async () => {
  const { context, page, job } = await atWork();
  const second = await context.newPage();
  await second.addInitScript(doubles);
  await second.goto(`${served.address}#/job/${job}`);
  const alert = second.getByRole('alert').filter({ hasText: 'Another tab is working on this job' });
  await alert.waitFor();
  await second.getByRole('button', { name: 'Hear it' }).click();
  await second.waitForFunction(() =>
    (window as unknown as { doubles: { synthesis: { spoken: readonly { text: string }[] } } }).doubles.synthesis.spoken.some(({ text }) =>
      text.includes('Another tab'),
    ),
  );
  await press(page, 'done', 'fastening');
  await page.close();
  // As far as the first had come.
  await second.getByRole('button', { name: 'Go on without voice' }).click();
  await at(second, 'fastening');
  await context.close();
});

it('a record with a spoilt line goes on and says so; one without its plan is shown, and its lines can be saved', async () => {
  const { context, page, job } = await atWork();
  await tamper(page, 'spoil an event');
  await page.reload();
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await told(page, /Part of this record cannot be read/u, /cannot be read/u);
  await tamper(page, 'spoil the plan');
  await page.goto(served.address);
  const damaged = page.getByRole('alert').filter({ hasText: 'Part of this record cannot be read' });
  await damaged.getByRole('link', { name: job.slice(0, 8) }).click();
  const saved = page.waitForEvent('download');
  await page.getByRole('alert').getByRole('button').click();
  expect((await saved).suggestedFilename()).toBe(`${job}.jsonl`);
  await context.close();
});

it('records of a newer version are left alone, and the screen says so', async () => {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(`${served.address}icon-192.png`);
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const request = indexedDB.open('undertray', 99);
        request.onupgradeneeded = () => request.result.createObjectStore('of-tomorrow');
        request.onsuccess = () => {
          request.result.close();
          resolve();
        };
      }),
  );
  await page.goto(served.address);
  await page.getByText('come from a newer version').waitFor();
  await context.close();
});

it('a start page that cannot read its jobs says so, and does not look as if there were none', async () => {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.route('**/assets/services-*.js', (route) => route.abort());
  await page.goto(served.address);
  await page.getByText('Reload to go on where you were').waitFor();
  expect(await page.getByText('First time?').count()).toBe(0);
  await page.unroute('**/assets/services-*.js');
  await page.reload();
  await page.getByText('First time?').waitFor();
  expect(await page.getByText('Reload to go on where you were').count()).toBe(0);
  await context.close();
});
