import { jobFile, logFileType, readLog } from './log-file.ts';
import type { LoggedJob } from './log-file.ts';
import { recordingSchema } from './notes.ts';
import type { AddedRecording, Recording, Recordings } from './notes.ts';
import type { NotStored, StoredJob } from './port.ts';
import { looksLikeZip, readZip, zipFile } from './zip.ts';
import type { ZipMember } from './zip.ts';

/*
 * A job with its recordings and pictures as one file: a ZIP with job.jsonl (the record, exactly as a log file), recordings.jsonl (what each
 * recording is) and recordings/, a file each under its hash. A job without recordings is a plain log file.
 */

const logName = 'job.jsonl';
const listName = 'recordings.jsonl';
const folder = 'recordings/';

export interface Bundle {
  readonly ok: true;
  readonly file: Blob;
  /** What a file's name ends in, with the dot. */
  readonly ending: '.jsonl' | '.zip';
  /** Recordings that are named but are no longer there, or are no longer what they were. */
  readonly missing: number;
}

/** The job as a file, whole: what a hand-over carries and what an export must not lose. */
export async function jobBundle(stored: StoredJob, recordings: Recordings): Promise<Bundle | NotStored> {
  const listed = await recordings.list(stored.job);
  if (!listed.ok) return listed;
  const log = [...jobFile(stored)];
  if (listed.recordings.length === 0) return { ok: true, file: new Blob(log, { type: logFileType }), ending: '.jsonl', missing: 0 };
  const members: ZipMember[] = [];
  const kept: Recording[] = [];
  for (const recording of listed.recordings) {
    const read = await recordings.read(recording);
    if (!read.ok || !read.isWhole) continue;
    kept.push(recording);
    members.push({ name: `${folder}${recording.id}${endingOf(recording.type)}`, bytes: new Uint8Array(await read.contents.arrayBuffer()) });
  }
  const encoder = new TextEncoder();
  const pieces = zipFile([
    { name: logName, bytes: encoder.encode(log.join('')) },
    { name: listName, bytes: encoder.encode(kept.map((recording) => `${JSON.stringify(recording)}\n`).join('')) },
    ...members,
  ]);
  const file = new Blob(pieces as readonly Uint8Array<ArrayBuffer>[] as Uint8Array<ArrayBuffer>[], { type: 'application/zip' });
  return { ok: true, file, ending: '.zip', missing: listed.recordings.length - kept.length };
}

export type ReadBundle =
  | { readonly ok: true; readonly jobs: readonly LoggedJob[]; readonly recordings: readonly (readonly [Recording, Blob])[] }
  /** `no-log`: a ZIP file of something else. The others as in `readZip`. */
  | { readonly ok: false; readonly code: 'damaged' | 'packed' | 'no-log' };

/** Reads what `jobBundle` has made, or a plain log file. Never throws, whatever the bytes. */
export function readBundle(bytes: Uint8Array): ReadBundle {
  const decoder = new TextDecoder();
  if (!looksLikeZip(bytes)) return { ok: true, jobs: readLog(decoder.decode(bytes)), recordings: [] };
  const zip = readZip(bytes);
  if (!zip.ok) return zip;
  const log = zip.members.find(({ name }) => name === logName);
  if (log === undefined) return { ok: false, code: 'no-log' };
  const list = zip.members.find(({ name }) => name === listName);
  const recordings = decoder
    .decode(list?.bytes)
    .split('\n')
    .flatMap((line): (readonly [Recording, Blob])[] => {
      const recording = parseRecording(line);
      const member = zip.members.find(({ name }) => recording !== null && name.startsWith(`${folder}${recording.id}`));
      if (recording === null || member === undefined) return [];
      return [[recording, new Blob([member.bytes as Uint8Array<ArrayBuffer>], { type: recording.type })]];
    });
  return { ok: true, jobs: readLog(decoder.decode(log.bytes)), recordings };
}

/** Keeps the recordings of a job that was taken in. Those whose contents are not what their name vouches for are left out. */
export async function adoptRecordings(
  recordings: Recordings,
  incoming: readonly (readonly [Recording, Blob])[],
): Promise<readonly Exclude<AddedRecording, { ok: true }>[]> {
  const failed: Exclude<AddedRecording, { ok: true }>[] = [];
  for (const [recording, contents] of incoming) {
    const added = await recordings.add(recording, contents);
    if (!added.ok) failed.push(added);
    else if (added.recording.id !== recording.id) await recordings.remove(added.recording);
  }
  return failed;
}

function parseRecording(line: string): Recording | null {
  try {
    return recordingSchema.safeParse(JSON.parse(line)).data ?? null;
  } catch {
    return null;
  }
}

/** So that the files in the ZIP open with a double click. */
function endingOf(type: string): string {
  const endings: Readonly<Record<string, string>> = {
    'audio/webm': '.webm',
    'audio/ogg': '.ogg',
    'audio/mp4': '.m4a',
    'audio/wav': '.wav',
    'image/jpeg': '.jpg',
    'image/png': '.png',
    'image/webp': '.webp',
  };
  return endings[type.split(';')[0] ?? ''] ?? '';
}
