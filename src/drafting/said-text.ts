import { tableOf } from '../torque/table.ts';

const entities: Readonly<Record<string, string>> = tableOf<string>({
  amp: '&',
  lt: '<',
  gt: '>',
  nbsp: ' ',
  quot: '"',
  apos: "'",
  lrm: '',
  rlm: '',
  '#39': "'",
});

/** Takes away what captioning adds to speech: sounds in brackets, music signs, speaker marks, character entities. */
export function tidySaid(text: string): string {
  return text
    .replace(/&(#?\w{2,5});/g, (whole, name: string) => entities[name.toLowerCase()] ?? whole)
    .replace(/[[(]\s*(?:music|applause|laugh\w*|inaudible|noise|silence|sighs?|coughs?|clears throat|__)[^\])]*[\])]/gi, ' ')
    .replace(/[♪♫]/g, ' ')
    .replace(/^\s*(?:>>+|[-–—])\s*/, '')
    .replace(/^\s*(?:SPEAKER \d+|[A-Z][A-Z .]{2,20}):\s+/, '')
    .replace(/[\u200B-\u200F\u2060\uFEFF]/g, '');
}
