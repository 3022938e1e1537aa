import type { QuantitySpan } from './quantities.ts';
import type { SaidSentence } from './sentences.ts';

const wordsOf = ({ tokens }: SaidSentence, from = 0, to = tokens.length) =>
  tokens
    .slice(Math.max(0, from), to)
    .map(({ bare }) => bare)
    .join(' ');

/** "Fourteen kilos on each, that's kilogram metres": who tightens in kilogram metres says "kilos" for short. */
export function withKilosTightened(sentences: readonly SaidSentence[]): readonly SaidSentence[] {
  const tightens = sentences.some(
    (sentence) =>
      sentence.quantities.some((quantity) => quantity.kind === 'torque' && quantity.unit === 'kgf·m') ||
      /\bkilo(?:gram)?s? met(?:re|er)s?\b/.test(wordsOf(sentence)),
  );
  if (!tightens) return sentences;
  return sentences.map((sentence) => ({
    ...sentence,
    quantities: sentence.quantities.map((quantity): QuantitySpan => {
      if (quantity.kind !== 'other' || quantity.what !== 'weight' || isWeight(sentence, quantity)) return quantity;
      return { kind: 'torque', low: quantity.value, high: null, unit: 'kgf·m', plusMinus: null, from: quantity.from, to: quantity.to };
    }),
  }));
}

/** "it weighs sixty kilos", "a sixty kilo box", "forty kilos of it" */
const isWeight = (sentence: SaidSentence, { from, to }: QuantitySpan): boolean =>
  !/^(?:kilos|kg)$/.test(wordsOf(sentence, to - 1, to)) ||
  /^of\b/.test(wordsOf(sentence, to, to + 1)) ||
  /\b(?:weighs?|weight|heavy|lift|lifts|pressure)\b/.test(wordsOf(sentence, from - 6, to + 4));
