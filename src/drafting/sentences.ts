import { bare, type Sentence } from './sentence-view.ts';
import { readQuantities } from './quantities.ts';
import { withoutSpeakers } from './speakers.ts';
import { tokensOf, type Token } from './tokens.ts';
import type { SaidWord, Transcript } from './transcripts.ts';
import { anyNumber, mayEnd, opensAt, placeOpens } from './clause-starts.ts';
import { fastenerHead } from './fastener-words.ts';
import { isPart } from './parts.ts';
import { auxiliaries, isVerb, mayName, prepositions, tellingApart } from './word-classes.ts';

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

/** Words; a longer condition has its consequence in it already. */
const longestCondition = 16;

/** Cuts a transcript into sentences. */
export function sentencesOf(transcript: Transcript): readonly SaidSentence[] {
  const { words } = transcript;
  const tokens = withoutSpeakers(tokensOf(words));
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
  // Up to there the place runs that opens the sentence: "at the front | there's" is one.
  let held = -1;
  // "if you pull it up with the bolts | you'll break it": the condition waits for what comes of it.
  let waits = false;
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
      (newWord && !punctuated && length > 1 && index > held && opensClause(tokens, index, open)) ||
      (newWord && length > longestSentence && opensAt(tokens, index) !== null);
    if (!cut || (gap !== 'paragraph' && runsOn(tokens, index))) continue;
    const breath = gap !== 'nothing' || /[.?!…]/.test(before?.mark ?? '');
    if (waits && !breath && !punctuated && length <= longestCondition) {
      waits = false;
      continue;
    }
    waits = opensCondition(tokens, index);
    cuts.push(index);
    open = index;
    held = placeOpens(tokens, index) ?? -1;
  }
  return cuts;
}

const tens = /^(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)$/;

/** "thirty | five", "a hundred | and ten": a line of captions may break within a number. */
function runsOn(tokens: readonly Token[], at: number): boolean {
  const before = tokens[at - 1];
  if (before === undefined || before.mark !== '') return false;
  const here = bare(tokens, at);
  const ones = /^(?:one|two|three|four|five|six|seven|eight|nine)$/;
  if (tens.test(before.bare) && ones.test(here))
    return (
      !/^(?:bolts?|nuts?|screws?|of|on|at|each|per|[a-z]+teens?|\w+s)$/.test(bare(tokens, at + 1)) && fastenerHead(tokens, at + 1) === null
    );
  if (before.bare === 'hundred')
    return here === 'and' ? tens.test(bare(tokens, at + 1)) || ones.test(bare(tokens, at + 1)) : tens.test(here);
  return before.bare === 'and' && bare(tokens, at - 2) === 'hundred' && (tens.test(here) || ones.test(here));
}

const unit =
  /^(?:foot|feet|inch|inches|newton|newtons|metres?|meters?|millimet(?:er|re)s?|mm|mil|mils|nm|pounds?|lbs?|degrees?|drive|socket|wrench|bolts?|nuts?|screws?|turns?|miles?|minutes?|of|them|ones?|heads?|extension|total|altogether)$/;

/** A pause after "the", between a number and its unit or inside a name is a breath, not an end. */
function mayBreak(tokens: readonly Token[], at: number): boolean {
  const before = bare(tokens, at - 1);
  const here = bare(tokens, at);
  if (!mayEnd(tokens, at - 1) || /^(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|first|last)$/.test(before))
    return false;
  if (tellingApart.has(before) || unit.test(here) || prepositions.has(here) || auxiliaries.has(here)) return false;
  const inName = (mayName(before) && mayName(here)) || isVerb(tokens, at);
  return (
    !(inName && opensAt(tokens, at) === null) &&
    !/^(?:and|or|get|gets|go|goes|too|also|that|which|each|apiece|sorry|wait|no|not|them|it)$/.test(here)
  );
}

/** A new sentence where nobody wrote the stop before it; `open` is where the one before began. */
function opensClause(tokens: readonly Token[], at: number, open: number): boolean {
  if (/^(?:okay|alright)$/.test(bare(tokens, at))) return opensAt(tokens, at) !== null;
  if (!mayEnd(tokens, at - 1) || goesOn(tokens, at)) return false;
  const opens = opensAt(tokens, at);
  // "I do those on | the bench"
  if (opens === 'name' && /^(?:on|in|at|under|over)$/.test(bare(tokens, at - 1)) && /^(?:the|your|a)$/.test(bare(tokens, at))) return false;
  // "and then on the cover | you've got": only where it is so far.
  if (opens === 'subject' || (opens === 'word' && bare(tokens, at) === 'there'))
    return !isOnlyPlace(tokens, open, at) && !followsPlace(tokens, open, at);
  const particle = /^(?:up|down|over)$/.test(bare(tokens, at)) && /^(?:it|them|those|these)$/.test(bare(tokens, at - 1));
  return opens !== null || (placeOpens(tokens, at) !== null && !particle && isValueSaid(tokens, at - 1));
}

/** "putting it | back", "one nut | each", "a thirteen | head": no new sentence. */
function goesOn(tokens: readonly Token[], at: number): boolean {
  const [before, here, next] = [bare(tokens, at - 1), bare(tokens, at), bare(tokens, at + 1)];
  if (/^(?:back|together|apart)$/.test(here)) return /^(?:it|them|that|this|everything)$/.test(before);
  if (/^(?:heads?|ones|twos|threes|fours|fives|sixes|sevens|eights|nines)$/.test(here)) return anyNumber.test(before) || unit.test(before);
  if (here !== 'each' || !(anyNumber.test(before) || unit.test(before) || fastenerHead(tokens, at - 1) !== null)) return false;
  return !(/^(?:of|one|side|end)$/.test(next) || isPart(next));
}

/** "… two each end and on the M | it's six", "and for the rear | they're 90": the place that a clause begins with, after "and". */
function followsPlace(tokens: readonly Token[], open: number, at: number): boolean {
  if (!/^(?:it|they|that|those|these|there|you)$/.test(bare(tokens, at))) return false;
  for (let from = at - 2; from > open && at - from <= 5; from--) {
    const word = bare(tokens, from);
    if (!(mayName(word) || tellingApart.has(word) || /^(?:the|a|build|on|for|at|in)$/.test(word))) return false;
    if (/^(?:on|for|at|in)$/.test(word)) return /^(?:and|but|so|well|then|while|whereas)$/.test(bare(tokens, from - 1));
  }
  return false;
}

function isOnlyPlace(tokens: readonly Token[], open: number, at: number): boolean {
  let from = open;
  while (from < at && /^(?:and|so|then|now|okay|right|but|alright|well|also|just)$/.test(bare(tokens, from))) from++;
  return from === at || placeOpens(tokens, from) === at;
}

/** "59 foot pounds on them | at the front there's": what was told is over. */
const isValueSaid = (tokens: readonly Token[], at: number) =>
  /^(?:pounds|meters|metres|nm|them|those|these|it|each|degrees|again|too|millimeter|millimetres?|mil)$/.test(bare(tokens, at));

/** "so if", "and before", "once": what is said first holds for what is said next. */
function opensCondition(tokens: readonly Token[], at: number): boolean {
  let from = at;
  while (/^(?:and|so|but|okay|now|then)$/.test(bare(tokens, from))) from++;
  return /^(?:if|unless|before|until|when|whenever)$/.test(bare(tokens, from));
}
