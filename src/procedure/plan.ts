import type { Crib } from '../torque/crib.ts';
import type { TorqueUnit } from '../torque/quantities.ts';
import { makeAdviser, noAdvice, type Adviser } from './advice.ts';
import type { Fault } from './fault.ts';
import type { Procedure, WayOut } from './format.ts';
import { kitOf } from './kit.ts';
import { nearest } from './nearest.ts';
import { outline, type OutlinedStep } from './outline.ts';
import type { ProcedureFile } from './parse.ts';
import { makePlacer, type Placer } from './places.ts';
import { planGroup } from './plan-group.ts';
import type { Branch, Plan, PlannedCaution, PlannedHold, PlannedMeasure, PlannedStep, PlannedStopSign, PlannedWait } from './plan-types.ts';
import type { Problem } from './problem.ts';
import { referenceFaults } from './references.ts';

export interface PlanOptions {
  readonly build: string;
  /** The person's own tools, for the wrench advice and the kit; null plans without. */
  readonly crib: Crib | null;
  /** ISO date, for what is due for calibration. */
  readonly today: string;
  /** The unit to speak torques in; null speaks each in its source's unit. */
  readonly spokenUnit: TorqueUnit | null;
}

export type Planned = { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly problems: readonly Problem[] };

/** Makes the flat plan for one build. It is either whole or refused with everything that is wrong. */
export function planJob(file: ProcedureFile, options: PlanOptions): Planned {
  const procedure = file.variants.get(options.build);
  if (procedure === undefined) return { ok: false, problems: [unknownBuild(file, options.build)] };
  const faults: Fault[] = [...referenceFaults(procedure)];
  const place = makePlacer();
  const advise = options.crib === null ? noAdvice : makeAdviser(options.crib, options.today);
  const steps = outline(procedure).map((outlined, index) => planStep(outlined, index, place, advise, faults));
  if (faults.length > 0) return { ok: false, problems: faults.map((fault) => placed(fault, file, options.build)) };
  return { ok: true, plan: assemble(procedure, options, steps) };
}

function assemble(procedure: Procedure, options: PlanOptions, steps: readonly PlannedStep[]): Plan {
  return {
    format: 1,
    procedure: {
      id: procedure.id,
      title: procedure.title,
      vehicle: procedure.vehicle,
      revision: procedure.revision,
      language: procedure.language,
      source:
        procedure.invented && !/invented/i.test(procedure.source)
          ? `Invented values, for training only. ${procedure.source}`
          : procedure.source,
      author: procedure.author,
    },
    build: { id: options.build, name: procedure.builds[options.build] ?? options.build },
    spokenUnit: options.spokenUnit,
    befores: procedure.before.map(({ id, kind, check }, index) => ({ id: id ?? `before-${index + 1}`, kind, check })),
    cautions: planCautions(procedure.cautions, ''),
    kit: kitOf(procedure, steps, options.crib),
    steps,
    sides: procedure.sides.map(({ id, title, steps: own }) => ({ id, title, stepIds: own.map((step) => step.id) })),
    followUps: procedure.afterwards.map(({ id, say, after }, index) => ({ id: id ?? `afterwards-${index + 1}`, say, after })),
  };
}

function planStep(outlined: OutlinedStep, index: number, place: Placer, advise: Adviser, faults: Fault[]): PlannedStep {
  const { step, path, stage, side, number } = outlined;
  return {
    id: step.id,
    index,
    number,
    stage,
    side,
    say: step.do,
    why: step.why ?? null,
    where: step.where ?? null,
    picture: step.picture ?? null,
    cautions: planCautions(step.cautions, `${step.id}.`),
    groups: step.fasteners.flatMap((group, at) => {
      const planned = planGroup(group, group.id ?? `${step.id}.fasteners-${at + 1}`, [...path, 'fasteners', at], place, advise, faults);
      return planned === null ? [] : [planned];
    }),
    measures: step.measure.map((measure, at): PlannedMeasure => ({
      id: measure.id ?? `${step.id}.measure-${at + 1}`,
      name: measure.name,
      unit: measure.unit,
      min: measure.min ?? null,
      max: measure.max ?? null,
      outside: branchOf(measure['if outside'], 'Outside the limits. Put it right and measure again, or stop and ask.'),
    })),
    holds: step.hold.map((hold, at): PlannedHold => ({
      id: hold.id ?? `${step.id}.hold-${at + 1}`,
      ask: hold.ask,
      fail: branchOf(hold['if no'], 'It must pass before you go on. Put it right and check again, or stop and ask.'),
    })),
    stopSigns: step['stop signs'].map((sign, at): PlannedStopSign => ({
      id: sign.id ?? `${step.id}.stop-${at + 1}`,
      ask: sign.ask,
      branch: branchOf(sign['if yes'], 'Stop and ask.'),
    })),
    wait: step.wait === undefined ? null : planWait(step.wait, step.id),
    optional: step.optional ?? null,
    helper: step.helper ?? null,
    see: step.see ?? null,
    tools: step.tools,
  };
}

function planCautions(cautions: Procedure['cautions'], prefix: string): readonly PlannedCaution[] {
  return cautions.map(({ signal, text }, index) => ({ id: `${prefix}caution-${index + 1}`, signal, text }));
}

function planWait(wait: NonNullable<OutlinedStep['step']['wait']>, step: string): PlannedWait {
  return { id: wait.id ?? `${step}.wait`, name: wait.name, seconds: wait.for, blocks: wait.blocks };
}

function branchOf(way: WayOut | undefined, otherwise: string): Branch {
  const advice = way?.advice ?? null;
  if (way?.go !== undefined) return { kind: 'go', step: way.go, advice };
  if (way?.see !== undefined) return { kind: 'see', side: way.see, advice };
  return { kind: 'stay', advice: advice ?? otherwise };
}

function placed({ code, path, found, expected }: Fault, file: ProcedureFile, build: string): Problem {
  return { code, ...file.locate(build, path), found, expected, build: file.builds.size > 1 ? build : null };
}

function unknownBuild(file: ProcedureFile, build: string): Problem {
  const known = [...file.builds.keys()];
  const meant = nearest(build, known);
  const expected = `one of ${known.join(', ')}${meant === null ? '' : `; did you mean ${meant}?`}`;
  return { code: 'unknown-build', file: file.name, line: 1, column: 1, path: 'builds', found: `build "${build}"`, expected, build: null };
}
