import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Chance } from './random.ts';
import { levelled, readWav, trimmed } from './sound.ts';

/**
 * A voice of the bench. On 'tuning' voices thresholds were set; 'test' voices were only ever measured. The network learnt from none of
 * the test voices (src/speech/hearing/training/synthesise.py names those that it did learn from). It did learn from flite's rms, for
 * there are too few recorded voices to spare one: the thresholds were set on rms with a network that had been kept from it.
 */
export interface BenchVoice {
  readonly name: string;
  readonly kind: 'natural' | 'formant';
  readonly use: 'tuning' | 'test';
  readonly program: 'flite' | 'espeak-ng' | 'text2wave';
  readonly voice: string;
}

export const benchVoices: readonly BenchVoice[] = [
  { name: 'flite slt', kind: 'natural', use: 'test', program: 'flite', voice: 'slt' },
  { name: 'festival slt', kind: 'natural', use: 'test', program: 'text2wave', voice: 'voice_cmu_us_slt_arctic_hts' },
  { name: 'flite rms', kind: 'natural', use: 'tuning', program: 'flite', voice: 'rms' },
  { name: 'espeak linda', kind: 'formant', use: 'test', program: 'espeak-ng', voice: 'en-us+linda' },
  { name: 'espeak scots edward', kind: 'formant', use: 'test', program: 'espeak-ng', voice: 'en-gb-scotland+edward' },
  { name: 'espeak nyc andrea', kind: 'formant', use: 'test', program: 'espeak-ng', voice: 'en-us-nyc+Andrea' },
  { name: 'espeak midlands mario', kind: 'formant', use: 'test', program: 'espeak-ng', voice: 'en-gb-x-gbcwmd+Mario' },
  { name: 'espeak f2', kind: 'formant', use: 'tuning', program: 'espeak-ng', voice: 'en-us+f2' },
  { name: 'espeak gb m4', kind: 'formant', use: 'tuning', program: 'espeak-ng', voice: 'en-gb+m4' },
];

/** Whether the program that speaks this voice is installed. */
export function isInstalled(voice: BenchVoice): boolean {
  try {
    execFileSync('sh', ['-c', `command -v ${voice.program}`], { stdio: 'ignore' });
    return voice.program !== 'text2wave' || existsSync('/usr/share/festival/voices/us/cmu_us_slt_arctic_hts');
  } catch {
    return false;
  }
}

/** Says a text at a pace and pitch of its own, at -26 dB full scale, without quiet around it. Kept in the cache folder. */
export function speak(voice: BenchVoice, text: string, cache: string): Float32Array {
  mkdirSync(cache, { recursive: true });
  const key = createHash('sha256').update(`${voice.program} ${voice.voice} ${text}`).digest('hex').slice(0, 24);
  const kept = join(cache, `${key}.raw`);
  if (existsSync(kept)) return samplesOf(readFileSync(kept));
  const wav = join(cache, `${key}.wav`);
  const chance = new Chance(`${voice.name} ${text}`);
  if (voice.program === 'flite') {
    execFileSync('flite', [
      '-voice',
      voice.voice,
      '--setf',
      `duration_stretch=${chance.between(0.88, 1.15).toFixed(2)}`,
      '-t',
      text,
      '-o',
      wav,
    ]);
  } else if (voice.program === 'espeak-ng') {
    const pitch = String(Math.round(chance.between(35, 65)));
    const pace = String(Math.round(chance.between(140, 185)));
    execFileSync('espeak-ng', ['-v', voice.voice, '-p', pitch, '-s', pace, '-w', wav, text]);
  } else {
    execFileSync('text2wave', ['-eval', `(${voice.voice})`, '-o', wav], { input: text, stdio: ['pipe', 'ignore', 'ignore'] });
  }
  const sound = levelled(trimmed(readWav(wav)), -26);
  const kept16 = Int16Array.from(sound, (sample) => Math.max(-32768, Math.min(32767, Math.round(sample * 32768))));
  writeFileSync(kept, kept16);
  rmSync(wav);
  // As it is kept, so that the first time gives the same as every other.
  return samplesOf(new Uint8Array(kept16.buffer));
}

function samplesOf(bytes: Uint8Array): Float32Array {
  const samples = new Int16Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  return Float32Array.from(samples, (sample) => sample / 32768);
}
