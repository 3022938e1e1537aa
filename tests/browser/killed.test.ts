import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { dropProfile, eventsOf, launchMortal, newProfile, serveBuilt, startJob, stateOf } from './rig.ts';

let served: Awaited<ReturnType<typeof serveBuilt>>;
let profile: string;

beforeAll(async () => {
  [served, profile] = await Promise.all([serveBuilt(), newProfile()]);
});
afterAll(async () => {
  await served.close();
  await dropProfile(profile);
});

/** The same moments in every run: a small multiplicative generator (Park and Miller, 1988). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

/**
 * Presses what leads on, looked for and pressed in one go: the screen of a job that still stores the last press may change between two calls.
 * False when nothing leads on.
 */
const pressOn = (page: Page): Promise<boolean> =>
  page.evaluate(async () => {
    const state = document.querySelector('.work')?.getAttribute('data-state');
    const name = state === 'checking' || state === 'confirming' ? 'yes' : state === 'paused' ? 'carry-on' : 'done';
    const button = document.querySelector<HTMLButtonElement>(`.actions [data-intent="${name}"]`);
    button?.click();
    for (let frame = 0; frame < 2; frame += 1) await new Promise(requestAnimationFrame);
    return button !== null;
  });

// Ten lives of a real browser: slow by nature, and a limit only against hanging.
it(
  'finds every acknowledged event again after being killed outright in mid-job, ten times at random moments',
  { timeout: 400_000 },
  async () => {
    const random = seeded(20261125);
    let acknowledged = 0;
    let resumedAt = '';
    for (let life = 0; life <= 10; life += 1) {
      const { page, kill } = await launchMortal(profile);
      if (life === 0) await startJob(page, served.address, 'Refit the rear final-drive unit', 'K');
      else {
        await page.goto(served.address);
        await page.getByRole('link', { name: 'Go on' }).click();
        await page.getByRole('button', { name: 'Go on without voice' }).click();
        await page.locator('.captions .caption-now').waitFor();
        // What was heard as counted before the kill is there after it, and the job goes on from it.
        expect(await eventsOf(page)).toBeGreaterThanOrEqual(acknowledged);
        expect(await stateOf(page)).not.toBe(resumedAt === 'closed' ? 'closed' : '');
      }
      if (life === 10) {
        await kill();
        break;
      }
      const presses = 3 + Math.floor(random() * 12);
      for (let press = 0; press < presses; press += 1) {
        if (!(await pressOn(page))) break;
        acknowledged = Math.max(acknowledged, await eventsOf(page));
      }
      resumedAt = await stateOf(page);
      // One more press whose storing may or may not have been acknowledged: the kill falls into it.
      await page.evaluate(() => document.querySelector<HTMLElement>('.actions .primary')?.click());
      for (let look = Math.floor(random() * 6); look > 0; look -= 1) acknowledged = Math.max(acknowledged, await eventsOf(page));
      await kill();
    }
    expect(acknowledged).toBeGreaterThan(40);
  },
);
