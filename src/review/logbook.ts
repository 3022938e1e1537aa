import type { Names } from './intake/names.ts';
import type { Written } from './written.ts';

/**
 * Many runs as columns: one entry an event, one a run, and one for each step of each run (a cell).
 * Everything the review answers is computed from these; nothing here changes after the import.
 */
export interface Logbook {
  readonly names: Names;
  /** Step ids; a step's number in a column is its number here. */
  readonly stepNames: Names;
  readonly procedures: readonly ProcedureSeen[];
  readonly builds: readonly string[];
  /** Names as given; the first is the nameless one. */
  readonly people: readonly (string | null)[];
  readonly groups: readonly (string | null)[];
  /** Steps of all procedures; a cell names one by its place here. */
  readonly steps: readonly StepSeen[];
  readonly runs: RunColumns;
  readonly events: EventColumns;
  readonly cells: CellColumns;
  readonly byStep: CellsByStep;
  readonly digest: Digest;
}

/** Cells of each step, from the quickest to the slowest: those of step s stand from `starts[s]` up to before `starts[s + 1]`. */
export interface CellsByStep {
  readonly starts: Uint32Array;
  readonly run: Uint32Array;
  readonly active: Uint32Array;
  readonly ended: Uint8Array;
}

/** What no filter changes, added up once so that no question has to. */
export interface Digest {
  /** All runs by the time they were begun. */
  readonly oldestFirst: Uint32Array;
  /** Sums over a run's cells, one entry a run. */
  readonly sums: Readonly<Record<RunSum, Uint32Array>>;
  /** Questions and repeats; keys are step × `intentNames.length` + intent. */
  readonly asked: Tallies;
  /** What stands in the `rareColumns` of the cells, where it is not 0; keys are step × `rareColumns.length` + column. */
  readonly rare: Tallies;
  /** 1 for each step at which a hold point was ever answered. */
  readonly hasHold: Uint8Array;
}

/** Things to add up by key, run by run: those of run r stand from `starts[r]` up to before `starts[r + 1]`. */
export interface Tallies {
  readonly starts: Uint32Array;
  readonly key: Uint32Array;
  readonly value: Uint32Array;
}

/** Columns of the cells that are mostly 0. */
export const rareColumns = [
  'paused',
  'questions',
  'repeats',
  'misheard',
  'refused',
  'stepBacks',
  'undos',
  'stops',
  'holdsFailed',
  'leftOut',
] as const;

export const runSums = ['questions', 'repeats', 'misheard', 'stepBacks', 'undos', 'skips', 'holdsFailed'] as const;
export type RunSum = (typeof runSums)[number];

export interface ProcedureSeen {
  readonly id: string;
  readonly title: string;
  /** Places in `steps` of all its steps, in written order where that is known, otherwise in the order usually taken. */
  readonly steps: readonly number[];
  /** What the plans among the logs say of it, one a build; empty when none came along. */
  readonly written: readonly Written[];
}

export interface StepSeen {
  readonly procedure: number;
  readonly id: string;
  /** "12", as the procedure counts; null where no plan came along. */
  readonly number: string | null;
  /** The step's sentence, or its id where no plan came along. */
  readonly say: string;
  readonly side: boolean;
}

/** How a run stands. */
export const endings = ['signed', 'left open', 'not finished'] as const;

export interface RunColumns {
  readonly count: number;
  readonly job: readonly string[];
  readonly procedure: Uint16Array;
  readonly build: Uint16Array;
  readonly person: Uint16Array;
  readonly group: Uint16Array;
  readonly revision: Int32Array;
  /** Milliseconds since 1970 of the first event. */
  readonly begun: Float64Array;
  /** Minutes that local time was ahead of UTC. */
  readonly offset: Int16Array;
  /** Place in `endings`. */
  readonly ending: Uint8Array;
  /** Which run of this procedure it is for this person among all that were loaded: 1, 2, 3 … Only signed runs count up. */
  readonly number: Uint16Array;
  readonly firstEvent: Uint32Array;
  readonly events: Uint32Array;
  /** The cells of run r stand from `firstCell[r]` up to before `firstCell[r + 1]`, in the order in which their steps were first come by. */
  readonly firstCell: Uint32Array;
  /** Milliseconds at work on steps. */
  readonly active: Float64Array;
  /** Milliseconds at work outside the steps: briefing, kit and close-out. */
  readonly around: Float64Array;
  readonly paused: Float64Array;
  readonly waited: Float64Array;
  /** Bits: see `runFaults`. */
  readonly faults: Uint8Array;
}

export const runFaults = {
  /** Events with numbers in between are nowhere in the logs. */
  missing: 1,
  /** An event does not follow on the one before it by their hashes. */
  unlinked: 2,
  /** Two different events claim one number; the first that was read is used. */
  forked: 4,
  /** A clock ran backward. */
  clock: 8,
  /** A line's hash is not that of its content. */
  changed: 16,
} as const;

/** One entry an event; those of a run stand together, in order. */
export interface EventColumns {
  readonly count: number;
  /** Place in `eventKinds`, or `unknownKind`. */
  readonly kind: Uint8Array;
  /** Milliseconds since the run's event before. */
  readonly gap: Uint32Array;
  /** Number in `stepNames` of the step that the event names, or else the one at hand; 0 for none. */
  readonly step: Uint16Array;
  /** By kind: a number in `names` (group, hold, measure, text), a place in `intentNames` or `finishes`, a visit, the event undone. */
  readonly detail: Uint32Array;
  /** By kind: pass × 256 + position, or 1 for passed, within, felt, a question. */
  readonly extra: Uint16Array;
  /** Bits: see `breaks`. */
  readonly breaks: Uint8Array;
}

/** What came between an event and the one before it. */
export const breaks = {
  /** The app was closed and started anew: the gap was not work. */
  away: 1,
  /** Events are missing. */
  torn: 2,
} as const;

/** One entry for each step that a run came by. Times in milliseconds, summed over all visits. */
export interface CellColumns {
  readonly count: number;
  readonly run: Uint32Array;
  readonly step: Uint16Array;
  readonly active: Uint32Array;
  readonly paused: Uint32Array;
  readonly waited: Uint32Array;
  /** How it ended: 1 + place in `finishes`, 0 when it never did. */
  readonly ended: Uint8Array;
  readonly visits: Uint8Array;
  /** Pieces of work: fasteners tightened, values measured, holds answered, the step carried out. */
  readonly work: Uint16Array;
  readonly questions: Uint16Array;
  readonly repeats: Uint16Array;
  readonly misheard: Uint16Array;
  readonly refused: Uint16Array;
  /** Looks back from here, and reopenings of this step. */
  readonly stepBacks: Uint8Array;
  readonly undos: Uint8Array;
  readonly stops: Uint8Array;
  readonly holdsPassed: Uint8Array;
  readonly holdsFailed: Uint8Array;
  readonly leftOut: Uint8Array;
}
