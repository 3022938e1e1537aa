import { createStore, del, delMany, get, getMany, keys, set } from 'idb-keyval';
import type { UseStore } from 'idb-keyval';

/**
 * The one store of a person's own procedures. A plain name is the text that jobs may be started from; the author's own things stand
 * beside it under lists: `['work', name]` what is being written, `['version', name, number]` what was kept of it,
 * `['recording', id]` a talk-through and `['sound', id, number]` its sound, piece by piece as it was recorded.
 */
let opened: UseStore | null = null;
const store = (): UseStore => (opened ??= createStore('undertray-procedures', 'files'));

/** A procedure as it is being written, fit to be run or not. */
export interface WorkPiece {
  readonly v: 1;
  readonly name: string;
  readonly text: string;
  /** The editor's own state with cursor and undo history, as it writes it; null where there is none yet. */
  readonly editor: unknown;
  /** The recording that it was drafted from. */
  readonly recording: string | null;
  /** Milliseconds since 1970. */
  readonly changed: number;
}

/** A text that was kept, with what the author said about it. */
export interface KeptVersion {
  readonly v: 1;
  readonly name: string;
  readonly number: number;
  readonly at: number;
  readonly note: string;
  readonly text: string;
}

/** A talk-through. Its sound is stored apart. */
export interface Recording {
  readonly v: 1;
  readonly id: string;
  readonly title: string;
  readonly at: number;
  readonly seconds: number;
  /** The sound's media type; null where there is only a transcript. */
  readonly type: string | null;
  readonly transcript: string | null;
}

type OwnKey = string | readonly [kind: string, name: string, number?: number];

const isKind = (kind: string, name: string | null) => (key: OwnKey) =>
  typeof key !== 'string' && key[0] === kind && (name === null || key[1] === name);

const allKeys = (): Promise<OwnKey[]> => keys<IDBValidKey>(store()) as Promise<unknown> as Promise<OwnKey[]>;
const many = <Value>(found: readonly OwnKey[]): Promise<readonly Value[]> =>
  getMany<Value>(found as IDBValidKey[], store()).then((values) => values.filter((value): value is Value => value !== undefined));

/** The texts that jobs may be started from, by name. */
export async function runnableFiles(): Promise<readonly (readonly [string, string])[]> {
  const names = (await allKeys()).filter((key) => typeof key === 'string');
  const texts = await getMany<string>(names, store());
  return names.flatMap((name, index): (readonly [string, string])[] => {
    const text = texts[index];
    return text === undefined ? [] : [[name, text]];
  });
}

export const keepRunnable = (name: string, text: string): Promise<void> => set(name, text, store());
export const dropRunnable = (name: string): Promise<void> => del(name, store());

export async function workPieces(): Promise<readonly WorkPiece[]> {
  const pieces = await many<WorkPiece>((await allKeys()).filter(isKind('work', null)));
  const written = new Set(pieces.map(({ name }) => name));
  const added = (await runnableFiles()).filter(([name]) => !written.has(name));
  return [...pieces, ...added.map(([name, text]) => newPiece(name, text, null, 0))];
}

/** What is being written under a name; a file that was only added so far is begun from. */
export async function openPiece(name: string): Promise<WorkPiece | null> {
  const piece = await get<WorkPiece>(['work', name], store());
  if (piece !== undefined) return piece;
  const text = await get<string>(name, store());
  return text === undefined ? null : newPiece(name, text, null, 0);
}

export const newPiece = (name: string, text: string, recording: string | null, changed: number): WorkPiece => ({
  v: 1,
  name,
  text,
  editor: null,
  recording,
  changed,
});

export const keepPiece = (piece: WorkPiece): Promise<void> => set(['work', piece.name], piece, store());

/** Takes everything away that is kept under a name. */
export async function dropOwn(name: string): Promise<void> {
  const found = (await allKeys()).filter((key) => key === name || isKind('work', name)(key) || isKind('version', name)(key));
  await delMany(found as IDBValidKey[], store());
}

/** Oldest first. */
export async function versionsOf(name: string): Promise<readonly KeptVersion[]> {
  const found = await many<KeptVersion>((await allKeys()).filter(isKind('version', name)));
  return [...found].sort((a, b) => a.number - b.number);
}

export async function keepVersion(name: string, text: string, note: string, at: number): Promise<KeptVersion> {
  const numbers = (await allKeys()).filter(isKind('version', name)).map((key) => Number(key[2]));
  const version: KeptVersion = { v: 1, name, number: Math.max(0, ...numbers) + 1, at, note, text };
  await set(['version', name, version.number], version, store());
  return version;
}

/** Newest first. */
export async function recordings(): Promise<readonly Recording[]> {
  const found = await many<Recording>((await allKeys()).filter(isKind('recording', null)));
  return [...found].sort((a, b) => b.at - a.at);
}

export const openRecording = (id: string): Promise<Recording | undefined> => get<Recording>(['recording', id], store());
export const keepRecording = (recording: Recording): Promise<void> => set(['recording', recording.id], recording, store());
export const keepSound = (id: string, number: number, piece: Blob): Promise<void> => set(['sound', id, number], piece, store());

/** The pieces of a recording's sound as one, or null where there is none. */
export async function soundOf(id: string, type: string): Promise<Blob | null> {
  const found = (await allKeys()).filter(isKind('sound', id)).sort((a, b) => Number(a[2]) - Number(b[2]));
  const pieces = await many<Blob>(found);
  return pieces.length === 0 ? null : new Blob([...pieces], { type });
}

export async function dropRecording(id: string): Promise<void> {
  await delMany((await allKeys()).filter((key) => isKind('recording', id)(key) || isKind('sound', id)(key)) as IDBValidKey[], store());
}
