import type { Path } from './outline.ts';
import type { Place, ProblemCode } from './problem.ts';

export type Severity = 'error' | 'warning' | 'hint';

export type LintCode =
  | ProblemCode
  | 'no-torque'
  | 'no-drive'
  | 'thread-unreadable'
  | 'torque-too-high'
  | 'torque-too-low'
  | 'socket-misfit'
  | 'drive-overloaded'
  | 'tolerance-too-tight'
  | 'no-passes'
  | 'build-forgotten'
  | 'unreachable-side'
  | 'sounds-alike'
  | 'too-long-to-hear'
  | 'single-use-part-missing'
  | 'too-few-parts'
  | 'supply-unused'
  | 'hold-without-way-out'
  | 'measure-without-limits'
  | 'measure-without-way-out'
  | 'jack-without-support';

/** What a second pair of eyes sees: what it is, and what to do about it. */
export interface Finding extends Place {
  readonly code: LintCode;
  readonly severity: Severity;
  readonly message: string;
  readonly advice: string;
  /** The build that it shows in, where others are well. */
  readonly build: string | null;
}

/** A finding by its way through the procedure, before its place in the file is looked up. */
export interface Remark extends Pick<Finding, 'code' | 'severity' | 'message' | 'advice'> {
  readonly path: Path;
}

/** One line for people, in the form that terminals and editors can jump to. */
export function findingText(finding: Finding): string {
  const build = finding.build === null ? '' : ` (build ${finding.build})`;
  return `${finding.file}:${finding.line}:${finding.column}: ${finding.severity} ${finding.code}: ${finding.message}${build} ${finding.advice}`;
}
