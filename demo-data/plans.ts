import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseProcedure } from '../src/procedure/parse.ts';
import type { Plan } from '../src/procedure/plan-types.ts';
import { planJob } from '../src/procedure/plan.ts';

/** The plans of every procedure file in a directory, one for each build. Throws on a file that is not whole: it is our own. */
export function plansIn(directory: string): readonly Plan[] {
  const files = readdirSync(directory)
    .filter((name) => name.endsWith('.yaml'))
    .sort();
  return files.flatMap((name) => {
    const parsed = parseProcedure(readFileSync(join(directory, name), 'utf8'), name);
    if (!parsed.ok) throw new Error(`${name}: ${JSON.stringify(parsed.problems[0])}`);
    const { file } = parsed;
    return [...file.variants.keys()].map((build) => {
      const planned = planJob(file, { build, spokenUnit: null, crib: null, today: '2026-01-01' });
      if (!planned.ok) throw new Error(`${name}, build ${build}: ${JSON.stringify(planned.problems[0])}`);
      return planned.plan;
    });
  });
}
