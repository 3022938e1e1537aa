import type { Token } from './tokens.ts';
import { tellingApart } from './word-classes.ts';

/*
 * Automatic captions write what they hear: "for bolts", "ate newton metres", "won nut", "talk it to 47". Only neighbours that leave
 * no other reading change a word, since a count made out of a preposition would be a guess.
 */

const counting = /^(?:has|have|'s|is|are|'re|got|with|there|takes?|gets?|needs?|just|only|the|other|these|those|another|all|'ve)$/;
const units = /^(?:newton|newtons|foot|inch|mil|mils|mill|millimet(?:er|re)s?|mm|nm)$/;
const tens = /^(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)$/;
const people = /^(?:i|we|he|she|you|they|who|'ve|'d|never)$/;
const plurals = /^(?:bolts|nuts|screws|studs|capscrews|plugs|fasteners|fixings)$/;

/** Puts the numbers and words back that captions wrote down as other words of the same sound. */
export function mendHomophones(tokens: readonly Token[]): readonly Token[] {
  const mended: Token[] = [];
  for (const [at, token] of tokens.entries()) {
    const before = mended.at(-1)?.bare ?? '';
    const words = meant(tokens, at, before);
    for (const [index, bare] of words.entries()) mended.push({ ...token, bare, mark: index === words.length - 1 ? token.mark : '' });
  }
  return mended;
}

function meant(tokens: readonly Token[], at: number, before: string): readonly string[] {
  const word = tokens[at]?.bare ?? '';
  const open = (tokens[at]?.mark ?? '') === '';
  const next = open ? (tokens[at + 1]?.bare ?? '') : '';
  switch (word) {
    case 'ate':
      return people.test(before) ? ['ate'] : ['eight'];
    case 'won':
      return people.test(before) ? ['won'] : ['one'];
    case 'for':
    case 'fore':
      return countsFasteners(tokens, at, before) || (tens.test(before) && units.test(next)) ? ['four'] : [word];
    case 'to':
    case 'too':
      return countsFasteners(tokens, at, before) || (tens.test(before) && units.test(next)) ? ['two'] : [word];
    case 'there':
    case 'their':
      return /^(?:only|just|all|both)$/.test(next) && !/^(?:is|are|in|up|out|over|right|from)$/.test(before) ? ['they', "'re"] : [word];
    case 'talk':
    case 'torch':
      return /^(?:it|them|those|that|these)$/.test(next) && (tokens[at + 2]?.bare ?? '') === 'to' ? ['torque'] : [word];
    case 'boats':
      return ['bolts'];
    case 'torked':
    case 'talked':
      return word === 'torked' || /^(?:to|up|at)$/.test(next) ? ['torqued'] : [word];
    case 'knots':
      return ['nuts'];
    default:
      return [word];
  }
}

/** "has for bolts", "there's too each side", "got to little ones going in": a counting verb before, fasteners in the plural after. */
function countsFasteners(tokens: readonly Token[], at: number, before: string): boolean {
  if (!counting.test(before) || (tokens[at]?.mark ?? '') !== '') return false;
  const next = tokens[at + 1]?.bare ?? '';
  if (/^(?:each|per|apiece)$/.test(next) && /^(?:'s|is|are|got|have|has)$/.test(before)) return true;
  if (next === 'of' && /^(?:them|those|these)$/.test(tokens[at + 2]?.bare ?? '')) return true;
  for (let index = at + 1; index < at + 5; index++) {
    const word = tokens[index]?.bare ?? '';
    if (plurals.test(word)) return true;
    if (word === 'ones') return index > at + 1;
    if ((tokens[index]?.mark ?? '') !== '' || !(tellingApart.has(word) || /^(?:new|\d+|mm|mil|millimet(?:er|re)|m\d+)$/.test(word)))
      return false;
  }
  return false;
}
