import { readFileSync, readdirSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { followTasks } from './longest-task.ts';

export interface PageFigures {
  readonly importSeconds: number;
  /** What the worker's thread itself ran for while importing: what is left when nothing else wants the processor. */
  readonly importProcessor: number;
  /** From choosing a filter at a glance to the last change on the page. Milliseconds. */
  readonly filters: readonly Choice[];
  /** The same for one group and back to all of them, in each view. */
  readonly views: readonly Choice[];
  /** What the worker takes for the steps of one procedure in one group. Milliseconds, the middle of five. */
  readonly question: number;
  /** The longest that the page's own thread was busy at one go. Milliseconds. */
  readonly blockedImporting: number;
  readonly blockedFiltering: number;
  /** The same while filtering, of what the thread itself ran for. */
  readonly longestFiltering: number;
  /** Opening each view, from the press to the last change on the page. */
  readonly openings: readonly Choice[];
  /** Bytes of the page's process that are its own, at their most and once settled. */
  readonly memoryPeak: number;
  readonly memorySettled: number;
  /** The most while importing, which each choice of a filter and each opening of a view has beside its other figures. */
  readonly memoryImporting: number;
  readonly events: number;
  readonly steps: readonly { readonly step: string; readonly runs: number; readonly median: string }[];
}

/** One choice of a filter, or opening of a view. Milliseconds. */
export interface Choice {
  readonly what: string;
  readonly shown: number;
  /** The slowest answer of the worker to it, by the clock. */
  readonly answer: number;
  /** What the worker's thread ran for. */
  readonly worker: number;
  /** What the page's own thread ran for. */
  readonly page: number;
  /** The longest that the page's own thread was busy at one go, if that was more than 50 ms; 0 otherwise. */
  readonly blocked: number;
  /** Bytes of the page's process that were its own, at their most until the next choice. */
  readonly memory: number;
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
  // Whoever comes for the review has had the app before: keeping it for later is not a part of the import.
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  const renderers = await renderersOf(browser);
  const memory = watchMemory(renderers);
  const begun = await now(page);
  const before = processorOf(renderers);
  await page
    .locator('.review-opening input[type=file]')
    .first()
    .setInputFiles([...files]);
  await page.locator('.review-glance').waitFor({ timeout: 300_000 });
  const imported = await now(page);
  const importProcessor = (processorOf(renderers).worker - before.worker) / 1000;
  const importSeconds = (await durations(page, 'review-import')).at(-1)! / 1000;
  await page.waitForTimeout(1500);
  const memoryImporting = memory.peak();

  const filtering = await now(page);
  const tasks = await followTasks(page);
  await page.locator('.review-filters-top button').first().click();
  const watched: Watched = { page, renderers, memory };
  const filters = await filterEach(watched);
  const { openings, choices: views } = await filterInEachView(watched);

  const filtered = await now(page);
  const longestFiltering = await tasks.stop();

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
  await page.locator('.review-figure summary').click();
  // The table comes a few rows at a time.
  await page.locator('.review-figure .table-scroll[aria-busy=false]').waitFor();
  const steps = await stepsShown(page);
  const memoryAfter = memory.peak();
  const memorySettled = memory.latest();
  memory.stop();
  await page.locator('.review-views button').last().click();
  const events = Number(/([\d,]+) events/u.exec(await page.locator('.review-count').innerText())?.[1]?.replaceAll(',', ''));
  const figures = {
    importSeconds,
    importProcessor,
    filters,
    views,
    question: question.toSorted((one, other) => one - other)[2] ?? NaN,
    blockedImporting: await longestTask(page, begun, imported),
    blockedFiltering: await longestTask(page, filtering, filtered),
    longestFiltering,
    openings,
    memoryImporting,
    memoryPeak: Math.max(memoryImporting, memoryAfter, ...[...filters, ...openings, ...views].map((choice) => choice.memory)),
    memorySettled,
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

interface Watched {
  readonly page: Page;
  readonly renderers: readonly number[];
  readonly memory: MemoryWatch;
}

/** Sets filters one after another, two values of each and back to none. */
async function filterEach(watched: Watched): Promise<readonly Choice[]> {
  const choices: Choice[] = [];
  const fields = watched.page.locator('.review-filter-fields').locator('select, input');
  for (let field = 0; field < (await fields.count()); field += 1) {
    const values = await fields.nth(field).evaluate((element) => {
      if (element instanceof HTMLSelectElement) return [...element.options].slice(1, 3).map(({ value }) => value);
      const { type, min } = element as HTMLInputElement;
      return type === 'date' ? [`${Number(min.slice(0, 4)) + 3}-05-01`] : ['2'];
    });
    const none = await fields.nth(field).inputValue();
    for (const value of [...values, none]) choices.push(await choose(watched, `field ${field}: ${value}`, { field, value }));
  }
  return choices;
}

async function filterInEachView(watched: Watched): Promise<{ readonly openings: readonly Choice[]; readonly choices: readonly Choice[] }> {
  const openings: Choice[] = [];
  const choices: Choice[] = [];
  const views = await watched.page.locator('.review-views button').allInnerTexts();
  for (const [view, name] of views.entries()) {
    openings.push(await choose(watched, `${name}, opened`, { view }));
    for (const value of ['0', '']) choices.push(await choose(watched, name, { field: 2, value }));
  }
  return { openings, choices };
}

type Pressed = { readonly field: number; readonly value: string } | { readonly view: number };

async function choose({ page, renderers, memory }: Watched, what: string, choice: Pressed): Promise<Choice> {
  await page.evaluate(() => performance.clearMeasures('review-answer'));
  memory.peak();
  const begun = await now(page);
  const before = processorOf(renderers);
  const shown = await page.evaluate(pressAndWait, choice);
  const after = processorOf(renderers);
  const blocked = await longestTask(page, begun, await now(page));
  const answer = Math.max(0, ...(await durations(page, 'review-answer')));
  const most = memory.peak();
  return { what, shown, answer, worker: after.worker - before.worker, page: after.page - before.page, blocked, memory: most };
}

/** Runs in the page: sets a filter or opens a view as a person would, and waits until the page has been still for a while. Milliseconds to the last change. */
function pressAndWait(choice: Pressed): Promise<number> {
  const still = 1200;
  return new Promise((resolve) => {
    const begun = performance.now();
    let last = begun;
    const observer = new MutationObserver(() => {
      last = performance.now();
    });
    observer.observe(document.querySelector('main')!, { subtree: true, childList: true, characterData: true, attributes: true });
    if ('view' in choice) {
      document.querySelectorAll<HTMLButtonElement>('.review-views button')[choice.view]!.click();
    } else {
      const element = document.querySelectorAll<HTMLSelectElement | HTMLInputElement>(
        '.review-filter-fields select, .review-filter-fields input',
      )[choice.field]!;
      const kind = element instanceof HTMLSelectElement ? HTMLSelectElement.prototype : HTMLInputElement.prototype;
      // Past React's own setter, so that it takes the change for one that a person made.
      Object.getOwnPropertyDescriptor(kind, 'value')?.set?.call(element, choice.value);
      element.dispatchEvent(new Event(element instanceof HTMLSelectElement ? 'change' : 'input', { bubbles: true }));
    }
    const watch = setInterval(() => {
      if (performance.now() - last < still) return;
      clearInterval(watch);
      observer.disconnect();
      resolve(last - begun);
    }, 100);
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
      return { step: cells[1] ?? '', runs: Number(cells[2]?.replaceAll(',', '')), median: cells[3] ?? '' };
    }),
  );
}

async function renderersOf(browser: Browser): Promise<readonly number[]> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  return processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
}

/** Milliseconds that the renderers' page threads and the workers' threads have run for, by Linux's own count. */
function processorOf(renderers: readonly number[]): { readonly page: number; readonly worker: number } {
  const time = { page: 0, worker: 0 };
  for (const id of renderers) {
    for (const thread of tasksOf(id)) {
      const name = read(`/proc/${id}/task/${thread}/comm`);
      const ran = Number(read(`/proc/${id}/task/${thread}/schedstat`).split(' ')[0]) / 1e6;
      if (name.startsWith('DedicatedWorker')) time.worker += ran;
      else if (thread === String(id)) time.page += ran;
    }
  }
  return time;
}

function tasksOf(id: number): readonly string[] {
  try {
    return readdirSync(`/proc/${id}/task`);
  } catch {
    return [];
  }
}

/** A process or thread may end between its being listed and its being read. */
function read(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}

interface MemoryWatch {
  /** The most since this was last asked. */
  peak(): number;
  latest(): number;
  stop(): void;
}

/** Follows the memory that renderers hold for themselves (RssAnon), the largest of them. */
function watchMemory(renderers: readonly number[]): MemoryWatch {
  let peak = 0;
  const measure = (): number =>
    Math.max(...renderers.map((id) => Number(/RssAnon:\s+(\d+) kB/u.exec(read(`/proc/${id}/status`))?.[1] ?? 0) * 1024));
  const watch = setInterval(() => (peak = Math.max(peak, measure())), 50);
  return {
    peak() {
      const most = Math.max(peak, measure());
      peak = 0;
      return most;
    },
    latest: measure,
    stop: () => clearInterval(watch),
  };
}
