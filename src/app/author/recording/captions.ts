/** Something that was said, and when, in seconds from the start of the recording. */
export interface SaidPart {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** A transcript as WebVTT (W3C), which the draft reads again. */
export function toWebVtt(parts: readonly SaidPart[]): string {
  const cues = parts
    .filter(({ text }) => text.trim() !== '')
    .map(({ from, to, text }) => `${stamp(from)} --> ${stamp(Math.max(to, from + 0.1))}\n${escaped(text)}\n`);
  return `WEBVTT\n\n${cues.join('\n')}`;
}

/** "00:01:02.500" */
function stamp(at: number): string {
  const milliseconds = Math.round(Math.max(0, at) * 1000);
  const pad = (value: number, digits = 2) => String(value).padStart(digits, '0');
  const seconds = Math.floor(milliseconds / 1000);
  return `${pad(Math.floor(seconds / 3600))}:${pad(Math.floor(seconds / 60) % 60)}:${pad(seconds % 60)}.${pad(milliseconds % 1000, 3)}`;
}

/** An empty line ends a cue, and "-->" begins one; the rest is escaped as the format has it. */
const escaped = (text: string) => text.replace(/\s+/g, ' ').trim().replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
