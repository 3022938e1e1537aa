import type { Finding, Remark } from './finding.ts';
import { fastenerRemarks } from './lint-fasteners.ts';
import { speechRemarks } from './lint-speech.ts';
import { structureRemarks } from './lint-structure.ts';
import { outline } from './outline.ts';
import { mergeOverBuilds } from './over-builds.ts';
import type { ProcedureFile } from './parse.ts';
import { planJob } from './plan.ts';
import type { Problem } from './problem.ts';

const severities = ['error', 'warning', 'hint'] as const;

/** Reads over a procedure as a second author would. Sorted by place; the same in all builds is told once. */
export function lintProcedure(file: ProcedureFile): readonly Finding[] {
  const told = [...file.variants].flatMap(([build, procedure]): Finding[] => {
    const steps = outline(procedure);
    const planned = planJob(file, { build, crib: null, spokenUnit: null, today: '' });
    const remarks: readonly Remark[] = [
      ...structureRemarks(procedure, steps),
      ...fastenerRemarks(steps),
      ...speechRemarks(procedure, steps),
    ];
    const place = ({ path, ...said }: Remark): Finding => ({ ...said, ...file.locate(build, path), build });
    return [...(planned.ok ? [] : planned.problems.map((problem) => ({ ...asFinding(problem), build }))), ...remarks.map(place)];
  });
  return [...mergeOverBuilds(told, file.builds.size), ...forgotten(file)].sort(
    (a, b) => a.line - b.line || a.column - b.column || severities.indexOf(a.severity) - severities.indexOf(b.severity),
  );
}

/** Why no plan can be made, in the words of a finding. */
function asFinding({ file, line, column, path, code, found, expected, build }: Problem): Finding {
  return { file, line, column, path, code, severity: 'error', message: `Found ${found}.`, advice: `Expected ${expected}.`, build };
}

function forgotten(file: ProcedureFile): readonly Finding[] {
  return file.forgotten.map(({ place, builds }) => ({
    ...place,
    code: 'build-forgotten',
    severity: 'warning',
    message: `Nothing is said here for build ${builds.join(', ')}.`,
    advice: `Add "build ${builds[0] ?? ''}: …", leave that empty if there is meant to be nothing, or use "other builds: …".`,
    build: null,
  }));
}
