import type { Happening, Recorded } from '../job/events.ts';
import type { Plan } from '../procedure/plan-types.ts';
import type { ChainFault } from './chain.ts';
import type { JobSummary } from './summary.ts';

/**
 * Why something is not on disk. Nothing of the batch is, then, and what was stored before still is.
 * `not-stored-blocked` covers every way in which storage does not answer or answers with an error that nobody can act on;
 * `detail` is the browser's own name and words for it, for the log and never for the ear.
 */
export type NotStoredCode =
  | 'not-stored-disk-full'
  | 'not-stored-blocked'
  | 'not-stored-newer-version'
  | 'not-stored-other-tab'
  /** No record may carry it: a text beyond all measure, say. */
  | 'not-stored-refused';

export interface NotStored {
  readonly ok: false;
  readonly code: NotStoredCode;
  readonly detail: string;
}

export type Stored = { readonly ok: true } | NotStored;

export type Appended =
  | {
      readonly ok: true;
      readonly recorded: readonly Recorded[];
      /** The browser had thrown the stored job away; all of it has been written again from memory, this batch included. */
      readonly notice: 'storage-evicted' | null;
    }
  | NotStored;

/** A job as it is stored. */
export interface StoredJob {
  readonly job: string;
  /** The plan that the job was started with. */
  readonly plan: Plan;
  /** Every event that can be read, in order. */
  readonly events: readonly Recorded[];
  /** Every line as it stands in storage, readable or not: what an export must carry to lose nothing. */
  readonly lines: readonly string[];
  /** Empty when the record is whole. A line number is the place in `lines`, from 1. */
  readonly faults: readonly ChainFault[];
}

export type ReadJob =
  | { readonly ok: true; readonly stored: StoredJob }
  | { readonly ok: false; readonly code: 'no-such-job' }
  /** The plan cannot be read, so the job cannot go on; its lines are all here and can be exported. */
  | { readonly ok: false; readonly code: 'record-corrupt'; readonly header: string; readonly lines: readonly string[] }
  | NotStored;

export type OpenedJob =
  | {
      readonly ok: true;
      readonly stored: StoredJob;
      /** Whether this tab may append. If another one is at it, `whenFree` says when it has gone. */
      readonly writing: 'this-tab' | 'other-tab' | 'newer-version';
    }
  | Exclude<ReadJob, { ok: true }>;

export type Adopted =
  | {
      readonly ok: true;
      /** `already-here`: nothing that is not stored already. `longer-here`: the stored job has gone on further. */
      readonly outcome: 'new' | 'extended' | 'already-here' | 'longer-here';
      /** Events that were not here before. */
      readonly added: number;
    }
  /** Both records go on from event `seq`, each in its own way; neither is thrown away for the other. */
  | { readonly ok: false; readonly code: 'parted'; readonly seq: number }
  /** The record to be taken in is not whole. */
  | { readonly ok: false; readonly code: 'record-corrupt'; readonly faults: readonly ChainFault[] }
  | NotStored;

export type Summaries =
  | {
      readonly ok: true;
      /** Newest first. */
      readonly jobs: readonly JobSummary[];
      /** Ids of jobs whose plan cannot be read; `read` gives their lines. */
      readonly damaged: readonly string[];
    }
  | NotStored;

/**
 * Where jobs are kept. What `begin` and `append` have answered with `ok` is on disk; a batch is stored whole or not at all.
 * Calls for one job are carried out in the order in which they were made.
 */
export interface Journal {
  /** Stores a new job with its plan and its first events, and makes this the tab that writes it. */
  begin(job: string, plan: Plan, happenings: readonly Happening[]): Promise<Appended>;
  /** Reads a job and makes this the tab that writes it, if no other one is. */
  open(job: string): Promise<OpenedJob>;
  /** Only for a job that `begin` or `open` has made this tab's own; otherwise the answer is `not-stored-other-tab`. */
  append(job: string, happenings: readonly Happening[]): Promise<Appended>;
  /** Resolves to true once this tab may write the job (open it again then, for what the other tab has added), to false when given up. */
  whenFree(job: string, givenUp?: AbortSignal): Promise<boolean>;
  /** Lets another tab write the job. */
  release(job: string): Promise<void>;
  /** Reads without wanting to write. */
  read(job: string): Promise<ReadJob>;
  jobs(): Promise<Summaries>;
  /** Takes in a record from elsewhere, or the part of it that is not here yet. */
  adopt(job: string, plan: Plan, lines: readonly string[]): Promise<Adopted>;
  remove(job: string): Promise<Stored>;
}
