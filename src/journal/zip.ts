/*
 * ZIP files (PKWARE APPNOTE 6.3) whose members are stored as they are: sound and pictures are compressed already, and a folder in one
 * file needs no more. Dates are left at the format's beginning, so that the same contents make the same file.
 */

export interface ZipMember {
  /** With "/" between folders. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

const signatures = { local: 0x04034b50, central: 0x02014b50, end: 0x06054b50 } as const;
/** Names are UTF-8. */
const utf8Flag = 0x0800;
/** 1980-01-01, the first day that the format knows. */
const firstDay = 0x0021;

/** The file in pieces, members first, in the order given. Together under four gigabytes, which the limits of notes see to. */
export function zipFile(members: readonly ZipMember[]): readonly Uint8Array[] {
  const pieces: Uint8Array[] = [];
  const directory: Uint8Array[] = [];
  let at = 0;
  for (const { name, bytes } of members) {
    const nameBytes = new TextEncoder().encode(name);
    const crc = crc32(bytes);
    const shared = [20, utf8Flag, 0, 0, firstDay];
    const local = fields(
      [signatures.local, 4],
      ...shared.map(short),
      [crc, 4],
      [bytes.length, 4],
      [bytes.length, 4],
      short(nameBytes.length),
      short(0),
    );
    directory.push(
      fields(
        [signatures.central, 4],
        short(20),
        ...shared.map(short),
        [crc, 4],
        [bytes.length, 4],
        [bytes.length, 4],
        short(nameBytes.length),
        ...[0, 0, 0, 0].map(short),
        [0, 4],
        [at, 4],
      ),
      nameBytes,
    );
    pieces.push(local, nameBytes, bytes);
    at += local.length + nameBytes.length + bytes.length;
  }
  const size = directory.reduce((sum, { length }) => sum + length, 0);
  const end = fields([signatures.end, 4], short(0), short(0), short(members.length), short(members.length), [size, 4], [at, 4], short(0));
  return [...pieces, ...directory, end];
}

export type ReadZip =
  | { readonly ok: true; readonly members: readonly ZipMember[] }
  /** `packed`: a member is compressed or encrypted, which these files never are. `damaged`: not a ZIP file, cut off, or altered. */
  | { readonly ok: false; readonly code: 'damaged' | 'packed' };

export function looksLikeZip(bytes: Uint8Array): boolean {
  return bytes.length >= 4 && new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true) === signatures.local;
}

/** The members of a file from anywhere. Never throws, whatever the bytes. */
export function readZip(bytes: Uint8Array): ReadZip {
  try {
    return readMembers(bytes);
  } catch (error) {
    // Offsets that point outside the file, names that are no UTF-8.
    if (error instanceof RangeError || error instanceof TypeError) return { ok: false, code: 'damaged' };
    throw error;
  }
}

function readMembers(bytes: Uint8Array): ReadZip {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const end = endOf(view);
  if (end === null) return { ok: false, code: 'damaged' };
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  const members: ZipMember[] = [];
  let total = 0;
  for (let index = 0; index < count; index++) {
    if (view.getUint32(at, true) !== signatures.central) return { ok: false, code: 'damaged' };
    const isStored = view.getUint16(at + 10, true) === 0 && (view.getUint16(at + 8, true) & 1) === 0;
    if (!isStored) return { ok: false, code: 'packed' };
    const [crc, size] = [view.getUint32(at + 16, true), view.getUint32(at + 20, true)];
    const [nameLength, extra, comment] = [view.getUint16(at + 28, true), view.getUint16(at + 30, true), view.getUint16(at + 32, true)];
    const local = view.getUint32(at + 42, true);
    const name = new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(at + 46, at + 46 + nameLength));
    if (view.getUint32(local, true) !== signatures.local) return { ok: false, code: 'damaged' };
    const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    total += size;
    // Stored members cannot be more than the file; entries that point at the same bytes again and again are an attack.
    if (total > bytes.length) return { ok: false, code: 'damaged' };
    const contents = bytes.slice(from, from + size);
    if (contents.length !== size || crc32(contents) !== crc) return { ok: false, code: 'damaged' };
    members.push({ name, bytes: contents });
    at += 46 + nameLength + extra + comment;
  }
  return { ok: true, members };
}

/** Where the end record begins: looked for from the back, since a comment may follow it. */
function endOf(view: DataView): number | null {
  const first = Math.max(0, view.byteLength - 22 - 0xffff);
  for (let at = view.byteLength - 22; at >= first; at--) if (view.getUint32(at, true) === signatures.end) return at;
  return null;
}

type Field = readonly [value: number, bytes: 2 | 4];
const short = (value: number): Field => [value, 2];

function fields(...all: readonly Field[]): Uint8Array {
  const view = new DataView(new ArrayBuffer(all.reduce((sum, [, bytes]) => sum + bytes, 0)));
  let at = 0;
  for (const [value, bytes] of all) {
    if (bytes === 2) view.setUint16(at, value, true);
    else view.setUint32(at, value, true);
    at += bytes;
  }
  return new Uint8Array(view.buffer);
}

const crcTable = Uint32Array.from({ length: 256 }, (_, index) => {
  let value = index;
  for (let bit = 0; bit < 8; bit++) value = (value & 1) === 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/** CRC-32 as ZIP has it (ISO 3309). */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = (crc >>> 8) ^ (crcTable[(crc ^ byte) & 0xff] ?? 0);
  return (crc ^ 0xffffffff) >>> 0;
}
