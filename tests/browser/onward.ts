import type { Page } from 'playwright-core';
import { andStored, stateOf } from './rig.ts';

/** What to press to get on, by state. */
export async function onwardByTouch(page: Page): Promise<void> {
  const state = await stateOf(page);
  const press = (name: string) => page.locator(`.actions [data-intent="${name}"]`).first().click();
  switch (state) {
    case 'measuring':
      for (const digit of ['2', '.', '0']) await page.locator('.keypad').getByRole('button', { name: digit, exact: true }).click();
      await page.locator('.keypad .primary').click();
      await page.waitForFunction(() => document.querySelector('.work')?.getAttribute('data-state') === 'confirming');
      return;
    case 'waiting':
      await press('done');
      await page.waitForFunction(() => document.querySelector('.work')?.getAttribute('data-state') === 'confirming');
      return;
    case 'closing':
      await press('accept');
      await page.waitForFunction(() => document.querySelector('.work')?.getAttribute('data-state') === 'reasoning');
      return;
    case 'reasoning':
      return andStored(page, () => page.locator('.actions-more button').first().click());
    case 'checking':
    case 'confirming':
    case 'signing':
      return andStored(page, () => press('yes'));
    default:
      return andStored(page, () => press('done'));
  }
}
