import type { Severity } from '../../procedure/finding.ts';
import { lintProcedure } from '../../procedure/lint.ts';
import { parseProcedure, type ProcedureFile } from '../../procedure/parse.ts';
import type { LintWords } from '../../procedure/told.ts';
import { lintInEnglish } from '../../procedure/words/lint-en.ts';

/** Something to put right or to judge, at a place of the text. */
export interface Mark {
  readonly severity: Severity;
  readonly code: string;
  /** Both counted from one. */
  readonly line: number;
  readonly column: number;
  /** As `stages[0].steps[2].do`; '' for the whole. */
  readonly path: string;
  readonly build: string | null;
  /** What is wrong: either in the lint's own words, or what was found where what was expected. */
  readonly says:
    | { readonly kind: 'finding'; readonly message: string; readonly advice: string }
    | { readonly kind: 'problem'; readonly found: string; readonly expected: string };
}

export interface Checked {
  readonly text: string;
  /** Null where the text does not fit the format. */
  readonly file: ProcedureFile | null;
  readonly marks: readonly Mark[];
  /** How many questions of a draft have no answer yet. They are listed as questions, not as marks. */
  readonly unanswered: number;
}

const answerPath = /^open questions\[\d+\]\.answer$/;

/** Reads and lints a text, as a job would read it; what the lint finds is told in those words. */
export function checkText(text: string, name: string, words: LintWords = lintInEnglish): Checked {
  const parsed = parseProcedure(text, name);
  if (parsed.ok) {
    const marks = lintProcedure(parsed.file, words).map(({ severity, code, line, column, path, build, message, advice }): Mark => ({
      severity,
      code,
      line,
      column,
      path,
      build,
      says: { kind: 'finding', message, advice },
    }));
    return { text, file: parsed.file, marks, unanswered: 0 };
  }
  const isQuestion = ({ path, found }: { readonly path: string; readonly found: string }) => answerPath.test(path) && found === 'nothing';
  const marks = parsed.problems
    .filter((problem) => !isQuestion(problem))
    .map(({ code, line, column, path, build, found, expected }): Mark => ({
      severity: 'error',
      code,
      line,
      column,
      path,
      build,
      says: { kind: 'problem', found, expected },
    }));
  return { text, file: null, marks, unanswered: parsed.problems.filter(isQuestion).length };
}

export const canBeRun = ({ file, marks }: Checked): boolean => file !== null && marks.every(({ severity }) => severity !== 'error');
