import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { onwardByTouch } from './onward.ts';
import { barriers, launch, serveBuilt, startJob, storedLines } from './rig.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;

beforeAll(async () => {
  [browser, served] = await Promise.all([launch(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

async function freshPage(width = 390, height = 844, colorScheme: 'dark' | 'light' = 'dark'): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme, locale: 'en-US' });
  return context.newPage();
}

/** A long click wrench whose calibration is long overdue, and a socket or two. */
const crib = JSON.stringify({
  format: 1,
  name: 'Bench',
  wrenches: [
    {
      id: 'long',
      name: 'Long 5-200',
      min: 5,
      max: 200,
      unit: 'N·m',
      graduation: 1,
      square: '1/2',
      tolerance: 'II-A',
      calibrated: '2020-01-15',
      operations: 12,
    },
  ],
  sockets: [{ id: 's16', kind: 'hex', size: '16', sizeUnit: 'mm', square: '1/2' }],
});

const takeIn = (page: Page, name: string, text: string) =>
  page.locator('input[type=file]').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

describe('the tools', () => {
  it('are taken in from a file, kept, and what is wrong with a file is named without losing anything', async () => {
    const page = await freshPage();
    await page.goto(`${served.address}#/tools`);
    await page.getByText('Nothing is filled in yet').waitFor();
    await takeIn(page, 'crib.json', crib);
    await page.getByText('crib.json has taken the place').waitFor();
    expect(await page.getByLabel('Highest mark', { exact: true }).inputValue()).toBe('200');
    await page.getByText('Calibration was due on 2021-01-15.').waitFor();
    await takeIn(page, 'broken.json', crib.replace('"max":200', '"max":"lots"'));
    await page.getByRole('alert').waitFor();
    const alert = await page.getByRole('alert').innerText();
    expect(alert).toContain('broken.json was not taken in');
    expect(alert).toContain('Torque wrenches, number 1, Highest mark: found "lots"; expected a torque above 0');
    await page.reload();
    expect(await page.getByLabel('Highest mark', { exact: true }).inputValue()).toBe('200');
    await page.getByRole('button', { name: 'Remove' }).first().click();
    await page.getByRole('button', { name: 'Take that back' }).click();
    await expect.poll(() => page.getByLabel('Highest mark', { exact: true }).inputValue()).toBe('200');
    await page.context().close();
  });

  it('show in the kit list, and what is doubtful about them shows before the job and is said when it starts', async () => {
    const page = await freshPage();
    await page.goto(`${served.address}#/tools`);
    await takeIn(page, 'crib.json', crib);
    await page.getByText('crib.json has taken the place').waitFor();
    await page.goto(`${served.address}#/kit/brindle-b4-wheels.yaml/K`);
    await page.getByText(/Long 5-200, set to \d+ N·m/u).waitFor();
    await page.getByText('Long 5-200: Calibration was due on 2021-01-15.').waitFor();
    await page
      .getByText(/not among your tools/u)
      .first()
      .waitFor();
    await startJob(page, served.address, 'wheel', 'K');
    for (let turn = 0; turn < 30 && (await page.locator('.work').getAttribute('data-state')) === 'briefing'; turn += 1) {
      const before = await page.locator('.work').getAttribute('data-events');
      await page.locator('.actions [data-intent="done"], .actions [data-intent="yes"]').first().click();
      await page.waitForFunction((events) => document.querySelector('.work')?.getAttribute('data-events') !== events, before);
    }
    await expect.poll(() => page.locator('.captions').innerText()).toMatch(/about your wrenches|Kit list|Got it/u);
    expect(await page.locator('.wrench-remarks').innerText()).toContain('Long 5-200: Calibration was due on 2021-01-15.');
    await page.context().close();
  });
});

describe('the clicks of a job', () => {
  it('count towards the wrench’s next calibration', async () => {
    const page = await freshPage();
    await page.goto(`${served.address}#/tools`);
    await takeIn(page, 'crib.json', crib.replace('2020-01-15', '2026-01-15'));
    await page.getByText('0 clicks counted from jobs on this device since its calibration, 12 in all').waitFor();
    await startJob(page, served.address, 'Eight-bolt flange exercise', 'K');
    // In pass 0 the bolts are seated by hand: nothing clicks.
    const clicked = async () =>
      (await storedLines(page)).filter((line) => line.includes('fastener-tightened') && !/pass\\*":0/u.test(line)).length;
    for (let turn = 0; turn < 80 && (await clicked()) < 3; turn += 1) await onwardByTouch(page);
    const clicks = await clicked();
    expect(clicks).toBe(3);
    await page.goto(`${served.address}#/tools`);
    await page.getByText(`3 clicks counted from jobs on this device since its calibration, 15 in all`).waitFor();
    await page.context().close();
  });
});

describe('the calculator', () => {
  it('answers, says that it is calculated, and names what it cannot read', async () => {
    const page = await freshPage();
    await page.goto(`${served.address}#/calculator`);
    await page.getByText('85 N·m', { exact: true }).waitFor();
    const units = page.locator('section', { has: page.getByRole('heading', { name: 'Torque in other units' }) });
    await units.getByLabel('Torque with its unit').fill('80 lbf·ft');
    expect(await units.getByRole('row', { name: /^N·m/u }).innerText()).toContain('108.4654');
    await units.getByLabel('Torque with its unit').fill('80 apples');
    expect(await units.getByRole('alert').innerText()).toContain('Found “80 apples”; expected a torque with its unit');
    const thread = page.locator('section', { has: page.getByRole('heading', { name: 'Preload and torque of a thread' }) });
    await thread.getByLabel('Torque to judge').fill('200 N·m');
    await thread
      .getByText(/impossible|too high/u)
      .first()
      .waitFor();
    expect(await page.getByText('Calculated, not a maker’s figure.', { exact: true }).count()).toBe(5);
    await page.context().close();
  });
});

describe.each([
  ['phone', 390, 844, 'dark'],
  ['tablet', 1024, 768, 'light'],
  ['desktop', 1440, 900, 'dark'],
] as const)('on a %s', (_, width, height, scheme) => {
  it('tools, kit list and calculator can be used by everybody, and nothing scrolls sideways', async () => {
    const page = await freshPage(width, height, scheme);
    await page.goto(`${served.address}#/tools`);
    await takeIn(page, 'crib.json', crib);
    await page.getByText('crib.json has taken the place').waitFor();
    for (const [hash, ready] of [
      ['#/tools', 'Rules'],
      ['#/kit/brindle-b4-final-drive.yaml/M', 'Make ready, from step 1'],
      ['#/calculator', 'Sockets and keys'],
    ] as const) {
      await page.goto(`${served.address}${hash}`);
      await page.getByRole('heading', { name: ready }).waitFor();
      const violations = await barriers(page);
      expect(violations.map(({ id, nodes }) => [hash, id, nodes.map(({ html }) => html).slice(0, 3)])).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    }
    await page.context().close();
  });
});
