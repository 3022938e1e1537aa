import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { promisifyRequest } from 'idb-keyval';
import { z } from '../torque/zod.ts';
import type { Moment } from '../job/events.ts';
import { durableStore, notStored } from './database.ts';
import type { DatabaseDeps } from './database.ts';
import type { NotStored, Stored } from './port.ts';

/** How much a note may hold. Sizes in bytes. */
export const recordingLimits = {
  /** Ten minutes of speech at the rate that browsers record it. */
  audio: 10_000_000,
  photo: 12_000_000,
  job: 300_000_000,
  /** Left free for the events, which come first: a note is refused before an event ever is. */
  reserve: 50_000_000,
} as const;

/** A spoken note or a photo, without its contents. */
export interface Recording {
  /** SHA-256 of the contents: the event that names it vouches for it through the chain. */
  readonly id: string;
  readonly job: string;
  readonly step: string | null;
  readonly kind: 'audio' | 'photo';
  /** Media type as the browser gave it. */
  readonly type: string;
  readonly size: number;
  readonly moment: Moment;
}

export type AddedRecording =
  | { readonly ok: true; readonly recording: Recording }
  | { readonly ok: false; readonly code: 'empty' }
  /** `limit` in bytes, of the note itself or of all of the job's. */
  | { readonly ok: false; readonly code: 'too-large' | 'job-too-large'; readonly limit: number }
  | NotStored;

export type ReadRecording =
  /** `isWhole` is false when the contents are no longer those that were stored. */
  | { readonly ok: true; readonly contents: Blob; readonly isWhole: boolean }
  | { readonly ok: false; readonly code: 'no-such-recording' }
  | NotStored;

export type ListedRecordings = { readonly ok: true; readonly recordings: readonly Recording[] } | NotStored;

/** Where notes are kept that are more than text. */
export interface Recordings {
  add(note: Pick<Recording, 'job' | 'step' | 'kind' | 'moment'>, contents: Blob): Promise<AddedRecording>;
  /** Those of one job, or of all, oldest first. */
  list(job?: string): Promise<ListedRecordings>;
  read(recording: Pick<Recording, 'id' | 'job'>): Promise<ReadRecording>;
  remove(recording: Pick<Recording, 'id' | 'job'>): Promise<Stored>;
  removeJob(job: string): Promise<Stored>;
}

export interface RecordingsDeps extends DatabaseDeps {
  /** Bytes that the browser would still let be stored (`navigator.storage.estimate`), or null when it does not say. */
  readonly room: () => Promise<number | null>;
}

const databaseVersion = 1;

export const recordingSchema = z.object({
  id: z.string(),
  job: z.string(),
  step: z.string().nullable(),
  kind: z.enum(['audio', 'photo']),
  type: z.string(),
  size: z.number(),
  moment: z.object({ wall: z.number(), offset: z.number(), mono: z.number() }),
});

/** In a database of their own, away from the events. Contents are kept as plain bytes, which every browser stores faithfully. */
export function browserRecordings({ room, ...deps }: RecordingsDeps, database = 'undertray-recordings'): Recordings {
  const use = durableStore({ database, store: 'recordings', version: databaseVersion }, deps);

  async function list(job?: string): Promise<readonly Recording[]> {
    const range = job === undefined ? IDBKeyRange.bound(['about'], ['about', []]) : IDBKeyRange.bound(['about', job], ['about', job, []]);
    const found = await use('readonly', (store) => promisifyRequest<unknown[]>(store.getAll(range)));
    const recordings = found.map((value) => recordingSchema.safeParse(value).data).filter((value) => value !== undefined);
    return recordings.sort((one, other) => one.moment.wall - other.moment.wall);
  }

  async function add(note: Parameters<Recordings['add']>[0], contents: Blob): Promise<AddedRecording> {
    const { size, type } = contents;
    if (size === 0) return { ok: false, code: 'empty' };
    const limit = recordingLimits[note.kind];
    if (size > limit) return { ok: false, code: 'too-large', limit };
    const used = (await list(note.job)).reduce((sum, other) => sum + other.size, 0);
    if (used + size > recordingLimits.job) return { ok: false, code: 'job-too-large', limit: recordingLimits.job };
    const left = await room();
    if (left !== null && left - size < recordingLimits.reserve) {
      return { ok: false, code: 'not-stored-disk-full', detail: `${left} bytes left, ${recordingLimits.reserve} of them for events` };
    }
    const bytes = await contents.arrayBuffer();
    const id = hashOf(bytes);
    const { job, step, kind, moment } = note;
    const recording: Recording = { id, job, step, kind, type, size, moment };
    await use('readwrite', (store) => {
      store.put(recording, ['about', job, id]);
      store.put(bytes, ['contents', job, id]);
    });
    return { ok: true, recording };
  }

  async function read({ id, job }: Pick<Recording, 'id' | 'job'>): Promise<ReadRecording> {
    const [about, bytes] = await use('readonly', (store) =>
      Promise.all([promisifyRequest<unknown>(store.get(['about', job, id])), promisifyRequest<unknown>(store.get(['contents', job, id]))]),
    );
    const recording = recordingSchema.safeParse(about);
    if (!recording.success || !isBuffer(bytes)) return { ok: false, code: 'no-such-recording' };
    return { ok: true, contents: new Blob([bytes], { type: recording.data.type }), isWhole: hashOf(bytes) === id };
  }

  return {
    add: (note, contents) => answered(() => add(note, contents)),
    list: (job) => answered(async () => ({ ok: true, recordings: await list(job) })),
    read: (recording) => answered(() => read(recording)),
    remove: ({ id, job }) =>
      answered(async () => {
        await use('readwrite', (store) => {
          store.delete(['about', job, id]);
          store.delete(['contents', job, id]);
        });
        return { ok: true };
      }),
    removeJob: (job) =>
      answered(async () => {
        await use('readwrite', (store) => {
          store.delete(IDBKeyRange.bound(['about', job], ['about', job, []]));
          store.delete(IDBKeyRange.bound(['contents', job], ['contents', job, []]));
        });
        return { ok: true };
      }),
  };
}

function hashOf(bytes: ArrayBuffer): string {
  return bytesToHex(sha256(new Uint8Array(bytes)));
}

/** A buffer may come from another realm, where `instanceof` would not know it. */
function isBuffer(value: unknown): value is ArrayBuffer {
  return Object.prototype.toString.call(value) === '[object ArrayBuffer]';
}

async function answered<Result>(act: () => Promise<Result>): Promise<Result | NotStored> {
  try {
    return await act();
  } catch (error) {
    return notStored(error);
  }
}
