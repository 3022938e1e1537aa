import { describe, expect, it } from 'vitest';
import { order } from '../../src/cli/order.ts';
import { runVerb } from './terminal.ts';

const run = async (...args: readonly string[]) => {
  const { code, out, err } = await runVerb(order, args);
  return { exit: code, out, text: out.join('\n'), complaint: err.join('\n') };
};

describe('order', () => {
  it('prints a star with where each one is', async () => {
    const { out, exit } = await run('star', '10');
    expect(exit).toBe(0);
    expect(out[0]).toBe('1 6 3 8 5 10 2 7 4 9');
    expect(out.slice(2, 5)).toEqual(['   1  12 o’clock', '   6  6 o’clock', '   3  2:30 o’clock']);
    expect(out.at(-1)).toBe('Where the maker’s manual gives an order, that one holds.');
  });

  it('names the places of a few', async () => {
    expect((await run('cross', '4')).out.slice(2, 6)).toEqual([
      '   1  12 o’clock, top',
      '   3  6 o’clock, bottom',
      '   2  3 o’clock, right',
      '   4  9 o’clock, left',
    ]);
  });

  it('goes round', async () => {
    expect((await run('circular', '5')).out[0]).toBe('1 2 3 4 5');
  });

  it('winds outward, naming row and column', async () => {
    const { out } = await run('spiral', '2x5');
    expect(out[0]).toBe('3 8 7 2 4 9 6 1 5 10');
    expect(out[2]).toBe('   3  row 1, column 3');
    expect((await run('spiral', '3×3')).out[2]).toBe('   5  middle');
  });

  it('draws up in as many rounds as are asked for', async () => {
    expect((await run('draw-up', '4')).out[0]).toBe('1 3 2 4');
    expect((await run('draw-up', '4', '--rounds', '3')).out.slice(0, 3)).toEqual([
      'round 1: 1 3 2 4',
      'round 2: 2 4 1 3',
      'round 3: 1 3 2 4',
    ]);
  });

  it('gives the same as JSON', async () => {
    const { text } = await run('star', '4', '--json');
    expect(JSON.parse(text)).toMatchObject({
      pattern: 'star',
      order: [1, 3, 2, 4],
      rounds: [[1, 3, 2, 4]],
      positions: [
        { number: 1, clock: 12, name: 'top' },
        { number: 2, clock: 3, name: 'right' },
        { number: 3, clock: 6, name: 'bottom' },
        { number: 4, clock: 9, name: 'left' },
      ],
    });
  });

  it.each([
    [],
    ['star'],
    ['star', '0'],
    ['star', 'ten'],
    ['star', '501'],
    ['star', '4', '5'],
    ['zigzag', '4'],
    ['spiral', '10'],
    ['spiral', '0x5'],
    ['spiral', '100x100'],
    ['star', '4', '--rounds', '2'],
    ['draw-up', '4', '--rounds', '0'],
    ['star', '4', '--frob'],
  ])('refuses %j', async (...args) => {
    const { exit, complaint, out } = await run(...args);
    expect(exit).toBe(2);
    expect(complaint).toContain('order star|circular|draw-up COUNT');
    expect(out).toEqual([]);
  });

  it.each([
    [['zigzag', '8'], 'found the order "zigzag", expected star, circular, draw-up or spiral'],
    [['star', 'ten'], 'found "ten", expected a whole number from 1 to 500'],
    [['star'], 'found no count after "star", expected a whole number from 1 to 500'],
    [['spiral', '10'], 'found "10", expected rows and columns such as 2x5, at most 500 fasteners'],
    [['star', '8', '9'], 'found "9" after the count, expected nothing'],
    [['star', '8', '--rounds', '2'], 'found --rounds with "star", expected it with draw-up alone'],
    [['draw-up', '8', '--rounds', 'many'], '--rounds: found "many", expected a whole number from 1 to 50'],
  ])('says of %j what was found and what was expected', async (args, complaint) => {
    const result = await run(...args);
    expect(result.exit).toBe(2);
    expect(result.complaint).toContain(complaint);
  });
});
