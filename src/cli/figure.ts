import { ordinaryTolerance } from '../torque/wrench.ts';
import { readOptions } from './figure-options.ts';
import { notSpecification, reckon } from './figure-reckon.ts';
import { tell } from './figure-text.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

const usage =
  'figure [TORQUE] [--to UNIT]… [--lever MM --adapter MM [--angle DEG]] [--wrench MIN-MAX[/STEP]] [--thread THREAD [--class CLASS] [--mu N]] [--json]';

export const figure: Verb = {
  name: 'figure',
  summary: 'Convert a torque, correct it for an adapter, try a wrench on it, and judge it by its thread.',
  help: [
    usage,
    '',
    '  TORQUE       "47 lbf·ft", "90 Nm ±5 %", "5 to 7 N·m"',
    '  --to         a unit to convert to; may be given several times',
    '  --band       how far the torque may stray: "±5", "-0/+10 N·m"',
    '  --lever      from the wrench’s square to the hand, in mm',
    '  --adapter    from the square to the fastener, centre to centre, in mm',
    '  --angle      between adapter and lever: 0 straight out (where left out), 90 no change, 180 back',
    '  --wrench     the range of a wrench and the step of its scale: "40-200/5", "5-25/0.5 lbf·ft"',
    `  --tolerance  what the wrench may stray: percent, or a class such as II-A; ${ordinaryTolerance} % where left out`,
    '  --thread     "M10x1.25", "M10", "3/4-16 UNF"',
    '  --class      "8.8", "10.9", "A2-70", "grade 8"; the usual ones are tried where left out',
    '  --mu         friction in the thread and under the head; 0.12 where left out',
    '  --json       one JSON object',
    '',
    notSpecification,
    'Ends with 0, 1 when the wrench will not do or the torque is not plausible for the thread, 2 on bad usage.',
  ].join('\n'),
  run(args, terminal): Promise<ExitCode> {
    return Promise.resolve(report(args, terminal));
  },
};

function report(args: readonly string[], terminal: Terminal): ExitCode {
  const asked = readOptions(args);
  if ('complaint' in asked) {
    terminal.err(asked.complaint);
    terminal.err(usage);
    return 2;
  }
  const figures = reckon(asked);
  if ('complaint' in figures) {
    terminal.err(figures.complaint);
    return 2;
  }
  if (asked.json) terminal.out(JSON.stringify(figures, null, 2));
  else tell(figures, asked.arm, terminal);
  const fallsShort = figures.wrench?.fits === false || (figures.plausibility !== null && figures.plausibility.verdict !== 'plausible');
  return fallsShort ? 1 : 0;
}
