import fc from 'fast-check';
import { expect, it } from 'vitest';
import { talkReader } from '../../src/cli/talk-reader.ts';
import { draftOf, hearAndRead } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { unfounded } from './quoted.ts';

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

const read = talkReader();
it.each([
  ['the rules', null],
  ['the rules and the net', read],
] as const)('gives no value by %s that the quoted sentence does not say, whatever is said in which order', (_, reader) => {
  fc.assert(
    fc.property(fc.array(sentence, { minLength: 1, maxLength: 8 }), (sentences) => {
      const heard = hearAndRead(readTranscript(sentences.join(' ')), reader);
      expect(unfounded(draftOf(heard, { name: 'talk' }))).toEqual([]);
      expect(unfounded(draftOf(heard, { name: 'talk', holdBack: false }))).toEqual([]);
    }),
    { numRuns: 60, seed: 20_261 },
  );
});
