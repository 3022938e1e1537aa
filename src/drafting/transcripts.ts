import { readPlainTalk } from './plain-talk.ts';
import { readCaptions } from './captions.ts';

/** A word as it was said or captioned, with the punctuation that came with it. */
export interface SaidWord {
  readonly text: string;
  /** Milliseconds from the start of the recording, or null where the transcript has no times. */
  readonly at: number | null;
  /** What lies between this word and the one before it. */
  readonly before: 'nothing' | 'pause' | 'line' | 'paragraph';
}

/** A talk-through as one stream of words. */
export interface Transcript {
  readonly kind: TranscriptKind;
  readonly words: readonly SaidWord[];
}

export const transcriptKinds = ['vtt', 'srt', 'plain'] as const;
export type TranscriptKind = (typeof transcriptKinds)[number];

/** Characters; more than a day of talk. */
export const longestTranscript = 4_000_000;

/** What the text looks like: WebVTT (W3C) by its first line, SRT by its arrows, anything else is plain. */
export function transcriptKind(text: string): TranscriptKind {
  if (/^\uFEFF?WEBVTT(?:[ \t\r\n]|$)/.test(text)) return 'vtt';
  return /^\s*\d{1,2}:\d{2}(?::\d{2})?[.,]\d{1,3}\s*-->\s*\d{1,2}:\d{2}/m.test(text) ? 'srt' : 'plain';
}

/** Reads a transcript, whatever its kind. Text that says nothing gives no words; too long a text is cut at a word. */
export function readTranscript(text: string): Transcript {
  const kept = text.length > longestTranscript ? text.slice(0, longestTranscript).replace(/\S+$/, '') : text;
  const kind = transcriptKind(kept);
  return { kind, words: kind === 'plain' ? readPlainTalk(kept) : readCaptions(kept) };
}
