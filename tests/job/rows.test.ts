import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Rows } from '../../src/job/rows.ts';

describe('rows', () => {
  it('do what an array does, and leave the one that they were made from alone', () => {
    fc.assert(
      fc.property(fc.array(fc.integer(), { minLength: 1, maxLength: 300 }), fc.nat(), fc.integer(), (entries, place, entry) => {
        const rows = Rows.of(entries);
        const index = place % entries.length;
        const changed = rows.with(index, entry);
        expect([...changed]).toEqual(entries.with(index, entry));
        expect([...rows]).toEqual(entries);
        expect(changed.get(index)).toBe(entry);
        expect(changed.length).toBe(entries.length);
        expect([...rows.map((value) => value + 1)]).toEqual(entries.map((value) => value + 1));
      }),
    );
  });

  it('have nothing outside, and refuse to put anything there', () => {
    const rows = Rows.of([1, 2, 3]);
    expect(rows.get(-1)).toBeUndefined();
    expect(rows.get(3)).toBeUndefined();
    expect(() => rows.with(700, 1)).toThrow(RangeError);
  });
});
