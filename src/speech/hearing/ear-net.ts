import { Comfort } from './comfort.ts';
import { LogMel } from './log-mel.ts';
import { Matrices, type Matrix } from '../../nets/matrices.ts';
import { openWeights, type Layer } from '../../nets/weights-file.ts';

/** What the network makes of 20 ms of sound. */
export interface EarFrame {
  /** Log probabilities: first "nothing new", then one for each of the net's phones. */
  readonly phones: Float32Array;
  /** The chance that somebody is speaking, 0 to 1. */
  readonly voice: number;
}

/** Samples at 16 kHz that one frame of the network covers. */
export const earFrame = 320;

/** A filter over time for each channel. */
interface Depthwise {
  readonly channels: number;
  readonly weights: Float32Array;
  readonly bias: Float32Array;
}

interface BlockWeights {
  readonly left: number;
  readonly right: number;
  readonly dilation: number;
  readonly depthwise: Depthwise;
  readonly widen: Matrix;
  readonly narrow: Matrix;
}

/** A network as read from its file; any number of streams may run on it. */
export interface EarNetwork {
  /** Tells one network file from another, so that what was learnt on one is not used on the next. */
  readonly id: string;
  readonly phones: readonly string[];
  readonly mels: number;
  readonly mean: number;
  readonly scale: number;
  readonly floor: number;
  readonly low: number;
  readonly high: number;
  readonly taps: number;
  readonly matrices: Matrices;
  readonly stem: Matrix;
  readonly blocks: readonly BlockWeights[];
  readonly head: Matrix;
  /** The last layer's numbers, from which a speaker's own are learnt: a row for "nothing new", one for each phone, one for the voice. */
  readonly headWeights: Layer;
  /** Frames of 20 ms that must have been heard before one can be told. */
  readonly lookahead: number;
}

interface Header {
  readonly format: number;
  readonly phones: readonly string[];
  readonly mels: number;
  readonly mean: number;
  readonly scale: number;
  readonly floor: number;
  readonly low: number;
  readonly high: number;
  readonly taps: number;
  readonly blocks: readonly { readonly left: number; readonly right: number; readonly dilation: number }[];
}

/** Reads a file written by training/train.py. Throws when it is something else. */
export function readEarNetwork(bytes: Uint8Array): EarNetwork {
  const { header, biased } = openWeights<Header>(bytes, 'EAR1', 'ear network');
  const matrices = new Matrices();
  const matrix = (name: string): Matrix => {
    const { rows, width, weights, bias } = biased(name);
    return matrices.add(rows, width, weights, bias);
  };
  const depthwise = (name: string): Depthwise => {
    const { rows, weights, bias } = biased(name);
    return { channels: rows, weights, bias };
  };
  const { phones, mels, mean, scale, floor, low, high, taps } = header;
  return {
    id: fingerprint(bytes),
    ...{ phones, mels, mean, scale, floor, low, high, taps },
    matrices,
    stem: matrix('stem'),
    blocks: header.blocks.map((shape, index) => ({
      ...shape,
      depthwise: depthwise(`${index}.depthwise`),
      widen: matrix(`${index}.widen`),
      narrow: matrix(`${index}.narrow`),
    })),
    head: matrix('head'),
    headWeights: biased('head'),
    // The stem looks one mel frame past its centre, and each mel frame 15 ms past its own start.
    lookahead: header.blocks.reduce((sum, { right }) => sum + right, 0) + 1,
  };
}

/** FNV-1a over the file. */
function fingerprint(bytes: Uint8Array): string {
  let hash = 0x811c9dc5;
  for (const byte of bytes) hash = Math.imul(hash ^ byte, 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
}

const stemTaps = 5;
const stemLeft = 3;

/** The network at work on one stream of samples. */
export class EarStream {
  private readonly net: EarNetwork;
  private readonly comfort = new Comfort();
  private readonly mel: LogMel;
  private readonly melHistory: Float32Array[];
  private readonly blocks: readonly BlockStream[];

  constructor(net: EarNetwork) {
    this.net = net;
    this.mel = new LogMel(net);
    this.melHistory = Array.from({ length: stemLeft }, () => new Float32Array(net.mels));
    this.blocks = net.blocks.map((block) => new BlockStream(block, net));
  }

  /** The frames that can be told now; about 160 ms behind the sound. */
  push(samples: Float32Array): EarFrame[] {
    return this.net.matrices.multiply(this.net.head, this.beforeHead(samples), false).map(told);
  }

  /** The frames that are still to come when no more sound follows. The stream is of no use afterwards. */
  finish(): EarFrame[] {
    const { net } = this;
    this.melHistory.push(new Float32Array(net.mels));
    let columns = net.matrices.multiply(net.stem, this.stemColumns(), true);
    for (const block of this.blocks) columns = block.finish(columns);
    return net.matrices.multiply(net.head, columns, false).map(told);
  }

  /** The same frames as the last layer gets them. */
  beforeHead(samples: Float32Array): Float32Array[] {
    for (const frame of this.mel.push(this.comfort.push(samples)))
      this.melHistory.push(frame.map((value) => (value - this.net.mean) / this.net.scale));
    let columns = this.net.matrices.multiply(this.net.stem, this.stemColumns(), true);
    for (const block of this.blocks) columns = block.push(columns);
    return columns;
  }

  private stemColumns(): Float32Array[] {
    const columns: Float32Array[] = [];
    while (this.melHistory.length >= stemTaps) {
      columns.push(stacked(this.melHistory, stemTaps));
      this.melHistory.splice(0, 2);
    }
    return columns;
  }
}

/** One residual block: a depthwise filter over time, then two matrices within each frame. */
class BlockStream {
  private readonly block: BlockWeights;
  private readonly taps: number;
  private readonly matrices: Matrices;
  private readonly history: Float32Array[];

  constructor(block: BlockWeights, net: { readonly taps: number; readonly matrices: Matrices }) {
    this.block = block;
    this.taps = net.taps;
    this.matrices = net.matrices;
    this.history = Array.from({ length: block.left }, () => new Float32Array(block.depthwise.channels));
  }

  /** What comes out when nothing follows the columns, which the training stood for with noughts. */
  finish(columns: readonly Float32Array[]): Float32Array[] {
    const { right, depthwise } = this.block;
    return this.push([...columns, ...Array.from({ length: right }, () => new Float32Array(depthwise.channels))]);
  }

  push(columns: readonly Float32Array[]): Float32Array[] {
    const { left, right, dilation, depthwise, widen, narrow } = this.block;
    const { taps, history } = this;
    history.push(...columns);
    const reach = left + right;
    const ready = history.length - reach;
    if (ready <= 0) return [];
    const filtered: Float32Array[] = [];
    for (let at = 0; at < ready; at++) {
      const out = Float32Array.from(depthwise.bias);
      for (let tap = 0; tap < taps; tap++) {
        const column = history[at + tap * dilation];
        if (column === undefined) continue;
        for (let channel = 0; channel < out.length; channel++) {
          out[channel] = (out[channel] ?? 0) + (depthwise.weights[channel * taps + tap] ?? 0) * (column[channel] ?? 0);
        }
      }
      filtered.push(out);
    }
    const outputs = this.matrices.multiply(narrow, this.matrices.multiply(widen, filtered, true), false);
    outputs.forEach((output, at) => {
      const input = history[at + left];
      if (input !== undefined)
        for (let channel = 0; channel < output.length; channel++) output[channel] = (output[channel] ?? 0) + (input[channel] ?? 0);
    });
    history.splice(0, ready);
    return outputs;
  }
}

function stacked(frames: readonly Float32Array[], count: number): Float32Array {
  const width = frames[0]?.length ?? 0;
  const out = new Float32Array(width * count);
  for (let i = 0; i < count; i++) out.set(frames[i] ?? [], i * width);
  return out;
}

function told(output: Float32Array): EarFrame {
  const phones = output.slice(0, -1);
  const top = phones.reduce((most, value) => Math.max(most, value), -Infinity);
  const total = Math.log(phones.reduce((sum, value) => sum + Math.exp(value - top), 0)) + top;
  return { phones: phones.map((value) => value - total), voice: 1 / (1 + Math.exp(-(output.at(-1) ?? 0))) };
}
