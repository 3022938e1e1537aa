/** 0 success, 1 what was checked falls short, 2 bad usage or input. */
export type ExitCode = 0 | 1 | 2;

/** Where a verb reads and writes; tests pass their own. */
export interface Terminal {
  /** A line of results, to standard output. */
  out(line: string): void;
  /** A line of messages, to standard error. */
  err(line: string): void;
  /** Standard input, line by line. */
  lines(): AsyncIterable<string>;
}

/** One word of the terminal face: `npm run undertray -- NAME …`. */
export interface Verb {
  readonly name: string;
  /** One line for the overview. */
  readonly summary: string;
  /** The whole text of `NAME --help`. */
  readonly help: string;
  run(args: readonly string[], terminal: Terminal): Promise<ExitCode>;
}
