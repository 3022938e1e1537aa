import type { Logbook, StepSeen } from '../logbook.ts';
import { shortened } from '../wording.ts';
import type { ReviewWords } from '../words/en.ts';
import type { Selection } from './selection.ts';

/** What every question is asked of. */
export interface Asking {
  readonly logbook: Logbook;
  readonly selection: Selection;
  /** A trainer's judgement of the pace of runs, by job id; 1 where there is none. */
  readonly ratings: ReadonlyMap<string, number>;
  /** What a person is called: the name or the code, as the trainer chose. */
  readonly nameOf: (person: number) => string;
  readonly words: ReviewWords;
}

/** A step as answers name it. */
export interface StepName {
  /** Place in the logbook's steps. */
  readonly step: number;
  readonly procedure: string;
  readonly id: string;
  /** "12" or "" where no plan came along. */
  readonly number: string;
  readonly say: string;
}

export function stepName({ steps, procedures }: Logbook, step: number): StepName {
  const seen: StepSeen | undefined = steps[step];
  return {
    step,
    procedure: procedures[seen?.procedure ?? 0]?.id ?? '',
    id: seen?.id ?? '',
    number: seen?.number ?? '',
    say: seen?.say ?? '',
  };
}

/** "12 Fit the carrier bolts…", short enough for a label. */
export function stepLabel({ number, say }: Pick<StepName, 'number' | 'say'>, length = 34): string {
  return shortened(number === '' ? say : `${number} ${say}`, length);
}

/** Steps of the procedures that have a run in the selection, in written order. */
export function stepsSelected({ logbook, selection }: Asking): readonly number[] {
  const procedures = proceduresSelected({ logbook, selection });
  return logbook.procedures.flatMap((procedure, index) => (procedures.has(index) ? procedure.steps : []));
}

export function proceduresSelected({ logbook, selection }: Pick<Asking, 'logbook' | 'selection'>): ReadonlySet<number> {
  const procedures = new Set<number>();
  for (let run = 0; run < logbook.runs.count; run++) if (selection.mask[run] === 1) procedures.add(logbook.runs.procedure[run] ?? 0);
  return procedures;
}

/** Calls back with every selected run. */
export function eachRun({ logbook, selection }: Pick<Asking, 'logbook' | 'selection'>, take: (run: number) => void): void {
  for (let run = 0; run < logbook.runs.count; run++) if (selection.mask[run] === 1) take(run);
}

export const isSigned = (logbook: Logbook, run: number): boolean => logbook.runs.ending[run] === 0;

/** A cell whose step was carried out to its end: its time counts. */
export const isDone = (logbook: Logbook, cell: number): boolean => logbook.cells.ended[cell] === 1;

export const fewRuns = 6;
