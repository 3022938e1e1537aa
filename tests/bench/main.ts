import { planFigures } from './plan.ts';

/** One JSON line a figure: what was measured, in which unit, against what, and the ratio to it. */
export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly versus: string;
  readonly ratio: number;
}

process.stderr.write('The review over five million events takes minutes and is measured by npm run bench:review.\n');
for await (const figure of planFigures()) process.stdout.write(`${JSON.stringify(figure)}\n`);
