import { readTime } from './captions.ts';
import { tidySaid } from './said-text.ts';
import type { SaidWord } from './transcripts.ts';

/** "[0:03]", "(00:03)", "0:03", "1:02:03 -" at the start of a line. */
const leadingTime = /^\s*[[(]?((?:\d{1,2}:)?\d{1,3}:\d{2}(?:[.,]\d{1,3})?)[\])]?\s*(?:[-–—|:]\s*)?(?=\D|$)/;

/** Reads plain text, with or without a time before each line; a time on a line of its own counts for the lines after it. */
export function readPlainTalk(text: string): readonly SaidWord[] {
  const lines = text.replace(/\r\n?/g, '\n').split('\n');
  const timed = lines.filter((line) => leadingTime.test(line)).length >= Math.max(2, lines.filter((line) => line.trim() !== '').length / 4);
  const lineBreak = isWrapped(lines) ? 'nothing' : 'line';
  const words: SaidWord[] = [];
  let at: number | null = null;
  let before: SaidWord['before'] = 'paragraph';
  for (const line of lines) {
    const time = timed ? leadingTime.exec(line) : null;
    if (time !== null) at = readTime(time[1] ?? '');
    const said = tidySaid(time === null ? line : line.slice(time[0].length))
      .split(/\s+/)
      .filter((word) => word !== '');
    if (said.length === 0 && time === null) before = 'paragraph';
    for (const word of said) {
      words.push({ text: word, at, before });
      before = 'nothing';
    }
    if (said.length > 0) before = lineBreak;
  }
  return words;
}

/** Lines of much the same length were broken by an editor, not by the speaker. */
function isWrapped(lines: readonly string[]): boolean {
  const lengths = lines.map((line) => line.trimEnd().length).filter((length) => length > 0);
  const longest = Math.max(0, ...lengths);
  return lengths.length >= 8 && longest < 140 && lengths.filter((length) => length > longest * 0.75).length > lengths.length * 0.7;
}
