import { expect, it } from 'vitest';
import { frenchPhones, frenchPronunciations } from '../../../src/speech/hearing/french-pronunciations.ts';
import { frenchVocabulary, frenchWordList } from './french-words.ts';

const list = '../../../src/speech/hearing/models/french-words.txt';

it('knows how every word of the French commands, numbers and units sounds', async () => {
  const { text, unknown } = frenchWordList();
  expect(unknown).toEqual([]);
  // Written anew by `npx vitest run --project unit -u tests/speech/hearing/french-words.test.ts`.
  await expect(text).toMatchFileSnapshot(list);
  const pronunciations = frenchPronunciations(text);
  const used = frenchVocabulary().flatMap((word) => pronunciations.waysOf(word).flatMap((ways) => ways.split(' ')));
  expect([...new Set(used)].filter((phone) => !frenchPhones.includes(phone))).toEqual([]);
});

it.each([
  ['marchand', 'mm aa rr ch an'],
  ['gautier', 'gg au tt yy ei'],
  ['moreau', 'mm oo rr au'],
  ['lemoine', 'll ee mm ww aa nn'],
  ['guignard', 'gg ii gn aa rr'],
  ['élise', 'ei ll ii zz'],
  ['vincent', 'vv in ss an'],
  ['camille', 'kk aa mm ii yy'],
])('spells the name %s', (name, phones) => {
  expect(frenchPronunciations('').waysOf(name)).toEqual([phones]);
});
