import { parseArgs } from 'node:util';
import { fuzz } from './fuzz.ts';
import { targets } from './targets.ts';

/** `npm run fuzz -- [--inputs 100000] [--seed N] [--only NAME]`: ends with 1 when something was found, and prints the input to keep as a test. */
const { values } = parseArgs({
  options: {
    inputs: { type: 'string', default: '100000' },
    seed: { type: 'string', default: String(Date.now() % 1_000_000) },
    only: { type: 'string' },
  },
});

const chosen = targets.filter(({ name }) => values.only === undefined || name === values.only);
const { inputs, findings, slowest } = fuzz(chosen, {
  inputs: Number(values.inputs),
  seed: Number(values.seed),
  processorTime: () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  },
  onProgress: (done) => {
    if (process.stderr.isTTY) process.stderr.write(`\r${done}`);
  },
});
for (const { target, what, input } of findings) console.log(`${target}: ${what}\n${JSON.stringify(input).slice(0, 4000)}\n`);
console.log(`seed ${values.seed}: ${inputs} inputs, ${findings.length} findings, slowest ${slowest.toFixed(0)} ms of processor time`);
if (findings.length > 0) process.exitCode = 1;
