import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { logLines } from '../../demo-data/log-lines.ts';
import { plansIn } from '../../demo-data/plans.ts';
import { workshopRuns } from '../../src/review/demonstration/workshop.ts';
import { barriers, launch, serveBuilt } from './rig.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;
let log: string;
const folder = mkdtempSync(join(tmpdir(), 'undertray-review-'));

beforeAll(async () => {
  const plans = plansIn('procedures').filter(({ procedure }) => ['bench-flange', 'brindle-b4-wheels'].includes(procedure.id));
  log = [...workshopRuns(plans, { seed: 7, runs: 3 })].map((run) => `${logLines(run).join('\n')}\n`).join('');
  [browser, served] = await Promise.all([launch(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true });
});

interface Look {
  readonly width: number;
  readonly height: number;
  readonly colorScheme: 'dark' | 'light';
  readonly language?: 'en' | 'fr';
}

async function openReview({
  width,
  height,
  colorScheme,
  language = 'en',
}: Look): Promise<{ readonly page: Page; readonly errors: string[] }> {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme });
  await context.addInitScript((chosen) => localStorage.setItem('undertray.settings', JSON.stringify({ v: 1, language: chosen })), language);
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto(served.address);
  // index.html has the links in every language until the script has come, and shows one of them.
  await page.locator('a[href="#/review"]:visible').click();
  await page.locator('.review-opening').waitFor();
  return { page, errors };
}

/** By its path: megabytes as a message to the browser take longer than reading them. */
async function addLog(page: Page, text = log): Promise<void> {
  const path = join(folder, 'workshop.jsonl');
  writeFileSync(path, text);
  await page.locator('.review-opening input[type=file]').first().setInputFiles(path);
}

const go = async (page: Page, view: string): Promise<void> => {
  const tab = page.locator('.review-views').getByRole('button', { name: view, exact: true });
  if (await tab.isVisible()) await tab.click();
  else await page.locator('.review-view-choice select').selectOption({ label: view });
};

const views = {
  'At a glance': '.review-findings li',
  Steps: '.review-figure svg',
  People: '.review-figure svg',
  Learning: '.review-figure svg',
  Order: '.review-figure svg',
  Runs: '.review-runs tbody tr',
  'Fair time': '.review-table tbody tr',
  Groups: '.review-figure svg',
  Feedback: '.review-sheet svg',
  Logs: '.review-count',
} as const;

describe.each([
  ['phone', { width: 390, height: 844, colorScheme: 'dark' }],
  ['tablet', { width: 1024, height: 768, colorScheme: 'light' }],
  ['desktop', { width: 1440, height: 900, colorScheme: 'dark' }],
] as const)('the review on a %s', (_, look) => {
  it('opens every view, each clean by axe (WCAG 2.2 AA) and without scrolling sideways', async () => {
    const { page, errors } = await openReview(look);
    await addLog(page);
    for (const [view, there] of Object.entries(views)) {
      if (view !== 'At a glance') await go(page, view);
      await page.locator(there).first().waitFor();
      const violations = await barriers(page);
      expect(violations.map(({ id, nodes }) => `${view}: ${id} ${nodes[0]?.html ?? ''}`)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), view).toBeLessThanOrEqual(0);
    }
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe('the review', () => {
  it('grows the invented workshop at one press, says that it is invented, and says first what is hidden in it', async () => {
    const { page } = await openReview({ width: 1440, height: 900, colorScheme: 'dark' });
    await page.getByRole('button', { name: 'Look at an invented workshop' }).click();
    await page.locator('.review-findings').waitFor({ timeout: 100_000 });
    await page.getByText('Invented for demonstration').waitFor();
    const findings = page.locator('.review-findings li');
    const told = await findings.allInnerTexts();
    for (const kind of ['Hold point left out', 'Hard step', 'Stuck', 'Groups differ', 'Learns fast'])
      expect(told.some((text) => text.startsWith(kind))).toBe(true);
    const last = await findings.last().boundingBox();
    expect((last?.y ?? Infinity) + (last?.height ?? 0)).toBeLessThanOrEqual(900);
    await page.context().close();
  });

  it('filters, shows people by code, leaves a run out with a reason, and knows both after a reload', async () => {
    const { page } = await openReview({ width: 1024, height: 768, colorScheme: 'light' });
    await addLog(page);
    const count = page.locator('.review-count');
    await count.getByText('144 runs').waitFor();
    await page.getByRole('button', { name: 'Filters' }).click();
    await page.getByRole('combobox', { name: 'Group', exact: true }).selectOption('Bellows');
    await count.getByText('72 runs').waitFor();
    await page.getByRole('button', { name: 'All runs' }).click();
    await page.getByRole('button', { name: 'Close the filters' }).click();
    await page.getByLabel('Code names').check();
    await go(page, 'Runs');
    await page
      .locator('.review-runs tbody tr', { hasText: /[AB]\d\d/ })
      .first()
      .waitFor();
    expect(await page.locator('.review-runs').innerText()).not.toContain('Lark Sedge');
    await page.locator('.review-runs button').first().click();
    await page.getByLabel('Pace, as you judged it').selectOption('1.1');
    // What was written stays at hand for more.
    await page.getByLabel('Reason to leave it out').fill('the van was on the wrong lift');
    await page.getByRole('button', { name: 'Leave this run out' }).click();
    await page.locator('.review-excluded', { hasText: 'the van was on the wrong lift' }).waitFor();
    await go(page, 'At a glance');
    await count.getByText('143 runs').waitFor();
    await page.reload();
    await addLog(page);
    await count.getByText('143 runs').waitFor();
    await page.context().close();
  });

  it('prints the feedback sheet on one page', async () => {
    const { page } = await openReview({ width: 1024, height: 768, colorScheme: 'dark' });
    await addLog(page);
    await page.locator('.review-findings').waitFor();
    await go(page, 'Feedback');
    await page.locator('.review-sheet svg').first().waitFor();
    const pdf = await page.pdf({ format: 'A4' });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/gu)).toHaveLength(1);
    await page.context().close();
  });

  it('uses the rest of a damaged log and says what it left out', async () => {
    const { page } = await openReview({ width: 1024, height: 768, colorScheme: 'dark' });
    const lines = log.split('\n');
    await addLog(page, [...lines.slice(0, 40), '{"event":', ...lines.slice(41)].join('\n'));
    await page.getByText('Something was wrong with some lines; the rest is used.').waitFor();
    await go(page, 'Logs');
    await page.getByText('1 line: not readable, left out.').waitFor();
    await page.getByText('1 event is missing from the middle or the beginning of runs.').waitFor();
    await page.context().close();
  });

  it('speaks French', async () => {
    const { page } = await openReview({ width: 390, height: 844, colorScheme: 'light', language: 'fr' });
    await addLog(page);
    await page.getByText('Ce qui ressort').waitFor();
    await go(page, 'Retour');
    await page.getByRole('heading', { name: 'Ce qui est à travailler' }).waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    await page.context().close();
  });
});
