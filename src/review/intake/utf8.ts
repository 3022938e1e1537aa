/** Text of UTF-8 bytes. What is not UTF-8 becomes U+FFFD, as everywhere. By hand, because the core has no TextDecoder. */
export function decodeUtf8(bytes: Uint8Array, start: number, end: number): string {
  let text = '';
  let count = 0;
  let at = start;
  while (at < end) {
    // Letters are joined many at once: a text that grows letter by letter is as many small pieces until somebody looks into it.
    if (count > most - 2) {
      text += joined(count);
      count = 0;
    }
    const lead = bytes[at] ?? 0;
    if (lead < 0x80) {
      units[count++] = lead;
      at += 1;
      continue;
    }
    const length = lead >= 0xf0 && lead < 0xf5 ? 4 : lead >= 0xe0 && lead < 0xf0 ? 3 : lead >= 0xc2 && lead < 0xe0 ? 2 : 0;
    let point = length === 4 ? lead & 0x07 : length === 3 ? lead & 0x0f : lead & 0x1f;
    let used = 1;
    while (used < length && at + used < end && ((bytes[at + used] ?? 0) & 0xc0) === 0x80) {
      point = (point << 6) | ((bytes[at + used] ?? 0) & 0x3f);
      used += 1;
    }
    const isTooShort = (length === 3 && point < 0x800) || (length === 4 && point < 0x10000);
    const isBad = length === 0 || used < length || isTooShort || point > 0x10ffff || (point >= 0xd800 && point < 0xe000);
    if (isBad) {
      units[count++] = 0xfffd;
    } else if (point < 0x10000) {
      units[count++] = point;
    } else {
      units[count++] = 0xd800 + ((point - 0x10000) >> 10);
      units[count++] = 0xdc00 + ((point - 0x10000) & 0x3ff);
    }
    at += used;
  }
  return text + joined(count);
}

const most = 1024;
const units = new Uint16Array(most);

function joined(count: number): string {
  return Reflect.apply(String.fromCharCode, null, units.subarray(0, count)) as string;
}

/** UTF-8 of a text; a lone surrogate becomes U+FFFD. */
export function encodeUtf8(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 3);
  let length = 0;
  for (const character of text) {
    let point = character.codePointAt(0) ?? 0xfffd;
    if (point >= 0xd800 && point < 0xe000) point = 0xfffd;
    if (point < 0x80) {
      bytes[length++] = point;
    } else if (point < 0x800) {
      bytes[length++] = 0xc0 | (point >> 6);
      bytes[length++] = 0x80 | (point & 0x3f);
    } else if (point < 0x10000) {
      bytes[length++] = 0xe0 | (point >> 12);
      bytes[length++] = 0x80 | ((point >> 6) & 0x3f);
      bytes[length++] = 0x80 | (point & 0x3f);
    } else {
      bytes[length++] = 0xf0 | (point >> 18);
      bytes[length++] = 0x80 | ((point >> 12) & 0x3f);
      bytes[length++] = 0x80 | ((point >> 6) & 0x3f);
      bytes[length++] = 0x80 | (point & 0x3f);
    }
  }
  return bytes.slice(0, length);
}
