import type { Path } from './outline.ts';
import type { Place } from './problem.ts';
import type { Told } from './told.ts';

export type Severity = 'error' | 'warning' | 'hint';

export type LintCode = Told['code'];

/** What a second pair of eyes sees: what it is, and what to do about it. */
export interface Finding extends Place {
  readonly code: LintCode;
  readonly severity: Severity;
  readonly message: string;
  readonly advice: string;
  /** The build that it shows in, where others are well. */
  readonly build: string | null;
}

/** A finding by its way through the procedure, before its place in the file is looked up and words are found for it. */
export interface Remark {
  readonly severity: Severity;
  readonly path: Path;
  readonly told: Told;
}

/** One line for people, in the form that terminals and editors can jump to. */
export function findingText(finding: Finding): string {
  const build = finding.build === null ? '' : ` (build ${finding.build})`;
  return `${finding.file}:${finding.line}:${finding.column}: ${finding.severity} ${finding.code}: ${finding.message}${build} ${finding.advice}`;
}
