import type { Speech } from './flite.ts';

/** What counts as sound: 50 dB below full scale. */
const floor = 0.003;
/** Milliseconds kept before the first and after the last sound, so that soft ends are not cut. What is kept in front keeps the answer waiting. */
const lead = 4;
const trail = 45;
/** The level that speech is brought to, root mean square over what is not silent: loud, because a workshop is. */
const target = 0.22;

/** Cuts the silence at both ends, brings speech to one loudness, and rounds what would clip. */
export function polishSpeech({ samples, sampleRate }: Speech): Speech {
  const first = samples.findIndex((sample) => Math.abs(sample) > floor);
  if (first < 0) return { samples: new Float32Array(0), sampleRate };
  const last = samples.findLastIndex((sample) => Math.abs(sample) > floor);
  const from = Math.max(0, first - Math.round((lead * sampleRate) / 1000));
  const to = Math.min(samples.length, last + Math.round((trail * sampleRate) / 1000));
  const cut = samples.slice(from, to);
  const gain = target / loudness(cut);
  return {
    samples: fadeEdges(
      cut.map((sample) => softLimit(sample * gain)),
      sampleRate,
    ),
    sampleRate,
  };
}

function loudness(samples: Float32Array): number {
  let sum = 0;
  let count = 0;
  for (const sample of samples) {
    if (Math.abs(sample) <= floor) continue;
    sum += sample * sample;
    count++;
  }
  return Math.sqrt(sum / count);
}

/** Straight up to 0.6, then bending towards 0.98. */
function softLimit(sample: number): number {
  const size = Math.abs(sample);
  if (size <= 0.6) return sample;
  return Math.sign(sample) * (0.6 + 0.38 * Math.tanh((size - 0.6) / 0.38));
}

function fadeEdges(samples: Float32Array, sampleRate: number): Float32Array {
  const length = Math.min(samples.length >> 1, Math.round(0.005 * sampleRate));
  for (let n = 0; n < length; n++) {
    const last = samples.length - 1 - n;
    samples[n] = ((samples[n] ?? 0) * n) / length;
    samples[last] = ((samples[last] ?? 0) * n) / length;
  }
  return samples;
}
