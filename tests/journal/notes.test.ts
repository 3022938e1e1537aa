import { IDBFactory, IDBKeyRange, IDBObjectStore } from 'fake-indexeddb';
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { browserRecordings, recordingLimits } from '../../src/journal/notes.ts';
import { keepStorage, roomLeft } from '../../src/journal/storage-room.ts';
import { at } from './sample.ts';

beforeAll(() => {
  vi.stubGlobal('IDBKeyRange', IDBKeyRange);
});
afterEach(() => {
  vi.restoreAllMocks();
});

function device(room: number | null = null, indexedDB = new IDBFactory()) {
  return { recordings: browserRecordings({ indexedDB, after: () => () => undefined, room: () => Promise.resolve(room) }), indexedDB };
}

const note = (seconds: number, job = 'job') => ({ job, step: 'bolts', kind: 'audio', moment: at(seconds) }) as const;
const sound = (text: string) => new Blob([text], { type: 'audio/webm;codecs=opus' });

describe('recordings', () => {
  it('come back as they were, after a restart too, oldest first', async () => {
    const { recordings, indexedDB } = device();
    const second = await recordings.add(note(60), sound('second'));
    const first = await recordings.add(note(5), sound('first'));
    const later = device(null, indexedDB).recordings;
    const listed = await later.list('job');
    expect(listed).toEqual({ ok: true, recordings: [first.ok && first.recording, second.ok && second.recording] });
    const found = first.ok ? await later.read(first.recording) : null;
    expect(found).toMatchObject({ ok: true, isWhole: true });
    expect(found?.ok && [await found.contents.text(), found.contents.type]).toEqual(['first', 'audio/webm;codecs=opus']);
  });

  it('go by the hash of their contents, so that a changed one shows', async () => {
    const { recordings, indexedDB } = device();
    const added = await recordings.add(note(5), sound('abc'));
    // FIPS 180-4, the one-block example.
    expect(added).toMatchObject({ recording: { id: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad' } });
    const id = added.ok ? added.recording.id : '';
    await new Promise<void>((resolve) => {
      const request = indexedDB.open('undertray-recordings');
      request.onsuccess = () => {
        const transaction = request.result.transaction('recordings', 'readwrite');
        transaction.objectStore('recordings').put(new TextEncoder().encode('abd').buffer, ['contents', 'job', id]);
        transaction.oncomplete = () => resolve();
      };
    });
    expect(await recordings.read({ id, job: 'job' })).toMatchObject({ ok: true, isWhole: false });
  });

  it('are kept job by job and removed with it', async () => {
    const { recordings } = device();
    const mine = await recordings.add(note(1), sound('one'));
    await recordings.add(note(2), sound('two'));
    await recordings.add(note(3, 'other'), sound('three'));
    expect(mine.ok && (await recordings.remove(mine.recording))).toEqual({ ok: true });
    expect(mine.ok && (await recordings.read(mine.recording))).toEqual({ ok: false, code: 'no-such-recording' });
    await recordings.removeJob('job');
    expect(await recordings.list('job')).toEqual({ ok: true, recordings: [] });
    expect(await recordings.list()).toMatchObject({ ok: true, recordings: [{ job: 'other' }] });
  });

  it('have limits, each said as such', async () => {
    const { recordings } = device();
    const ofSize = (size: number) => Object.defineProperty(sound('short'), 'size', { value: size });
    expect(await recordings.add(note(1), sound(''))).toEqual({ ok: false, code: 'empty' });
    expect(await recordings.add(note(1), ofSize(recordingLimits.audio + 1))).toEqual({
      ok: false,
      code: 'too-large',
      limit: recordingLimits.audio,
    });
    const full = Math.floor(recordingLimits.job / recordingLimits.photo);
    for (let photo = 0; photo < full; photo++) {
      const contents = Object.defineProperty(new Blob([`photo ${photo}`]), 'size', { value: recordingLimits.photo });
      expect(await recordings.add({ ...note(photo), kind: 'photo' }, contents)).toMatchObject({ ok: true });
    }
    expect(await recordings.add(note(99), ofSize(recordingLimits.audio))).toEqual({
      ok: false,
      code: 'job-too-large',
      limit: recordingLimits.job,
    });
  });

  it('leave room for the events when the disk runs low', async () => {
    expect(await device(recordingLimits.reserve + 4).recordings.add(note(1), sound('12345'))).toMatchObject({
      ok: false,
      code: 'not-stored-disk-full',
    });
    expect(await device(recordingLimits.reserve + 5).recordings.add(note(1), sound('12345'))).toMatchObject({ ok: true });
  });

  it('say that the disk is full when it is, and leave nothing half stored', async () => {
    const { recordings } = device();
    const put = Reflect.get(IDBObjectStore.prototype, 'put') as (value: unknown, key?: IDBValidKey) => IDBRequest<IDBValidKey>;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
      if (Array.isArray(key) && key[0] === 'contents') throw new DOMException('no room left', 'QuotaExceededError');
      return put.call(this, value, key);
    });
    expect(await recordings.add(note(1), sound('one'))).toMatchObject({ ok: false, code: 'not-stored-disk-full' });
    vi.restoreAllMocks();
    expect(await recordings.list()).toEqual({ ok: true, recordings: [] });
  });
});

describe('room for storage', () => {
  const storage = (persisted: boolean, granted: boolean) => ({
    estimate: () => Promise.resolve({ quota: 100, usage: 30 }),
    persisted: () => Promise.resolve(persisted),
    persist: () => Promise.resolve(granted),
  });

  it('is asked for, and known to be kept or not', async () => {
    expect(await keepStorage(storage(true, false))).toBe(true);
    expect(await keepStorage(storage(false, true))).toBe(true);
    expect(await keepStorage(storage(false, false))).toBe(false);
    expect(await keepStorage(undefined)).toBe(false);
  });

  it('is what the browser says is left, or unknown', async () => {
    expect(await roomLeft(storage(true, true))).toBe(70);
    expect(await roomLeft(undefined)).toBeNull();
    expect(await roomLeft({ ...storage(true, true), estimate: () => Promise.reject(new TypeError('not here')) })).toBeNull();
  });
});
