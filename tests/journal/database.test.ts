import { promisifyRequest } from 'idb-keyval';
import { IDBFactory } from 'fake-indexeddb';
import { describe, expect, it } from 'vitest';
import { durableStore, notStored } from '../../src/journal/database.ts';

const never = () => () => undefined;
const name = (version: number) => ({ database: 'some', store: 'things', version });

async function write(use: ReturnType<typeof durableStore>): Promise<string> {
  try {
    await use('readwrite', (store) => promisifyRequest(store.put('value', 'key')));
    return 'stored';
  } catch (error) {
    return notStored(error).code;
  }
}

describe('a store of a newer layout than the one that is open in another tab', () => {
  it('says that it is blocked, and works once the other tab has gone', async () => {
    const indexedDB = new IDBFactory();
    const older = await promisifyRequest(indexedDB.open('some', 1));
    const use = durableStore(name(2), { indexedDB, after: never });
    expect(await write(use)).toBe('not-stored-blocked');
    older.close();
    expect(await write(use)).toBe('stored');
  });

  it('gets its way at once when the other tab is this app', async () => {
    const indexedDB = new IDBFactory();
    const older = durableStore(name(1), { indexedDB, after: never });
    const newer = durableStore(name(2), { indexedDB, after: never });
    expect(await write(older)).toBe('stored');
    expect(await write(newer)).toBe('stored');
    expect(await write(older)).toBe('not-stored-newer-version');
  });
});

describe('an error of storage', () => {
  it.each([
    ['QuotaExceededError', 'not-stored-disk-full'],
    ['VersionError', 'not-stored-newer-version'],
    ['ConstraintError', 'not-stored-other-tab'],
    ['UnknownError', 'not-stored-blocked'],
    ['SecurityError', 'not-stored-blocked'],
  ])('%s means %s', (error, code) => {
    expect(notStored(new DOMException('words', error))).toEqual({ ok: false, code, detail: `${error}: words` });
  });

  it('may be anything', () => {
    expect(notStored(undefined)).toMatchObject({ code: 'not-stored-blocked' });
  });
});
