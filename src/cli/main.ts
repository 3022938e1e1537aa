import { createInterface } from 'node:readline';
import type { Terminal, Verb } from './verb.ts';
import { verbs } from './verbs.ts';

const usage = (all: readonly Verb[]): string =>
  [
    'Undertray in the terminal.',
    '',
    'npm run undertray -- VERB …',
    '',
    ...all.map((verb) => `  ${verb.name.padEnd(10)} ${verb.summary}`),
    '',
    'VERB --help explains each. Results go to standard output, messages to standard error.',
    'Exit: 0 success, 1 what was checked falls short, 2 bad usage or input.',
  ].join('\n');

const terminal: Terminal = {
  out: (line) => process.stdout.write(`${line}\n`),
  err: (line) => process.stderr.write(`${line}\n`),
  lines: () => createInterface({ input: process.stdin, crlfDelay: Infinity }),
};

async function main(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    terminal.out(usage(verbs));
    return name === undefined ? 2 : 0;
  }
  const verb = verbs.find((one) => one.name === name);
  if (verb === undefined) {
    terminal.err(`No verb "${name}". There are: ${verbs.map((one) => one.name).join(', ')}.`);
    return 2;
  }
  if (rest.includes('--help') || rest.includes('-h')) {
    terminal.out(verb.help);
    return 0;
  }
  return verb.run(rest, terminal);
}

// A reader that closes early (`| head`) is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await main(process.argv.slice(2));
