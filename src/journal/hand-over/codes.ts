import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { renderSVG } from 'uqr';
import type { StoredJob } from '../port.ts';
import { fromBase45, toBase45 } from './base45.ts';
import { pack, unpack } from './packed.ts';
import type { Unpacked } from './packed.ts';

/**
 * A job as a row of QR codes that one device shows and another reads, in any order, as often as it takes. The text of each is
 * UT1:CHECK:NUMBER/OF:DATA, where CHECK is the start of the SHA-256 of all data together and DATA is Base45.
 */
const partPattern = /^UT1:([0-9A-F]{16}):([1-9]\d{0,3})\/([1-9]\d{0,3}):([0-9A-Z $%*+\-./:]{1,4000})$/u;

/** Bytes in one code: version 18, 89 modules. Measured with the decoder in script on sharp pictures of 350 to 800 pixels, and not with cameras. */
const bytesInCode = 600;

/** More codes than anybody holds a camera to; such a job goes by file. */
export const mostCodes = 180;

export type Codes =
  | { readonly ok: true; readonly texts: readonly string[] }
  /** A damaged record cannot be worked out again from its events; a file carries it as it is. */
  | { readonly ok: false; readonly code: 'record-corrupt' | 'too-large' };

/** The texts of the codes, in order. */
export async function codesOf(stored: StoredJob): Promise<Codes> {
  if (stored.faults.length > 0) return { ok: false, code: 'record-corrupt' };
  const bytes = await pack(stored);
  const of = Math.max(1, Math.ceil(bytes.length / bytesInCode));
  if (of > mostCodes) return { ok: false, code: 'too-large' };
  const check = checkOf(bytes);
  const texts = Array.from({ length: of }, (_, index) => {
    const part = bytes.subarray(index * bytesInCode, (index + 1) * bytesInCode);
    return `UT1:${check}:${index + 1}/${of}:${toBase45(part)}`;
  });
  return { ok: true, texts };
}

/** A code as a picture: black on white whatever the theme, since readers want it so, with the quiet zone of four modules. */
export function codeSvg(text: string): string {
  return renderSVG(text, { ecc: 'L', border: 4, blackColor: '#000', whiteColor: '#fff' });
}

export type Taken =
  | { readonly ok: true; readonly isNew: boolean; readonly missing: readonly number[]; readonly of: number }
  /** Not a code of ours; or one of another job than the first that was read, or of the same job at another time. */
  | { readonly ok: false; readonly code: 'not-a-part' | 'other-hand-over' };

export interface CodeCollector {
  /** Takes what a camera has read. */
  take(text: string): Taken;
  /** The job, once no part is missing. */
  finish(): Promise<Unpacked | { readonly ok: false; readonly code: 'parts-missing' }>;
}

export function collectCodes(): CodeCollector {
  let check: string | null = null;
  let of = 0;
  const parts = new Map<number, Uint8Array>();

  const missing = (): readonly number[] => Array.from({ length: of }, (_, index) => index + 1).filter((number) => !parts.has(number));

  return {
    take: (text) => {
      const match = partPattern.exec(text);
      const [, itsCheck = '', numberText = '', ofText = '', data = ''] = match ?? [];
      const bytes = fromBase45(data);
      const number = Number(numberText);
      if (match === null || bytes === null || number > Number(ofText) || Number(ofText) > mostCodes)
        return { ok: false, code: 'not-a-part' };
      if (check !== null && (itsCheck !== check || Number(ofText) !== of)) return { ok: false, code: 'other-hand-over' };
      check = itsCheck;
      of = Number(ofText);
      const isNew = !parts.has(number);
      if (isNew) parts.set(number, bytes);
      return { ok: true, isNew, missing: missing(), of };
    },
    finish: async () => {
      if (check === null || missing().length > 0) return { ok: false, code: 'parts-missing' };
      const inOrder = [...parts].sort(([one], [other]) => one - other).flatMap(([, bytes]) => [...bytes]);
      const whole = Uint8Array.from(inOrder);
      if (checkOf(whole) === check) return unpack(whole);
      // Which part is wrong cannot be told, so all are read again.
      parts.clear();
      check = null;
      return { ok: false, code: 'damaged' };
    },
  };
}

function checkOf(bytes: Uint8Array): string {
  return bytesToHex(sha256(bytes)).slice(0, 16).toUpperCase();
}
