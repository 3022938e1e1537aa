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
  // The job that was just done is reviewed; the way to the workshop is among the logs.
  await page.locator('.review-view-choice select').selectOption({ label: 'Journaux' });
  await page.getByRole('button', { name: 'Voir un atelier inventé' }).click();
  await page.locator('.review figure svg').first().waitFor();
  expect(await faults(page), 'workshop').toEqual([]);
  await page.context().close();
});

/** The parts of the screen shown, each with its place. */
const standing = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('main')]
      .filter((main) => main.checkVisibility())
      .flatMap((main) => [...main.children].map((part) => `${part.textContent} ${JSON.stringify(part.getBoundingClientRect())}`)),
  );

/** Holds the app back, and notes whether the page is ever without a heading from its first one on. */
async function heldBack(options: BrowserContextOptions): Promise<{ readonly page: Page; readonly letCome: () => void }> {
  const page = await opened(options);
  let letCome = () => {};
  const mayCome = new Promise<void>((resolve) => {
    letCome = resolve;
  });
  await page.route(/assets\/first-/u, async (route) => {
    await mayCome;
    await route.continue();
  });
  await page.addInitScript(() => {
    let stood = false;
    new MutationObserver(() => {
      const stands = [...document.querySelectorAll('h1')].some((heading) => heading.checkVisibility());
      if (stood && !stands) Object.assign(window, { gap: true });
      stood ||= stands;
    }).observe(document, { childList: true, subtree: true, attributes: true });
  });
  return { page, letCome };
}

it.each([
  ['English', 'en', 'en-GB', 'light', 'rgb(247, 244, 236)'],
  ['French', 'fr', 'fr-CA', 'dark', 'rgb(20, 23, 26)'],
] as const)(
  'the top of each screen stands in %s and in the colours wanted before the app has come, and stays where it is',
  async (...row) => {
    const [, language, locale, colorScheme, ground] = row;
    for (const { path, ...name } of screens.slice(0, 6)) {
      const { page, letCome } = await heldBack({ locale, colorScheme });
      await page.goto(`${served.address}#/${path}`, { waitUntil: 'commit' });
      await page.getByRole('heading', { level: 1, name: name[language] }).waitFor();
      expect(await page.locator('main:visible').count()).toBe(1);
      expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe(ground);
      expect(await faults(page), path).toEqual([]);
      const before = await standing(page);
      // The heading is not alone: what the screen is for stands under it.
      expect(before.length, path).toBeGreaterThan(1);
      letCome();
      await page.locator('main:not([data-opening])').waitFor();
      expect((await standing(page)).slice(0, before.length), path).toEqual(before);
      expect(await page.evaluate(() => 'gap' in window), path).toBe(false);
      await page.context().close();
    }
  },
);

it('a link that is followed before the app has come leads to its screen', async () => {
  const { page, letCome } = await heldBack({});
  await page.goto(served.address, { waitUntil: 'commit' });
  const heading = page.getByRole('heading', { level: 1, name: 'My tools' });
  await page.getByRole('link', { name: 'My tools' }).click();
  await heading.waitFor();
  letCome();
  await page.getByRole('button', { name: 'Add: torque wrenches' }).waitFor();
  expect(await heading.count()).toBe(1);
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
