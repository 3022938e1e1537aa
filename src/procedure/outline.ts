import type { Procedure, ProcedureStep, WayOut } from './format.ts';

export type Path = readonly (string | number)[];

/** A step with its way through the procedure; `side` is null on the main line. */
export interface OutlinedStep {
  readonly step: ProcedureStep;
  readonly path: Path;
  readonly stage: { readonly id: string; readonly title: string; readonly number: number };
  readonly side: string | null;
  readonly number: string;
}

/** All steps: the main line in its written order, then those of each side procedure. */
export function outline(procedure: Procedure): readonly OutlinedStep[] {
  const main = procedure.stages.flatMap(({ id, title, steps }, index) =>
    steps.map((step, place) => ({ step, path: ['stages', index, 'steps', place], stage: { id, title, number: index + 1 }, side: null })),
  );
  const sides = procedure.sides.flatMap(({ id, title, steps }, index) =>
    steps.map((step, place) => ({
      step,
      path: ['sides', index, 'steps', place],
      // A side procedure is no stage of the job, so it has no stage number.
      stage: { id, title, number: 0 },
      side: id,
      number: `${sideLetters(index)}${place + 1}`,
    })),
  );
  return [...main.map((step, index) => ({ ...step, number: String(index + 1) })), ...sides];
}

/** A to Z, then AA, AB and on. */
function sideLetters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : sideLetters(Math.floor(index / 26) - 1) + last;
}

/** Every place in a step that leads elsewhere. */
export function waysOut({ step, path }: OutlinedStep): readonly { readonly way: WayOut; readonly path: Path }[] {
  return [
    ...step.measure.flatMap(({ 'if outside': way }, index) =>
      way === undefined ? [] : [{ way, path: [...path, 'measure', index, 'if outside'] }],
    ),
    ...step.hold.flatMap(({ 'if no': way }, index) => (way === undefined ? [] : [{ way, path: [...path, 'hold', index, 'if no'] }])),
    ...step['stop signs'].map(({ 'if yes': way }, index) => ({ way, path: [...path, 'stop signs', index, 'if yes'] })),
  ];
}
