import { mendHomophones } from './homophones.ts';
import type { SaidWord } from './transcripts.ts';
import { tableOf } from '../torque/table.ts';

/** The smallest piece that the rules look at: lower case, without punctuation, contractions and hyphens taken apart. */
export interface Token {
  readonly bare: string;
  /** The word of the transcript that it is from. */
  readonly word: number;
  /** Punctuation after it: '' or one of , . ? ! : ; … — */
  readonly mark: string;
  readonly capital: boolean;
}

const clitic = /^(.+?)('s|'re|'ve|'ll|'d|'m)$/;
/** Things that are written as one word and said as several: "17mm", "47ft-lb", "90°". */
const glued = /^(\d+(?:\.\d+)?(?:\/\d+)?)([a-z°%"µ].*)$/;
const unitWords: Readonly<Record<string, readonly string[]>> = tableOf<readonly string[]>({
  nm: ['nm'],
  'n·m': ['nm'],
  'n.m': ['nm'],
  'n/m': ['nm'],
  'n-m': ['nm'],
  'n⋅m': ['nm'],
  'kgf·m': ['kgf', 'm'],
  'kgf.m': ['kgf', 'm'],
  'kg·m': ['kg', 'm'],
  'kg.m': ['kg', 'm'],
  kgm: ['kgf', 'm'],
  kgfm: ['kgf', 'm'],
  'lbf·ft': ['lb', 'ft'],
  'lbf·in': ['lb', 'in'],
  'lb·ft': ['lb', 'ft'],
  'ft·lb': ['ft', 'lb'],
  'ft.lb': ['ft', 'lb'],
  'ft.lbs': ['ft', 'lb'],
  ftlb: ['ft', 'lb'],
  ftlbs: ['ft', 'lb'],
  lbft: ['lb', 'ft'],
  inlb: ['in', 'lb'],
  inlbs: ['in', 'lb'],
  'in.lb': ['in', 'lb'],
  'in.lbs': ['in', 'lb'],
  '"': ['inch'],
  '°': ['degrees'],
  '%': ['percent'],
  "'em": ['them'],
  em: ['them'],
  '&': ['and'],
  '@': ['at'],
  gonna: ['going', 'to'],
  wanna: ['want', 'to'],
  gotta: ['got', 'to'],
  yep: ['yes'],
  ok: ['okay'],
  "y'all": ['you', 'all'],
  '½': ['1/2'],
  '¼': ['1/4'],
  '¾': ['3/4'],
});

/** Takes the words of a transcript apart. */
export function tokensOf(words: readonly SaidWord[]): readonly Token[] {
  const tokens: Token[] = [];
  for (const [index, word] of words.entries()) {
    for (const token of tokensOfWord(word.text, index)) {
      const before = tokens.at(-1);
      if (hesitation.test(token.bare) || isStutter(before, token)) {
        // The full stop after a sound still ends the sentence.
        if (before !== undefined && /[.?!]/.test(token.mark)) tokens[tokens.length - 1] = { ...before, mark: token.mark };
        continue;
      }
      // A dash that stands alone is punctuation of the word before it.
      // "2 x M8", "5 x 10 mm": so many of them.
      const times =
        /^[x×]$/.test(token.bare) &&
        /^\d+$/.test(before?.bare ?? '') &&
        before?.mark === '' &&
        /^[MTm\d]/.test(words[index + 1]?.text ?? '');
      if (times) continue;
      if (token.bare !== '') tokens.push(token);
      else if (before?.mark === '') tokens[tokens.length - 1] = { ...before, mark: token.mark };
    }
  }
  return mendHomophones(tokens);
}

/** Sounds between words, which say nothing. */
const hesitation = /^(?:uh|uhh|um|umm|uhm|er|erm|ah|hmm|eh)$/;

/** "the the bolts": said twice in one breath. */
const isStutter = (before: Token | undefined, token: Token) =>
  before?.mark === '' &&
  before.bare === token.bare &&
  before.word !== token.word &&
  /^(?:the|a|and|it|they|i|you|of|on|is|so|to|that|these|those)$/.test(token.bare);

function tokensOfWord(text: string, word: number): readonly Token[] {
  const plain = text.replace(/[’‘`´]/g, "'").replace(/[“”«»*_~]/g, (sign) => (sign === '“' || sign === '”' ? '"' : ''));
  const close = /(\.\.\.|[,.?!:;…)"\]—–]|--|-(?=$))+$/u.exec(plain);
  // An inch sign after a number is part of it.
  const inch = close !== null && /\d"/.test(plain) && close[0].startsWith('"');
  const end = close === null || inch ? plain.length : close.index;
  const core = plain.slice(0, end).replace(/^["([{]+/, '');
  const mark = markOf(inch ? plain.slice(end + 1) : (close?.[0] ?? ''));
  const parts = splitCore(core.toLowerCase());
  if (parts.length === 0) return mark === '' ? [] : [{ bare: '', word, mark, capital: false }];
  const capital = /^[A-Z]/.test(core);
  return parts.map((bare, index) => ({ bare, word, mark: index === parts.length - 1 ? mark : '', capital }));
}

function markOf(end: string): string {
  if (/^\.\.\.|…/.test(end)) return '…';
  if (/[—–]|--|^-/.test(end)) return '—';
  return /[.?!]/.exec(end)?.[0] ?? /[:;,]/.exec(end)?.[0] ?? (/[)\]]/.test(end) ? ',' : '');
}

function splitCore(core: string): readonly string[] {
  if (core === '') return [];
  const unit = unitWords[core];
  if (unit !== undefined) return unit;
  const thousands = /^(\d{1,3}),(\d{3})$/.exec(core);
  if (thousands !== null) return [`${thousands[1] ?? ''}${thousands[2] ?? ''}`];
  if (/^\d+,\d{1,2}$/.test(core)) return [core.replace(',', '.')];
  if (/^\d+\/\d+(?:ths?|nds?|rds?)$/.test(core)) return [core.replace(/[a-z]+$/, '')];
  if (/^[tem]-?\d{1,3}$/.test(core)) return [core.replace('-', '')];
  if (/^#\d$/.test(core)) return ['number', core.slice(1)];
  if (/^±/.test(core)) return ['plus', 'or', 'minus', ...splitCore(core.slice(1))];
  if (/^\+\d/.test(core)) return ['plus', ...splitCore(core.slice(1))];
  if (/^~\d/.test(core)) return ['about', ...splitCore(core.slice(1))];
  const range = /^(\d+(?:\.\d+)?)[-–](\d+(?:\.\d+)?)(?![/\d])(.*)$/.exec(core);
  if (range !== null) return [range[1] ?? '', 'to', ...splitCore(`${range[2] ?? ''}${range[3] ?? ''}`)];
  // "1-1/8" is one and an eighth.
  if (/^\d+-\d+\/\d+/.test(core)) return core.split('-').flatMap(splitCore);
  const crossed = /^(m\d{1,2})[x×](\d(?:\.\d+)?)$/.exec(core);
  if (crossed !== null) return [crossed[1] ?? '', 'by', crossed[2] ?? ''];
  const together = glued.exec(core);
  if (together !== null && !/^(?:s|st|nd|rd|th)$/.test(together[2] ?? ''))
    return [together[1] ?? '', ...splitCore((together[2] ?? '').replace(/^-/, ''))];
  if (core.includes('-') || core.includes('–')) return core.split(/[-–]+/).flatMap(splitCore);
  if (core.includes('/') && !/^\d+\/\d+$/.test(core)) return core.split('/').flatMap(splitCore);
  const short = clitic.exec(core);
  if (short !== null && !/^(?:let)$/.test(short[1] ?? '')) return [...splitCore(short[1] ?? ''), short[2] ?? ''];
  // "the carrier bearin'", "torquin'": written as it is said.
  if (/^[a-z]{3,}in'$/.test(core)) return [`${core.slice(0, -1)}g`];
  if (/^[a-z]{3,}in's$/.test(core)) return [`${core.slice(0, -2)}gs`];
  const letters = core.replace(/[^a-z0-9'./]/g, '').replace(/^'+|'+$/g, '');
  return letters === '' ? [] : [letters.replace(/\.+$/, '')];
}
