import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitText } from '../../../src/speech/voice/text-chunks.ts';

const texts = (text: string, limit = 120, fine = false) => splitText(text, limit, fine).map((chunk) => chunk.text);

describe('splitting a text for the voice', () => {
  it('cuts at the ends of sentences but not inside numbers', () => {
    expect(texts('Set the wrench to 10.5. Then tighten bolt 3.\nDone?')).toEqual([
      'Set the wrench to 10.5.',
      'Then tighten bolt 3.',
      'Done?',
    ]);
  });

  it('cuts at colons only when asked to be fine', () => {
    expect(texts('Four seven: forty-seven newton metres.')).toHaveLength(1);
    expect(texts('Four seven: forty-seven newton metres.', 120, true)).toEqual(['Four seven:', 'forty-seven newton metres.']);
  });

  it('cuts a long sentence at commas, as late as fits', () => {
    expect(texts('Left front, right rear, right front, left rear', 24)).toEqual(['Left front, right rear,', 'right front, left rear']);
  });

  it('loses nothing but white space and stretches without sound, keeps to the limit, and tells where each chunk begins', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom('a', 'b', '7', ' ', ',', '.', ':', '?', '\n', '…') }),
        fc.integer({ min: 12, max: 40 }),
        fc.boolean(),
        (text, limit, fine) => {
          const chunks = splitText(text, limit, fine);
          for (const chunk of chunks) {
            expect(text.slice(chunk.start, chunk.start + chunk.text.length)).toBe(chunk.text);
            expect(chunk.text.length <= limit || !/\s/.test(chunk.text)).toBe(true);
          }
          const sounds = (value: string) => value.replace(/[^\p{L}\p{N}]/gu, '');
          expect(sounds(chunks.map((chunk) => chunk.text).join(''))).toBe(sounds(text));
        },
      ),
    );
  });
});
