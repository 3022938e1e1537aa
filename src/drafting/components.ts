import { fastenerHead } from './fastener-words.ts';
import type { Component } from './items.ts';
import { endsName, isPart, isUsedUp, nounOf } from './parts.ts';
import { bare, marked, phrase, type Sentence } from './sentence-view.ts';
import type { Token } from './tokens.ts';
import { conjunctions, determiners, isInCase, isVerb, mayName, prepositions, stemOf, tellingApart, toolWords } from './word-classes.ts';

/** A thing named by the words that may name things, up to the first that may not. */
export function readComponent(sentence: Sentence, at: number, heard = 0): Component | null {
  const { tokens } = sentence;
  let index = at;
  let count: number | null = null;
  let each = false;
  for (let guard = 0; guard < 5; guard++) {
    const word = bare(tokens, index);
    if (word === 'no') return null;
    const pair = word === 'both' && !marked(tokens, index) ? bare(tokens, index + 1) : '';
    if (/^(?:of|the|your|my)$/.test(pair) || (/[^s]s$/.test(pair) && isPart(pair))) {
      count = 2;
      index += pair === 'of' ? 2 : 1;
    } else if (determiners.has(word) && !marked(tokens, index)) {
      each ||= word === 'each' || word === 'every';
      index++;
    } else break;
  }
  const before = at === 0 || marked(tokens, at - 1) ? '' : bare(tokens, at - 1);
  // What one cleans with: a "wire wheel" is no wheel.
  if (/^(?:wheels?|discs?)$/.test(bare(tokens, index)) && /^(?:wire|flap|buffing|sanding|grinding)$/.test(bare(tokens, index - 1)))
    return null;
  if (/^(?:wire|flap|buffing|sanding|grinding) (?:wheel|disc)s?\b/.test(`${bare(tokens, index)} ${bare(tokens, index + 1)}`)) return null;
  // After "it", "they" or "don't" comes what is done, whatever the word.
  const object = /^(?:it|you)$/.test(before) && (isVerb(tokens, at - 2) || prepositions.has(bare(tokens, at - 2)));
  if (
    index === at &&
    !object &&
    /^(?:i|you|we|they|it|he|she|'ll|will|can|could|should|would|don't|doesn't|didn't|won't|can't|must|may|might|please|let's)$/.test(
      before,
    )
  )
    return null;
  if (/^(?:both|each|either)$/.test(bare(tokens, at)) && /^(?:sides?|ends?)$/.test(bare(tokens, index))) return null;
  const words: string[] = [];
  const start = index;
  for (; index < tokens.length && words.length < 6; index++) {
    if (index > start && marked(tokens, index - 1)) break;
    const word = bare(tokens, index);
    if (sentence.quantities.some(({ from }) => from === index) || isVerb(tokens, index)) break;
    // "the cross member on the K build"
    if (/^(?:ones?)$/.test(word) || (/^[a-z]$/.test(word) && bare(tokens, index + 1) === 'build')) break;
    const head = fastenerHead(tokens, index);
    if (head !== null && !head.sure && head.plural && words.length > 0) break;
    if (head !== null && (head.sure || head.name === 'stud')) return null;
    // "the turbo bolts to the manifold": what it does, no part of its name.
    if (head === null && /^(?:bolts?|screws?|plugs?)$/.test(word) && prepositions.has(bare(tokens, index + 1))) break;
    if ((!mayName(word) && !tellingApart.has(word)) || isInCase(tokens, index)) break;
    if (word === 'half' && !mayName(bare(tokens, index + 1))) break;
    if (!tellingApart.has(word) || index + 1 < tokens.length) words.push(word);
    // "the axle end | shock absorbers"
    if (/^(?:end|side)$/.test(word) && words.length > 1 && fastenerHead(tokens, index + 1) === null && mayName(bare(tokens, index + 1))) {
      index++;
      break;
    }
    // "four push pins lug nuts": a thing in the plural ends its name.
    if (endsName(tokens, index)) {
      index++;
      break;
    }
  }
  while (words.length > 0 && (isFiller(words[0] ?? '') || words[0] === 'new')) words.shift();
  if (words.at(-1) === 'right' && /^(?:here|there|in|on|up|now)$/.test(bare(tokens, index))) words.pop();
  // "it's flush", "go easy": how it is, not what it is.
  const subject = bare(tokens, at - 2);
  if (
    words.length === 1 &&
    index === at + 1 &&
    /^(?:is|are|'s|'re|be|aren't|isn't|go|feels?|looks?)$/.test(before) &&
    !/^(?:next|this|that|first|last|up|here)$/.test(subject)
  )
    return null;
  // "these are ordinary hexagons"
  const describes = /^(?:are|'re)$/.test(before) && /^(?:these|those|they)$/.test(subject) && index === at + words.length;
  if (describes && !isPart(words.at(-1) ?? '')) return null;
  // "the holding tool water pump": what stands before a tool is no part of the name after it.
  const tool = words.findLastIndex(
    (word, place) =>
      (toolWords.has(word) && !/^(?:torque|universal)$/.test(word) && !(word === 'driver' && words[place + 1] === 'side')) ||
      smeared.test(word),
  );
  if (tool >= 0 && tool < words.length - 1) words.splice(0, tool + 1);
  if (
    words.length === 1 &&
    /^(?:bar|bars)$/.test(words[0] ?? '') &&
    /^(?:breaker|pry|power|extension|strong)$/.test(bare(tokens, index - 2))
  )
    return null;
  if (/^heads?$/.test(words.at(-1) ?? '') && words.some((word) => /^(?:splined|spline|hex|torx|flanged|domed|socket)$/.test(word)))
    return null;
  if (words.at(-1) === 'drive' && bare(tokens, index - 2) === 'square') return null;
  if (words.length === 1 && /^(?:heads?|[a-z]|brass|steel|copper|stainless|plastic|alloy|chrome|countersunk)$/.test(words[0] ?? ''))
    return null;
  if (
    words.length === 0 ||
    words.every((word) => isFiller(word) || tellingApart.has(word)) ||
    toolWords.has(words.at(-1) ?? '') ||
    words.every((word) => toolWords.has(word))
  )
    return null;
  const counted = sentence.quantities.find(({ to }) => to === at);
  if (counted?.kind === 'number' && counted.value >= 1 && counted.value <= 12 && !marked(tokens, counted.to - 1) && counted.from >= heard)
    count = counted.value;
  // "we start with the lower arm", "on to the pan": what the talk turns to.
  // "three of them are tens and go to the manifold": where they go.
  const verb = /^(?:go|goes|going|come|comes)$/.test(bare(tokens, at - 2)) ? bare(tokens, at - 3) : '';
  const isGoing =
    /^(?:they|these|those|which|that|it|bolts|nuts|screws|ones|both|all)$/.test(verb) ||
    (verb === 'and' && sentence.quantities.some(({ to }) => to <= at - 3));
  const turning =
    !isGoing &&
    /(?:start|starting|begin|beginning|moving|move|go|going|over|on|back|come|get|getting|jump|ahead) (?:with|to|onto|on to)$|(?:moving on|next up|up next|(?:last|first) of all)$/.test(
      phrase(tokens, Math.max(0, at - 3), Math.min(3, at)),
    );
  // "work out, alternator …": a particle, not a place.
  const afterPronoun =
    /^(?:out|off|up|down|back|in|on|over|away)$/.test(before) &&
    /^(?:it|that|them|this|those)$/.test(bare(tokens, at - 2)) &&
    !determiners.has(bare(tokens, at));
  const particle =
    afterPronoun ||
    (/^(?:up|down|out|off)$/.test(before) &&
      start === at &&
      isPart(nounOf(words)) &&
      [3, 4, 5, 6].some((back) => isVerb(tokens, at - back))) ||
    (/^(?:out|off|up|down|on|in|over)$/.test(before) && !determiners.has(bare(tokens, at)) && isVerb(tokens, at - 2));
  const inPlace = prepositions.has(before) && before !== 'like' && !turning && !particle;
  const noun = nounOf(words);
  // "the clamp on the hose", "the mount to the gearbox"
  for (
    let guard = 0;
    guard < 2 && !marked(tokens, index - 1) && /^(?:of|on|for|to|in|at|under|by|behind|from)$/.test(bare(tokens, index));
    guard++
  ) {
    const more = readComponent(sentence, index + 1);
    if (
      more === null ||
      (bare(tokens, index) === 'on' && !determiners.has(bare(tokens, index + 1))) ||
      more.count !== null ||
      more.each ||
      tokens.slice(more.from, more.to).some((_, offset) => fastenerHead(tokens, more.from + offset) !== null)
    )
      break;
    words.push(...more.words.filter((word) => !words.includes(word)));
    index = more.to;
  }
  const leads =
    before === '' ||
    conjunctions.has(before) ||
    /^(?:okay|now|then|next|alright|uh|um|right|well|also|and|is|'s|are)$/.test(before) ||
    // "now you've got these braces" turns to the braces.
    (counted !== undefined && /^(?:'s|is|are|got|have|has|'ve)$/.test(bare(tokens, counted.from - 1))) ||
    (/^(?:got|have|'ve)$/.test(before) && /^(?:'ve|we|you|i|then)$/.test(bare(tokens, at - 2)));
  const isSplitPin =
    (noun === 'pin' && words.some((word) => /^(?:cotter|split|roll|retaining)$/.test(word))) ||
    words.some((word) => /^(?:nylon|nyloc)$/.test(word)) ||
    isState(words, tokens, index);
  const fresh = tokens.slice(at, start + 1).some(({ bare: word }) => word === 'new');
  return {
    kind: 'component',
    words,
    noun,
    inPlace,
    count,
    each,
    leads,
    isPart: isPart(noun) && !isSplitPin,
    isUsedUp: isUsedUp(noun) || isSplitPin || (fresh && !isPart(noun)),
    from: at,
    to: index,
  };
}

/** "wheel on the ground, and it's two hundred and forty": how the vehicle stands, no part that is fastened. */
const isState = (words: readonly string[], tokens: readonly Token[], next: number): boolean =>
  /^(?:wheels?|weight|van|truck|car|vehicle|suspension|tyres?|tires?)$/.test(words[0] ?? '') &&
  (words.slice(1).some((word) => /^(?:ground|floor)$/.test(word)) ||
    /^on (?:the|its) (?:ground|floor|wheels)/.test(phrase(tokens, next, 3)));

/** Stuff that is put on; what is named after it is another thing. */
const smeared = /^(?:locker|sealant|sealer|grease|paste|compound|cleaner|seize|loctite|threadlock|tape)$/;

const fillers = new Set(
  'today tomorrow stuff thing video okay way bit lot pain bear idea side end ends sides hand part course same'.split(' '),
);
const isFiller = (word: string) => fillers.has(word) || fillers.has(stemOf(word));
