import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { keepRecording, troubleOf } from '../../../src/app/notes/kept.ts';
import type { NoteDesk } from '../../../src/app/notes/kept.ts';
import type { TakenNote } from '../../../src/job/decide.ts';
import type { JobEvent, Recorded } from '../../../src/job/events.ts';
import type { AddedRecording, Recordings } from '../../../src/journal/notes.ts';
import { browserRecordings } from '../../../src/journal/notes.ts';
import type { FailureCode } from '../../../src/phrasing/lines.ts';

beforeAll(() => {
  vi.stubGlobal('IDBKeyRange', IDBKeyRange);
});

interface Desk extends NoteDesk {
  readonly notes: TakenNote[];
  readonly troubles: FailureCode[];
  readonly stored: Recordings;
}

/** A desk over real storage; `stores` false plays a journal that cannot take the event, `refusal` a store that cannot take the recording. */
function deskOf({ stores = true, refusal = null as Exclude<AddedRecording, { ok: true }> | null } = {}): Desk {
  const stored = browserRecordings({ indexedDB: new IDBFactory(), after: () => () => undefined, room: () => Promise.resolve(null) });
  const notes: TakenNote[] = [];
  const troubles: FailureCode[] = [];
  return {
    notes,
    troubles,
    stored,
    recordings: {
      add: (note, contents) => (refusal === null ? stored.add(note, contents) : Promise.resolve(refusal)),
      remove: (recording) => stored.remove(recording),
    },
    job: 'job',
    step: () => 'bolts',
    now: () => ({ moment: { wall: 1.8e12, offset: 60, mono: 5 }, session: 'test' }),
    note: (note) => {
      if (stores) notes.push(note);
      return Promise.resolve();
    },
    trouble: (code) => {
      troubles.push(code);
      return Promise.resolve();
    },
    events: () => notes.map((note) => ({ event: { type: 'noted', ...note } satisfies JobEvent }) as unknown as Recorded),
  };
}

const sound = new Blob(['a spoken note'], { type: 'audio/webm' });

describe('a recording that was taken', () => {
  it('is stored with its step before the event names it', async () => {
    const desk = deskOf();
    await keepRecording(desk, 'audio', sound, { text: 'the thread is rusty', question: false });
    const listed = await desk.stored.list('job');
    const [kept] = listed.ok ? listed.recordings : [];
    expect(kept).toMatchObject({ step: 'bolts', kind: 'audio', type: 'audio/webm' });
    expect(desk.notes).toEqual([{ text: 'the thread is rusty', recording: kept?.id, media: 'audio', question: false }]);
    expect(desk.troubles).toEqual([]);
  });

  it('keeps its words when the recording itself cannot be kept, and says what is wrong', async () => {
    const desk = deskOf({ refusal: { ok: false, code: 'not-stored-disk-full', detail: '' } });
    await keepRecording(desk, 'audio', sound, { text: 'the thread is rusty', question: true });
    expect(desk.notes).toEqual([{ text: 'the thread is rusty', recording: null, media: null, question: true }]);
    expect(desk.troubles).toEqual(['note-disk-full']);
  });

  it('goes again when no event could be stored that names it', async () => {
    const desk = deskOf({ stores: false });
    await keepRecording(desk, 'photo', sound, { text: '', question: false });
    expect(await desk.stored.list('job')).toEqual({ ok: true, recordings: [] });
  });

  it.each([
    [{ ok: false, code: 'empty' }, 'note-empty'],
    [{ ok: false, code: 'too-large', limit: 1 }, 'note-too-large'],
    [{ ok: false, code: 'job-too-large', limit: 1 }, 'notes-full'],
    [{ ok: false, code: 'not-stored-disk-full', detail: '' }, 'note-disk-full'],
    [{ ok: false, code: 'not-stored-blocked', detail: '' }, 'not-stored-blocked'],
  ] as const)('%j is said as %s', (failed, code) => {
    expect(troubleOf(failed)).toBe(code);
  });
});
