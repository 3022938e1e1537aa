/** A layer's weights, row by row, and its bias; noughts where the file has none. */
export interface Layer {
  readonly rows: number;
  readonly width: number;
  readonly weights: Float32Array;
  readonly bias: Float32Array;
}

/** What the header of every such file says beside what is a net's own: where its numbers stand, in bytes from the end of the header. */
interface Arrays {
  readonly arrays: readonly { readonly name: string; readonly shape: readonly number[]; readonly at: number }[];
}

/** A file of weights, opened. */
export interface WeightsFile<Header> {
  readonly header: Header;
  /** NAME.weight with NAME.bias, where it has one. Throws where the file lacks it. */
  readonly layer: (name: string) => Layer;
  /** The same, and throws where the bias is missing too. */
  readonly biased: (name: string) => Layer;
}

/**
 * Opens a file as the trainings write it: four letters that say which net it is, the length of a JSON header and the header (letters of
 * ASCII only), then for each matrix a scale for each row (32-bit floats) and its 8-bit weights, and for each vector its floats.
 * `what` names the net in errors. Throws when the file is something else.
 */
export function openWeights<Header>(bytes: Uint8Array, mark: string, what: string): WeightsFile<Header> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const letters = (from: number, to: number) => {
    let text = '';
    for (let at = from; at < to; at++) text += String.fromCharCode(bytes[at] ?? 0);
    return text;
  };
  if (letters(0, mark.length) !== mark) throw new Error(`This is no ${what}: expected a file that begins with ${mark}.`);
  const start = 8 + view.getUint32(4, true);
  const header = JSON.parse(letters(8, start)) as Header & Arrays;
  const places = new Map(header.arrays.map((one) => [one.name, one]));
  const floats = (at: number, length: number) => Float32Array.from({ length }, (_, index) => view.getFloat32(start + at + 4 * index, true));
  const layer = (name: string): Layer => {
    const place = places.get(`${name}.weight`);
    if (place === undefined) throw new Error(`The ${what} lacks ${name}.`);
    const [rows = 0, width = 1] = place.shape;
    const own = places.get(`${name}.bias`);
    const bias = own === undefined ? new Float32Array(rows) : floats(own.at, own.shape[0] ?? 0);
    if (place.shape.length === 1) return { rows, width, weights: floats(place.at, rows), bias };
    const scales = floats(place.at, rows);
    const weights = new Float32Array(rows * width);
    for (let index = 0; index < weights.length; index++)
      weights[index] = view.getInt8(start + place.at + 4 * rows + index) * (scales[Math.floor(index / width)] ?? 0);
    return { rows, width, weights, bias };
  };
  const biased = (name: string): Layer => {
    if (!places.has(`${name}.bias`)) throw new Error(`The ${what} lacks ${name}.bias.`);
    return layer(name);
  };
  return { header, layer, biased };
}
