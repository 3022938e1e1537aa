import { fastenerHead } from './fastener-words.ts';
import { isPart, isUsedUp } from './parts.ts';
import { bare } from './sentence-view.ts';
import type { Token } from './tokens.ts';
import { adverbs, auxiliaries, conjunctions, determiners, isVerb, mayName, prepositions, pronouns, tellingApart } from './word-classes.ts';

/*
 * Where captions carry no punctuation, a sentence begins where one that could end meets a subject with its verb, an order, or a word
 * that opens. "they're thirteen millimeter | the pan has six tens | start all of them".
 */

const count = /^(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|couple|pair|both)$/;
export const anyNumber =
  /^(?:\d[\d./]*s?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteens?|fourteens?|fifteens?|sixteens?|seventeens?|eighteens?|nineteens?|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|ones|twos|tens|elevens|twelves|eights|sevens|quarters?|half|eighths?|sixteenths?|thirtyseconds?)$/;
const unit = /^(?:foot|feet|inch|inches|newtons?|met(?:er|re)s?|millimet(?:er|re)s?|mm|mils?|mills?|nm|pounds?|lbs?|lb|ft|degrees?)$/;
const finite =
  /^(?:is|are|'s|'re|was|were|has|have|'ve|had|gets?|got|takes?|goes|go|wants?|needs?|comes?|hangs?|sits?|slides?|slips?|should|will|'ll|would|'d|can|could|might|must|does|do|don't|doesn't|isn't|aren't|runs?|stays?|pops?|drops?|fits?|screws?|bolts?|clips?|plugs?|connects?|attaches|uses?|holds?|shares?|looks?|feels?|lives|pushes|just|also|only|all|both|ain't|won't|can't)$/;
const verbForm =
  /^(?:is|are|'s|'re|was|were|has|have|'ve|had|gets?|got|takes?|goes|go|wants?|needs?|comes?|hangs?|sits?|slides?|slips?|should|will|'ll|would|can|could|might|must|does|doesn't|isn't|aren't|uses?|holds?|shares?|pushes|bolts|screws|clips|ain't|won't|can't)$/;

/** True where what was said so far may be over: not after "the", "to", "and", "on", "we". */
export function mayEnd(tokens: readonly Token[], at: number): boolean {
  const word = bare(tokens, at);
  const before = bare(tokens, at - 1);
  // "no wait | that's the fifteen": what corrects belongs to what it corrects.
  if (/^(?:wait|sorry|scratch)$/.test(word) || (word === 'mean' && before === 'i')) return false;
  const next = bare(tokens, at + 1);
  const names = mayName(next) || tellingApart.has(next) || anyNumber.test(next);
  if (/^(?:each|both|all)$/.test(word)) return !names && !/^(?:the|of|your|my|them|these|those|get|gets|go|are)$/.test(next);
  if (/^(?:that|this|these|those)$/.test(word)) {
    const counted = /^(?:these|those)$/.test(word) && [1, 2, 3].some((ahead) => fastenerHead(tokens, at + ahead)?.plural === true);
    return !names || (!counted && /^(?:on|of|for|with|to|like)$/.test(before));
  }
  // "and that's it really | so to go over it again"
  if (word === 'really' && /^(?:it|that)$/.test(before)) return /^(?:so|and|okay|right|now)$/.test(next);
  if (/^(?:now|then)$/.test(word)) return !/^(?:okay|so|and|right|alright|well|but)$/.test(before) && before !== '';
  if (word === 'you') return /^(?:to|for|of|with|tell|show|told|give|gave|thank|on|at)$/.test(before);
  if (/^(?:it|them|here|there|mine|yours|everything|one|ones|side|right|too|again)$/.test(word)) return true;
  // "the nuts on | the outside": only a particle of a verb ends anything.
  if (prepositions.has(word) && /^(?:the|a|an|your|my|each|both|top|it|this|that)$/.test(next))
    return /^(?:up|down|in|on|off|out)$/.test(word) && /^(?:it|them|that|this|those|back|is|are|'s)$/.test(before) && next !== 'top';
  if (
    /^(?:up|down|in|on|off|out|over|through|around|apart|together|forward|forwards|backwards|aside|underneath|below|inside|outside|by|past|along)$/.test(
      word,
    )
  )
    return (
      /^(?:it|them|those|these|that|this|back|all|right|way|straight|is|are|'s|'re)$/.test(before) ||
      isVerb(tokens, at - 1) ||
      (mayName(before) && /^(?:up|down|in|on|off|out)$/.test(word))
    );
  if (
    determiners.has(word) ||
    prepositions.has(word) ||
    conjunctions.has(word) ||
    auxiliaries.has(word) ||
    /^(?:i|you|we|they|he|she|who|'s|not|no|a|an|like|just|only|very|really|pretty|about|around|kind|sort|of|plus|also|first|second|get|gets|take|takes|got|going|gonna|put|use|using|called|another|little|big|long|short|new|okay|so)$/.test(
      word,
    )
  )
    return false;
  if (fastenerHead(tokens, at) !== null) return true;
  return !(isVerb(tokens, at) && /^(?:'ll|to|will|can|gotta|you|we|i)$/.test(before) && !/^(?:go|start|finish)$/.test(word));
}

/** "at the front of the diff there's", "on the cover you've got": how far the place goes that opens the clause; null where none does. */
export function placeOpens(tokens: readonly Token[], at: number): number | null {
  if (!/^(?:at|on|in|up|down|under|underneath|behind|across|over|along|around|inside|below)$/.test(bare(tokens, at))) return null;
  for (let index = at + 1; index < tokens.length && index - at < 9; index++) {
    const word = bare(tokens, index);
    if (/^(?:there|you|we|i|it|they)$/.test(word))
      return /^(?:'s|is|are|'ve|got|have|'re|see|need|'ll)$/.test(bare(tokens, index + 1)) ? index : null;
    if (!(
      /^(?:the|a|an|each|of|top|here|there|your|to|side|on|in|at|this|that|one|where|end)$/.test(word) ||
      mayName(word) ||
      tellingApart.has(word)
    ))
      return null;
    if (isVerb(tokens, index) && !isPart(word)) return null;
  }
  return null;
}

/** How a clause begins there: with a word that opens, a subject and its verb, an order, or not at all. */
export function opensAt(tokens: readonly Token[], at: number): 'word' | 'subject' | 'order' | 'name' | null {
  if (opensByWord(tokens, at)) return 'word';
  if (isSubject(tokens, at)) return 'subject';
  if (isOrder(tokens, at)) return 'order';
  return opensByName(tokens, at) ? 'name' : null;
}

function opensByWord(tokens: readonly Token[], at: number): boolean {
  const [here, second, third] = [bare(tokens, at), bare(tokens, at + 1), bare(tokens, at + 2)];
  const before = bare(tokens, at - 1);
  if (here === 'oh') return !anyNumber.test(before) && !anyNumber.test(second) && !/^(?:and|yeah|so|well|okay)$/.test(before);
  if (here === 'careful') return !/^(?:be|is|are|'re|very|real|and|so)$/.test(before);
  if (here === 'what' && /^(?:else|next|comes|about)$/.test(second)) return !/^(?:and|so|know|see|of|to|for|that|is|'s)$/.test(before);
  if (here === 'right' && /^(?:then|so|now|okay)$/.test(second)) return !/^(?:all|the|is|'s|on|to|and)$/.test(before);
  if (/^(?:okay|alright|alrighty|anyway|anyways)$/.test(here)) return !/^(?:is|'s|are|be|'re|it|that|feels?|looks?)$/.test(before);
  if (here === 'all' && second === 'right') return true;
  if (here === "let's") return !/^(?:and|so|okay|now|but|then)$/.test(before);
  // "let's do the steering | steering coupler": a name said twice is the end of one sentence and the head of the next.
  if (mayName(here) && isPart(here) && (here === before || (second === before && here === bare(tokens, at - 2) && mayName(second))))
    return true;
  if (here === 'now') return !/^(?:right|for|by|until|just|and|so|okay|then)$/.test(before) && second !== 'and';
  if (here === 'so')
    return (
      !/^(?:and|or|even|if|not|do|is|are|be|just|ever|think|say|okay)$/.test(before) && !/^(?:far|much|many|easy|long|hard)$/.test(second)
    );
  if (here === 'next')
    return !/^(?:to|time|one|they|it|that|those|you|and)$/.test(second) && !/^(?:the|and|comes?|is|'s|your|up)$/.test(before);
  if (here === 'then') return !/^(?:and|just|so|it|that|than|back)$/.test(before) && (before !== 'and' || !/^(?:it|that)$/.test(second));
  if (here === 'and' && /^(?:then|now|so|okay)$/.test(second)) return true;
  if (here === 'make' && second === 'sure') return !/^(?:and|to|you|i|we|just|so)$/.test(before);
  if (here === 'go' && second === 'ahead') return !/^(?:and|to|i|we|you|can|'ll)$/.test(before);
  if (here === 'once' || here === 'when')
    return (
      /^(?:you|it|they|the|that|those|everything|everybody|all|we|i|this)$/.test(second) &&
      !/^(?:and|so|that|all|even|just|for)$/.test(before)
    );
  if (here === 'if')
    return !/^(?:see|check|know|ask|sure|wonder|and|but|so|even|as|or|because|that)$/.test(before) && second !== 'anything';
  if (/^(?:all|both|each|every|most)$/.test(here) && second === 'of' && /^(?:them|those|these|the)$/.test(third))
    return !/^(?:and|on|for|of|to|with|the|is|are|'s|so|get|than)$/.test(before);
  if (here === 'moving' && second === 'on') return !/^(?:and|so)$/.test(before);
  if (here === 'same' && /^(?:thing|deal|again|for|as|story)$/.test(second))
    return !/^(?:the|exact|and|is|'s|are|'re|it|with|exactly)$/.test(before);
  return here === 'there' && /^(?:'s|is|are|should|was)$/.test(second) && third !== ''
    ? !/^(?:where|what|because|and|so|that|if|when|then|which|think|but|now|until|till)$/.test(before)
    : false;
}

/** "they are", "you've got", "the top four get", "pressure line's": a subject and its verb. */
function isSubject(tokens: readonly Token[], at: number): boolean {
  const before = bare(tokens, at - 1);
  if (
    conjunctions.has(before) ||
    /^(?:and|then|now|so|okay|alright|if|like|just|think|know|guess|say|sure|believe|mean|see|make|let|bet|sometimes|usually|where|what|also|first|next|well|yeah|maybe)$/.test(
      before,
    )
  )
    return false;
  const here = bare(tokens, at);
  const second = bare(tokens, at + 1);
  if (/^(?:they|those|these|it|that|this|he|she|i|we|you)$/.test(here)) {
    const verb = /^(?:i|we|you)$/.test(here)
      ? /^(?:'ve|'re|'ll|'m|got|want|need|have|can|should|don't|just|do|put|go|use|run|start|know|get|gotta|might|could|will|won't|can't|tighten|take|hold|turn|wanna|also|always|need)$/
      : finite;
    if (!verb.test(second)) return false;
    // "the two at the bottom that go into the pan"
    if (
      here === 'that' &&
      /^(?:hold|holds|go|goes|come|comes|bolts|screws|clips|sit|sits|run|runs|slides|fits|connects?|attaches)$/.test(second)
    )
      return false;
    if (here === 'that' && mayName(before) && /^(?:get|gets|take|takes|need|needs|want|wants|has|have|had|is|are)$/.test(second))
      return false;
    return !(
      isVerb(tokens, at - 1) &&
      /^(?:that|this|those|these|it)$/.test(here) &&
      second !== "'s" &&
      second !== "'re" &&
      second !== 'are' &&
      second !== 'is'
    );
  }
  return namesWithVerb(tokens, at);
}

/** "the pan has", "rear driveshaft is", "top two are", "the outers have": a name, then its verb. */
function namesWithVerb(tokens: readonly Token[], at: number): boolean {
  const before = bare(tokens, at - 1);
  let index = at;
  const opened = /^(?:the|your|my|each|every|all|these|those|both|a|an|this|that|our)$/.test(bare(tokens, index));
  if (opened) index++;
  const from = index;
  if (/^(?:quarters|eighths|sixteenths|halves|thirds)$/.test(bare(tokens, from))) return false;
  if (unit.test(bare(tokens, from)) || (!opened && anyNumber.test(bare(tokens, from)) && !/s$/.test(bare(tokens, from)))) return false;
  let solid = false;
  // "the abs sensors there's one on each side"
  let named = -1;
  for (; index < tokens.length && index - from < 7; index++) {
    const word = bare(tokens, index);
    if (index > from && verbForm.test(word) && fastenerHead(tokens, index) === null) break;
    const joins = /^(?:to|and|of|for|at|on|in|the|side|itself)$/.test(word) && index > from;
    if (index > from && /^(?:there|they|you|it)$/.test(word)) {
      named = index;
      break;
    }
    const isName = mayName(word) || tellingApart.has(word) || fastenerHead(tokens, index) !== null || /^(?:ones?)$/.test(word);
    const numbered = anyNumber.test(word) || unit.test(word);
    if (!isName && !joins && !numbered) return false;
    if (joins && !solid) return false;
    if (isName && !/^(?:end|side|one|ones)$/.test(word)) solid = true;
    if (numbered && (opened || /s$/.test(word))) solid = true;
    if (numbered && !opened && index > from && !tellingApart.has(bare(tokens, index - 1))) return false;
    if (index > from && isVerb(tokens, index) && !isPart(word) && fastenerHead(tokens, index) === null) return false;
  }
  if (!solid || index === from || index >= tokens.length || !verbForm.test(bare(tokens, index)) || fastenerHead(tokens, index) !== null) {
    return (
      (opened || turnsName(tokens, at)) &&
      solid &&
      named === index &&
      /^(?:there|they|you|it)$/.test(bare(tokens, index)) &&
      /^(?:'s|is|are|'re|'ve|got)$/.test(bare(tokens, index + 1)) &&
      isClosed(tokens, at)
    );
  }
  const counted =
    count.test(before) &&
    !(
      before === 'one' &&
      /^(?:each|this|that|the|every|other|last|[a-z]+)$/.test(bare(tokens, at - 2)) &&
      !/^(?:is|are|'s|has|got|have|and|with)$/.test(bare(tokens, at - 2))
    );
  if (!opened && (counted || tellingApart.has(before))) return false;
  if (!opened && (anyNumber.test(before) || unit.test(before)) && fastenerHead(tokens, from) !== null) return false;
  if (!opened && (mayName(before) || tellingApart.has(before)) && !unit.test(before) && !isClosed(tokens, at) && !turnsName(tokens, at))
    return false;
  // "tighten the bolts": what follows a verb is its object.
  return !(isVerb(tokens, at - 1) && !isPart(before) && fastenerHead(tokens, at - 1) === null);
}

/** "the jack | rear shaft there's", "through bolt | rear mount is": a word of place goes on before no noun but a fastener's. */
function turnsName(tokens: readonly Token[], at: number): boolean {
  if (/^(?:tops|bottoms|fronts|rears|uppers|lowers|inners|outers|backs|horizontals|verticals)$/.test(bare(tokens, at))) return true;
  if (!/^(?:front|rear|left|right|upper|lower|passenger|driver|inner|outer)$/.test(bare(tokens, at))) return false;
  return isPart(bare(tokens, at + 1)) && fastenerHead(tokens, at + 1) === null && fastenerHead(tokens, at + 2) === null;
}

/** The tokens before are over: a value with its unit, "on those", "tight", a plural, an adverb. */
function isClosed(tokens: readonly Token[], at: number): boolean {
  const before = bare(tokens, at - 1);
  return (
    unit.test(before) ||
    (adverbs.has(before) && !count.test(bare(tokens, at - 2)) && !determiners.has(bare(tokens, at - 2))) ||
    /^(?:them|it|those|these|each|apiece|total|up|down|altogether)$/.test(before) ||
    fastenerHead(tokens, at - 1)?.plural === true ||
    /^(?:end|side|better)$/.test(before) ||
    isUsedUp(before) ||
    /^(?:impact|wrench|ratchet|spanner|gun|hammer)$/.test(before) ||
    /^(?:thirteens|fourteens|fifteens|sixteens|seventeens|eighteens|nineteens|tens|twelves|\d+s)$/.test(before)
  );
}

/** "start all six", "put your marks", "fill it", "line up the": what to do. */
function isOrder(tokens: readonly Token[], at: number): boolean {
  const before = bare(tokens, at - 1);
  if (fastenerHead(tokens, at) !== null || (mayName(before) && !/^(?:bolts|nuts|screws|studs)$/.test(before) && isPart(bare(tokens, at))))
    return false;
  if (/^(?:don't|do)$/.test(bare(tokens, at)) && bare(tokens, at) === "don't")
    return !/^(?:i|you|we|they|to|and|just|so|people|but|if|please)$/.test(before);
  if (
    !isVerb(tokens, at) ||
    /(?:ing|ed|s)$/.test(bare(tokens, at)) ||
    (/^(?:got|went|came|did|had|put|is|are)$/.test(bare(tokens, at)) && !/^put$/.test(bare(tokens, at)))
  )
    return false;
  if (
    conjunctions.has(before) ||
    auxiliaries.has(before) ||
    (pronouns.has(before) && !/^(?:it|them|me|here|there)$/.test(before)) ||
    /^(?:to|and|then|just|so|please|gonna|gotta|can|you|we|i|they|let|not|always|also|first|now|okay|alright|people|guys|help|go|come|next|wanna|never|got|or|still|that|which|usually)$/.test(
      before,
    )
  )
    return false;
  // "the passenger side ones | have a seventeen"
  if (
    /^(?:have|get|take|go|need|use|hold|want|come|run|sit|hang)$/.test(bare(tokens, at)) &&
    (/s$/.test(before) || /^(?:ones|all|both)$/.test(before) || count.test(before))
  )
    return false;
  const second = bare(tokens, at + 1);
  return (
    /^(?:the|your|a|an|both|all|it|them|that|these|those|every|everything|each|this|my|one|two|on|new|some)$/.test(second) ||
    (/^(?:up|down|in|off|out|back|over)$/.test(second) && /^(?:the|your|with|to|all|it|them|from|here)$/.test(bare(tokens, at + 2)))
  );
}

/** A thing is named right after a value that is over, with no verb: "… ninety newton metres | hanger bearing two thirteens". */
function opensByName(tokens: readonly Token[], at: number): boolean {
  const before = bare(tokens, at - 1);
  const opened = /^(?:the|your|each|both)$/.test(bare(tokens, at));
  let index = opened ? at + 1 : at;
  if (anyNumber.test(bare(tokens, index)) || unit.test(bare(tokens, index))) return false;
  let part = false;
  for (; index < tokens.length && index - at < 6; index++) {
    const word = bare(tokens, index);
    if (!(mayName(word) || tellingApart.has(word)) || (isVerb(tokens, index) && !isPart(word))) break;
    part ||= isPart(word) || fastenerHead(tokens, index) !== null;
    if ((tokens[index]?.mark ?? '') !== '') break;
  }
  if (!part) return false;
  // "so four | brake pedal"
  if (count.test(before) && bare(tokens, at - 2) === 'so' && !opened && !/s$/.test(bare(tokens, index - 1))) return true;
  // "same nut, same torque | the tie rod end"
  if (/^(?:torque|size)$/.test(before) && bare(tokens, at - 2) === 'same') return fastenerHead(tokens, at) === null;
  if (isValueEnd(tokens, at - 1)) return !/^(?:on|for|of|to|each)$/.test(bare(tokens, at)) && fastenerHead(tokens, at) === null;
  // "a single ten | battery tray four tens"
  if (
    anyNumber.test(before) &&
    /^(?:a|an|single|one)$/.test(bare(tokens, at - 2)) &&
    !opened &&
    fastenerHead(tokens, at) === null &&
    fastenerHead(tokens, index - 1) === null
  )
    return true;
  // "push the axles in | prop shaft to the angle drive, six bolts"
  if (
    !opened &&
    /^(?:in|on|up|down|out|off)$/.test(before) &&
    /^(?:it|them|back|s)$/.test(bare(tokens, at - 2).replace(/^.*s$/, 's')) &&
    countsNext(tokens, index)
  )
    return true;
  // "they're thirteen | starter two bolts"
  if (
    anyNumber.test(before) &&
    /^(?:'re|are)$/.test(bare(tokens, at - 2)) &&
    !opened &&
    fastenerHead(tokens, index) === null &&
    fastenerHead(tokens, index - 1) === null
  )
    return true;
  if (/^(?:them|those|these|it|both)$/.test(before) && /^(?:on|for|of|at)$/.test(bare(tokens, at - 2)) && !opened) return true;
  if (!opened && /^(?:thirteens|fourteens|fifteens|sixteens|seventeens|eighteens|nineteens|tens|twelves|elevens|eights|\d+s)$/.test(before))
    return true;
  return /^(?:total|altogether|apiece|tight|snug|again|too|well|hand)$/.test(before) && !opened;
}

/** "… to the angle drive six bolts": the name is counted at once. */
function countsNext(tokens: readonly Token[], at: number): boolean {
  let index = at;
  while (index - at < 5 && (/^(?:to|at|on|in|the|of)$/.test(bare(tokens, index)) || mayName(bare(tokens, index)))) index++;
  if (
    count.test(bare(tokens, index)) &&
    /^(?:each|a|per)$/.test(bare(tokens, index + 1)) &&
    /^(?:side|end|of)$/.test(bare(tokens, index + 2))
  )
    return true;
  return count.test(bare(tokens, index)) && [1, 2, 3].some((ahead) => fastenerHead(tokens, index + ahead) !== null);
}

/** A torque with its unit, a torque told by a verb, or a turn: nothing belongs to it any more but "on", "for" and the like. */
function isValueEnd(tokens: readonly Token[], at: number): boolean {
  const word = bare(tokens, at);
  if (/^(?:pounds?|lbs?|nm|degrees)$/.test(word)) return true;
  if (/^met(?:er|re)s$/.test(word)) return /^newtons?$/.test(bare(tokens, at - 1));
  if (/^turns?$/.test(word)) return /^(?:quarter|half|eighth|full|a|third|of)$/.test(bare(tokens, at - 1));
  const number = /^\d+$/.test(word)
    ? Number(word)
    : /^(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|fifteen|sixteen|seventeen|eighteen|nineteen)$/.test(word)
      ? 20
      : /^(?:one|two|three|four|five|six|seven|eight|nine)$/.test(word) &&
          /^(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred)$/.test(bare(tokens, at - 1))
        ? 20
        : 0;
  if (number === 0 && /^(?:eight|nine|ten|eleven|twelve|thirteen|fourteen)$/.test(word) && /^(?:to|at|gets?)$/.test(bare(tokens, at - 1)))
    return true;
  const size = /^(?:millimet(?:er|re)s?|mm|mils?|\d+s|thirteens|fourteens|fifteens|sixteens|seventeens|eighteens|nineteens|tens|twelves)$/;
  if (number > 14 && [1, 2, 3].some((back) => size.test(bare(tokens, at - back)) || (fastenerHead(tokens, at - back) !== null && back < 3)))
    return true;
  return (
    number > 14 && [1, 2, 3, 4, 5].some((back) => /^(?:to|at|'re|are|is|'s|get|gets|take|takes|want|wants)$/.test(bare(tokens, at - back)))
  );
}
