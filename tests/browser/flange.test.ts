import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { onwardByTouch } from './onward.ts';
import { barriers, andStored, launch, serveBuilt, startJob, stateOf } from './rig.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;

beforeAll(async () => {
  [browser, served] = await Promise.all([launch(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

async function freshPage(width = 390, height = 844): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height } });
  return context.newPage();
}

const keyFor: Readonly<Record<string, string>> = { checking: 'y', confirming: 'y', signing: 'y' };

async function onwardByKeys(page: Page): Promise<void> {
  const state = await stateOf(page);
  if (state === 'measuring' || state === 'waiting' || state === 'closing' || state === 'reasoning') return onwardByTouch(page);
  return andStored(page, () => page.keyboard.press(keyFor[state] ?? 'PageDown'));
}

describe.each([
  ['touch', onwardByTouch],
  ['keys', onwardByKeys],
])('the flange exercise by %s', (_, onward) => {
  it('goes from the start page to a signed record', async () => {
    const page = await freshPage();
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    await startJob(page, served.address, 'Eight-bolt flange exercise', 'K');
    const seen = new Set<string>();
    for (let turn = 0; turn < 150; turn += 1) {
      const state = await stateOf(page);
      seen.add(state);
      if (state === 'closed') break;
      await onward(page);
    }
    expect([...seen]).toEqual(expect.arrayContaining(['briefing', 'kit', 'stating', 'fastening', 'checking', 'measuring', 'closed']));
    await page.goto(served.address);
    await page.getByRole('heading', { name: 'Finished jobs' }).waitFor();
    await expect.poll(() => page.locator('article:not([data-due])', { hasText: 'Eight-bolt flange exercise' }).count()).toBe(2);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe.each([
  ['phone', 390, 844, 'dark'],
  ['tablet', 1024, 768, 'light'],
  ['desktop', 1440, 900, 'dark'],
] as const)('on a %s', (_, width, height, scheme) => {
  it('every screen on the way passes axe (WCAG 2.2 AA), targets are large, and nothing overflows sideways', async () => {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme: scheme });
    const page = await context.newPage();
    const check = async (name: string) => {
      const violations = await barriers(page);
      expect(violations.map(({ id, nodes }) => `${name}: ${id} ${nodes[0]?.html ?? ''}`)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), name).toBeLessThanOrEqual(0);
      const small = await page.evaluate(() =>
        [...document.querySelectorAll('.work button')]
          .filter((button) => button.getBoundingClientRect().height < 64 || button.getBoundingClientRect().width < 64)
          .map((button) => button.textContent),
      );
      expect(small, name).toEqual([]);
    };
    await page.goto(served.address);
    await page.getByRole('heading', { name: 'Eight-bolt flange exercise' }).waitFor();
    await check('start');
    await startJob(page, served.address, 'Eight-bolt flange exercise', 'M');
    const checked = new Set<string>();
    for (let turn = 0; turn < 150 && !checked.has('measuring'); turn += 1) {
      const state = await stateOf(page);
      if (!checked.has(state)) await check(state);
      checked.add(state);
      await onwardByTouch(page);
    }
    expect(checked).toContain('measuring');
    await page.goto(`${served.address}#/settings`);
    await page.getByRole('heading', { name: 'Settings' }).waitFor();
    await check('settings');
    await context.close();
  });
});
