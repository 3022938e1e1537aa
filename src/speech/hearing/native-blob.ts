// What soundswallower asks `blob-polyfill` for. That package reads `document` while it loads, which a worker has not,
// and every browser that can run the recogniser has a Blob of its own. `vite.config.ts` puts this in its place.
const { Blob } = globalThis as unknown as { readonly Blob: unknown };

export { Blob };
