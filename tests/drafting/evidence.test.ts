import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { draftFrom, type Draft } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { quotes } from './quoted.ts';

const valued = ['count', 'size', 'torque', 'drive', 'square'] as const;

function unfounded(draft: Draft): readonly string[] {
  return draft.groups.flatMap((group) => [
    ...valued
      .filter((field) => group[field] !== null && !group.evidence.some((one) => one.field === field && one.said !== ''))
      .map((field) => `${group.name}: ${field} without evidence`),
    ...group.evidence.filter((one) => !quotes(group, one)).map(({ field, said }) => `${group.name}: ${field} is not in "${said}"`),
  ]);
}

const folder = join(import.meta.dirname, 'corpus/known');

it.each(readdirSync(folder).filter((file) => /\.(?:srt|txt)$/.test(file)))(
  'quotes for every value of %s a sentence that says it',
  (file) => {
    expect(unfounded(draftFrom(readTranscript(readFileSync(join(folder, file), 'utf8')), { name: file }))).toEqual([]);
  },
);

const thing = fc.constantFrom('starter', 'gearbox mount', 'sump', 'front cover', 'drop link', 'water pump', 'heat shield');
const head = fc.constantFrom('bolts', 'nuts', 'screws');
const count = fc.constantFrom('two', 'three', '4', 'six', 'eight');
const size = fc.constantFrom('13 mil', 'seventeen millimetre', 'three-quarter-inch', 'T40', 'half-inch');
const torque = fc.constantFrom('47 newton metres', 'twenty-two newton metres', '35 foot-pounds', '89 inch-pounds', '5 to 7 newton metres');
const sentence = fc
  .tuple(fc.integer({ min: 0, max: 5 }), thing, head, count, size, torque)
  .map(([form, what, bolts, many, wide, tight]) =>
    [
      `The ${what} has ${many} ${bolts}, ${wide}, ${tight}.`,
      `It's ${tight} on the ${what} ${bolts}. There are ${many} of them and they take a ${wide} socket.`,
      `${what}. ${many} ${bolts}. ${wide}. ${tight}.`,
      `On the ${what} there's ${many} ${bolts} and they get ${tight}.`,
      `Same again for the ${what}.`,
      `No, sorry, the ${what} gets ${tight}.`,
    ].at(form),
  );

it('gives no value that the quoted sentence does not say, whatever is said in which order', () => {
  fc.assert(
    fc.property(fc.array(sentence, { minLength: 1, maxLength: 8 }), (sentences) => {
      expect(unfounded(draftFrom(readTranscript(sentences.join(' ')), { name: 'talk' }))).toEqual([]);
    }),
    { numRuns: 60, seed: 20_261 },
  );
});
