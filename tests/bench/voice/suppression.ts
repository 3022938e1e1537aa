import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import createRnnoise from '@echogarden/rnnoise-wasm';
import { Suppression, type RnnoiseModule } from '../../../src/speech/hearing/suppression.ts';
import { launch, microphoneFlags } from '../../browser/rig.ts';
import { modelBytes } from '../../speech/hearing/models.ts';
import { cache } from './clips.ts';
import { shareOf, type Share } from './command-table.ts';
import { naturalCommands, taughtCommands, type Said } from './commands.ts';
import { lead, type Condition, type NoiseBank } from './conditions.ts';
import { makeEar, type EarName } from './ears.ts';
import type { NoiseName } from './noises.ts';
import { rate } from './sound.ts';
import { tryClip } from './trial.ts';
import { speak, type BenchVoice } from './voices.ts';

/** A way to take the noise away: what is done to the sound, and the ear that then hears it. */
interface Way {
  readonly name: string;
  readonly sound: 'as it came' | 'browser' | 'RNNoise';
  readonly ear: EarName;
}

const ways: readonly Way[] = [
  { name: 'none', sound: 'as it came', ear: 'both-unsuppressed' },
  { name: 'RNNoise before the decoder only, as the app does', sound: 'as it came', ear: 'app' },
  { name: 'RNNoise before everything', sound: 'RNNoise', ear: 'both-unsuppressed' },
  { name: "the browser's before everything", sound: 'browser', ear: 'both-unsuppressed' },
  { name: "the browser's, and RNNoise as the app does", sound: 'browser', ear: 'app' },
];

export interface SuppressionRow extends Share {
  readonly way: string;
  readonly condition: string;
}

const noises: readonly NoiseName[] = ['compressor', 'babble', 'idle'];
/** Decibels that the voice is above the noise. */
const levels = [10, 5] as const;

/**
 * Commands in noise played into Chromium's microphone, with its noise suppression and without; both tracks are recorded and heard. It
 * plays in real time: about three seconds a clip. `each`: clips in each noise at each level. `told` is called with each row.
 */
export async function compareSuppression(
  voice: BenchVoice,
  bank: NoiseBank,
  each: number,
  told: (row: SuppressionRow) => void,
  wanted = noises,
): Promise<SuppressionRow[]> {
  const ears = new Map(await Promise.all([...new Set(ways.map(({ ear }) => ear))].map(async (ear) => [ear, await makeEar(ear)] as const)));
  const rnnoise = (await createRnnoise({ wasmBinary: modelBytes().rnnoiseWasm.slice().buffer })) as RnnoiseModule;
  const commands = [...taughtCommands(1), ...naturalCommands(40, 2)];
  const rows: SuppressionRow[] = [];
  for (const name of wanted) {
    const tried = levels.map((level): { condition: Condition; clips: readonly Clip[] } => {
      const condition: Condition = { name, level };
      const first = 11 * (levels.indexOf(level) + levels.length * noises.indexOf(name));
      const said = Array.from({ length: each }, (_, k) => commands[(k * 37 + first) % commands.length]).filter((one) => one !== undefined);
      return { condition, clips: said.map((one) => clipOf(one, voice, condition, bank)) };
    });
    // It takes as long as the sound lasts, and costs little.
    const tracks = await Promise.all(tried.map(({ clips }) => throughBrowser(joined(clips.map(({ sound }) => sound)))));
    for (const [index, { condition, clips }] of tried.entries()) {
      const track = tracks[index];
      if (track === undefined) continue;
      const asItCame = cutOut(clips, track['as it came']);
      const sounds = {
        'as it came': asItCame,
        browser: cutOut(clips, track.browser),
        RNNoise: asItCame.map((sound) => suppressed(sound, rnnoise)),
      };
      for (const { name: way, sound, ear } of ways) {
        const hearing = ears.get(ear);
        if (hearing === undefined) continue;
        const trials = clips.map(({ said, ends }, k) => tryClip(hearing, said, sounds[sound][k] ?? new Float32Array(0), false, ends));
        const row = { way, condition: `${condition.name} ${condition.level ?? ''} dB`, ...shareOf(trials) };
        rows.push(row);
        told(row);
      }
    }
  }
  return rows;
}

interface Clip {
  readonly said: Said;
  readonly sound: Float32Array;
  /** The sample at which the voice is over. */
  readonly ends: number;
}

function clipOf(said: Said, voice: BenchVoice, condition: Condition, bank: NoiseBank): Clip {
  const spoken = speak(voice, said.text, cache);
  const sound = bank.mix(spoken, condition, rate, `${voice.name} ${said.text}`);
  return { said, sound, ends: Math.round(lead * rate) + spoken.length };
}

/** The clips as they came out, one after the other; each is looked for near where the one before it was found. */
function cutOut(clips: readonly Clip[], track: Float32Array): Float32Array[] {
  let at = 0;
  return clips.map(({ sound }, index) => {
    at = Math.max(0, at + delayOf(sound, track, at, index === 0 ? 1 : 0.1));
    const out = padded(track.subarray(at), sound.length);
    at += sound.length;
    return out;
  });
}

/** What a page gets of the sound through its microphone, opened as the app opens it, without and with the browser's noise suppression. */
async function throughBrowser(sound: Float32Array): Promise<Record<'as it came' | 'browser', Float32Array>> {
  const folder = await mkdtemp(join(tmpdir(), 'undertray-suppression-'));
  const wav = join(folder, 'microphone.wav');
  // A quiet second at the end, so that nothing is lost where a track began late.
  await writeFile(wav, wavOf(padded(sound, sound.length + 2 * rate)));
  const server = createServer((_, response) =>
    response.setHeader('content-type', 'text/html').end('<!doctype html><title>Recorder</title>'),
  );
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the recorder’s page has no address');
  // A page gets one treatment of a microphone, whatever its second request says.
  const record = async (suppression: boolean): Promise<Float32Array> => {
    const browser = await launch(microphoneFlags(wav, false));
    try {
      const page = await browser.newPage();
      await page.goto(`http://127.0.0.1:${address.port}/`);
      return samplesOf(await page.evaluate<string>(`(${recorder})(${suppression}, ${rate}, ${sound.length + rate})`));
    } finally {
      await browser.close();
    }
  };
  try {
    const [asItCame, browsers] = await Promise.all([record(false), record(true)]);
    return { 'as it came': asItCame, browser: browsers };
  } finally {
    server.close();
    await rm(folder, { recursive: true, force: true });
  }
}

/** Runs in the page: records so many samples of a track of its own, and gives them in 16 bits, in base64. */
const recorder = `async (noiseSuppression, sampleRate, wanted) => {
  const context = new AudioContext({ sampleRate });
  const code = \`registerProcessor('recorder', class extends AudioWorkletProcessor {
    process([[channel]]) { if (channel) this.port.postMessage(channel.slice()); return true; }
  })\`;
  await context.audioWorklet.addModule(URL.createObjectURL(new Blob([code], { type: 'text/javascript' })));
  const stream = await navigator.mediaDevices.getUserMedia({ audio: { channelCount: 1, echoCancellation: true, autoGainControl: false, noiseSuppression } });
  const [track] = stream.getAudioTracks();
  if (track.getSettings().noiseSuppression !== noiseSuppression) throw new Error('The browser has no such noise suppression: ' + JSON.stringify(track.getSettings()));
  const node = new AudioWorkletNode(context, 'recorder', { numberOfOutputs: 0 });
  const samples = new Int16Array(wanted);
  await new Promise((resolve) => {
    let filled = 0;
    node.port.onmessage = ({ data }) => {
      for (const sample of data) if (filled < wanted) samples[filled++] = Math.max(-32768, Math.min(32767, Math.round(sample * 32768)));
      if (filled === wanted) resolve();
    };
    context.createMediaStreamSource(stream).connect(node);
    void context.resume();
  });
  track.stop();
  const bytes = new Uint8Array(samples.buffer);
  let text = '';
  for (let at = 0; at < bytes.length; at += 32768) text += String.fromCharCode(...bytes.subarray(at, at + 32768));
  return btoa(text);
}`;

function samplesOf(base64: string): Float32Array {
  const bytes = Buffer.from(base64, 'base64');
  return Float32Array.from({ length: bytes.length / 2 }, (_, i) => bytes.readInt16LE(2 * i) / 32768);
}

/** How much later than at `expected` the sound lies in the recording, in samples, within `reach` seconds; found by correlating every eighth sample. */
function delayOf(sound: Float32Array, recorded: Float32Array, expected: number, reach: number): number {
  let best = { sum: -Infinity, lag: 0 };
  const most = Math.round(reach * rate);
  // Differences, for the browser takes away what is low.
  const known = differences(sound);
  const found = differences(recorded.subarray(Math.max(0, expected - most), expected + most + sound.length));
  const first = Math.max(0, expected - most) - expected;
  for (let lag = 0; lag + sound.length <= found.length; lag++) {
    let sum = 0;
    for (let i = 0; i < known.length; i += 8) sum += known[i]! * found[lag + i]!;
    if (sum > best.sum) best = { sum, lag: first + lag };
  }
  return best.lag;
}

const differences = (samples: Float32Array): Float32Array => samples.map((sample, i) => sample - (samples[i - 2] ?? 0));

function suppressed(sound: Float32Array, rnnoise: RnnoiseModule): Float32Array {
  const suppression = new Suppression(rnnoise);
  const out = joined(suppression.push(sound).map(({ samples }) => samples));
  suppression.dispose();
  return padded(out, sound.length);
}

function joined(parts: readonly Float32Array[]): Float32Array {
  const out = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

function padded(sound: Float32Array, length: number): Float32Array {
  const out = new Float32Array(length);
  out.set(sound.subarray(0, length));
  return out;
}

/** 16 bits, one channel. */
function wavOf(sound: Float32Array): Buffer {
  const bytes = Buffer.alloc(44 + 2 * sound.length);
  bytes.write('RIFF', 0);
  bytes.writeUInt32LE(36 + 2 * sound.length, 4);
  bytes.write('WAVEfmt ', 8);
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(1, 22);
  bytes.writeUInt32LE(rate, 24);
  bytes.writeUInt32LE(2 * rate, 28);
  bytes.writeUInt16LE(2, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36);
  bytes.writeUInt32LE(2 * sound.length, 40);
  sound.forEach((sample, i) => bytes.writeInt16LE(Math.max(-32768, Math.min(32767, Math.round(sample * 32768))), 44 + 2 * i));
  return bytes;
}
