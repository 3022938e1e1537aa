import type { Plan } from '../../procedure/plan-types.ts';
import type { TrainerNotes } from '../../review/notes.ts';
import type { Answers, Facts, Question, Terms, View } from '../../review/review.ts';

/** A log to read: a file that was picked, or a job of this device written out. The worker reads the Blob itself, piece by piece. */
export interface LogSource {
  readonly name: string;
  readonly blob: Blob;
}

/** To the worker. */
export type ToWorker =
  /** Reads these logs and forgets what was read before. */
  | { readonly kind: 'read'; readonly sources: readonly LogSource[] }
  /** Grows the invented workshop and reads it. */
  | { readonly kind: 'demonstrate'; readonly plans: readonly Plan[] }
  | { readonly kind: 'notes'; readonly notes: TrainerNotes }
  | { readonly kind: 'ask'; readonly id: number; readonly question: Question; readonly terms: Terms };

export interface Progress {
  readonly bytes: number;
  /** 0 when it is not known beforehand. */
  readonly of: number;
  readonly lines: number;
}

/** From the worker. */
export type FromWorker =
  | { readonly kind: 'progress'; readonly progress: Progress }
  | { readonly kind: 'settled'; readonly facts: Facts; /** What reading took, in milliseconds. */ readonly took: number }
  | { readonly kind: 'facts'; readonly facts: Facts }
  | { readonly kind: 'failed'; readonly message: string }
  | {
      readonly kind: 'answer';
      readonly id: number;
      readonly answer: Answers[View];
      /** Milliseconds in the worker. */ readonly took: number;
    };
