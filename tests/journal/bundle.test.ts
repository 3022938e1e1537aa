import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import * as fc from 'fast-check';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { adoptRecordings, jobBundle, readBundle } from '../../src/journal/bundle.ts';
import { importLog } from '../../src/journal/log-file.ts';
import { memoryJournal } from '../../src/journal/memory.ts';
import { browserRecordings } from '../../src/journal/notes.ts';
import type { Recordings } from '../../src/journal/notes.ts';
import { removeJob } from '../../src/journal/removal.ts';
import { crc32, readZip, zipFile } from '../../src/journal/zip.ts';
import { at } from './sample.ts';
import { sampleJob } from './sample-log.ts';

beforeAll(() => {
  vi.stubGlobal('IDBKeyRange', IDBKeyRange);
});

const bytesOf = (...pieces: readonly Uint8Array[]): Uint8Array => Uint8Array.from(pieces.flatMap((piece) => [...piece]));
const device = (): Recordings =>
  browserRecordings({ indexedDB: new IDBFactory(), after: () => () => undefined, room: () => Promise.resolve(null) });

const sound = new Blob(['not really sound'], { type: 'audio/webm;codecs=opus' });
const picture = new Blob(['not really a picture'], { type: 'image/jpeg' });

async function withNotes(): Promise<Recordings> {
  const recordings = device();
  const { job } = sampleJob;
  await recordings.add({ job, step: 'bolts', kind: 'audio', moment: at(150) }, sound);
  await recordings.add({ job, step: null, kind: 'photo', moment: at(160) }, picture);
  return recordings;
}

async function bundled(recordings: Recordings): Promise<{ readonly bytes: Uint8Array; readonly ending: string }> {
  const made = await jobBundle(sampleJob, recordings);
  if (!made.ok) throw new Error(made.code);
  return { bytes: new Uint8Array(await made.file.arrayBuffer()), ending: made.ending };
}

describe('a ZIP file', () => {
  it('has the checksum of ISO 3309 (check value CBF43926, in every table of CRCs; from memory)', () => {
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  });

  it('is read by an ordinary program', () => {
    const folder = mkdtempSync(join(tmpdir(), 'zip-'));
    const contents = Uint8Array.from({ length: 3000 }, (_, index) => index % 251);
    writeFileSync(
      join(folder, 'a.zip'),
      bytesOf(
        ...zipFile([
          { name: 'é/one.bin', bytes: contents },
          { name: 'empty', bytes: new Uint8Array() },
        ]),
      ),
    );
    execFileSync('python3', [
      '-c',
      'import sys,zipfile; z=zipfile.ZipFile(sys.argv[1]); assert z.testzip() is None; z.extractall(sys.argv[2])',
      join(folder, 'a.zip'),
      folder,
    ]);
    expect(new Uint8Array(readFileSync(join(folder, 'é/one.bin')))).toEqual(contents);
    expect(readFileSync(join(folder, 'empty'))).toHaveLength(0);
  });

  it('gives back its members, and never throws whatever it is', () => {
    const members = fc.array(fc.record({ name: fc.string({ unit: 'grapheme' }), bytes: fc.uint8Array() }), { maxLength: 4 });
    fc.assert(
      fc.property(members, (all) => {
        expect(readZip(bytesOf(...zipFile(all)))).toEqual({ ok: true, members: all });
      }),
      { numRuns: 30 },
    );
    const whole = bytesOf(...zipFile([{ name: 'a', bytes: new Uint8Array([1, 2, 3]) }]));
    for (let length = 0; length < whole.length; length++) expect(readZip(whole.slice(0, length)).ok).toBe(false);
    fc.assert(
      fc.property(fc.nat(whole.length - 1), fc.nat(255), (place, value) => {
        readZip(whole.with(place, value));
      }),
      { numRuns: 200 },
    );
  });

  it('is refused when it is compressed', () => {
    const folder = mkdtempSync(join(tmpdir(), 'zip-'));
    execFileSync('python3', [
      '-c',
      'import sys,zipfile; zipfile.ZipFile(sys.argv[1],"w",zipfile.ZIP_DEFLATED).writestr("job.jsonl","a"*999)',
      join(folder, 'a.zip'),
    ]);
    expect(readBundle(new Uint8Array(readFileSync(join(folder, 'a.zip'))))).toEqual({ ok: false, code: 'packed' });
  });
});

describe('a job as a file', () => {
  it('is a plain log when nothing was recorded', async () => {
    const { bytes, ending } = await bundled(device());
    expect(ending).toBe('.jsonl');
    expect(readBundle(bytes)).toMatchObject({ ok: true, jobs: [{ job: sampleJob.job, faults: [] }], recordings: [] });
  });

  it('carries recordings and pictures to another device, each for what it is', async () => {
    const { bytes, ending } = await bundled(await withNotes());
    expect(ending).toBe('.zip');
    const read = readBundle(bytes);
    if (!read.ok) throw new Error(read.code);
    const [journal, recordings] = [memoryJournal({ session: 'there' }), device()];
    expect(await importLog(journal, read.jobs)).toMatchObject([{ answer: { ok: true, outcome: 'new' } }]);
    expect(await adoptRecordings(recordings, read.recordings)).toEqual([]);
    const listed = await recordings.list(sampleJob.job);
    if (!listed.ok) throw new Error(listed.code);
    expect(listed.recordings.map(({ kind, step, type }) => [kind, step, type])).toEqual([
      ['audio', 'bolts', 'audio/webm;codecs=opus'],
      ['photo', null, 'image/jpeg'],
    ]);
    const heard = await recordings.read(listed.recordings[0]!);
    expect(heard.ok && [await heard.contents.text(), heard.isWhole]).toEqual(['not really sound', true]);
  });

  it('brings nothing twice', async () => {
    const read = readBundle((await bundled(await withNotes())).bytes);
    if (!read.ok) throw new Error(read.code);
    const [journal, recordings] = [memoryJournal({ session: 'there' }), device()];
    for (let time = 0; time < 2; time++) {
      await importLog(journal, read.jobs);
      await adoptRecordings(recordings, read.recordings);
    }
    const listed = await recordings.list();
    expect(listed.ok && listed.recordings.length).toBe(2);
  });

  it('does not keep a recording that is not what its name vouches for', async () => {
    const read = readBundle((await bundled(await withNotes())).bytes);
    if (!read.ok) throw new Error(read.code);
    const recordings = device();
    await adoptRecordings(recordings, [[read.recordings[0]![0], new Blob(['something else'], { type: 'audio/webm' })]]);
    expect(await recordings.list()).toEqual({ ok: true, recordings: [] });
  });
});

describe('removing a job', () => {
  it('removes what was recorded with it, and nothing when another tab writes it', async () => {
    const recordings = await withNotes();
    const busy = { remove: () => Promise.resolve({ ok: false, code: 'not-stored-other-tab', detail: '' } as const) };
    expect(await removeJob(busy, recordings, sampleJob.job)).toMatchObject({ ok: false, code: 'not-stored-other-tab' });
    expect(await recordings.list(sampleJob.job)).toMatchObject({ recordings: { length: 2 } });
    expect(await removeJob(memoryJournal({ session: 's' }), recordings, sampleJob.job)).toEqual({ ok: true });
    expect(await recordings.list(sampleJob.job)).toEqual({ ok: true, recordings: [] });
  });
});
