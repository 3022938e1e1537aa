import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { onwardByTouch } from './onward.ts';
import { barriers, eventsOf, launch, serveBuilt, stateOf } from './rig.ts';
import { screens } from './screens.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;

beforeAll(async () => {
  [browser, served] = await Promise.all([launch(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

const opened = async (options: BrowserContextOptions): Promise<Page> =>
  (await browser.newContext({ viewport: { width: 390, height: 844 }, serviceWorkers: 'block', ...options })).newPage();

async function faults(page: Page): Promise<readonly string[]> {
  const violations = await barriers(page);
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  return [...violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html ?? ''}`), ...(overflow > 0 ? [`${overflow} px too wide`] : [])];
}

it('a browser that asks for French gets French screens, and the flange exercise in French first', { timeout: 300_000 }, async () => {
  const page = await opened({ locale: 'fr-FR' });
  await page.goto(served.address);
  const exercise = page.locator('article').first();
  await exercise.getByRole('heading', { name: 'Exercice de la bride à huit boulons' }).waitFor();
  expect(await page.locator('html').getAttribute('lang')).toBe('fr');
  // An English procedure says what it is before it is begun.
  await page.getByText('Écrite en anglais').first().waitFor();
  expect(await faults(page)).toEqual([]);
  await exercise.getByRole('button', { name: 'Commencer' }).click();
  await exercise.getByLabel('Votre nom, pour le relevé').fill('Camille');
  await exercise.getByRole('button', { name: 'Commencer' }).click();
  await page.getByRole('button', { name: 'Continuer sans voix' }).click();
  const seen = new Set<string>();
  for (let turn = 0; turn < 150 && (await stateOf(page)) !== 'closed'; turn += 1) {
    const state = await stateOf(page);
    if (!seen.has(state)) expect(await faults(page), state).toEqual([]);
    seen.add(state);
    if (state === 'fastening') expect(await page.locator('.captions').innerText()).not.toMatch(/\b(?:the|of|next|step)\b/iu);
    await onwardByTouch(page);
  }
  expect(await stateOf(page)).toBe('closed');
  for (const { path, fr } of screens) {
    await page.goto(`${served.address}#/${path}`);
    await page.getByRole('heading', { level: 1, name: fr }).waitFor();
    expect(await faults(page), path).toEqual([]);
  }
  // The invented workshop: tables and pictures.
  await page.goto(`${served.address}#/review`);
  await page.getByRole('button', { name: 'Voir un atelier inventé' }).click();
  await page.locator('.review figure svg').first().waitFor();
  expect(await faults(page), 'workshop').toEqual([]);
  await page.context().close();
});

it.each([
  ['English', 'en-GB', 'light', 'The procedures that ship are invented', 'rgb(247, 244, 236)'],
  ['French', 'fr-CA', 'dark', 'Les procédures fournies sont inventées', 'rgb(20, 23, 26)'],
] as const)('the cautions stand in %s and in the colours wanted before the app has come, and stay where they are', async (...row) => {
  const [, locale, colorScheme, caution, ground] = row;
  const page = await opened({ locale, colorScheme });
  let letCome = () => {};
  const mayCome = new Promise<void>((resolve) => {
    letCome = resolve;
  });
  await page.route(/assets\/first-/u, async (route) => {
    await mayCome;
    await route.continue();
  });
  await page.goto(served.address, { waitUntil: 'commit' });
  const text = page.getByText(caution);
  await text.waitFor();
  expect(await page.locator('main:visible').count()).toBe(1);
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe(ground);
  expect(await faults(page)).toEqual([]);
  const before = await text.boundingBox();
  letCome();
  await page.locator('article').first().waitFor();
  expect(await text.boundingBox()).toEqual(before);
  await page.context().close();
});

it('the keyboard alone goes from the start page to a counted fastener', { timeout: 300_000 }, async () => {
  const page = await opened({});
  await page.goto(served.address);
  const exercise = page.locator('article', { hasText: 'Eight-bolt flange exercise' }).first();
  await exercise.waitFor();
  const tabTo = async (isThere: () => Promise<boolean>) => {
    for (let presses = 0; presses < 60; presses += 1) {
      await page.keyboard.press('Tab');
      if (await isThere()) return;
    }
    throw new Error('the keyboard never got there');
  };
  const focused = (name: string) => () => page.evaluate((text) => document.activeElement?.textContent === text, name);
  await tabTo(focused('Start'));
  // What has the focus can be seen to have it.
  expect(await page.evaluate(() => getComputedStyle(document.activeElement ?? document.body).outlineStyle)).not.toBe('none');
  await page.keyboard.press('Enter');
  await exercise.locator('button[type="submit"]:enabled').waitFor();
  await tabTo(focused('Start'));
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Begin', exact: true }).waitFor();
  await tabTo(focused('Go on without voice'));
  await page.keyboard.press('Enter');
  await page.locator('.work').waitFor();
  for (let turn = 0; turn < 60 && (await stateOf(page)) !== 'fastening'; turn += 1) {
    const before = await eventsOf(page);
    await page.keyboard.press((await stateOf(page)) === 'checking' ? 'y' : 'PageDown');
    await page.waitForFunction((count) => Number(document.querySelector('.work')?.getAttribute('data-events')) > count, before);
  }
  expect(await stateOf(page)).toBe('fastening');
  await page.context().close();
});

it.each([
  // 200 % on a small laptop and on a phone are half as many pixels.
  ['a laptop at 200 % zoom', { viewport: { width: 640, height: 400 } }],
  ['a phone at 200 % zoom', { viewport: { width: 320, height: 422 } }],
  ['forced colours', { forcedColors: 'active' }],
  ['no motion wanted', { reducedMotion: 'reduce' }],
] as const)('%s: nothing is out of reach, and nothing moves that need not', { timeout: 300_000 }, async (_, options) => {
  const page = await opened(options);
  for (const { path, en } of screens.slice(0, 3)) {
    await page.goto(`${served.address}#/${path}`);
    await page.getByRole('heading', { level: 1, name: en }).waitFor();
    expect(await faults(page), path).toEqual([]);
  }
  await page.goto(served.address);
  const exercise = page.locator('article', { hasText: 'Eight-bolt flange exercise' }).first();
  await exercise.getByRole('button', { name: 'Start' }).click();
  await exercise.locator('button[type="submit"]:enabled').click();
  await page.getByRole('button', { name: 'A short tour first' }).click();
  expect(await page.locator('ol li').count()).toBeGreaterThan(3);
  await page.getByRole('button', { name: 'Go on without voice' }).click();
  await page.locator('.work').waitFor();
  for (let turn = 0; turn < 60 && (await stateOf(page)) !== 'fastening'; turn += 1) await onwardByTouch(page);
  expect(await faults(page), 'fastening').toEqual([]);
  if ('reducedMotion' in options) expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
  await page.context().close();
});
