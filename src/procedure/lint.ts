import type { Finding, Remark } from './finding.ts';
import { fastenerRemarks } from './lint-fasteners.ts';
import { speechRemarks } from './lint-speech.ts';
import { structureRemarks } from './lint-structure.ts';
import { outline } from './outline.ts';
import { mergeOverBuilds } from './over-builds.ts';
import type { ProcedureFile } from './parse.ts';
import { planJob } from './plan.ts';
import type { LintWords } from './told.ts';
import { lintInEnglish } from './words/lint-en.ts';

const severities = ['error', 'warning', 'hint'] as const;

/** Reads over a procedure as a second author would, in the words of one language. Sorted by place; the same in all builds is told once. */
export function lintProcedure(file: ProcedureFile, words: LintWords = lintInEnglish): readonly Finding[] {
  const told = [...file.variants].flatMap(([build, procedure]): Finding[] => {
    const steps = outline(procedure);
    const planned = planJob(file, { build, crib: null, spokenUnit: null, today: '' });
    const remarks: readonly Remark[] = [
      ...structureRemarks(procedure, steps),
      ...fastenerRemarks(steps),
      ...speechRemarks(procedure, steps),
    ];
    const place = ({ path, severity, told }: Remark): Finding => ({
      code: told.code,
      severity,
      ...words(told),
      ...file.locate(build, path),
      build,
    });
    // Why no plan can be made is told in the words of a finding.
    const problems = (planned.ok ? [] : planned.problems).map(({ file: name, line, column, path, code, found, expected }): Finding => ({
      file: name,
      line,
      column,
      path,
      code,
      severity: 'error',
      ...words({ code, found, expected }),
      build,
    }));
    return [...problems, ...remarks.map(place)];
  });
  return [...mergeOverBuilds(told, file.builds.size), ...forgotten(file, words)].sort(
    (a, b) => a.line - b.line || a.column - b.column || severities.indexOf(a.severity) - severities.indexOf(b.severity),
  );
}

function forgotten(file: ProcedureFile, words: LintWords): readonly Finding[] {
  return file.forgotten.map(({ place, builds }) => ({
    ...place,
    code: 'build-forgotten',
    severity: 'warning',
    ...words({ code: 'build-forgotten', builds }),
    build: null,
  }));
}
