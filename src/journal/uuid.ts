import { sha1 } from '@noble/hashes/legacy.js';
import { bytesToHex, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js';

const pattern = /^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/u;

export function isUuid(text: string): boolean {
  return pattern.test(text);
}

/**
 * The UUID of a name within a namespace, version 5 (RFC 9562, 5.5): always the same for the same name, on every device.
 * SHA-1 is what the version prescribes; nothing here leans on its strength.
 */
export function nameUuid(namespace: string, name: string): string {
  const hash = sha1(new Uint8Array([...hexToBytes(namespace.replaceAll('-', '')), ...utf8ToBytes(name)])).slice(0, 16);
  hash[6] = ((hash[6] ?? 0) & 0x0f) | 0x50;
  hash[8] = ((hash[8] ?? 0) & 0x3f) | 0x80;
  const hex = bytesToHex(hash);
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
