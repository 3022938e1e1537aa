import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { pieces, unzipped } from '../../../src/app/review/pieces.ts';

const bytes = Buffer.from(Uint8Array.from({ length: 3_000_000 }, (_, index) => (index * 7 + Math.floor(index / 251)) % 256));
const never = (): Promise<void> => new Promise(() => undefined);

async function joined(from: AsyncIterable<Uint8Array>): Promise<{ readonly isWhole: boolean; readonly sizes: readonly number[] }> {
  const parts: Buffer[] = [];
  // Copied at once: a piece is good only until the next one is asked for.
  for await (const piece of from) parts.push(Buffer.from(piece));
  return { isWhole: Buffer.concat(parts).equals(bytes), sizes: parts.map(({ length }) => length) };
}

/** A Blob whose slices give these streams of what they hold. */
function blobWith(stream: (held: Buffer, start: number) => ReadableStream<Uint8Array>): Blob {
  return Object.assign(new Blob([bytes]), {
    slice(start: number, end = bytes.length): Blob {
      const held = bytes.subarray(start, end);
      return Object.assign(new Blob([held]), { stream: () => stream(held, start) });
    },
  });
}

/** Fills whatever it is given to fill, as a browser's stream of a file does; behind `after` bytes it is silent, without an end or an error. */
function byteStream(held: Buffer, after = Infinity, onCancel: () => void = () => undefined): ReadableStream<Uint8Array> {
  let given = 0;
  return new ReadableStream({
    type: 'bytes',
    pull(controller) {
      if (given >= after) return never();
      const request = controller.byobRequest;
      const into = request?.view;
      if (request === null || into === null || into === undefined) throw new Error('not asked with a buffer');
      const part = held.subarray(given, given + into.byteLength);
      new Uint8Array(into.buffer, into.byteOffset).set(part);
      given += part.length;
      if (part.length === 0) controller.close();
      request.respond(part.length);
      return Promise.resolve();
    },
    cancel: onCancel,
  });
}

describe('the pieces of a log', () => {
  it('are its bytes in turn, in one buffer of at most half a mebibyte', async () => {
    const { isWhole, sizes } = await joined(
      pieces(
        blobWith((held) => byteStream(held)),
        never,
      ),
    );
    expect(isWhole).toBe(true);
    expect(sizes.length).toBeGreaterThan(5);
    expect(Math.max(...sizes)).toBeLessThanOrEqual(2 ** 19);
  });

  it('are fetched by the slice where a Blob has no byte stream', async () => {
    const plain = blobWith(
      () =>
        new ReadableStream({
          start(controller) {
            controller.close();
          },
        }),
    );
    const { isWhole, sizes } = await joined(pieces(plain, never));
    expect(isWhole).toBe(true);
    expect(sizes).toEqual([2 ** 21, bytes.length - 2 ** 21]);
  });

  it('go on by a slice, and then by a new stream, where a stream falls silent', async () => {
    const begun: number[] = [];
    let cancelled = 0;
    const silent = blobWith((held, start) => {
      begun.push(start);
      return byteStream(held, start === 0 ? 400_000 : Infinity, () => (cancelled += 1));
    });
    // Over at once, but behind whatever can be given at once.
    const { isWhole } = await joined(pieces(silent, () => new Promise((resolve) => setTimeout(resolve))));
    expect(isWhole).toBe(true);
    expect(begun).toEqual([0, 2 ** 19 + 2 ** 21]);
    expect(cancelled).toBe(1);
  });

  it('of nothing are none', async () => {
    expect((await joined(pieces(new Blob([]), never))).sizes).toEqual([]);
  });

  it('say so when the file cannot be read any more', async () => {
    const gone = blobWith(
      () =>
        new ReadableStream({
          type: 'bytes',
          pull(controller) {
            controller.error(new Error('the file has changed'));
          },
        }),
    );
    await expect(joined(pieces(gone, never))).rejects.toThrow('the file has changed');
  });

  it('are unpacked where the file is packed', async () => {
    expect((await joined(unzipped(new Blob([gzipSync(bytes)])))).isWhole).toBe(true);
  });
});
