/**
 * Fetches a file and tells how far it is. The total is what the file measures unpacked, which the server's own
 * length does not say when it compresses. Throws when the file cannot be had.
 */
export async function fetchBytes(address: string, onProgress: (loaded: number) => void): Promise<Uint8Array<ArrayBuffer>> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${response.status} for ${address}`);
  if (!response.body) return new Uint8Array(await response.arrayBuffer());
  const parts: Uint8Array[] = [];
  let loaded = 0;
  const reader = response.body.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    parts.push(value);
    loaded += value.length;
    onProgress(loaded);
  }
  const bytes = new Uint8Array(loaded);
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
