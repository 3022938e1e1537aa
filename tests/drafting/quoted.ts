import type { Draft, DraftEvidence, DraftGroup } from '../../src/drafting/draft.ts';
import { readQuantities } from '../../src/drafting/quantities.ts';
import { otherReadings } from '../../src/drafting/reader/other-readings.ts';
import { tokensOf } from '../../src/drafting/tokens.ts';

/** Every number that a quoted sentence says, in words or digits: 47 for "forty-seven", 9/16 for "nine-sixteenths", 216 and 16 for "two sixteen". */
function numbersOf(said: string): { readonly numbers: ReadonlySet<number>; readonly texts: ReadonlySet<string>; readonly words: string } {
  const tokens = tokensOf(said.split(/\s+/).map((text) => ({ text, at: null, before: 'nothing' as const })));
  const numbers = new Set<number>();
  const texts = new Set<string>();
  const settled = readQuantities(tokens);
  for (const quantity of [...settled, ...otherReadings(tokens, settled)]) {
    if ('value' in quantity) numbers.add(quantity.value);
    if ('low' in quantity) numbers.add(quantity.low);
    if ('high' in quantity && quantity.high !== null) numbers.add(quantity.high);
    if ('written' in quantity) texts.add(quantity.written);
    if ('text' in quantity) texts.add(quantity.text);
    if ('size' in quantity) texts.add(quantity.size);
    if ('number' in quantity && quantity.number !== null) texts.add(quantity.number);
  }
  return { numbers, texts, words: tokens.map(({ bare }) => bare).join(' ') };
}

/** True where the sentence quoted for a value says that value, or the number that it was counted up from. */
function quotes(group: DraftGroup, { field, said }: DraftEvidence): boolean {
  const { numbers, texts, words } = numbersOf(said);
  switch (field) {
    case 'torque':
      return group.torqueRange === null ? numbers.has(group.torque ?? Number.NaN) : group.torqueRange.every((end) => numbers.has(end));
    case 'size':
      return texts.has(group.size ?? '') || numbers.has(Number(group.size));
    case 'count': {
      const count = group.count ?? 0;
      // Counted by each, by side, in parts, or one because it is spoken of as one.
      const factors = [...numbers].some((number) => number > 0 && (number === count || count % number === 0 || number > count));
      return factors || count === 1 || /\b(?:a|an|each|both|pair|couple|every|per|dozen|side|end|same)\b/.test(words);
    }
    default:
      return said !== '';
  }
}

const valued = ['count', 'size', 'torque', 'drive', 'square'] as const;

/** What a draft tells without a sentence that says it. */
export function unfounded(draft: Draft): readonly string[] {
  return draft.groups.flatMap((group) => [
    ...valued
      .filter((field) => group[field] !== null && !group.evidence.some((one) => one.field === field && one.said !== ''))
      .map((field) => `${group.name}: ${field} without evidence`),
    ...group.evidence.filter((one) => !quotes(group, one)).map(({ field, said }) => `${group.name}: ${field} is not in "${said}"`),
  ]);
}
