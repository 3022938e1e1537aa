import type { Page } from 'playwright-core';
import { startJob } from './rig.ts';

/** Waits until the job is there. */
export const at = (page: Page, state: string) => page.locator(`.work[data-state="${state}"]`).waitFor();

/** Presses the button of an intent, and waits for the state that it leads to. */
export async function press(page: Page, name: string, state: string): Promise<void> {
  await page.locator(`.actions [data-intent="${name}"]`).first().click();
  await at(page, state);
}

export async function giveReason(page: Page, label: string, state: string): Promise<void> {
  await page.locator('.actions').getByRole('button', { name: label, exact: true }).click();
  await at(page, state);
}

async function enter(page: Page, value: string): Promise<void> {
  for (const key of value) await page.locator('.keypad').getByRole('button', { name: key, exact: true }).click();
  await page.locator('.keypad .primary').click();
  await at(page, 'confirming');
}

export async function measure(page: Page, value: string, state: string): Promise<void> {
  await enter(page, value);
  await press(page, 'yes', state);
}

/** Takes in the practice plate as a person's own procedure, and begins it. */
export async function startPractice(
  page: Page,
  address: string,
  how: 'Begin' | 'Go on without voice' = 'Go on without voice',
): Promise<void> {
  await page.goto(address);
  // Files are taken once the reader of procedures is there.
  await page.locator('article').first().waitFor();
  await page.locator('input[type="file"][accept*="yaml"]').setInputFiles(`${import.meta.dirname}/practice-plate.yaml`);
  await page.getByRole('heading', { name: 'Practice plate' }).waitFor();
  await startJob(page, address, 'Practice plate', 'K', 'Alex', how);
}

/** From the briefing to the close-out, leaving something of every kind behind. */
export async function leaveMuchOpen(page: Page): Promise<void> {
  await press(page, 'skip', 'reasoning');
  await giveReason(page, 'Told to', 'confirming');
  await press(page, 'yes', 'kit');
  for (let item = 0; item < 3; item += 1) {
    await page.locator('.count', { hasText: `${item + 1} / 4` }).waitFor();
    await page.locator('.actions [data-intent="done"]').click();
  }
  await page.locator('.count', { hasText: '4 / 4' }).waitFor();
  await press(page, 'missing', 'stating');
  await press(page, 'done', 'fastening');
  await press(page, 'skip-step', 'reasoning');
  await giveReason(page, 'No tool', 'confirming');
  await press(page, 'yes', 'measuring');
  await measure(page, '2.5', 'measuring');
  await press(page, 'skip', 'reasoning');
  await giveReason(page, 'Do it later', 'confirming');
  await press(page, 'yes', 'checking');
  await page.locator('.actions [data-intent="no"]').click();
  await page.locator('.captions', { hasText: 'Find out where it rubs' }).waitFor();
  await press(page, 'yes', 'stating');
  // The wait begins beside the work.
  await page.locator('.actions [data-intent="done"]').click();
  await page.locator('.timers').waitFor();
  await page.locator('.sentence', { hasText: 'Wipe' }).waitFor();
}
