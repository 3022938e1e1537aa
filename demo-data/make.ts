import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { workshopRuns } from '../src/review/demonstration/workshop.ts';
import { logLines } from './log-lines.ts';
import { plansIn } from './plans.ts';

/**
 * Writes the logs of an invented training workshop, one file a job: `npx tsx demo-data/make.ts [--out DIR] [--seed N] [--runs N]`.
 * `runs` is how often each of the 24 apprentices works each procedure. The same seed writes the same bytes.
 */
const { values } = parseArgs({
  options: {
    out: { type: 'string', default: '.cache/demo-logs' },
    seed: { type: 'string', default: '7' },
    runs: { type: 'string', default: '8' },
    procedures: { type: 'string', default: 'procedures' },
  },
});

rmSync(values.out, { recursive: true, force: true });
mkdirSync(values.out, { recursive: true });
let jobs = 0;
let events = 0;
// The invented workshop works in English; an exercise told in two languages is still one exercise.
const plans = plansIn(values.procedures).filter(({ procedure }) => procedure.language === 'en');
for (const run of workshopRuns(plans, { seed: Number(values.seed), runs: Number(values.runs) })) {
  const lines = logLines(run);
  writeFileSync(join(values.out, `${run.job}.jsonl`), `${lines.join('\n')}\n`);
  jobs += 1;
  events += lines.length - 1;
}
console.log(`${jobs} jobs, ${events} events in ${values.out}`);
