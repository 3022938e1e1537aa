import { decodeUtf8, encodeUtf8 } from './utf8.ts';

/**
 * A number for each different text, made straight from bytes: a text is decoded once when it is shown and not once a line.
 * Number 0 is no text at all.
 */
export interface Names {
  /** The number of the text in `bytes` from `start` up to before `end`. `guess` is tried first: logs say the same thing over and over. */
  numberOf(bytes: Uint8Array, start: number, end: number, guess?: number): number;
  numberOfText(text: string): number;
  /** The text of a number; an empty one for 0. */
  text(number: number): string;
  /** How many numbers are given out, 0 included. */
  size(): number;
}

export function makeNames(): Names {
  let slots = new Uint32Array(1024);
  let ends = new Uint32Array(512);
  let hashes = new Uint32Array(512);
  let blob = new Uint8Array(8192);
  let size = 1;
  const texts: (string | undefined)[] = [''];

  function numberOf(bytes: Uint8Array, start: number, end: number, guess = 0): number {
    if (guess !== 0 && isSame(guess, bytes, start, end)) return guess;
    let hash = 0x811c9dc5;
    for (let at = start; at < end; at++) hash = Math.imul(hash ^ (bytes[at] ?? 0), 0x01000193);
    hash = (hash ^ (hash >>> 15)) >>> 0;
    const mask = slots.length - 1;
    let place = hash & mask;
    for (;;) {
      const number = slots[place] ?? 0;
      if (number === 0) break;
      if (hashes[number] === hash && isSame(number, bytes, start, end)) return number;
      place = (place + 1) & mask;
    }
    return add(hash, place, bytes, start, end);
  }

  function isSame(number: number, bytes: Uint8Array, start: number, end: number): boolean {
    const from = ends[number - 1] ?? 0;
    if ((ends[number] ?? 0) - from !== end - start) return false;
    for (let at = start, own = from; at < end; at++, own++) if (bytes[at] !== blob[own]) return false;
    return true;
  }

  function add(hash: number, place: number, bytes: Uint8Array, start: number, end: number): number {
    const number = size;
    const from = ends[number - 1] ?? 0;
    const to = from + end - start;
    if (to > blob.length) blob = grown(blob, new Uint8Array(Math.max(to, blob.length * 2)));
    blob.set(bytes.subarray(start, end), from);
    if (number >= ends.length) {
      ends = grown(ends, new Uint32Array(ends.length * 2));
      hashes = grown(hashes, new Uint32Array(hashes.length * 2));
    }
    ends[number] = to;
    hashes[number] = hash;
    slots[place] = number;
    size += 1;
    if (size * 2 > slots.length) rehash();
    return number;
  }

  function rehash(): void {
    slots = new Uint32Array(slots.length * 2);
    const mask = slots.length - 1;
    for (let number = 1; number < size; number++) {
      let place = (hashes[number] ?? 0) & mask;
      while (slots[place] !== 0) place = (place + 1) & mask;
      slots[place] = number;
    }
  }

  return {
    numberOf,
    numberOfText(text) {
      const bytes = encodeUtf8(text);
      return numberOf(bytes, 0, bytes.length);
    },
    text: (number) => (texts[number] ??= decodeUtf8(blob, ends[number - 1] ?? 0, ends[number] ?? 0)),
    size: () => size,
  };
}

function grown<Values extends Uint8Array | Uint32Array>(from: Values, into: Values): Values {
  into.set(from);
  return into;
}
