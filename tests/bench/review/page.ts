import { readFileSync } from 'node:fs';
import type { Browser, CDPSession, Page } from 'playwright-core';

export interface PageFigures {
  readonly importSeconds: number;
  /** From choosing a filter to the answer on the page, the slowest of them. Milliseconds. */
  readonly slowestFilter: number;
  /** The slowest answer of the worker to a filter. Milliseconds. */
  readonly slowestAnswer: number;
  /** What the worker takes for the steps of one procedure in one group. Milliseconds, the middle of five. */
  readonly question: number;
  /** The longest that the page's own thread was busy at one go. Milliseconds. */
  readonly blockedImporting: number;
  readonly blockedFiltering: number;
  /** Bytes of the page's process that are its own, at their most and once settled. */
  readonly memoryPeak: number;
  readonly memorySettled: number;
  readonly events: number;
  readonly steps: readonly { readonly step: string; readonly runs: number; readonly median: string }[];
}

/** Reads the logs into the review's page and filters them, as a trainer would. */
export async function measurePage(
  browser: Browser,
  address: string,
  files: readonly string[],
  procedure: string,
  group: string,
): Promise<PageFigures> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.addInitScript(() => {
    const tasks: { readonly at: number; readonly took: number }[] = [];
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) tasks.push({ at: entry.startTime, took: entry.duration });
    }).observe({ type: 'longtask', buffered: true });
    Object.assign(globalThis, { longTasks: tasks });
  });
  await page.goto(`${address}#/review`);
  await page.locator('.review-opening input[type=file]').first().waitFor({ state: 'attached' });
  const memory = await watchMemory(browser);
  const begun = await now(page);
  await page
    .locator('.review-opening input[type=file]')
    .first()
    .setInputFiles([...files]);
  await page.locator('.review-glance').waitFor({ timeout: 300_000 });
  const imported = await now(page);
  const importSeconds = (await durations(page, 'review-import')).at(-1)! / 1000;
  await page.waitForTimeout(1500);

  const filtering = await now(page);
  await page.locator('.review-filters-top button').first().click();
  const slowestFilter = Math.max(...(await filterEach(page)));
  const slowestAnswer = Math.max(...(await durations(page, 'review-answer')));

  await page.locator('.review-views button').nth(1).click();
  await page.locator('.review-filter-fields select').first().selectOption(procedure);
  const question: number[] = [];
  for (let turn = 0; turn < 5; turn += 1) {
    await page.locator('.review-filter-fields select').nth(2).selectOption({ index: 0 });
    await settled(page);
    await page.evaluate(() => performance.clearMeasures('review-answer'));
    await page.locator('.review-filter-fields select').nth(2).selectOption({ label: group });
    await settled(page);
    question.push(Math.max(...(await durations(page, 'review-answer'))));
  }
  const steps = await stepsShown(page);
  const filtered = await now(page);
  const { peak, latest } = memory.stop();
  await page.locator('.review-views button').last().click();
  const events = Number(/([\d]+) events/u.exec(await page.locator('.review-count').innerText())?.[1]);
  const figures = {
    importSeconds,
    slowestFilter,
    slowestAnswer,
    question: question.toSorted((one, other) => one - other)[2] ?? NaN,
    blockedImporting: await longestTask(page, begun, imported),
    blockedFiltering: await longestTask(page, filtering, filtered),
    memoryPeak: peak,
    memorySettled: latest,
    events,
    steps,
  };
  await page.close();
  return figures;
}

const now = (page: Page): Promise<number> => page.evaluate(() => performance.now());

const durations = (page: Page, name: string): Promise<number[]> =>
  page.evaluate((wanted) => performance.getEntriesByName(wanted, 'measure').map(({ duration }) => duration), name);

const longestTask = (page: Page, from: number, to: number): Promise<number> =>
  page.evaluate(
    ([first, last]) =>
      Math.max(
        0,
        ...(globalThis as unknown as { longTasks: { at: number; took: number }[] }).longTasks
          .filter(({ at }) => at >= first! && at <= last!)
          .map(({ took }) => took),
      ),
    [from, to],
  );

/** Sets filters one after another; for each, how long until the page shows its answer. */
async function filterEach(page: Page): Promise<readonly number[]> {
  const took: number[] = [];
  const fields = page.locator('.review-filter-fields').locator('select, input');
  for (let field = 0; field < (await fields.count()); field += 1) {
    const values = await fields.nth(field).evaluate((element) => {
      if (element instanceof HTMLSelectElement) return [...element.options].slice(1, 3).map(({ value }) => value);
      const { type, min } = element as HTMLInputElement;
      return type === 'date' ? [`${Number(min.slice(0, 4)) + 3}-05-01`] : ['2'];
    });
    const none = await fields.nth(field).inputValue();
    for (const value of [...values, none]) took.push(await page.evaluate(setAndWait, { field, value }));
  }
  return took;
}

/** Runs in the page: sets a filter as a person would, and waits until the count at the top is another one and is painted. */
function setAndWait({ field, value }: { readonly field: number; readonly value: string }): Promise<number> {
  const element = document.querySelectorAll<HTMLSelectElement | HTMLInputElement>(
    '.review-filter-fields select, .review-filter-fields input',
  )[field]!;
  const kind = element instanceof HTMLSelectElement ? HTMLSelectElement.prototype : HTMLInputElement.prototype;
  return new Promise((resolve) => {
    const begun = performance.now();
    const observer = new MutationObserver(() => {
      observer.disconnect();
      requestAnimationFrame(() => resolve(performance.now() - begun));
    });
    observer.observe(document.querySelector('.review-count')!, { subtree: true, childList: true, characterData: true });
    // Past React's own setter, so that it takes the change for one that a person made.
    Object.getOwnPropertyDescriptor(kind, 'value')?.set?.call(element, value);
    element.dispatchEvent(new Event(element instanceof HTMLSelectElement ? 'change' : 'input', { bubbles: true }));
    // A filter that lets everything through changes nothing to be seen.
    setTimeout(() => {
      observer.disconnect();
      resolve(0);
    }, 3000);
  });
}

async function settled(page: Page): Promise<void> {
  let before = -1;
  for (;;) {
    await page.waitForTimeout(250);
    const answers = (await durations(page, 'review-answer')).length;
    if (answers === before && answers > 0) return;
    before = answers;
  }
}

async function stepsShown(page: Page): Promise<PageFigures['steps']> {
  return page.evaluate(() =>
    [...document.querySelectorAll('.review-figure table tbody tr')].map((row) => {
      const cells = [...row.children].map((cell) => cell.textContent);
      return { step: cells[1] ?? '', runs: Number(cells[2]), median: cells[3] ?? '' };
    }),
  );
}

/** Follows the memory that renderers hold for themselves (RssAnon), the largest of them. */
async function watchMemory(browser: Browser): Promise<{ stop(): { readonly peak: number; readonly latest: number } }> {
  const session: CDPSession = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  const renderers = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
  let peak = 0;
  const measure = (): number => {
    const held = renderers.map((id) => {
      try {
        return Number(/RssAnon:\s+(\d+) kB/u.exec(readFileSync(`/proc/${id}/status`, 'utf8'))?.[1] ?? 0) * 1024;
      } catch {
        return 0;
      }
    });
    return Math.max(...held);
  };
  const watch = setInterval(() => (peak = Math.max(peak, measure())), 50);
  return {
    stop() {
      clearInterval(watch);
      return { peak, latest: measure() };
    },
  };
}
