import { tidy } from '../torque/numbers.ts';
import { readFraction, readNumber } from './number-words.ts';
import type { QuantitySpan } from './quantities.ts';
import { bare } from './sentence-view.ts';
import type { Token } from './tokens.ts';
import { oneOf } from './unit-words.ts';

export const turnWords = oneOf('turn turns');
const furtherWords = oneOf('another further plus more additional extra then past and');

/** "a quarter turn", "half a turn", "an eighth of a turn", "a turn and a half", "ninety degrees". */
export function readTurn(tokens: readonly Token[], at: number): QuantitySpan | null {
  const further = (from: number, to: number) =>
    [from - 1, from - 2, from - 3].some(
      (index) => index >= 0 && furtherWords.has(bare(tokens, index)) && !/[.?!]/.test(tokens[index]?.mark ?? ''),
    ) ||
    furtherWords.has(bare(tokens, to)) ||
    bare(tokens, to) === 'after';
  if (/^(?:a|one|full)$/.test(bare(tokens, at)) || turnWords.has(bare(tokens, at))) {
    const turn = [at, at + 1, at + 2].find((index) => turnWords.has(bare(tokens, index)));
    const between = turn === undefined ? [] : tokens.slice(at, turn).map((token) => token.bare);
    if (turn !== undefined && between.every((word) => /^(?:a|one|full)$/.test(word)) && (turn > at || bare(tokens, at + 1) === 'and')) {
      const half = bare(tokens, turn + 1) === 'and' ? readFraction(tokens, turn + 2) : null;
      const to = turn + 1 + (half === null ? 0 : 1 + half.length);
      return { kind: 'angle', degrees: 360 * (1 + (half?.value ?? 0)), further: further(at, to), from: at, to };
    }
  }
  const fraction = readFraction(tokens, at);
  if (fraction !== null && fraction.value < 1) {
    let next = at + fraction.length;
    if (bare(tokens, next) === 'of') next++;
    if (/^(?:a|an)$/.test(bare(tokens, next))) next++;
    if (turnWords.has(bare(tokens, next)))
      return { kind: 'angle', degrees: tidy(360 * fraction.value), further: further(at, next + 1), from: at, to: next + 1 };
  }
  const number = readNumber(tokens, at);
  if (number === null || !/^degrees?$/.test(bare(tokens, at + number.length))) return null;
  const to = at + number.length + 1;
  if (/^(?:celsius|fahrenheit|c|f)$/.test(bare(tokens, to)))
    return { kind: 'other', what: 'temperature', value: number.value, from: at, to: to + 1 };
  const turned = turnWords.has(bare(tokens, to)) ? 1 : 0;
  return { kind: 'angle', degrees: number.value, further: turned === 1 || further(at, to + turned), from: at, to: to + turned };
}
