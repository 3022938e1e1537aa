declare module '@echogarden/rnnoise-wasm' {
  import type { RnnoiseModule } from './suppression.ts';
  /** Emscripten's factory; `wasmBinary` spares it the fetching. */
  const createRnnoise: (settings?: { readonly wasmBinary?: ArrayBufferLike }) => Promise<RnnoiseModule>;
  export default createRnnoise;
}
