import type { RecordStoreSettings } from './store.ts';

export type ReadSettings =
  | { readonly ok: true; readonly settings: RecordStoreSettings }
  | { readonly ok: false; readonly code: 'not-an-address' | 'not-secure' | 'no-key'; readonly path: 'endpoint' | 'key' };

/** What a person typed as the record store's address and key. Only https may carry the key, except to this very device. */
export function readSettings({ endpoint, key, secret, isOn }: RecordStoreSettings): ReadSettings {
  const address = parseAddress(endpoint.trim());
  if (address === null || !/^https?:$/u.test(address.protocol) || address.username !== '' || address.search !== '' || address.hash !== '') {
    return { ok: false, code: 'not-an-address', path: 'endpoint' };
  }
  const isHere = ['localhost', '127.0.0.1', '[::1]'].includes(address.hostname);
  if (address.protocol !== 'https:' && !isHere) return { ok: false, code: 'not-secure', path: 'endpoint' };
  if (key.trim() === '') return { ok: false, code: 'no-key', path: 'key' };
  return { ok: true, settings: { endpoint: address.href.replace(/\/+(?:statements\/*)?$/u, ''), key: key.trim(), secret, isOn } };
}

function parseAddress(text: string): URL | null {
  try {
    return new URL(text);
  } catch {
    return null;
  }
}
