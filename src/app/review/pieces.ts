/** As much as Chromium's pipe for a Blob holds: with more, its byte streams (seen in 156) now and then stop giving anything without an error. */
const streamedBytes = 2 ** 19;
const sliceBytes = 2 ** 21;

/**
 * The bytes of a Blob in pieces, each good until the next one is asked for. They are streamed into one buffer, which costs a third of the time
 * that slices cost, since each slice is an errand of its own to the browser's process and a buffer that is long in going. Where streaming is silent
 * until `patience` is over (the fault above, or a slow disk), or cannot be had, one slice is fetched instead, however long that takes.
 */
export async function* pieces(blob: Blob, patience: () => Promise<void> = aQuarterSecond): AsyncGenerator<Uint8Array> {
  let at = 0;
  while (at < blob.size) {
    for await (const piece of streamed(blob.slice(at), patience)) {
      at += piece.length;
      yield piece;
    }
    if (at >= blob.size) return;
    const slice = new Uint8Array(await blob.slice(at, at + sliceBytes).arrayBuffer());
    at += slice.length;
    yield slice;
  }
}

/** Ends early where it is kept waiting, and at once where Blobs have no byte streams. */
async function* streamed(blob: Blob, patience: () => Promise<void>): AsyncGenerator<Uint8Array> {
  const reader = byteReader(blob);
  if (reader === null) return;
  try {
    let buffer = new ArrayBuffer(streamedBytes);
    for (;;) {
      const result = await Promise.race([reader.read(new Uint8Array(buffer)), patience()]);
      if (result?.value === undefined || result.done) return;
      yield result.value;
      buffer = result.value.buffer;
    }
  } finally {
    // Not waited for: a stream that has fallen silent need not say that it ends.
    reader.cancel().catch(() => undefined);
  }
}

/** Null where a Blob's stream is not one of bytes (Safari before 26; from memory). */
function byteReader(blob: Blob): ReadableStreamBYOBReader | null {
  try {
    return blob.stream().getReader({ mode: 'byob' });
  } catch {
    return null;
  }
}

const aQuarterSecond = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 250));

/** What a gzip file holds, in pieces. */
export function unzipped(blob: Blob): AsyncIterable<Uint8Array> {
  const packed = pieces(blob);
  const stream = new ReadableStream<Uint8Array<ArrayBuffer>>({
    async pull(controller) {
      const next: IteratorResult<Uint8Array> = await packed.next();
      if (next.done === true) controller.close();
      else controller.enqueue(next.value.slice());
    },
  });
  return chunks(stream.pipeThrough(new DecompressionStream('gzip')));
}

async function* chunks(stream: ReadableStream<Uint8Array>): AsyncGenerator<Uint8Array> {
  const reader = stream.getReader();
  for (;;) {
    const result = await reader.read();
    if (result.done) return;
    yield result.value;
  }
}
