import type { Sentence } from './sentence-view.ts';
import type { QuantitySpan } from './quantities.ts';
import type { Token } from './tokens.ts';
import { mayName, tellingApart } from './word-classes.ts';

export type NumberRole = 'torque' | 'size' | 'count' | 'total' | null;

/** What is already known about what the sentence speaks of. */
export interface Known {
  readonly size: boolean;
  readonly torque: boolean;
  /** The sentence is about one build; `sizeHere` says that this build's size was told. */
  readonly scoped: boolean;
  /** Another build's was told and this one's was not yet. */
  readonly torqueElsewhere: boolean;
  readonly sizeElsewhere: boolean;
  /** A count was told for another build, and none for this one. */
  readonly countElsewhere: boolean;
  readonly sizeHere: boolean;
  /** True for a torque that was taken back as another's. */
  readonly disowned: (value: number) => boolean;
  /** A build is named right after it: "six on the V8". */
  readonly beforeBuild: boolean;
  /** True for a size told already in this sentence. */
  readonly saidSize: (value: number) => boolean;
  readonly lastWasTorque: boolean;
  readonly lastWasSize: boolean;
  readonly count: number | null;
  /** How many there are of the lot that they are some of. */
  readonly ofLot: number | null;
  /** So many for each of something, whose number is not known yet. */
  readonly per: number | null;
  /** True for a number inside the range of torque that was just told: "35 to 40, I shoot for 37". */
  readonly within: (value: number) => boolean;
  /** A torque was just told for a first pass. */
  readonly passing: boolean;
  /** Below it nobody tells a torque without its unit. */
  readonly least: number;
  /** Torques are being read out as a list. */
  readonly listing: boolean;
  /** Only sizes are told for now, and the torques later. */
  readonly sizesFirst: boolean;
  /** Something was put right just before. */
  readonly corrected: boolean;
  /** The number follows directly on a name or a value. */
  readonly follows: boolean;
  /** The word before the last names fasteners. */
  readonly named: boolean;
  /** It is a plug: none is turned by more than 27 mm (common practice). */
  readonly isPlug: boolean;
  /** True for the torque that was told last. */
  readonly saidTorque: (value: number) => boolean;
  /** A size is told later in the sentence, or right after. */
  readonly sizeFollows: boolean;
  readonly sizeNext: boolean;
  /** Nothing at all is known of what is spoken of; and so many values follow before something else is named. */
  readonly fresh: boolean;
  readonly more: number;
  /** It is told of what is named after it: "35 on the drain plug, 19 mil socket". */
  readonly forward: boolean;
}

const bare = (tokens: readonly Token[], at: number) => tokens[at]?.bare ?? '';
const marked = (tokens: readonly Token[], at: number) => (tokens[at]?.mark ?? '') !== '';

const hedges = new Set([
  'just',
  'only',
  'about',
  'like',
  'around',
  'also',
  'probably',
  'roughly',
  'maybe',
  'all',
  'both',
  'then',
  'exactly',
  'another',
  'say',
  'uh',
  'um',
  'too',
  'right',
  'approximately',
  'actually',
  'be',
  'the',
  'each',
  'now',
  'always',
  'still',
  'i',
  'think',
  'believe',
]);
const torqueVerbs =
  /^(?:torque|torqued|torques|torquing|tighten|tightened|tightening|go|goes|going|went|get|gets|getting|take|takes|taking|bring|brought|run|pull|pulled|set|crank|cinch|come|comes|up|down|spec|spec'd|specs|called|calls|do|want|wants|like|finish|finished|retorque)$/;

const widths = new Set([
  5.5, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 32, 33, 34, 35, 36, 38, 41, 46, 50,
]);
/** Millimetres across flats that sockets come in. */
export const isWidth = (value: number) => widths.has(value);

const driversNext = /^(?:sockets?|wrench|spanner|key|bit|deep|mil|millimet(?:re|er)s?|mm)$/;

/** What a number without a unit stands for, by the words around it. */
export function roleOfNumber(sentence: Sentence, span: QuantitySpan & { kind: 'number' }, known: Known): NumberRole {
  const read = roleByWords(sentence, span, known);
  const isSize = isWidth(span.value) && span.high === null && !known.size;
  const role = read === 'torque' && known.sizesFirst ? (isSize ? 'size' : null) : read;
  // Nothing is tightened to less without its unit being said; "so that's six" counts.
  const told = /\b(?:torqued?|tighten(?:ed)?) (?:(?:it|them|those|down|up) )?to$/.test(
    sentence.tokens
      .slice(Math.max(0, span.from - 4), span.from)
      .map(({ bare: word }) => word)
      .join(' '),
  );
  const small = span.value < known.least && Number.isInteger(span.value);
  return role === 'torque' && small && span.high === null && !told ? null : role;
}

function roleByWords(sentence: Sentence, span: QuantitySpan & { kind: 'number' }, known: Known): NumberRole {
  const { tokens } = sentence;
  const open = !marked(tokens, span.to - 1);
  const next = open ? bare(tokens, span.to) : '';
  const second = open && !marked(tokens, span.to) ? bare(tokens, span.to + 1) : '';
  const { value } = span;
  const sizeLike = isWidth(value) && span.high === null && !(known.isPlug && value > 27);
  let at = span.from - 1;
  // "it's between 10 and 12", "anywhere from 40 to 45"
  if (span.high !== null) while (at >= 0 && /^(?:between|from|anywhere|somewhere)$/.test(bare(tokens, at)) && !marked(tokens, at)) at--;
  while (at >= 0 && hedges.has(bare(tokens, at)) && !marked(tokens, at)) at--;
  const joined = at >= 0 && !marked(tokens, at);
  const before = joined && !/^(?:thing|deal|again|same|story)$/.test(bare(tokens, at)) ? bare(tokens, at) : '';
  const directly = span.from > 0 && !marked(tokens, span.from - 1) ? bare(tokens, span.from - 1) : '';
  const within = (pattern: RegExp, words: number) => {
    for (let index = span.from - 1; index >= 0 && index >= span.from - words; index--) {
      if (/[.?!;]/.test(tokens[index]?.mark ?? '')) return false;
      if (pattern.test(bare(tokens, index))) return true;
    }
    return false;
  };

  // "11 mil on the front one and 12 on the rear one"
  const pointsBack = /^(?:them|those|these|it|that|each|all|both|every)$/.test(second);
  if (before === 'and' && /^(?:on|for)$/.test(next) && known.lastWasSize && sizeLike && !pointsBack) return 'size';
  // "that's your thirty-eight", of a torque that was told of others and taken back.
  if (known.disowned(value)) return 'torque';
  // "I'd say thirty", "these I tighten with fifty", where only the torque is missing.
  const isGuess = directly === 'say' && /^(?:'d|i|would|let's|'s)$/.test(bare(tokens, span.from - 2));
  const isTightened = /^(?:with|to|at)$/.test(before) && /^(?:tighten|tightened|torque|torqued)$/.test(bare(tokens, at - 1));
  if ((isGuess || isTightened) && known.size && !known.torque && !span.plural && value >= known.least && !driversNext.test(next))
    return 'torque';
  // "35 on the drain and 30 on the filler"
  if (before === 'and' && /^(?:on|for)$/.test(next) && known.lastWasTorque && value >= 5) return 'torque';
  if (known.within(value) && /^(?:go|for|do|it|use|say|like|run|put|them|those)$/.test(before) && within(/^(?:i|call|we|shoot)$/, 4))
    return 'torque';
  // "two nuts, thirteen, and the servo is four, also thirteen"
  if (directly === 'also' && sizeLike && known.saidSize(value)) return known.size ? null : 'size';
  // "now the numbers: cradle bolts 96, stay brackets 35"
  if (known.listing && value >= known.least && !span.plural && !/^(?:bolts?|nuts?|of|mil|socket|head|on|and)$/.test(next)) return 'torque';
  // "34 on the first pass, and then 61"
  if (
    known.passing &&
    /^(?:then|finally|final|and)$/.test(directly) &&
    value >= 5 &&
    (next === '' || /^(?:and|on|after|the|foot|newton)$/.test(next))
  )
    return 'torque';
  // "fifty-five foot-pounds … So fifty-five.": said once more.
  if (/^(?:so|then)$/.test(directly) && span.to >= tokens.length && known.saidTorque(value)) return null;
  // "there's shims, you might have one, you might have three"
  if (before === 'have' && /^(?:might|may|could)$/.test(bare(tokens, at - 1))) return null;
  // "for that one", "go get one"; "11 would snap it"
  if (/^(?:would|will|could|might|'d|'ll)$/.test(next)) return null;
  const pronoun =
    value === 1 && !span.digits && !(known.fresh && known.more >= 1 && known.count === null && (next === '' || known.sizeNext));
  if (pronoun)
    return /^(?:'s|is|there|have|has|got|'ve)$/.test(before) && known.count === null && bare(tokens, at - 1) === 'there' ? 'count' : null;
  if (/^(?:stages?|steps?|passes|rounds|times|turns|threads|pieces|sets|ways|places|people|different|inches|degrees|halves)$/.test(next))
    return null;
  if (span.plural) return sizeLike ? 'size' : null;
  // "15 on the axle end": a size where none was told, and none can be so small a torque.
  const atEnd = /^(?:on|at)$/.test(next) && tokens.slice(span.to + 1, span.to + 6).some(({ bare: word }) => /^(?:end|side)$/.test(word));
  if (known.forward && atEnd && sizeLike && !known.size) return 'size';
  const afterValue = sentence.quantities.some(({ to }) => to === span.from);
  if (
    known.forward &&
    value >= 5 &&
    (known.size || known.sizeFollows || !sizeLike || (next === 'on' && second === 'the' && (before === '' || afterValue)))
  )
    return 'torque';
  // "six bolts a plate … so that's twelve", "three screws in each. Six.": as many as were counted, said again.
  const alone = span.from === 0 && (span.to >= tokens.length || marked(tokens, span.to - 1));
  const sums = before === 'so' || (/^(?:'s|is)$/.test(before) && /^(?:that|it)$/.test(bare(tokens, at - 1)) && within(/^so$/, 4));
  if (value === known.count && value > 1 && !known.forward && (alone || (sums && (next === '' || /^(?:and|then|of)$/.test(next)))))
    return 'total';
  // "ten bolts, the two in the middle first … I always count them. Ten."
  if (alone && !span.digits && value === known.ofLot && value > 1) return null;
  // "inch and an eighth, four of, and they're twenty-two"
  if (next === 'of' && /^(?:and|)$/.test(second) && value <= 24 && Number.isInteger(value)) return known.count === null ? 'count' : 'total';
  // "four a side and eight on the job"
  const onAll = next === 'on' && second === 'the' && /^(?:job|van|truck|lorry|bus|vehicle|car|whole|lot)$/.test(bare(tokens, span.to + 2));
  if (onAll && !known.size && value <= 60 && Number.isInteger(value)) return 'total';
  // "two per bracket, four brackets. Eight, then."
  const concludes = span.from === 0 && bare(tokens, span.to) === 'then' && span.to + 1 >= tokens.length;
  if (concludes && !known.size && value <= 60 && Number.isInteger(value)) return 'total';
  if (/^sizes?$/.test(directly) && sizeLike) return 'size';
  if (/^(?:hex|hexagon)$/.test(directly) && value >= 3 && value <= 22 && !known.size) return 'size';
  if (directly === 'your' && sizeLike && !known.size) return 'size';
  if (/^(?:grade|class)$/.test(before)) return null;
  if (/^(?:count|counted|counting)$/.test(before) && Number.isInteger(value)) return known.count === null ? 'count' : 'total';
  if (/^(?:makes|making|means)$/.test(before) && Number.isInteger(value) && value <= 120) return 'total';
  // "four on the short one and six on the long one": so few are counted.
  const few = known.beforeBuild && Number.isInteger(value) && value > 1 && (known.count === null || known.countElsewhere);
  if (few && (value <= 6 || (value <= 24 && (known.countElsewhere || known.size) && !known.torqueElsewhere))) return 'count';
  if (countsElsewhere(known, { value, before, there: bare(tokens, at - 1) === 'there', sizeLike, next })) return 'count';
  // "33 newton metres on the K and 48 on the M"
  if (known.torqueElsewhere && !(known.sizeElsewhere && sizeLike) && value > 3 && !/^(?:of|bolts|nuts)$/.test(next)) return 'torque';
  // "four bolts, and on the M it's six because there's an extra one in each end"
  const differs = known.scoped && known.count !== null && value !== known.count && !known.size && !known.torqueElsewhere;
  if (differs && /^(?:'s|is|has|got)$/.test(before) && value <= 24 && Number.isInteger(value) && !known.sizeElsewhere) return 'count';
  // "early ones, there's three bolts; late ones, four"
  if (known.countElsewhere && !known.size && next === '' && value <= 24 && Number.isInteger(value)) return 'count';
  // "Carrier. Two. Nineteen. One hundred and ten.": how many, then which size, then how tight.
  const listed = /^(?:|and|just|only)$/.test(before) && (next === '' || known.sizeNext);
  if (
    known.fresh &&
    listed &&
    known.count === null &&
    Number.isInteger(value) &&
    value >= 1 &&
    value <= 24 &&
    known.more >= (value < 7 ? 1 : 2)
  )
    return 'count';
  // "rear eye bolts, same size, same torque, also two"
  const last = span.from > 0 && span.to >= tokens.length && !span.digits && value > 1 && value < 7 && Number.isInteger(value);
  if (known.fresh && listed && known.count === null && last && span.high === null) return 'count';
  // "the two rear mounts" counts the mounts.
  if (
    !span.digits &&
    value <= 12 &&
    open &&
    (mayName(next) || tellingApart.has(next)) &&
    !/^(?:too|also|head|heads|hex|deep|socket|sockets|wrench|spanner|impact|swivel|line|twelve|millimeter)$/.test(next)
  )
    return null;
  // "that's six, fifteen sixteenths again"
  if (
    known.sizeNext &&
    Number.isInteger(value) &&
    value <= 24 &&
    (before === 'so' || (before === "'s" && /^(?:that|it)$/.test(bare(tokens, at - 1))))
  )
    return known.count === null && known.per === null ? 'count' : 'total';
  if (known.sizeFollows && known.scoped && /^(?:is|are|'s|'re)$/.test(before) && Number.isInteger(value)) return 'count';
  if (
    /^(?:total|altogether|overall)$/.test(next) ||
    (next === 'in' && /^(?:all|total)$/.test(second)) ||
    (next === 'all' && /^(?:together|told|up)$/.test(second))
  )
    return 'total';
  if (/^(?:year|years|of|percent|times|o'clock|to|different|more|and)$/.test(next) && next === 'different') return null;
  if (
    /^(?:socket|sockets|wrench|wrenches|spanner|head|heads|hex|bit|key|impact|deep|swivel|wobble|combination|flank|allen|ratcheting|line)$/.test(
      next,
    ) &&
    sizeLike
  )
    return 'size';
  if (/^(?:a|an|single)$/.test(directly) && sizeLike && !/^(?:of|foot|minute)$/.test(next)) return 'size';
  if (
    next === 'on' &&
    /^the$/.test(second) &&
    /^(?:head|heads|nut|nuts|bolt|bolts|other|back)$/.test(bare(tokens, span.to + 2)) &&
    sizeLike &&
    !(known.size && torqueVerbs.test(before))
  )
    return 'size';
  if (/^(?:foot|times|people|speed)$/.test(next)) return null;
  if (before === 'to') {
    if (/^(?:one|two|three)$/.test(bare(tokens, span.from)) && !known.size) return null;
    return within(torqueVerbs, 9) || known.size ? 'torque' : null;
  }
  // "now the second pass, eighty-five"
  if (bare(tokens, span.from - 1) === 'pass' && /^(?:second|third|last|final|next)$/.test(bare(tokens, span.from - 2))) return 'torque';
  if (/^(?:torque|torques|torqued|spec|specs|specification|setting)$/.test(before)) return 'torque';
  if (/^(?:get|gets|getting|got)$/.test(before) && !/^(?:of|bolts|nuts)$/.test(next))
    return before === 'got' || /^(?:of|there)$/.test(next) ? (value <= 40 && !known.size ? 'count' : null) : 'torque';
  if (/^(?:take|takes)$/.test(before)) return known.size || !sizeLike || value < 10 || known.sizeFollows ? 'torque' : 'size';
  if (before === 'at' && within(/^(?:change|check|recheck|service|retorque)$/, 8)) return null;
  if (before === 'at' && value >= 2)
    return known.size || (span.from - at === 1 && known.named) || within(torqueVerbs, 8) || within(/^(?:put|wrench|torque)$/, 8)
      ? 'torque'
      : null;
  if (/^(?:there|have|has|got|'ve)$/.test(before) || (/^(?:'s|is|are)$/.test(before) && bare(tokens, at - 1) === 'there'))
    return value <= 60 && Number.isInteger(value) && known.count === null ? 'count' : null;
  const closesHere =
    !open ||
    span.to >= tokens.length ||
    /^(?:and|but|so|or|then|because|alright|okay|of|that|you|they|these|those|again|now|there)$/.test(next);
  if (
    (before === 'so' || (before === "'s" && /^(?:that|so)$/.test(bare(tokens, at - 1)) && within(/^so$/, 3))) &&
    closesHere &&
    value >= 2 &&
    value <= 60 &&
    !known.size
  ) {
    // "the four on the leg, same as the wing, so that's forty-five": fours make no forty-five.
    const isSum = value <= 24 || known.count === null || value % known.count === 0;
    return isSum ? 'total' : known.torque ? null : 'torque';
  }
  if (before === 'so' && closesHere && value <= 60 && (known.count === null || value % known.count === 0)) return 'total';
  if (
    before === "'s" &&
    bare(tokens, at - 1) === 'that' &&
    closesHere &&
    known.count !== null &&
    value >= known.count &&
    value % known.count === 0 &&
    value <= Math.min(24, known.count * 4) &&
    // "two 14 millimeter nuts and that's 30": by then it is the torque that is missing.
    !(known.size && !known.torque && value >= 12)
  )
    return 'total';
  // "so that's six at seventy"
  if (next === 'at' && /^'s$/.test(before) && value <= 24 && /^(?:\d|[a-z]+ty|hundred|[a-z]+teen)/.test(second)) return 'total';
  if (/^(?:of)$/.test(next) && /^(?:them|those|these)$/.test(second)) return known.count === null ? 'count' : null;
  if (within(/^(?:torque|torques|spec|specs|torqued)$/, 5)) return 'torque';
  // "it's held with three, all fifteens", "the seat is on four, 16 mil"
  const holds =
    (/^(?:with|by)$/.test(before) && /^(?:held|fixed|bolted|secured|on|down|together|hangs?|comes?|goes)$/.test(bare(tokens, at - 1))) ||
    (before === 'on' && /^(?:is|are|'s|'re|sits?|goes|hangs?|held|bolted|mounted)$/.test(bare(tokens, at - 1)));
  // "the rubber goes to the inner wing on three"
  const goes = /^(?:on|with|by)$/.test(before) && !open && within(/^(?:goes|go|bolts|bolted|held|fixed|fastened|hangs|mounts)$/, 8);
  if (
    (holds || goes) &&
    known.count === null &&
    Number.isInteger(value) &&
    value <= 24 &&
    (!open || /^(?:and|they|all|those|two)$/.test(next))
  )
    return 'count';
  // "the motor to the gearbox is two, three-quarter head": how many, and then their size.
  const counts =
    /^(?:is|are|'s|'re)$/.test(before) && known.count === null && !known.size && Number.isInteger(value) && !span.digits && value > 1;
  if (counts && value <= 24 && known.sizeFollows && (!known.sizeNext || !open)) return 'count';
  if (counts && value < 7 && known.more >= 1) return 'count';
  if (/^(?:is|are|'s|'re|was|be|being)$/.test(before)) {
    if (known.corrected && sizeLike && !known.torque) return 'size';
    if (known.sizeHere && !known.lastWasTorque) return known.torque && sizeLike ? null : 'torque';
    if (known.lastWasTorque && known.size) return 'torque';
    if (known.size && !known.scoped) return known.torque && sizeLike ? null : 'torque';
    return sizeLike ? 'size' : value > 3 ? 'torque' : null;
  }
  if (/^(?:on|for)$/.test(next) && /^(?:those|these|them|the|each|all|both|every|it|that|this|either)$/.test(second))
    return known.size || !sizeLike ? 'torque' : 'size';
  if (/^(?:with|using|use)$/.test(before) && sizeLike && (next === '' || /^(?:and|on)$/.test(next))) return 'size';
  if (
    known.per !== null &&
    (known.size || known.sizeNext || !sizeLike) &&
    value > known.per &&
    // "one nut each, sixteen mil, fifty": no fifty nuts.
    value <= (known.size && !known.torque ? known.per * 4 : 60) &&
    value % known.per === 0 &&
    (known.follows || before === '') &&
    closesHere
  )
    return 'total';
  if (/^(?:do|them|those|it|these|want|'m|put|say|and|but|go|going)$/.test(before) && known.size && !known.torque && value > 3)
    return 'torque';
  // "the two rear mounts" counts the mounts.
  if (!span.digits && value <= 12 && open && (mayName(next) || tellingApart.has(next)) && !/^(?:too|also)$/.test(next)) return null;
  // "heat shield, five": how many, where nothing has counted them yet.
  const lone = span.from === 0 && span.to >= tokens.length;
  if (lone && known.count === null && !span.digits && value <= 12 && !known.named && known.size) return 'count';
  if (
    known.follows &&
    !known.size &&
    known.count === null &&
    !span.digits &&
    value <= 9 &&
    Number.isInteger(value) &&
    !/^(?:of)$/.test(next)
  )
    return 'count';
  const written = bare(tokens, span.from);
  if (
    !known.torque &&
    !sizeLike &&
    value > 50 &&
    (known.named || /^(?:|and|then)$/.test(before)) &&
    (known.follows || before !== '' || known.size)
  )
    return 'torque';
  if (known.follows || before === '') {
    if (!known.size && sizeLike) return 'size';
    if (known.size && !known.torque && (value >= 2 || written.includes('.'))) return 'torque';
  }
  return null;
}

/** "Gen 1 has four, 13 mil. Gen 2 has six.", "petrol's only got four", "and the long one takes six": another build's were counted, these not yet. */
function countsElsewhere(
  known: Known,
  said: {
    readonly value: number;
    readonly before: string;
    readonly there: boolean;
    readonly sizeLike: boolean;
    readonly next: string;
  },
): boolean {
  if (!known.countElsewhere || !Number.isInteger(said.value) || said.value > 24 || said.value < 1) return false;
  if (/^(?:foot|newton|inch|mil|mm|degrees?)$/.test(said.next)) return false;
  if (/^(?:has|have|had|got|there|'ve)$/.test(said.before) || (said.there && /^(?:'s|is|are)$/.test(said.before))) return true;
  const tooLoose = said.value <= 12 && said.value < known.least && !said.sizeLike;
  return tooLoose && /^(?:takes?|needs?|wants?|uses?|gets?|is|'s)$/.test(said.before);
}
