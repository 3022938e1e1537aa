import type { EarNetwork } from './ear-net.ts';

/** A last layer as training/french writes it. */
interface LayerFile {
  /** The network that it belongs to. */
  readonly net: string;
  readonly phones: readonly string[];
  readonly width: number;
  /** Base64 of 8-bit weights, row by row: "nothing new", the phones, the chance of speech. */
  readonly weights: string;
  /** What each row's weights are to be multiplied by. */
  readonly scales: readonly number[];
  readonly bias: readonly number[];
}

/**
 * The network with a last layer for another language than it was made for: what it makes of sound stays, which phones that stands for is
 * learnt anew. Throws when the layer belongs to another network.
 */
export function withLanguageLayer(network: EarNetwork, file: string): EarNetwork {
  const { net, phones, width, weights, scales, bias } = JSON.parse(file) as LayerFile;
  if (net !== network.id) throw new Error(`The language's layer belongs to the ear network ${net}; found ${network.id}.`);
  const bytes = Int8Array.from(atob(weights), (letter) => letter.charCodeAt(0));
  const layer = {
    rows: scales.length,
    width,
    weights: Float32Array.from(bytes, (value, at) => value * (scales[Math.floor(at / width)] ?? 0)),
    bias: Float32Array.from(bias),
  };
  // Another name, so that what was learnt of a person on the network's own layer is not used on this one.
  return {
    ...network,
    id: `${net}-${phones.length}`,
    phones,
    head: network.matrices.add(layer.rows, width, layer.weights, layer.bias),
    headWeights: layer,
  };
}
