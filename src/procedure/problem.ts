/** Where something stands in a file, both counted from one. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** The way there through the keys, such as "stages[0].steps[2].do"; '' for the whole file. */
  readonly path: string;
}

export type ProblemCode =
  | 'too-large'
  | 'too-deep'
  | 'not-yaml'
  | 'alias'
  | 'tag'
  | 'bad-key'
  | 'duplicate-key'
  | 'unknown-key'
  | 'missing'
  | 'bad-value'
  | 'unknown-build'
  | 'mixed-build-keys'
  | 'duplicate-id'
  | 'dangling-step'
  | 'dangling-side'
  | 'dangling-supply'
  | 'side-in-circles'
  | 'count-mismatch'
  | 'layout-mismatch'
  | 'duplicate-position'
  | 'bad-passes'
  | 'angle-mismatch'
  | 'too-many-steps'
  | 'too-many-problems';

/** What is wrong with a file, as the reader of a procedure or a tool crib tells it: in English, and without a place. */
export interface FaultWords {
  readonly found: string;
  readonly expected: string;
}

/** Why a file cannot be used as it stands. */
export interface Problem extends Place, FaultWords {
  readonly code: ProblemCode;
  /** The build that it shows in, where others are well. */
  readonly build: string | null;
}

/** One line for people, in the form that terminals and editors can jump to. */
export function problemText(problem: Problem): string {
  const build = problem.build === null ? '' : `, build ${problem.build}`;
  const path = problem.path === '' ? '' : ` (${problem.path}${build})`;
  return `${problem.file}:${problem.line}:${problem.column}: error ${problem.code}: found ${problem.found}, expected ${problem.expected}${path}`;
}

/** A value as a short phrase: 'the text "K"', 'the number 3', 'a list', 'nothing'. */
export function describe(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (typeof value === 'string') return `the text ${JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}…` : value)}`;
  if (typeof value === 'number') return `the number ${value}`;
  if (typeof value === 'boolean') return String(value);
  return Array.isArray(value) ? 'a list' : 'an entry with keys of its own';
}
