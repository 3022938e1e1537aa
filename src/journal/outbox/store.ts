/** A statement on its way. */
export interface Unsent {
  readonly job: string;
  readonly seq: number;
  readonly id: string;
  /** The hash of the event that it was made from: by it a statement already stored is known for the same. */
  readonly hash: string;
  /** The statement as JSON. */
  readonly body: string;
}

/** A statement that the record store will not have. Kept and shown: a person may want to know, and to try again. */
export interface Refused extends Unsent {
  /** The HTTP status that it was refused with. */
  readonly status: number;
}

/** Where the record store is, and the key to it. Kept on this device, never exported. */
export interface RecordStoreSettings {
  /** The address that "/statements" comes after. */
  readonly endpoint: string;
  readonly key: string;
  readonly secret: string;
  /** Off, nothing is sent; what is unsent waits. */
  readonly isOn: boolean;
}

/** Where the outbox is kept. Whatever a call has resolved for is on disk; each call is done whole or not at all. */
export interface OutboxStore {
  /** Statements of that job that have been put in so far, sent or not. */
  putIn(job: string): Promise<number>;
  /** Puts statements in and notes that the job's first `upTo` have been. */
  add(job: string, upTo: number, entries: readonly Unsent[]): Promise<void>;
  first(limit: number): Promise<readonly Unsent[]>;
  remove(entries: readonly Unsent[]): Promise<void>;
  refuse(entry: Unsent, status: number): Promise<void>;
  refused(): Promise<readonly Refused[]>;
  /** Puts what was refused back among the unsent. */
  retryRefused(): Promise<void>;
  counts(): Promise<{ readonly unsent: number; readonly refused: number }>;
  settings(): Promise<RecordStoreSettings | null>;
  /** Null forgets them. */
  keepSettings(settings: RecordStoreSettings | null): Promise<void>;
}
