import { fastenerHead } from './fastener-words.ts';
import type { Mention } from './mention.ts';
import { isOneOfSize, readOpening, type Opening } from './opening.ts';
import { withPlace } from './placed.ts';
import { endsName } from './parts.ts';
import type { QuantitySpan } from './quantities.ts';
import { bare, marked, quantityAt, type Sentence } from './sentence-view.ts';
import type { Token } from './tokens.ts';
import { isVerb, mayName, placePrepositions, tellingApart, toolWords } from './word-classes.ts';

const unspoken = new Set([
  'new',
  'old',
  'same',
  'good',
  'nice',
  'regular',
  'normal',
  'whole',
  'proper',
  'actual',
  'single',
  'individual',
  'own',
  'existing',
  'original',
  'fresh',
  'own',
  'only',
  'just',
  'of',
  'more',
  'extra',
  'separate',
  'identical',
  'different',
  'special',
  'standard',
  'plain',
  'ordinary',
  'obvious',
  'brand',
  // How it is just now, or beside another, and not what it is called.
  'empty',
  'missing',
  'spare',
  'rusty',
  'dirty',
  'loose',
  'heavier',
  'lighter',
  'stronger',
  'thicker',
  'thinner',
]);

/** "six little 10 millimeter bolts", "the rear driveshaft strap bolts". */
export function readNamed(sentence: Sentence, at: number): Mention | null {
  const { tokens } = sentence;
  const opening = readOpening(sentence, at);
  const names: string[] = [...opening.places];
  const inside: QuantitySpan[] = [];
  let isNew = false;
  let index = opening.next;
  let bySize: number | null = null;
  let byText: string | null = null;
  let head: { name: string; sure: boolean; plural: boolean } | null = null;
  for (; index < tokens.length && index - opening.next < 10;) {
    if (
      index > at &&
      marked(tokens, index - 1) &&
      !(tokens[index - 1]?.mark === ',' && tellingApart.has(bare(tokens, index - 1)) && tellingApart.has(bare(tokens, index)))
    )
      break;
    const quantity = quantityAt(sentence, index);
    // "four 11 millimeter twelve points"
    if (/^(?:twelve|12)$/.test(bare(tokens, index)) && /^point(?:s|ers)?$/.test(bare(tokens, index + 1)) && !marked(tokens, index)) {
      index += 2;
      if (bare(tokens, index - 1) === 'point' || fastenerHead(tokens, index) !== null) continue;
      if (opening.count === null && inside.length === 0) return null;
      head = { name: 'bolt', sure: true, plural: true };
      break;
    }
    const found = fastenerHead(tokens, index);
    if (found !== null) {
      head = found;
      index++;
      // "J-bolt nut": the last fastener word says what is turned.
      if (!marked(tokens, index - 1) && fastenerHead(tokens, index) !== null) {
        names.push(bare(tokens, index - 1));
        continue;
      }
      // "four nuts and bolts": four of them together.
      const mate = bare(tokens, index) === 'and' ? fastenerHead(tokens, index + 1) : null;
      if (mate !== null && mate.plural && mate.sure && found.plural && found.sure && opening.count !== null && !marked(tokens, index - 1))
        index += 2;
      break;
    }
    if (quantity !== null) {
      // "9/16 ones are 35 foot-pounds"
      const onesOfSize =
        /^(?:width|serration|thread)$/.test(quantity.kind) &&
        opening.count === null &&
        names.length === 0 &&
        bare(tokens, quantity.to) === 'ones' &&
        !marked(tokens, quantity.to - 1);
      const namedBySize = onesOfSize ? sizeNumber(quantity) : isSizeName(sentence, quantity, opening, names.length + inside.length > 0);
      // "seventeens are 75 newton metres, fifteens forty"
      const paired =
        quantity.kind === 'number' &&
        quantity.plural &&
        quantityAt(sentence, quantity.to) !== null &&
        at > 0 &&
        (marked(tokens, at - 1) || bare(tokens, at - 1) === 'and') &&
        sentence.quantities.some((one) => one.to < at && one.kind === 'number' && one.plural);
      const subject =
        namedBySize !== null &&
        index === at &&
        (paired || /^(?:are|get|go|take|is|'s|gets)$/.test(bare(tokens, quantity.to))) &&
        !/^(?:are|is|'s|'re|all|also)$/.test(bare(tokens, at - 1));
      if (
        namedBySize !== null &&
        (opening.count !== null ||
          opening.article === 'definite' ||
          (opening.article === 'all' && bare(tokens, index - 1) === 'the') ||
          onesOfSize ||
          subject)
      ) {
        if (quantity.kind === 'number' || quantity.kind === 'width') bySize = namedBySize;
        if (quantity.kind === 'width' && quantity.unit === 'in') byText = quantity.written;
        else if (quantity.kind === 'serration' || quantity.kind === 'thread') byText = quantity.text;
        inside.push(quantity);
        index = quantity.to + (onesOfSize ? 1 : 0);
        head = { name: 'fastener', sure: true, plural: true };
        break;
      }
      if (!/^(?:width|serration|cross-head|thread)$/.test(quantity.kind)) {
        // "the 15 bolts" where 15 cannot be a count because a count was said.
        if (
          quantity.kind === 'number' &&
          ((opening.count !== null && opening.count <= 24) || opening.article === 'indefinite') &&
          names.length === 0 &&
          inside.length === 0 &&
          quantity.value >= 4
        )
          inside.push(quantity);
        else if (quantity.kind === 'number' && inside.length === 0 && isOneOfSize(sentence, quantity)) inside.push(quantity);
        else return null;
      } else inside.push(quantity);
      index = quantity.to;
      continue;
    }
    const word = bare(tokens, index);
    if (word === 'through' && fastenerHead(tokens, index + 1) !== null) {
      names.push(word);
      index++;
      continue;
    }
    // "eight socket heads", "sixteen 8 mil heads"
    if (/^(?:heads|caps)$/.test(word) && opening.count !== null && index > opening.next && !/^points?$/.test(bare(tokens, index - 1))) {
      head = { name: 'fastener', sure: true, plural: true };
      index++;
      break;
    }
    if (
      /^(?:torx|allens|allen|twelve|point|12|hex|headed|head|socket|splined|countersunk|button|flange|flanged|cap|captive|double|sided)$/.test(
        word,
      ) &&
      mayName(word)
    ) {
      if (!/^(?:torx|allens|allen|hex|head|headed|point|socket)$/.test(word)) names.push(word);
      if (
        /^(?:torx|allens)$/.test(word) &&
        opening.count !== null &&
        (marked(tokens, index) ||
          quantityAt(sentence, index + 1) !== null ||
          (!isNamePart(tokens, index + 1) && fastenerHead(tokens, index + 1) === null))
      ) {
        head = { name: 'fastener', sure: true, plural: true };
        index++;
        break;
      }
      index++;
      continue;
    }
    // "three down pipe nuts", "two mount-to-body bolts": part of the name.
    if (word === 'down' && /^pipes?$/.test(bare(tokens, index + 1)) && !marked(tokens, index)) {
      names.push(word);
      index++;
      continue;
    }
    if (word === 'to' && names.length > 0 && isHyphened(tokens, index)) {
      index++;
      continue;
    }
    if (word === 'new' || word === 'fresh') isNew = true;
    if (unspoken.has(word)) {
      index++;
      continue;
    }
    if (!mayName(word) && !tellingApart.has(word)) return null;
    if (isVerb(tokens, index) || endsName(tokens, index)) return null;
    names.push(word);
    index++;
  }
  if (head === null) return null;
  // "stay brackets 35 right mount nuts 59"
  if ((opening.count ?? 0) > 24 && names.length > 0) return null;
  // "head", "socket" and other tools in the name mean that it is no name.
  if (names.some((word) => toolWords.has(word) && !/^(?:universal|joint|drive|torque|adapter)$/.test(word))) return null;
  return withPlace(sentence, {
    opening,
    at,
    to: index,
    names,
    inside,
    bySize,
    byText,
    ...(at === opening.next && (bySize !== null || byText !== null) ? { opening: { ...opening, article: 'definite' as const } } : {}),
    head: head.name === 'fastener' && (bySize !== null || byText !== null) ? null : head.name,
    sure: head.sure,
    plural: head.plural || (opening.count ?? 1) > 1,
    isNew,
  });
}

/** Between two words of one that was written with hyphens. */
const isHyphened = (tokens: readonly Token[], at: number) =>
  tokens[at]?.word === tokens[at - 1]?.word && tokens[at]?.word === tokens[at + 1]?.word;

const sizeNumber = (quantity: QuantitySpan): number => (quantity.kind === 'width' ? quantity.value : 0);

/** "four 10s", "three T40s", "the M6s": a size in the plural, or after "the" and before a verb, is a name. */
function isSizeName(sentence: Sentence, quantity: QuantitySpan, opening: Opening, within: boolean): number | null {
  const { tokens } = sentence;
  if (fastenerHead(tokens, quantity.to) !== null && !marked(tokens, quantity.to - 1)) return null;
  const ends = marked(tokens, quantity.to - 1) || !isNamePart(tokens, quantity.to);
  if (quantity.kind === 'number' && quantity.plural && ends) return quantity.value;
  // "three ten millimeters", "two little nine-sixteenths at the top"
  if (
    quantity.kind === 'width' &&
    quantity.high === null &&
    opening.count !== null &&
    opening.article !== 'all' &&
    opening.share === null &&
    !within &&
    ends
  )
    return quantity.value;
  if ((quantity.kind === 'serration' || quantity.kind === 'thread') && quantity.plural && ends) return 0;
  const verb = /^(?:is|are|gets|get|goes|go|takes|take|'s|being)$/.test(bare(tokens, quantity.to)) && !marked(tokens, quantity.to - 1);
  // "two M6 to the frame"
  const placed =
    opening.count !== null &&
    opening.count <= 12 &&
    !within &&
    (quantity.kind === 'thread' || quantity.kind === 'serration') &&
    !quantity.plural &&
    (ends || placePrepositions.has(bare(tokens, quantity.to)));
  if (placed) return 0;
  // "the T50 is 41", "T50 is 41, and the regular one's 18"
  const valued = verb && opening.article === 'none' && quantity.kind === 'serration' && isTorqueAt(sentence, quantity.to + 1);
  if (valued && opening.count === null && !within) return 0;
  const named = opening.article === 'definite' && opening.count === null && !within && verb;
  if (named && quantity.kind === 'number' && quantity.high === null && quantity.value >= 4 && quantity.value <= 60) return quantity.value;
  // "the nine-sixteenths get thirty"
  if (named && quantity.kind === 'width' && isTorqueAt(sentence, quantity.to + 1)) return quantity.value;
  return named && (quantity.kind === 'thread' || quantity.kind === 'serration') ? 0 : null;
}

const isTorqueAt = (sentence: Sentence, at: number): boolean => /^(?:torque|number)$/.test(quantityAt(sentence, at)?.kind ?? '');

const isNamePart = (tokens: readonly Token[], at: number) =>
  mayName(bare(tokens, at)) && !isVerb(tokens, at) && !toolWords.has(bare(tokens, at));
