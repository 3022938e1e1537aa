import type { Layer } from '../../nets/weights-file.ts';
import { EarStream, earFrame, type EarNetwork } from './ear-net.ts';
import { pronounce, type Pronunciations } from './pronunciations.ts';

/** A command as one person said it: 16 kHz samples from -1 to 1, with a little quiet around it. */
export interface Take {
  readonly text: string;
  readonly sound: Float32Array;
}

export interface LearningSettings {
  /** Passes over all takes. */
  readonly passes: number;
  readonly rate: number;
  /** How much the frames are held to what the network told of them before, from 0 to 1. */
  readonly hold: number;
  /** White noise is mixed in at these levels below the voice, in dB, beside the take as it is. */
  readonly noises: readonly number[];
}

export const usualLearning: LearningSettings = { passes: 12, rate: 0.00005, hold: 0.5, noises: [15, 5] };

/** What was learnt of one person's voice: the last layer of the network called `net`, made their own. */
export interface OwnVoice {
  readonly net: string;
  readonly layer: Layer;
}

/** The network with a person's own last layer in place of its own. */
export function withOwnVoice(network: EarNetwork, { layer }: OwnVoice): EarNetwork {
  return { ...network, head: network.matrices.add(layer.rows, layer.width, layer.weights, layer.bias), headWeights: layer };
}

interface Lesson {
  /** What the last layer gets, a column each 20 ms. */
  readonly columns: readonly Float32Array[];
  /** What it made of them before it learnt, as probabilities. */
  readonly before: readonly Float32Array[];
  /** The phones said, as outputs of the network; of several pronunciations the likeliest. */
  readonly phones: readonly number[];
}

/**
 * A last layer learnt from a person's takes: the phones that were said are made likelier (connectionist temporal classification,
 * Graves et al. 2006), while every frame is held near what the network told of it before (after Yu et al. 2013), so that so few
 * takes teach an accent and no nonsense. The chance of speech stays as it is.
 */
export function learnVoice(network: EarNetwork, dictionary: Pronunciations, takes: readonly Take[], settings = usualLearning): OwnVoice {
  const { rows, width } = network.headWeights;
  const weights = network.headWeights.weights.slice();
  const bias = network.headWeights.bias.slice();
  const layer = { rows, width, weights, bias };
  const lessons = takes.flatMap((take) => lessonsOf(network, dictionary, take, settings.noises));
  const outputs = rows - 1;
  const slope = new Float64Array(outputs * (width + 1));
  const mean = new Float64Array(slope.length);
  const square = new Float64Array(slope.length);
  let step = 0;
  for (let pass = 0; pass < settings.passes; pass++) {
    for (const lesson of lessons) {
      slope.fill(0);
      addSlope(lesson, layer, outputs, settings.hold, slope);
      step += 1;
      for (let at = 0; at < slope.length; at++) {
        const g = slope[at] ?? 0;
        mean[at] = 0.9 * (mean[at] ?? 0) + 0.1 * g;
        square[at] = 0.999 * (square[at] ?? 0) + 0.001 * g * g;
        const move = (settings.rate * ((mean[at] ?? 0) / (1 - 0.9 ** step))) / (Math.sqrt((square[at] ?? 0) / (1 - 0.999 ** step)) + 1e-8);
        const row = Math.floor(at / (width + 1));
        const column = at % (width + 1);
        if (column === width) bias[row] = (bias[row] ?? 0) - move;
        else weights[row * width + column] = (weights[row * width + column] ?? 0) - move;
      }
    }
  }
  return { net: network.id, layer };
}

function lessonsOf(network: EarNetwork, dictionary: Pronunciations, take: Take, noises: readonly number[]): Lesson[] {
  const number = new Map(network.phones.map((phone, index) => [phone, index + 1]));
  const ways = take.text
    .split(' ')
    .map((word) => pronounce(word, dictionary).map((phones) => phones.split(' ').map((phone) => number.get(phone) ?? 0)))
    .reduce<number[][]>((sofar, word) => sofar.flatMap((start) => word.map((phones) => [...start, ...phones])), [[]])
    .slice(0, mostWays);
  const lessons: Lesson[] = [];
  for (const level of [null, ...noises]) {
    const sound = withNoise(take.sound, level);
    const columns = new EarStream(network).beforeHead(followedByQuiet(sound, network.lookahead));
    const before = columns.map((column) => probabilities(network.headWeights, network.headWeights.rows - 1, column));
    const [best] = ways.map((phones) => ({ phones, cost: alignment(before, phones).cost })).sort((a, b) => a.cost - b.cost);
    // A take in which the words cannot be found at all teaches nothing.
    if (best !== undefined && Number.isFinite(best.cost)) lessons.push({ columns, before, phones: best.phones });
  }
  return lessons;
}

const mostWays = 32;

/** Adds one lesson's slope: for each frame, what the layer tells, less what it should, times what the layer gets. */
function addSlope({ columns, before, phones }: Lesson, layer: Layer, outputs: number, hold: number, slope: Float64Array): void {
  const { width } = layer;
  const told = columns.map((column) => probabilities(layer, outputs, column));
  const { shares } = alignment(told, phones);
  const each = 1 / columns.length;
  columns.forEach((column, frame) => {
    const now = told[frame];
    const wanted = shares[frame];
    const was = before[frame];
    if (now === undefined || wanted === undefined || was === undefined) return;
    for (let output = 0; output < outputs; output++) {
      const error = each * ((now[output] ?? 0) - (1 - hold) * (wanted[output] ?? 0) - hold * (was[output] ?? 0));
      if (Math.abs(error) < 1e-7) continue;
      const start = output * (width + 1);
      for (let at = 0; at < width; at++) slope[start + at] = (slope[start + at] ?? 0) + error * (column[at] ?? 0);
      slope[start + width] = (slope[start + width] ?? 0) + error;
    }
  });
}

function probabilities({ width, weights, bias }: Layer, outputs: number, column: Float32Array): Float32Array {
  const out = new Float32Array(outputs);
  let top = -Infinity;
  for (let output = 0; output < outputs; output++) {
    let sum = bias[output] ?? 0;
    for (let at = 0; at < width; at++) sum += (weights[output * width + at] ?? 0) * (column[at] ?? 0);
    out[output] = sum;
    if (sum > top) top = sum;
  }
  let total = 0;
  for (let output = 0; output < outputs; output++) total += out[output] = Math.exp((out[output] ?? 0) - top);
  for (let output = 0; output < outputs; output++) out[output] = (out[output] ?? 0) / total;
  return out;
}

/** Over all ways in which the phones can lie in the frames: the share of each output in each frame, and the cost, -log of their chance. */
function alignment(
  frames: readonly Float32Array[],
  phones: readonly number[],
): { readonly cost: number; readonly shares: readonly Float32Array[] } {
  const states = phones.flatMap((phone) => [0, phone]).concat(0);
  const size = states.length;
  const none = new Float64Array(size).fill(-Infinity);
  const logs = frames.map((outputs) => Float64Array.from(states, (state) => Math.log((outputs[state] ?? 0) + 1e-30)));
  const of = (row: Float64Array | undefined, state: number): number => row?.[state] ?? -Infinity;
  /** "Nothing new" between two phones may be left out where they differ. */
  const skips = (state: number): boolean => states[state] !== 0 && state >= 2 && states[state] !== states[state - 2];

  const forward: Float64Array[] = [];
  logs.forEach((log, frame) => {
    const then = forward[frame - 1];
    forward.push(
      none.map((_, state) => {
        const reached =
          then === undefined
            ? state < 2
              ? 0
              : -Infinity
            : add(of(then, state), of(then, state - 1), skips(state) ? of(then, state - 2) : -Infinity);
        return reached + of(log, state);
      }),
    );
  });
  let after: { readonly row: Float64Array; readonly log: Float64Array } | null = null;
  const backward: Float64Array[] = [];
  for (const log of logs.toReversed()) {
    const next: typeof after = after;
    const to = (state: number): number => (next === null ? -Infinity : of(next.row, state) + of(next.log, state));
    const row = none.map((_, state) =>
      next === null
        ? state >= size - 2
          ? 0
          : -Infinity
        : add(to(state), to(state + 1), state + 2 < size && skips(state + 2) ? to(state + 2) : -Infinity),
    );
    backward.unshift(row);
    after = { row, log };
  }
  const last = forward.at(-1);
  const total = add(of(last, size - 1), of(last, size - 2), -Infinity);
  const shares = frames.map((outputs, frame) => {
    const share = new Float32Array(outputs.length);
    states.forEach((output, state) => {
      share[output] = (share[output] ?? 0) + Math.exp(of(forward[frame], state) + of(backward[frame], state) - total);
    });
    return share;
  });
  return { cost: -total, shares };
}

function add(a: number, b: number, c: number): number {
  const top = Math.max(a, b, c);
  return top === -Infinity ? top : top + Math.log(Math.exp(a - top) + Math.exp(b - top) + Math.exp(c - top));
}

function followedByQuiet(sound: Float32Array, frames: number): Float32Array {
  const out = new Float32Array(sound.length + (frames + 2) * earFrame);
  out.set(sound);
  return out;
}

/** White noise so many dB below the sound; the same every time, so that the same takes teach the same. Null leaves the sound alone. */
export function withNoise(sound: Float32Array, level: number | null): Float32Array {
  if (level === null) return sound;
  const power = sound.reduce((sum, sample) => sum + sample * sample, 0) / Math.max(1, sound.length);
  const size = Math.sqrt(power * 3) * 10 ** (-level / 20);
  let seed = 1;
  return sound.map((sample) => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return sample + size * (seed / 2 ** 31 - 1);
  });
}
