import { tableOf } from '../torque/table.ts';
import { fastenerHead } from './fastener-words.ts';
import { bare, marked, quantityAt, type Sentence } from './sentence-view.ts';
import type { Token } from './tokens.ts';
import { determiners, isVerb, mayName, placePrepositions, stemOf, tellingApart, toolWords } from './word-classes.ts';

/** For each of what; `times` where the words alone tell: a side is one of two. */
export interface Each {
  readonly of: readonly string[];
  readonly times: number | null;
  /** "at each end of each strap": so many times over for each of what. */
  readonly over?: number;
}

export interface Place {
  readonly words: readonly string[];
  readonly each: Each | null;
  readonly end: number;
}

/** "on each side", "a side", "per wheel", "apiece", "on top", "at the inner end of each arm", "into the side of the case". */
export function readPlace(sentence: Sentence, at: number): Place | null {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  const each = readEach(sentence, at);
  if (each !== null) return each;
  const twice = readTopAndBottom(sentence, at);
  if (twice !== null) return twice;
  // "one bolt top and one bolt bottom"
  if (/^(?:top|bottom|front|rear|inner|outer)$/.test(word) && fastenerHead(tokens, at - 1) !== null && !marked(tokens, at - 1)) {
    const ends = marked(tokens, at) || at + 1 >= tokens.length;
    if (ends || (bare(tokens, at + 1) === 'and' && /^(?:one|two|three|four|a|another)$/.test(bare(tokens, at + 2))))
      return { words: [word], each: null, end: at + 1 };
  }
  if (
    /^(?:up|down|out|in)$/.test(word) &&
    /^(?:top|front|back|below|underneath|here|there|rear)$/.test(bare(tokens, at + 1)) &&
    !marked(tokens, at)
  ) {
    const where = bare(tokens, at + 1);
    return { words: /^(?:here|there)$/.test(where) ? [] : [where], each: null, end: at + 2 };
  }
  if (/^(?:underneath|underside)$/.test(word) && (marked(tokens, at) || !/^(?:the|it|each|that)$/.test(bare(tokens, at + 1))))
    return { words: [word], each: null, end: at + 1 };
  // "two in front and two behind"
  if (
    /^(?:behind|above|below|inside|outside)$/.test(word) &&
    (marked(tokens, at) || at + 1 >= tokens.length || /^(?:and|those|they|these)$/.test(bare(tokens, at + 1)))
  )
    return { words: [word], each: null, end: at + 1 };
  if (!placePrepositions.has(word) || marked(tokens, at)) return null;
  // "to 47", "on those", "on the K" are no places.
  let index = at + 1;
  while (
    /^(?:in|on|of|to|from|top|the|both|either|your|that|this|its|their|my|our|a|an|very|each|every|all)$/.test(bare(tokens, index)) &&
    !marked(tokens, index) &&
    index - at < 5
  ) {
    // "two nuts on a flange" says where, "two on a side" and "two to a bracket" how often.
    const isRate = bare(tokens, index) !== 'a' || word === 'to' || sides[bare(tokens, index + 1)] !== undefined;
    const inner = isRate ? readEach(sentence, index) : null;
    if (inner !== null) return inner;
    if (bare(tokens, index) === 'top' && bare(tokens, index + 1) !== 'of') break;
    index++;
  }
  const words: string[] = [];
  for (; index < tokens.length && words.length < 5; index++) {
    const name = bare(tokens, index);
    if (index > at + 1 && marked(tokens, index - 1)) break;
    if (positionNames[name] !== undefined && words.length > 0 && !/^(?:sides|ends)$/.test(name)) break;
    if (/^(?:hang|hold)$/.test(name) && bare(tokens, index + 1) === 'on') break;
    if (quantityAt(sentence, index) !== null || fastenerHead(tokens, index) !== null) break;
    if (
      !(mayName(name) || tellingApart.has(name)) ||
      isVerb(tokens, index) ||
      (toolWords.has(name) && !(name === 'driver' && /^(?:side|'s)$/.test(bare(tokens, index + 1))))
    )
      break;
    words.push(name);
    // "at the subframe end | engine end is an 18"
    if (/^(?:end|side)$/.test(name) && words.length > 1 && !/^(?:bolts?|ones?)$/.test(bare(tokens, index + 1))) {
      index++;
      break;
    }
    if (name === 'driver' && bare(tokens, index + 1) === "'s") index++;
  }
  // "on the head", "with a socket": said of the tool, not of the place.
  if (words.length === 0 || /^(?:head|heads|nut|spec|snug)$/.test(words[0] ?? '')) return null;
  if (fastenerHead(tokens, index) !== null && !marked(tokens, index - 1)) return null;
  // "two in the rear one": the one is a thing of several.
  const further = placePrepositions.has(bare(tokens, index + 1)) && !marked(tokens, index);
  if (bare(tokens, index) === 'one' && words.every((one) => tellingApart.has(one)) && !marked(tokens, index - 1) && !further)
    return { words, each: null, end: index + 1 };
  // "at the engine end | one bolt at the other"
  const counts =
    bare(tokens, index) === 'one' &&
    (further || marked(tokens, index - 1) || [1, 2].some((ahead) => fastenerHead(tokens, index + ahead) !== null));
  if (/^(?:ones?)$/.test(bare(tokens, index)) && !counts) return null;
  return { words, each: null, end: index };
}

/** "a nut top and bottom", "at both ends", "left and right": one here and one there. */
function readTopAndBottom(sentence: Sentence, at: number): Place | null {
  const { tokens } = sentence;
  const start = /^(?:at|on)$/.test(bare(tokens, at)) ? at + 1 : at;
  const from = bare(tokens, start) === 'the' ? start + 1 : start;
  const pair = `${bare(tokens, from)} ${bare(tokens, from + 1)} ${bare(tokens, from + 2)}`;
  if (/^(?:top and bottom|left and right|front and rear|front and back|upper and lower|inner and outer)$/.test(pair)) {
    return { words: [bare(tokens, from), bare(tokens, from + 2)], each: { of: ['end'], times: 2 }, end: from + 3 };
  }
  if (/^(?:both) (?:ends|sides)\b/.test(pair) && start > at) return { words: [], each: { of: ['end'], times: 2 }, end: from + 2 };
  return null;
}

export function readEach(sentence: Sentence, at: number): Place | null {
  const { tokens } = sentence;
  let index = at;
  if (/^(?:on|at|in|to|for|from|through|with|of)$/.test(bare(tokens, index))) index++;
  if (
    bare(tokens, index) === 'each' &&
    /^(?:one|of)$/.test(bare(tokens, index + 1)) &&
    index > at &&
    (bare(tokens, index + 1) === 'one' || /^(?:them|those|these)$/.test(bare(tokens, index + 2)))
  )
    return { words: [], each: { of: [], times: null }, end: index + (bare(tokens, index + 1) === 'one' ? 2 : 3) };
  const word = bare(tokens, index);
  if (word === 'apiece') return { words: [], each: { of: [], times: null }, end: index + 1 };
  const per = word === 'per' || word === 'each' || word === 'every' || word === 'either' || (word === 'a' && index === at);
  const both = word === 'both' && sides[bare(tokens, index + 1)] === 2;
  if (both) return null;
  if (!per) return null;
  const of: string[] = [];
  let next = index + 1;
  // "one bolt each | fan cowl four screws"
  const runsOn = word === 'each' && index === at && fastenerHead(tokens, at - 1) !== null && !measures.test(stemOf(bare(tokens, next)));
  if (word === 'each' && (marked(tokens, index) || runsOn)) return { words: [], each: { of: [], times: null }, end: next };
  for (; next < tokens.length && of.length < 3; next++) {
    const name = bare(tokens, next);
    if (next > index + 1 && marked(tokens, next - 1)) break;
    if (
      quantityAt(sentence, next) !== null ||
      fastenerHead(tokens, next) !== null ||
      !(mayName(name) || tellingApart.has(name)) ||
      isVerb(tokens, next)
    )
      break;
    of.push(name);
    // "six a side | careful with": a side is named by nothing more.
    if (sides[name] !== undefined || (word === 'a' && measures.test(name))) {
      next++;
      break;
    }
  }
  const last = of.at(-1);
  if (last === undefined)
    return word === 'each' && !/^(?:of|one)$/.test(bare(tokens, next)) ? { words: [], each: { of: [], times: null }, end: next } : null;
  // "two a side" but not "two a big washer": "a" counts only before a side, an end, a wheel and the like.
  if (word === 'a' && !(of.length === 1 && measures.test(last))) return null;
  const ofEach = bare(tokens, next) === 'of' ? readEach(sentence, next + 1) : null;
  // "on each front corner": of four corners two are in front.
  const half = /^corners?$/.test(last) && of.some((word) => /^(?:front|rear|back|top|bottom|upper|lower|left|right)$/.test(word));
  const times = half ? 2 : (sides[last] ?? null);
  if (ofEach?.each != null)
    return {
      words: [...of, ...ofEach.words],
      each: {
        of: ofEach.each.of,
        times: times !== null && ofEach.each.times !== null ? times * ofEach.each.times : null,
        ...(times !== null && ofEach.each.times === null ? { over: times } : {}),
      },
      end: ofEach.end,
    };
  return { words: times === null ? of : [], each: { of: of.map(stemOf), times }, end: next };
}

/** "that hold the carrier to the crossmember", "holding it to the frame", "going into the case". */
export function readHolding(sentence: Sentence, at: number): Place | null {
  const { tokens } = sentence;
  let index = at;
  if (/^(?:that|which)$/.test(bare(tokens, index))) index++;
  if (
    !/^(?:holds?|holding|go|goes|going|secures?|securing|attach(?:es|ing)?|retain(?:s|ing)?|fix(?:es|ing)?|come|comes|coming|run|runs|running|mounts?|mounting|connect(?:s|ing)?|clamps?|clamping|screws?|screwing|threads?|fastens?|fastening|bolts?|bolting|pinch(?:es|ing)?|joins?|keep|keeps|sit|sits)$/.test(
      bare(tokens, index),
    )
  )
    return null;
  if (
    index === at &&
    !bare(tokens, index).endsWith('ing') &&
    !/^(?:hold|holds|secure|secures|attach|retain|retains|fix|join|pinch)$/.test(bare(tokens, index))
  )
    return null;
  if (/^(?:to|on)$/.test(bare(tokens, index + 1)) && quantityAt(sentence, index + 2) !== null) return null;
  index++;
  const words: string[] = [];
  let each = false;
  for (; index < tokens.length && index - at < 12; index++) {
    const name = bare(tokens, index);
    if (index > at && marked(tokens, index - 1)) break;
    if (quantityAt(sentence, index) !== null || isVerb(tokens, index) || fastenerHead(tokens, index) !== null) break;
    each ||= name === 'each' || name === 'every';
    if (mayName(name) || tellingApart.has(name)) words.push(name);
    else if (!(determiners.has(name) || placePrepositions.has(name) || /^(?:it|down|together|this|and)$/.test(name))) break;
    else if (name === 'and' && !/^(?:the|a|your)$/.test(bare(tokens, index + 1))) break;
  }
  const [last] = words.slice(-1);
  return last === undefined ? null : { words, each: each ? { of: [stemOf(last)], times: null } : null, end: index };
}

const measures =
  /^(?:side|end|corner|wheel|axle|hub|clamp|bag|bracket|rod|plate|arm|strap|leg|valve|mount|cap|joint|hinge|door|cylinder|bank|pad|stay|foot|shaft|flange|seat|caliper|carrier|link)$/;

const sides: Readonly<Record<string, number>> = tableOf<number>({ side: 2, sides: 2, end: 2, ends: 2, corner: 4, corners: 4 });

export const positionNames: Readonly<Record<string, string>> = tableOf<string>({
  uppers: 'upper',
  lowers: 'lower',
  fronts: 'front',
  rears: 'rear',
  tops: 'top',
  bottoms: 'bottom',
  inners: 'inner',
  outers: 'outer',
  longs: 'long',
  shorts: 'short',
  backs: 'back',
  middles: 'middle',
  horizontals: 'horizontal',
  verticals: 'vertical',
  sides: 'side',
  ends: 'end',
});

/** "the sides are twelves", but not "on both sides": a place in the plural that is also a plain word names fasteners only before its verb. */
export const namesByPlace = (tokens: readonly Token[], at: number): boolean =>
  !/^(?:sides|ends)$/.test(bare(tokens, at)) ||
  (bare(tokens, at - 1) === 'the' &&
    !placePrepositions.has(bare(tokens, at - 2)) &&
    /^(?:are|get|go|take|did|do)$/.test(bare(tokens, at + 1)) &&
    !marked(tokens, at));
