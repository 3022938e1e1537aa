import type { Hearing } from '../../../src/speech/hearing/port.ts';
import { cache } from './clips.ts';
import { naturalCommands, taughtCommands, type Said } from './commands.ts';
import { conditions, lead, levels, type Condition, type NoiseBank } from './conditions.ts';
import { rate } from './sound.ts';
import { tryClip, type Trial } from './trial.ts';
import { speak, type BenchVoice } from './voices.ts';

export interface Tried extends Trial {
  readonly voice: BenchVoice;
  readonly condition: Condition;
  readonly said: Said;
}

/** How much of everything is tried: in the clean every command, in each noise a sample that differs from noise to noise. */
export interface Amounts {
  readonly clean: number;
  readonly eachNoise: number;
}

/** Every voice says commands in every condition. `told` is called after each voice. */
export function tryCommands(
  hearing: Hearing,
  voices: readonly BenchVoice[],
  bank: NoiseBank,
  amounts: Amounts,
  nameFirst: boolean,
  told: (voice: BenchVoice) => void,
): Tried[] {
  const commands = [...taughtCommands(1), ...naturalCommands(40, 2)];
  const tried: Tried[] = [];
  for (const voice of voices) {
    conditions.forEach((condition, row) => {
      const count = Math.min(commands.length, condition.level === null ? amounts.clean : amounts.eachNoise);
      for (let k = 0; k < count; k++) {
        // Steps of a number that shares no factor with the length go through all of them.
        const said = commands[(k * 37 + row * 11) % commands.length];
        if (said === undefined) continue;
        const text = nameFirst ? `undertray ${said.text}` : said.text;
        const sound = speak(voice, text, cache);
        const mixed = bank.mix(sound, condition, rate, `${voice.name} ${text}`);
        tried.push({
          ...{ voice, condition, said },
          ...tryClip(hearing, said, mixed, nameFirst, Math.round(lead * rate) + sound.length),
        });
      }
    });
    told(voice);
  }
  return tried;
}

export interface Share {
  readonly clips: number;
  readonly right: number;
  readonly wrong: number;
  readonly rejected: number;
}

/** Shares from 0 to 1. */
export function shareOf(trials: readonly Trial[]): Share {
  const share = (outcome: Trial['outcome']): number => trials.filter((one) => one.outcome === outcome).length / Math.max(1, trials.length);
  return { clips: trials.length, right: share('right'), wrong: share('wrong'), rejected: share('rejected') };
}

/** The given share of the values lie below what comes back; null of nothing. */
export function centile(values: readonly number[], share: number): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? null;
}

const percent = (value: number): string => (100 * value).toFixed(1).padStart(5);
const cell = ({ clips, right, wrong, rejected }: Share): string =>
  clips === 0 ? ''.padStart(17) : `${percent(right)}${percent(wrong)}${percent(rejected)}  `;

/** The same as text: for each voice each level, then for the natural test voices each noise. */
export function commandTables(tried: readonly Tried[]): string {
  const lines: string[] = [];
  const head = ['clean', ...levels.map((level) => `${level} dB`)].map((title) => title.padStart(15).padEnd(17)).join('');
  const columns: readonly (number | null)[] = [null, ...levels];
  lines.push('Right, wrong, rejected in percent; all noises together', `${''.padEnd(26)}${head}`);
  const names = [...new Set(tried.map(({ voice }) => voice.name))];
  const row = (title: string, of: readonly Tried[]): void => {
    const cells = columns.map((level) => cell(shareOf(of.filter(({ condition }) => condition.level === level))));
    lines.push(`${title.padEnd(26)}${cells.join('')}`.trimEnd());
  };
  for (const name of names) {
    const of = tried.filter(({ voice }) => voice.name === name);
    row(`${name}${of[0]?.voice.use === 'tuning' ? ' (tuning)' : ''}`, of);
  }
  for (const kind of ['natural', 'formant'] as const)
    row(
      `all ${kind} test voices`,
      tried.filter(({ voice }) => voice.kind === kind && voice.use === 'test'),
    );
  lines.push('', 'By noise, natural test voices', `${''.padEnd(26)}${head}`);
  for (const name of new Set(tried.map(({ condition }) => condition.name))) {
    if (name === 'clean') continue;
    row(
      name,
      tried.filter(({ voice, condition }) => condition.name === name && voice.kind === 'natural' && voice.use === 'test'),
    );
  }
  const delays = tried.flatMap(({ outcome, delay }) => (outcome === 'right' && delay !== null ? [delay] : []));
  const ms = (share: number): string => `${Math.round(1000 * (centile(delays, share) ?? 0))} ms`;
  lines.push('', `From the end of speech to the decision, in sound: median ${ms(0.5)}, 95th centile ${ms(0.95)}`);
  return lines.join('\n');
}
