import { loadavg, cpus } from 'node:os';
import { parseArgs } from 'node:util';
import { plansIn } from '../../../demo-data/plans.ts';
import { launch, serveBuilt } from '../../browser/rig.ts';
import type { Figure } from '../main.ts';
import { askDuckDb } from './duckdb.ts';
import type { DuckDbStep } from './duckdb.ts';
import { benchLogs } from './logs.ts';
import { measurePage } from './page.ts';
import type { Choice, PageFigures } from './page.ts';

/**
 * The review over millions of events in Chromium, and DuckDB over the same files in the same run. One JSON line a figure; what else is worth
 * knowing goes to standard error. `npm run bench:review [-- --events N] [--no-duckdb]`; the logs are made once and kept in .cache.
 */
const { values } = parseArgs({
  options: { events: { type: 'string', default: '5000000' }, 'no-duckdb': { type: 'boolean', default: false } },
});
const procedure = 'brindle-b4-final-drive';
const group = 'Bellows';

const logs = benchLogs('.cache/review-bench', Number(values.events));
tell(
  `${logs.files.length} files, ${(logs.bytes / 1e9).toFixed(2)} GB; ${cpus().length} cores (${cpus()[0]?.model ?? ''}), load ${loadavg()[0]?.toFixed(1) ?? ''}`,
);

const served = await serveBuilt();
const browser = await launch();
const page = await measurePage(browser, served.address, logs.files, procedure, group);
await browser.close();
await served.close();

const megabytes = (bytes: number): number => bytes / 2 ** 20;
print('review: import', page.importSeconds, 's', 'limit 20 s', page.importSeconds / 20);
print('review: import, processor time of its thread', page.importProcessor, 's', 'limit 20 s', page.importProcessor / 20);
print('review: page blocked while importing', page.blockedImporting, 'ms', 'limit 50 ms', page.blockedImporting / 50);
print('review: memory at most while importing', megabytes(page.memoryImporting), 'MiB', 'limit 400 MB', page.memoryImporting / 400e6);
print('review: memory at most', megabytes(page.memoryPeak), 'MiB', 'limit 400 MB', page.memoryPeak / 400e6);
for (const [name, choices] of [
  ['a filter at a glance', page.filters],
  ['a filter in any view', page.views],
  ['opening a view', page.openings],
] as const) {
  const slowest = choices.toSorted((one, other) => other.shown - one.shown)[0];
  if (slowest !== undefined)
    print(`review: slowest of ${name}, choice to last change`, slowest.shown, 'ms', 'limit 300 ms', slowest.shown / 300);
  const dearest = Math.max(...choices.map(({ worker, page: own }) => worker + own));
  print(`review: dearest of ${name}, processor time of both threads`, dearest, 'ms', 'limit 300 ms', dearest / 300);
  for (const choice of choices) tell(choiceLine(choice));
}
print('review: page blocked while filtering', page.blockedFiltering, 'ms', 'limit 50 ms', page.blockedFiltering / 50);
print(
  'review: longest task while filtering, processor time of its thread',
  page.longestFiltering,
  'ms',
  'limit 50 ms',
  page.longestFiltering / 50,
);

if (!values['no-duckdb']) await compareWithDuckDb();

async function compareWithDuckDb(): Promise<void> {
  const duckDb = await askDuckDb(logs.files, procedure, group);
  tell(`${page.events} events on the page, ${duckDb.events} in DuckDB; load ${loadavg()[0]?.toFixed(1) ?? ''}`);
  const compared = compareAnswers(page.steps, duckDb.steps);
  tell(`${compared.steps} steps compared: counts differ in ${compared.counts}, medians by ${compared.seconds.toFixed(2)} s at most`);
  print(
    'review: import against the other',
    page.importSeconds,
    's',
    `DuckDB ${duckDb.importSeconds.toFixed(2)} s`,
    page.importSeconds / duckDb.importSeconds,
  );
  print(
    'review: steps of one procedure in one group',
    page.question,
    'ms',
    `DuckDB, quartiles only, ${duckDb.questionMilliseconds.toFixed(1)} ms`,
    page.question / duckDb.questionMilliseconds,
  );
  print(
    'review: memory once read',
    megabytes(page.memorySettled),
    'MiB',
    `DuckDB at most ${megabytes(duckDb.memory).toFixed(0)} MiB`,
    page.memorySettled / duckDb.memory,
  );
}

function choiceLine({ what, shown, answer, worker, page: own, blocked, memory }: Choice): string {
  const figures = [shown, answer, worker, own, blocked].map((value) => value.toFixed(0).padStart(5));
  return `${what.padEnd(40).slice(0, 40)} shown ${figures[0]} ms, answer ${figures[1]} ms; threads: worker ${figures[2]} ms, page ${figures[3]} ms; blocked ${figures[4]} ms; ${megabytes(memory).toFixed(0)} MiB`;
}

function print(name: string, value: number, unit: string, versus: string, ratio: number): void {
  const figure: Figure = { name, value: Number(value.toPrecision(4)), unit, versus, ratio: Number(ratio.toPrecision(3)) };
  process.stdout.write(`${JSON.stringify(figure)}\n`);
}

function tell(line: string): void {
  process.stderr.write(`${line}\n`);
}

/** Steps without waits within them, since only those are reckoned alike. The page shows whole seconds. */
function compareAnswers(
  shown: PageFigures['steps'],
  steps: readonly DuckDbStep[],
): { readonly steps: number; readonly counts: number; readonly seconds: number } {
  const says = new Map(
    plansIn('procedures')
      .filter((plan) => plan.procedure.id === procedure)
      .flatMap((plan) => plan.steps.map(({ id, say }) => [say, id] as const)),
  );
  const byId = new Map(steps.map((step) => [step.step, step]));
  const pairs = shown.flatMap((one) => {
    const other = byId.get(says.get(one.step) ?? '');
    return other === undefined || other.hasWaits ? [] : [{ one, other }];
  });
  const off = pairs.map(({ one, other }) => Math.abs(secondsOf(one.median) - other.median));
  return { steps: pairs.length, counts: pairs.filter(({ one, other }) => one.runs < other.runs).length, seconds: Math.max(0, ...off) };
}

function secondsOf(clock: string): number {
  return clock.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);
}
