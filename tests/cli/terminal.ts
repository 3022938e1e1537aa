import type { ExitCode, Terminal, Verb } from '../../src/cli/verb.ts';

export interface Ran {
  readonly code: ExitCode;
  readonly out: readonly string[];
  readonly err: readonly string[];
}

/** Runs a verb as the terminal would, with what it writes caught and what it reads given. */
export async function runVerb(verb: Verb, args: readonly string[], input: readonly string[] = []): Promise<Ran> {
  const out: string[] = [];
  const err: string[] = [];
  const terminal: Terminal = {
    out: (line) => out.push(...line.split('\n')),
    err: (line) => err.push(...line.split('\n')),
    lines: async function* () {
      for (const line of input) yield await Promise.resolve(line);
    },
  };
  return { code: await verb.run(args, terminal), out, err };
}
