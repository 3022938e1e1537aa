/** The characters that a QR code holds in five and a half bits each (ISO/IEC 18004, alphanumeric mode). */
const alphabet = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:';

/** Bytes as text for a QR code (RFC 9285): two bytes in three characters. */
export function toBase45(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += 2) {
    const first = bytes[at] ?? 0;
    const second = bytes[at + 1];
    const digits = second === undefined ? digitsOf(first, 2) : digitsOf(first * 256 + second, 3);
    parts.push(digits.map((digit) => alphabet.charAt(digit)).join(''));
  }
  return parts.join('');
}

/** The bytes, or null when the text is not Base45. */
export function fromBase45(text: string): Uint8Array | null {
  const bytes: number[] = [];
  for (let at = 0; at < text.length; at += 3) {
    const digits = Array.from(text.slice(at, at + 3), (character) => alphabet.indexOf(character));
    const value = digits.reduceRight((sum, digit) => sum * 45 + digit, 0);
    if (digits.includes(-1) || digits.length === 1 || value > (digits.length === 3 ? 0xffff : 0xff)) return null;
    if (digits.length === 3) bytes.push(value >> 8);
    bytes.push(value & 0xff);
  }
  return Uint8Array.from(bytes);
}

/** The least digit comes first. */
function digitsOf(value: number, count: number): number[] {
  return Array.from({ length: count }, (_, index) => Math.floor(value / 45 ** index) % 45);
}
