import { fastenerHead } from './fastener-words.ts';
import type { Item } from './items.ts';
import { isPart } from './parts.ts';
import { bare, marked, phrase, type Sentence } from './sentence-view.ts';
import type { Token } from './tokens.ts';
import { mayName, tellingApart } from './word-classes.ts';

/** "one long one short", "one long one and one short one". */
export function readAside(tokens: readonly Token[], at: number): Item | null {
  const text = phrase(tokens, at, 8);
  const found = /^one (\w+) (?:one )?(?:and )?one (\w+)(?: one)?\b/.exec(text);
  if (found === null || !tellingApart.has(found[1] ?? '') || !tellingApart.has(found[2] ?? '')) return null;
  return { kind: 'aside', from: at, to: at + found[0].split(' ').length };
}

/** Corrections, negations, sameness, and the spanner that only holds. */
export function readMarker(tokens: readonly Token[], at: number): Item | null {
  const span = (length: number) => ({ from: at, to: at + length });
  const word = bare(tokens, at);
  if (/^(?:the )?other way (?:round|around)/.test(phrase(tokens, at, 4))) return { kind: 'swap', ...span(word === 'the' ? 4 : 3) };
  if (word === 'no') {
    const length = [4, 3, 2].find((one) => corrections.has(phrase(tokens, at + 1, one)));
    if (length !== undefined) return { kind: 'correction', ...span(1 + length) };
  }
  for (const length of [5, 4, 3, 2]) {
    if (corrections.has(phrase(tokens, at, length))) return { kind: 'correction', ...span(length) };
  }
  const mistaken = mistakes.exec(phrase(tokens, at, 7))?.[0];
  if (mistaken !== undefined) return { kind: 'correction', ...span(mistaken.split(' ').length) };
  if (
    /^(?:sorry|correction|scratch|oops|whoops|nope)$/.test(word) ||
    (word === 'wait' && /^(?:no|[\d]|i|it)/.test(bare(tokens, at + 1))) ||
    (word === 'actually' && /^(?:no|it|they|make|that)$/.test(bare(tokens, at + 1)))
  )
    return { kind: 'correction', ...span(1) };
  if (word === 'no' && at === 0 && marked(tokens, at) && /^\d/.test(bare(tokens, at + 1))) return { kind: 'correction', ...span(1) };
  if (
    word === 'no' &&
    (marked(tokens, at) || numberWord.test(bare(tokens, at + 1)) || /^(?:it|they|that|those|sorry|wait)$/.test(bare(tokens, at + 1))) &&
    at > 0
  )
    return { kind: 'correction', ...span(1) };
  if (/^(?:not|never|n't|isn't|aren't|ain't|wasn't|don't)$/.test(word) && !/^(?:only|just|yet|sure)$/.test(bare(tokens, at + 1)))
    return { kind: 'not', ...span(1) };
  if ((word === 'instead' || word === 'rather') && /^(?:of|than)$/.test(bare(tokens, at + 1))) return { kind: 'not', ...span(2) };
  if (
    /^(?:used to be|supposed to be|used to say|no more than|not more than|less than|more than|not over|instead of)$/.test(
      phrase(tokens, at, 3),
    ) ||
    /^(?:more than|less than|instead of|up from|down from)$/.test(phrase(tokens, at, 2))
  )
    return {
      kind: 'not',
      ...span(
        phrase(tokens, at, 3) === 'used to be' || phrase(tokens, at, 3) === 'no more than' || phrase(tokens, at, 3) === 'used to say'
          ? 3
          : 2,
      ),
    };
  return readSame(tokens, at);
}

/** "I'm telling you wrong", "that was wrong", "I've got that backwards". */
const mistakes =
  /^(?:(?:that (?:was|is|'s)|i (?:had|got|said|was|am|'m|'ve got|told you|wrote))(?: (?:that|it|those|them|you|telling you|reading (?:that|it|them)))?(?: all)? (?:wrong|backwards|mixed up|the wrong way (?:round|around))|that (?:ain't|isn't|can't be|is not|was not|wasn't) right)\b/;

const corrections = new Set([
  'no sorry',
  'no wait',
  'wait no',
  'sorry no',
  'i mean',
  'make that',
  'scratch that',
  'strike that',
  'let me correct that',
  'my mistake',
  'my bad',
  "that's wrong",
  'that is wrong',
  "that 's wrong",
  "that 's not right",
  'not right',
  'i misspoke',
  "i 'm wrong",
  'i was wrong',
  'i take that back',
  'excuse me',
  'hang on',
  'hold on',
  'hold on a second',
  'let me check',
  'or rather',
  'i meant',
  'i should say',
  'take that back',
  'i said that wrong',
  'correct that',
  'no no',
  'i lied',
  'i tell a lie',
  'tell a lie',
  'no i tell a lie',
  'wait wait',
  'oh wait',
  "no that 's",
  'actually i think',
  'actually i believe',
  'call it',
  'no actually',
  'what am i saying',
]);

const numberWord =
  /^(?:\d.*|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred)$/;

function readSame(tokens: readonly Token[], at: number): Item | null {
  const word = bare(tokens, at);
  const text = phrase(tokens, at, 9);
  const whole =
    /^(?:do )?(?:exactly |just )?(?:the )?(?:whole|entire) other side\b|^(?:exactly the same|all (?:of )?that|the whole thing|everything|all of this|all this)\b.*\b(?:other|opposite) side\b/.test(
      text,
    );
  const span = (length: number) => ({ from: at, to: Math.min(tokens.length, at + length) });
  if (whole) return { kind: 'same', what: 'everything', side: true, as: false, wholeSide: true, ...span(1) };
  const wayOnly = /^(?:the )?(?:exact )?same way\b/.test(text) && /^(?:is|are|'s|'re)$/.test(bare(tokens, at - 1));
  const marker = /^(?:the )?(?:exact )?(?:same|identical)\b/.exec(text) ?? /^(?:exactly )?(?:the )?same\b/.exec(text);
  if (marker === null) {
    if (/^(?:ditto|likewise)$/.test(word))
      return { kind: 'same', what: 'everything', side: false, as: false, wholeSide: false, ...span(1) };
    if (/^(?:double that|double it|double those|times two|twice that|double everything)\b/.test(text))
      return { kind: 'same', what: 'everything', side: true, as: false, wholeSide: false, ...span(2) };
    if (/^(?:repeat|do)\b.*\b(?:for|on) the (?:other|opposite) side\b/.test(text) && !/\b(?:first|then)\b/.test(text))
      return {
        kind: 'same',
        what: 'everything',
        side: true,
        as: false,
        wholeSide: /\b(?:that|this|it|all|everything)\b/.test(text),
        ...span(1),
      };
    if (/^(?:and )?do both sides\b/.test(text))
      return { kind: 'same', what: 'everything', side: true, as: false, wholeSide: false, ...span(3) };
    if (/^(?:do )?the other side (?:is |'s )?(?:the )?(?:exact )?same\b/.test(text))
      return { kind: 'same', what: 'everything', side: true, as: false, wholeSide: false, ...span(6) };
    return null;
  }
  const length = marker[0].split(' ').length;
  const next = bare(tokens, at + length);
  if (/^(?:deal|story|idea)$/.test(next) && bare(tokens, at + length + 1) !== 'as') return null;
  const rest = phrase(tokens, at + length, 6);
  const side =
    /^(?:again |thing |deal |story |way |setup |on |for |over |again on |is )*(?:on |for )?(?:the )?(?:other|opposite|passenger|driver|driver 's|passenger 's|left|right) (?:hand )?side\b/.test(
      rest,
    ) ||
    /^(?:again |thing |deal )*(?:on|for|over on) (?:the )?(?:left|right|other|other one|offside|nearside)(?: now| then| too)?$/.test(
      phrase(tokens, at + length, 8),
    ) ||
    /\b(?:left|right|other|opposite|passenger|driver|driver 's) (?:hand )?(?:side|one) (?:is|'s|gets|goes)(?: in| on)?(?: exactly| just)?$/.test(
      phrase(tokens, at - 8, 8),
    );
  // "these same four bolts" names fasteners; "same" alone compares.
  if (/^(?:these|those|this|that)$/.test(word) || /^(?:these|those)$/.test(bare(tokens, at - 1))) return null;
  const what = /^(?:torques?|tightness|spec|figure|foot|inch|newton|value|setting|pounds)$/.test(next)
    ? 'torque'
    : /^(?:sizes?|sockets?|heads?|hardware|wrench|spanner)$/.test(next)
      ? 'size'
      : 'everything';
  if (!wayOnly && /^(?:bolts?|nuts?|screws?|time|hole|holes|place|spot|side|way|kind|type|idea|principle|reason)$/.test(next)) return null;
  if (fastenerHead(tokens, at + length + 1) !== null && what === 'everything' && mayName(next)) return null;
  // "the lock on before you take it apart, and the same when it goes back"
  if (/^(?:when|after|before|while)$/.test(next)) return null;
  // "a wrench of the same on the back": the tool that holds.
  if (bare(tokens, at - 1) === 'of' && /^(?:wrench|spanner|socket|key)$/.test(bare(tokens, at - 2))) return null;
  // "it's on the same bracket"
  if (/^(?:on|in|to|onto|into|from|behind)$/.test(bare(tokens, at - 1)) && what === 'everything' && isPart(next)) return null;
  const unitful = /^(?:foot|inch|newton)$/.test(next) && /^(?:pounds?|met(?:re|er)s?)$/.test(bare(tokens, at + length + 1)) ? 1 : 0;
  const asAt = unitful + (what === 'everything' && !/^(?:again|thing|deal|for|story)$/.test(next) ? at + length : at + length + 1);
  return {
    kind: 'same',
    what,
    side,
    as: bare(tokens, asAt) === 'as',
    wholeSide: false,
    ...span(side ? length : asAt - at + (bare(tokens, asAt) === 'as' ? 1 : 0)),
  };
}

/** "hold the bolt with a 15": the size after it belongs to the tool that holds, not to what is turned. */
export function readCounterhold(sentence: Sentence, at: number): Item | null {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  // "there's a little hex in the middle, five": what keeps the stud from turning.
  const inner = /^(?:hex|allen) (?:key |hole )?in the (?:middle|end|stud|centre|center|top)\b/
    .exec(phrase(tokens, at, 5))?.[0]
    .split(' ').length;
  if (inner !== undefined) return { kind: 'counterhold', from: at, to: at + inner };
  if (!/^(?:hold|holding|counterhold|lock|locking|turn|turning|rotate|stop|keep)$/.test(word)) return null;
  const clause = tokens.slice(at + 1, at + 10);
  const end = clause.findIndex(({ bare: next }) => /^(?:and|then|while|so)$/.test(next));
  const words = (end < 0 ? clause : clause.slice(0, end)).map((token) => token.bare);
  const using = words.findIndex((next) => /^(?:with|using)$/.test(next));
  if (using < 0) return null;
  if (
    /^(?:turn|turning|rotate|stop|keep)$/.test(word) &&
    words.slice(0, using).some((next) => /^(?:nuts?|bolts?|screws?|it|them|those)$/.test(next))
  )
    return null;
  const size = at + using + 2;
  const held = sentence.quantities.find(({ kind, from }) => /^(?:width|number|serration)$/.test(kind) && from >= size && from <= size + 2);
  if (held === undefined || (held.kind === 'number' && (held.value < 7 || fastenerHead(tokens, held.to) !== null))) return null;
  return { kind: 'counterhold', from: at, to: size };
}
