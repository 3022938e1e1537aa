import { readNumber } from './number-words.ts';
import type { QuantitySpan } from './quantities.ts';
import { bare, marked } from './sentence-view.ts';
import type { Token } from './tokens.ts';

/** T50, E12, "torx 50", M10, "M12 by 1.25", "number two Phillips". */
export function readDesignator(tokens: readonly Token[], at: number): QuantitySpan | null {
  const word = bare(tokens, at);
  const joined = /^([tem])(\d{1,3})(s?)$/.exec(word);
  const number = /^[tem]$/.test(word) && !marked(tokens, at) ? readNumber(tokens, at + 1) : null;
  if (joined !== null || (number !== null && Number.isInteger(number.value) && number.value >= 3 && number.value <= 100 && word !== 'm')) {
    const letter = joined?.[1] ?? word;
    const size = joined?.[2] ?? String(number?.value);
    const to = at + (joined === null ? 1 + (number?.length ?? 0) : 1);
    const plural = joined?.[3] === 's' || number?.plural === true;
    if (letter !== 'm') return { kind: 'serration', text: `${letter.toUpperCase()}${size}`, plural, from: at, to };
    return withPitch(tokens, at, to, `M${size}`, plural);
  }
  if (['torx', 'star', 'hexalobular'].includes(word)) {
    const next = bare(tokens, at + 1) === 'bit' || bare(tokens, at + 1) === 'number' ? at + 2 : at + 1;
    const size = readNumber(tokens, next);
    if (size !== null && !marked(tokens, at) && size.value >= 5 && size.value <= 100 && Number.isInteger(size.value) && !size.plural)
      return { kind: 'serration', text: `T${size.value}`, plural: false, from: at, to: next + size.length };
    return null;
  }
  if (/^(?:ph|pz)\d$/.test(word)) return { kind: 'cross-head', number: word.slice(2), from: at, to: at + 1 };
  const crossHead = (index: number) =>
    /^(?:phillips|pozi|pozidriv|pozidrive)$/.test(bare(tokens, index)) ||
    (bare(tokens, index) === 'cross' && /^(?:head|point|slot|heads)$/.test(bare(tokens, index + 1)));
  const crossLength = (index: number) => (bare(tokens, index) === 'cross' ? 2 : 1);
  if (crossHead(at)) {
    const next = at + crossLength(at);
    const skip = bare(tokens, next) === 'number' ? 1 : 0;
    const size = skip === 1 ? readNumber(tokens, next + skip) : null;
    return {
      kind: 'cross-head',
      number: size === null ? null : String(size.value),
      from: at,
      to: size === null ? next : next + skip + size.length,
    };
  }
  if (word === 'number') {
    const size = readNumber(tokens, at + 1);
    if (size !== null && crossHead(at + 1 + size.length)) {
      const to = at + 1 + size.length;
      return { kind: 'cross-head', number: String(size.value), from: at, to: to + crossLength(to) };
    }
  }
  return null;
}

function withPitch(tokens: readonly Token[], from: number, to: number, text: string, plural: boolean): QuantitySpan {
  const pitch = /^(?:by|x)$/.test(bare(tokens, to)) && !marked(tokens, to - 1) ? readNumber(tokens, to + 1) : null;
  if (pitch !== null && pitch.value > 0.2 && pitch.value <= 4)
    return { kind: 'thread', text: `${text}x${pitch.value}`, plural, from, to: to + 1 + pitch.length };
  return { kind: 'thread', text, plural, from, to };
}
