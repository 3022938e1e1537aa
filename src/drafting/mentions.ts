import { readElliptic } from './elliptic.ts';
import { fastenerHead } from './fastener-words.ts';
import type { Mention } from './mention.ts';
import { readNamed } from './named.ts';
import { countAt, type Opening } from './opening.ts';
import { withPlace } from './placed.ts';
import { readPlace, readEach } from './places.ts';
import { bare, marked, quantityAt, type Sentence } from './sentence-view.ts';

/** Reads what is named at that token, or null where nothing of the kind is. */
export function readMention(sentence: Sentence, at: number): Mention | null {
  // "that's a 10": the number after the article is a size, whatever follows.
  if (/^(?:a|an|grade|class)$/.test(bare(sentence.tokens, at - 1)) && quantityAt(sentence, at) !== null) return null;
  // "the through bolt is 74, front engine mount …"
  const large = quantityAt(sentence, at);
  if (
    large?.kind === 'number' &&
    large.digits &&
    large.value > 12 &&
    /^(?:is|are|'s|'re|to|get|gets|at|about)$/.test(bare(sentence.tokens, at - 1)) &&
    !/^(?:of)$/.test(bare(sentence.tokens, large.to)) &&
    fastenerHead(sentence.tokens, large.to) === null
  )
    return null;
  return readBySize(sentence, at) ?? readNamed(sentence, at) ?? readElliptic(sentence, at);
}

/** "the 12 goes to", "one 14 in the middle", "a 15 at the cradle end": one of a lot, told by its size. */
function readBySize(sentence: Sentence, at: number): Mention | null {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  const counted = /^(?:the|a|an)$/.test(word) ? null : countAt(sentence, at);
  const lone = counted === null && bare(tokens, at + 1) === 'single' ? 1 : 0;
  const from = counted === null ? at + 1 + lone : counted.next;
  if (counted === null && !/^(?:the|a|an)$/.test(word)) return null;
  if (marked(tokens, from - 1) || (counted !== null && counted.value > 40)) return null;
  const size = quantityAt(sentence, from);
  if (size?.kind !== 'number' || size.high !== null || size.plural || size.value < 4 || size.value > 60 || !Number.isInteger(size.value))
    return null;
  const forward = /^(?:on|for)$/.test(bare(tokens, at - 1)) && sentence.quantities.some(({ to }) => to === at - 1);
  if (marked(tokens, size.to - 1) && !(forward && word === 'the' && size.value >= 7)) return null;
  const opening: Opening = {
    next: from,
    article: word === 'the' ? 'definite' : 'indefinite',
    count: counted?.value ?? (word === 'the' ? null : 1),
    vague: false,
    share: null,
    another: false,
    places: [],
  };
  const base = {
    opening,
    at,
    to: size.to,
    names: [],
    inside: [size],
    bySize: size.value,
    byText: null,
    head: null,
    sure: true,
    plural: (counted?.value ?? 1) > 1,
    isNew: false,
  } as const;
  // "32 on the seventeen"
  if (
    word === 'the' &&
    forward &&
    size.value >= 7 &&
    (marked(tokens, size.to - 1) || (fastenerHead(tokens, size.to) === null && !/^(?:head|heads|socket|side)$/.test(bare(tokens, size.to))))
  )
    return withPlace(sentence, base);
  if (word === 'the')
    return /^(?:is|are|gets|get|goes|takes|'s)$/.test(bare(tokens, size.to)) && size.value >= 7 ? withPlace(sentence, base) : null;
  const next = bare(tokens, size.to);
  const each = readEach(sentence, size.to);
  if (each !== null && counted !== null) return withPlace(sentence, base);
  // "the line clamp is one ten"
  const alone =
    counted !== null &&
    size.value >= 7 &&
    size.value <= 36 &&
    /^(?:is|'s|just|got|has|with|and)$/.test(bare(tokens, at - 1)) &&
    !/^(?:foot|inch|newton|mil|mm|millimeter|millimetre|socket|degrees?|pounds?)$/.test(bare(tokens, size.to)) &&
    fastenerHead(tokens, size.to) === null;
  if (alone) return withPlace(sentence, base);
  const place =
    /^(?:at|in|by|down|up|near|under|behind)$/.test(next) ||
    (next === 'on' &&
      (/^(?:top|each)$/.test(bare(tokens, size.to + 1)) ||
        (bare(tokens, size.to + 1) === 'the' &&
          /^(?:top|bottom|left|right|front|back|side|inside|outside)$/.test(bare(tokens, size.to + 2)) &&
          /^(?:and|got|has|have)$/.test(bare(tokens, at - 1)))))
      ? readPlace(sentence, size.to)
      : null;
  const copula = at > 0 && !marked(tokens, at - 1) && /^(?:is|are|'s|'re|takes?|gets?|with|use|using|to)$/.test(bare(tokens, at - 1));
  return place !== null && place.words.length > 0 && !copula ? withPlace(sentence, base) : null;
}
