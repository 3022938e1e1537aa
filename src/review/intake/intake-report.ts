/** Why a line was not used, or what is odd about it. */
export type LineFault =
  /** Not a JSON object, or cut off. */
  | 'not-json'
  /** Longer than any event can be. */
  | 'too-long'
  /** JSON, but not an event: a field is missing or of another kind. */
  | 'wrong-shape'
  /** Written in another version of the format. */
  | 'other-version'
  /** An event that this build does not know; its time is used. */
  | 'unknown-event'
  /** The very line was read before. */
  | 'duplicate'
  /** Another event under a number that is taken; the one read first is used. */
  | 'forked'
  /** The hash is not that of the content; the line is used, and the run is marked. */
  | 'changed'
  /** More different names than the columns can hold. */
  | 'too-many-names';

export interface FaultExample {
  readonly file: string;
  readonly line: number;
  readonly fault: LineFault;
}

export interface FileRead {
  readonly name: string;
  readonly lines: number;
  readonly used: number;
}

export interface IntakeReport {
  readonly files: readonly FileRead[];
  readonly lines: number;
  readonly used: number;
  readonly headers: number;
  readonly faults: Readonly<Partial<Record<LineFault, number>>>;
  /** The first of each fault, to look at. */
  readonly examples: readonly FaultExample[];
  /** Whether every hash was computed anew, or only each compared with the one that the next line names. */
  readonly hashes: 'computed' | 'compared';
}
