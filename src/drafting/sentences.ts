import { bare, type Sentence } from './sentence-view.ts';
import { readQuantities } from './quantities.ts';
import { tokensOf, type Token } from './tokens.ts';
import type { SaidWord, Transcript } from './transcripts.ts';
import { isPart } from './parts.ts';
import { auxiliaries, conjunctions, determiners, isVerb, mayName, prepositions, pronouns, tellingApart } from './word-classes.ts';

/** A sentence, or the stretch between two breaths where nobody wrote punctuation. */
export interface SaidSentence extends Sentence {
  readonly index: number;
  /** Word for word as in the transcript. */
  readonly text: string;
  readonly at: number | null;
  /** A blank line or a new speaker's turn came before it. */
  readonly opensParagraph: boolean;
}

/** Fewer full stops than one in so many words: the captions have no punctuation to go by. */
const wordsPerStop = 45;
const longestSentence = 60;

/** Cuts a transcript into sentences. */
export function sentencesOf(transcript: Transcript): readonly SaidSentence[] {
  const { words } = transcript;
  const tokens = tokensOf(words);
  const stops = tokens.filter(({ mark }) => /[.?!]/.test(mark)).length;
  const punctuated = stops * wordsPerStop >= tokens.length;
  const cuts = cutsOf(tokens, words, punctuated);
  const sentences: SaidSentence[] = [];
  for (const [index, from] of cuts.entries()) {
    const part = tokens.slice(from, cuts[index + 1] ?? tokens.length);
    const [first] = part;
    const last = part.at(-1);
    if (first === undefined || last === undefined) continue;
    const said = words.slice(first.word, last.word + 1);
    sentences.push({
      index: sentences.length,
      tokens: part,
      quantities: readQuantities(part),
      text: said.map(({ text }) => text).join(' '),
      at: said[0]?.at ?? null,
      opensParagraph: words[first.word]?.before === 'paragraph',
    });
  }
  return sentences;
}

/** Indexes of the tokens that open a sentence. */
function cutsOf(tokens: readonly Token[], words: readonly SaidWord[], punctuated: boolean): readonly number[] {
  const cuts: number[] = [];
  let open = 0;
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index];
    const before = tokens[index - 1];
    if (token === undefined) continue;
    const newWord = before === undefined || before.word !== token.word;
    const gap = newWord ? (words[token.word]?.before ?? 'nothing') : 'nothing';
    const length = index - open;
    const cut =
      before === undefined ||
      gap === 'paragraph' ||
      (/[.?!…]/.test(before.mark) && newWord) ||
      (newWord && length > 2 && gap === 'line' && (/[.?!…:]/.test(before.mark) || (!punctuated && mayBreak(tokens, index)))) ||
      (newWord && !punctuated && gap === 'pause' && length > 3 && mayBreak(tokens, index)) ||
      (newWord && !punctuated && length > 4 && (opensClause(tokens, index) || namesNext(tokens, index))) ||
      (newWord && length > longestSentence && opensClause(tokens, index));
    if (!cut) continue;
    cuts.push(index);
    open = index;
  }
  return cuts;
}

const unit =
  /^(?:foot|feet|inch|inches|newton|newtons|metres?|meters?|millimet(?:er|re)s?|mm|mil|mils|nm|pounds?|lbs?|degrees?|drive|socket|wrench|bolts?|nuts?|screws?|turns?|miles?|minutes?|of|them|ones?|heads?|extension|total|altogether)$/;

/** A pause after "the" or between a number and its unit is a breath, not an end. */
function mayBreak(tokens: readonly Token[], at: number): boolean {
  const before = bare(tokens, at - 1);
  const here = bare(tokens, at);
  if (
    /^(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|both|long|short|first|last|side)$/.test(before) ||
    tellingApart.has(before) ||
    determiners.has(before) ||
    prepositions.has(before) ||
    conjunctions.has(before) ||
    auxiliaries.has(before) ||
    /^(?:i|you|we|they|it|uh|um|like|another|little|long|short|new)$/.test(before)
  )
    return false;
  return (
    !unit.test(here) &&
    !prepositions.has(here) &&
    !/^(?:and|or|'s|'re|is|are|get|gets|go|goes|too|also|that|which|each|apiece|sorry|wait|no|not)$/.test(here)
  );
}

/** Where people begin something new when they speak without stops. */
function opensClause(tokens: readonly Token[], at: number): boolean {
  const [here, second, third] = [bare(tokens, at), bare(tokens, at + 1), bare(tokens, at + 2)];
  const before = bare(tokens, at - 1);
  if (
    /^(?:and|so|the|a|to|of|but|or|is|are|'s|'re|i|you|we|just|until|till|right|it|that|not|even|by|for|from|up|than|as|like)$/.test(before)
  )
    return false;
  if (/^(?:okay|alright)$/.test(here)) return true;
  if (here === 'all' && second === 'right') return true;
  if (here === 'now') return !/^(?:and|,)$/.test(second) && !/^(?:right|for|by|until)$/.test(before);
  if (here === 'so') return !/^(?:that|far|much|many|on|easy|it|long)$/.test(second) || /^(?:you|we)$/.test(third);
  if (here === 'next') return !/^(?:to|time|one)$/.test(second);
  if (here === 'then') return !/^(?:it|that)$/.test(second) || before !== 'and';
  if (here === 'and' && /^(?:then|now|so|okay)$/.test(second)) return true;
  if (here === 'make' && second === 'sure') return true;
  if (here === 'go' && second === 'ahead') return true;
  if (here === "don't" && !/^(?:i|you|we|they|to)$/.test(before)) return true;
  if (here === 'once' && /^(?:you|it|they|the|that|those|everything|everybody|all)$/.test(second)) return true;
  if (here === 'if' && /^(?:you|it|the|that|they|your|one|there|any)$/.test(second))
    return !/^(?:see|check|know|ask|sure|wonder)$/.test(before);
  if (here === 'before' && /^(?:you|we|that|anything)$/.test(second)) return true;
  if (here === 'after' && /^(?:that|about)$/.test(second)) return true;
  if (here === 'there' && /^(?:'s|is|are)$/.test(second)) return !/^(?:where|what|because)$/.test(before);
  if (here === 'you' && /^(?:'ve|'re|got|want|need|have)$/.test(second))
    return !/^(?:and|if|what|that|when|which|where|once|because|make|sure|as|before|until|cause)$/.test(before);
  if (/^(?:we|i)$/.test(here) && /^(?:'re|'ll|'m)$/.test(second))
    return !/^(?:what|that|when|which|where|because|as|while|before|until|cause|and|so|if)$/.test(before);
  return (
    at > 0 &&
    !/^(?:bolts?|nuts?|screws?|studs?|plugs?)$/.test(here) &&
    isVerb(tokens, at) &&
    /^(?:the|your|a|an|both|all|it|them|that|these|those)$/.test(second) &&
    /^(?:pounds|meters|metres|millimeter|it|down|on|in|home|hand|time|off|out|snug)$/.test(before) &&
    !prepositions.has(here)
  );
}

const valueEnds = /^(?:metres|meters|pounds|nm|altogether|total|degrees|apiece|tight|up|well|too|time|again)$/;

/** A thing is named after a value or another name, with nothing to join them: "… ninety newton metres | power pack sits in its box". */
function namesNext(tokens: readonly Token[], at: number): boolean {
  const before = bare(tokens, at - 1);
  const opened = /^(?:the|your|each|then|both)$/.test(bare(tokens, at));
  let index = opened ? at + 1 : at;
  let part = false;
  for (; index < tokens.length && index - at < 6; index++) {
    const word = bare(tokens, index);
    if (!(mayName(word) || tellingApart.has(word)) || isVerb(tokens, index)) break;
    part ||= isPart(word);
    if ((tokens[index]?.mark ?? '') !== '') break;
  }
  if (!part) return false;
  if (valueEnds.test(before) || (/^turns?$/.test(before) && /^(?:quarter|half|eighth|full|a|third)$/.test(bare(tokens, at - 2))))
    return !prepositions.has(bare(tokens, at));
  if (!opened) return isToldNumber(tokens, at - 1);
  const nounLike = mayName(before) && !isVerb(tokens, at - 1);
  return (
    nounLike &&
    !prepositions.has(before) &&
    !determiners.has(before) &&
    !conjunctions.has(before) &&
    !auxiliaries.has(before) &&
    !pronouns.has(before) &&
    /^(?:has|have|'s|is|are|gets?|takes?|goes|go|that|bolts?|sits?|got|comes?|needs?)$/.test(bare(tokens, index))
  );
}

/** "they go to 37 | fuel line bracket": a number too big for a count, told by a verb. */
function isToldNumber(tokens: readonly Token[], at: number): boolean {
  const word = bare(tokens, at);
  const number = /^\d+$/.test(word)
    ? Number(word)
    : /^(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|fifteen|sixteen|seventeen|eighteen|nineteen)$/.test(word)
      ? 20
      : 0;
  return (
    number > 14 && [1, 2, 3, 4].some((back) => /^(?:to|at|'re|are|is|'s|get|gets|take|takes|want|wants)$/.test(bare(tokens, at - back)))
  );
}
