import { tidySaid } from './said-text.ts';
import type { SaidWord } from './transcripts.ts';

interface TimedWord {
  readonly text: string;
  readonly at: number;
}

interface Cue {
  readonly from: number;
  readonly to: number;
  readonly lines: readonly (readonly TimedWord[])[];
}

const arrow = /^\s*((?:\d{1,3}:)?\d{1,2}:\d{2}[.,]\d{1,3})\s*-->\s*((?:\d{1,3}:)?\d{1,2}:\d{2}[.,]\d{1,3})/;
const inlineTime = /<((?:\d{1,3}:)?\d{1,2}:\d{2}\.\d{1,3})>/;

/** A silence of this many milliseconds is taken for a pause. */
const pauseLength = 450;

/** Reads WebVTT and SRT cues: word times where the captions carry them, rolling repetitions said once. */
export function readCaptions(text: string): readonly SaidWord[] {
  const cues = readCues(text);
  return joinWords(isRolling(cues) ? withoutRolling(cues) : withoutEchoes(cues));
}

/** Milliseconds of "00:01:02.345", "01:02,345" and the like. */
export function readTime(text: string): number {
  const [seconds = '0', minutes = '0', hours = '0'] = text.replace(',', '.').split(':').reverse();
  return Math.round(((Number(hours) * 60 + Number(minutes)) * 60 + Number(seconds)) * 1000);
}

function readCues(text: string): readonly Cue[] {
  const cues: Cue[] = [];
  const lines = text.replace(/\r\n?/g, '\n').split('\n');
  for (let index = 0; index < lines.length; index++) {
    const times = arrow.exec(lines[index] ?? '');
    if (times === null) continue;
    const from = readTime(times[1] ?? '');
    const to = Math.max(from, readTime(times[2] ?? ''));
    const body: string[] = [];
    while (index + 1 < lines.length && (lines[index + 1] ?? '') !== '' && !arrow.test(lines[index + 1] ?? ''))
      body.push(lines[++index] ?? '');
    // A cue number directly before the next arrow belongs to the next cue.
    if (arrow.test(lines[index + 1] ?? '') && /^\d+$/.test(body.at(-1)?.trim() ?? '')) body.pop();
    cues.push({ from, to, lines: body.map((line) => timedWords(line, from)) });
  }
  return cues.map(spreadTimes);
}

/** The words of a line; "<00:00:01.500>" times those after it. */
function timedWords(line: string, from: number): readonly TimedWord[] {
  const words: TimedWord[] = [];
  let at = from;
  for (const [index, part] of line.split(inlineTime).entries()) {
    if (index % 2 === 1) at = readTime(part);
    else for (const text of tidySaid(part.replace(/<[^>]*>/g, '')).split(/\s+/)) if (text !== '') words.push({ text, at });
  }
  return words;
}

/** Where a cue's words have no times of their own, they are spread over it by their length. */
function spreadTimes(cue: Cue): Cue {
  const words = cue.lines.flat();
  if (words.some(({ at }) => at !== cue.from)) return cue;
  const length = words.reduce((sum, { text }) => sum + text.length + 1, 0);
  let passed = 0;
  const spread = ({ text }: TimedWord): TimedWord => {
    const at = Math.round(cue.from + ((cue.to - cue.from) * passed) / Math.max(1, length));
    passed += text.length + 1;
    return { text, at };
  };
  return { ...cue, lines: cue.lines.map((line) => line.map(spread)) };
}

const said = (line: readonly TimedWord[] | undefined) => (line ?? []).map(({ text }) => text.toLowerCase()).join(' ');

/** Live captions show the line before again above each new one. */
function isRolling(cues: readonly Cue[]): boolean {
  let repeats = 0;
  for (const [index, cue] of cues.entries()) {
    const before = said(cues[index - 1]?.lines.findLast((line) => line.length > 0));
    if (before !== '' && said(cue.lines.find((line) => line.length > 0)) === before) repeats++;
  }
  return cues.length >= 4 && repeats > cues.length / 4;
}

function withoutRolling(cues: readonly Cue[]): readonly TimedWord[] {
  const words: TimedWord[] = [];
  let shown = new Set<string>();
  let before = Number.NEGATIVE_INFINITY;
  for (const cue of cues) {
    const seen = new Set<string>();
    for (const line of cue.lines) {
      const key = said(line);
      if (key === '') continue;
      seen.add(key);
      if (!(shown.has(key) && cue.from - before < 1000)) words.push(...line);
    }
    shown = seen;
    before = cue.to;
  }
  return words;
}

/** A cue that shows the same text again while the first is still up is an echo of the captioning, not of the speaker. */
function withoutEchoes(cues: readonly Cue[]): readonly TimedWord[] {
  return cues.flatMap((cue, index) => {
    const before = cues[index - 1];
    const text = cue.lines.map(said).join(' ');
    const echo = before !== undefined && cue.from <= before.to && before.lines.map(said).join(' ') === text;
    return echo ? [] : cue.lines.flat();
  });
}

function joinWords(words: readonly TimedWord[]): readonly SaidWord[] {
  return words.map(({ text, at }, index): SaidWord => {
    const before = words[index - 1];
    // A word takes about 80 ms a letter; what is beyond that was silence.
    const silence = before === undefined ? 0 : at - before.at - 80 * before.text.length;
    return { text, at, before: silence > pauseLength ? 'pause' : 'nothing' };
  });
}
