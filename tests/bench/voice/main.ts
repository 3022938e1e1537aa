import { existsSync } from 'node:fs';
import { alarmsOnPrompts, alarmsOnTalk, type Alarms } from './alarms.ts';
import { readClipFolder } from './clip-folder.ts';
import { talkStream } from './clips.ts';
import { centile, commandTables, shareOf, tryCommands, type Share } from './command-table.ts';
import { lead, NoiseBank, tail } from './conditions.ts';
import { earDescriptions, makeEar } from './ears.ts';
import { compareEndpoints } from './endpoint-table.ts';
import { helpText } from './help.ts';
import { numberEar, readBack, spokenNumber } from './numbers.ts';
import { BadInput, readOptions, type BenchOptions } from './options.ts';
import { tryInterruptions, tryOwnVoice, type OwnVoiceResult } from './own-speech.ts';
import { rate, trimmed } from './sound.ts';
import { tryClip } from './trial.ts';
import { benchVoices, isInstalled, type BenchVoice } from './voices.ts';

const say = (text: string): void => void process.stdout.write(`${text}\n`);
const mutter = (text: string): void => void process.stderr.write(`${text}\n`);

async function main(): Promise<void> {
  const options = readOptions(process.argv.slice(2));
  if (options === null) {
    say(helpText());
    return;
  }
  if (options.clips !== null) await folderBench(options, options.clips);
  else await ownBench(options);
}

/** Any folder of clips, each heard once in its state. */
async function folderBench(options: BenchOptions, folder: string): Promise<void> {
  const clips = readClipFolder(folder);
  const hearing = await makeEar(options.ear);
  const results = clips.map(({ file, state, expected, sound }) => {
    // The clip as it is, with quiet before and after it, so that its first and last sound count.
    const padded = new Float32Array(sound.length + Math.round((lead + tail) * rate));
    padded.set(sound, Math.round(lead * rate));
    const voiceEnds = Math.round(lead * rate) + sound.length - quietAtEnd(sound);
    const said = { state, text: '', expected };
    return { file, state, expected, ...tryClip(hearing, said, padded, options.nameFirst, voiceEnds, options) };
  });
  const commands = shareOf(results.filter(({ expected }) => expected !== 'none'));
  const others = results.filter(({ expected }) => expected === 'none');
  const delays = results.flatMap(({ outcome, expected, delay }) =>
    outcome === 'right' && expected !== 'none' && delay !== null ? [delay] : [],
  );
  const summary = {
    commands,
    others: { clips: others.length, falseAlarms: others.filter(({ meant }) => meant !== 'none').length },
    delay: { median: centile(delays, 0.5), centile95: centile(delays, 0.95) },
  };
  if (options.json) {
    say(JSON.stringify({ ear: options.ear, nameFirst: options.nameFirst, summary, clips: results }, null, 2));
    return;
  }
  for (const { file, state, expected, outcome, meant, heard, delay } of results) {
    const late = delay === null ? '' : `, ${Math.round(delay * 1000)} ms`;
    say(`${outcome.padEnd(9)}${file}\t${state}\texpected ${expected}, understood ${meant}${heard === '' ? '' : ` ("${heard}"${late})`}`);
  }
  say('');
  if (commands.clips > 0) say(`Commands: ${shareLine(commands)}`);
  if (others.length > 0) say(`Meant for nobody: ${others.length}, of which ${summary.others.falseAlarms} were taken for a command`);
}

function quietAtEnd(sound: Float32Array): number {
  const voice = trimmed(sound);
  // `trimmed` cuts both ends; what is cut at the end is found from the last loud sample.
  const peak = voice.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const last = sound.findLastIndex((sample) => Math.abs(sample) > peak * 0.02);
  return sound.length - 1 - last;
}

async function ownBench(options: BenchOptions): Promise<void> {
  const voices = wantedVoices(options);
  const began = performance.now();
  const hearing = await makeEar(options.ear);
  const report: Record<string, unknown> = { ear: options.ear, quick: options.quick, nameFirst: options.nameFirst, voices };
  const tell = (text: string): void => (options.json ? mutter(text) : say(text));
  const tuning = benchVoices.filter((voice) => voice.use === 'tuning' && isInstalled(voice));
  const testers = voices.filter(({ use }) => use === 'test');
  const bank = new NoiseBank(() => [3, 4, 5, 6, 7, 8].map((seed) => talkStream(tuning, 12, seed)));
  tell(`Ear: ${options.ear} (${earDescriptions[options.ear]})${options.nameFirst ? ', name first' : ''}`);
  tell(`Voices: ${voices.map(({ name, kind, use }) => `${name} (${kind}, ${use})`).join('; ')}`);
  for (const voice of benchVoices) if (!isInstalled(voice)) tell(`Not installed, so left out: ${voice.name}`);

  if (options.parts.includes('commands')) {
    const amounts = { clean: Math.max(24, options.each * 5), eachNoise: options.each };
    const tried = tryCommands(hearing, voices, bank, amounts, options.nameFirst, ({ name }) => mutter(`  ${name}: ${seconds(began)}`));
    tell(`\n${commandTables(tried)}`);
    const wrong = tried.filter(({ outcome }) => outcome === 'wrong');
    for (const { voice, condition, said, heard } of wrong.slice(0, 12))
      tell(
        `  wrong: ${voice.name}, ${condition.name}${condition.level === null ? '' : ` ${condition.level} dB`}: "${said.text}" heard as "${heard}"`,
      );
    report['commands'] = tried.map(({ voice, condition, said, ...trial }) => ({ voice: voice.name, ...condition, ...said, ...trial }));
  }
  if (options.parts.includes('talk')) {
    tell('\nFalse alarms');
    const alarms = [false, true].map((nameFirst) => ({ nameFirst, ...alarmsOnTalk(hearing, testers, bank, options.hours, nameFirst) }));
    for (const one of alarms) tell(alarmLine(`garage talk, ${one.nameFirst ? 'name first' : 'open'}`, one));
    report['talk'] = alarms;
  }
  const own = benchVoices.find(({ name }) => name === 'flite slt');
  if (options.parts.includes('prompts') && own !== undefined) {
    const alarms = [false, true].map((nameFirst) => ({ nameFirst, ...alarmsOnPrompts(hearing, own, options.hours / 4, nameFirst) }));
    for (const one of alarms) tell(alarmLine(`prompts of another phone, ${one.nameFirst ? 'name first' : 'open'}`, one));
    report['prompts'] = alarms;
  }
  if (options.parts.includes('own')) {
    const every = options.quick ? 12 : 1;
    const alone: OwnVoiceResult[] = [];
    for (const voice of ['slt', 'rms', 'awb'] as const) {
      const result = await tryOwnVoice(hearing, voice, every);
      alone.push(result);
      tell(
        `\nIts own voice ${voice} alone in its ear, without echo cancellation: obeyed itself ${result.obeyed.length} times of ${result.tries}; the guard kept back ${result.keptBack.length}`,
      );
      for (const one of result.obeyed) tell(`  obeyed ${one}`);
      for (const one of new Set(result.keptBack)) mutter(`  kept back ${one}`);
    }
    const people = voices.filter(({ name }) => name !== 'flite slt');
    const over = people.length > 0 ? await tryInterruptions(hearing, 'slt', people, every) : [];
    for (const { text, level, said, heard, obeyed } of over)
      tell(
        `  "${text}" over it, ${level === 0 ? 'as loud' : `${level} dB louder`}: obeyed ${obeyed} of ${said} times (${percent(obeyed / Math.max(1, said))}), heard ${heard}`,
      );
    report['own'] = { alone, over };
  }
  if (options.parts.includes('numbers') && own !== undefined)
    report['numbers'] = await numberBench(own, options.quick ? 50 : Math.max(1, Math.round(14 / options.each)), tell);
  if (options.parts.includes('endpoints')) {
    const rows = await compareEndpoints(testers, bank, options.quick ? 6 : options.each * 2);
    tell('\nEndpointers: share of commands cut out whole, and median delay from the end of speech');
    for (const { endpointer, condition, whole, delay } of rows)
      tell(`  ${endpointer.padEnd(12)}${condition.padEnd(18)}${percent(whole)}${delay === null ? '' : `, ${Math.round(delay * 1000)} ms`}`);
    report['endpoints'] = rows;
  }
  if (options.parts.includes('suppression') && own !== undefined) {
    // Brings a browser's driver along, which little else here needs.
    const { compareSuppression } = await import('./suppression.ts');
    tell(`\nNoise suppression, ${own.name} through Chromium's microphone`);
    report['suppression'] = await compareSuppression(own, bank, options.quick ? 3 : options.each, ({ way, condition, ...share }) =>
      tell(`  ${way.padEnd(50)}${condition.padEnd(18)}${shareLine(share)}`),
    );
  }
  if (options.parts.includes('answers')) {
    if (existsSync('dist/index.html')) {
      // Brings a browser's driver along as well.
      const { measureAnswers } = await import('./answers.ts');
      const { asked, delays } = await measureAnswers(options.quick ? 6 : 21);
      const ms = (share: number): string => `${Math.round(1000 * (centile(delays, share) ?? NaN))} ms`;
      tell(
        `\nIn Chromium, from the end of a question to the first sound of the answer: median ${ms(0.5)}, 95th centile ${ms(0.95)} (${delays.length} answers to ${asked} questions)`,
      );
      report['answers'] = { asked, delays };
    } else tell('\nAnswers in Chromium were not measured: dist is missing; `npm run build` makes it.');
  }
  tell(`\nTook ${seconds(began)}.`);
  if (options.json) say(JSON.stringify(report, null, 1));
}

async function numberBench(voice: BenchVoice, every: number, tell: (text: string) => void): Promise<unknown> {
  const hearing = await numberEar();
  const counts = { right: 0, wrong: 0, 'not heard': 0 };
  const wrong: string[] = [];
  for (let value = 0; value < 1000; value += every) {
    const { apart, together } = spokenNumber(value);
    for (const text of [apart, together]) {
      const { outcome, heard } = readBack(hearing, voice, text, value);
      counts[outcome]++;
      if (outcome === 'wrong') wrong.push(`${text} => ${heard}`);
    }
  }
  const all = counts.right + counts.wrong + counts['not heard'];
  tell(
    `\nNumbers from 0 to 999${every === 1 ? '' : `, every ${every}th`}, as figures and as a word, with newton metres, read back: ${counts.right} of ${all} right, ${counts.wrong} wrong, ${counts['not heard']} not heard`,
  );
  for (const one of wrong.slice(0, 20)) tell(`  ${one}`);
  return { ...counts, examples: wrong };
}

function wantedVoices({ voices: wanted, quick }: BenchOptions): BenchVoice[] {
  const installed = benchVoices.filter(isInstalled);
  if (installed.length === 0)
    throw new BadInput('None of flite, espeak-ng and festival is installed; tests/setup.sh installs the first two.');
  for (const name of wanted)
    if (!installed.some((voice) => voice.name === name))
      throw new BadInput(`--voices: found "${name}", expected some of ${installed.map((voice) => voice.name).join(', ')}.`);
  if (wanted.length > 0) return installed.filter(({ name }) => wanted.includes(name));
  return quick ? installed.filter(({ name }) => name === 'flite slt' || name === 'espeak linda') : installed;
}

function alarmLine(title: string, { hours, count, risky, examples }: Alarms): string {
  const bound = count === 0 ? `, so less than ${(3 / hours).toFixed(1)} an hour (95 %)` : '';
  return `  ${title}: ${count} in ${(hours * 60).toFixed(0)} minutes = ${(count / hours).toFixed(1)} an hour${bound}; risky ones ${risky}${examples.length === 0 ? '' : ` (${examples.slice(0, 8).join('; ')})`}`;
}

const percent = (value: number): string => `${(100 * value).toFixed(1)} %`;
const shareLine = ({ clips, right, wrong, rejected }: Share): string =>
  `${clips}, right ${percent(right)}, wrong ${percent(wrong)}, rejected ${percent(rejected)}`;
const seconds = (since: number): string => `${((performance.now() - since) / 1000).toFixed(0)} s`;

try {
  await main();
} catch (error) {
  if (error instanceof BadInput) {
    mutter(`bench:voice: ${error.message}`);
    process.exitCode = 2;
  } else {
    mutter(`bench:voice: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    process.exitCode = 1;
  }
}
