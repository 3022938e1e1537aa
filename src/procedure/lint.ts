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
  const advice = remedies[code] ?? 'Put it right: no job can be planned as it stands.';
  return { file, line, column, path, code, severity: 'error', message: `Found ${found}, expected ${expected}.`, advice, build };
}

const remedies: Partial<Record<Problem['code'], string>> = {
  'duplicate-id': 'Give one of them another id. Logs are compared by it.',
  'dangling-step': 'Correct the name, or add the step. A side procedure is called with "see".',
  'dangling-side': 'Correct the name, or add the side procedure under "sides".',
  'dangling-supply': 'Correct the name, or add it to parts, consumables or supports.',
  'side-in-circles': 'Let one of them give advice instead of calling the other.',
  'count-mismatch': 'Correct the count, or name every position.',
  'duplicate-position': 'Name each position so that it can be told from the others by ear.',
  'layout-mismatch': 'Correct the count or the layout.',
  'bad-passes': 'Let the torques rise to the final one, with angles and the last check after it.',
  'angle-mismatch': 'Leave "angle" out where the passes give the angles.',
};

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
