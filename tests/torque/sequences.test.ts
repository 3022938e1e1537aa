import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circlePlaces,
  circularOrder,
  clockOfPlaces,
  clockOnCircle,
  drawUpOrder,
  gridPlaces,
  orderPlaces,
  placeNames,
  spiralOrder,
  starOrder,
} from '../../src/torque/sequences.ts';
import type { Place } from '../../src/torque/sequences.ts';

const patterns = ['cross', 'circular', 'spiral', 'draw-up', 'listed'] as const;
const counts = fc.integer({ min: 1, max: 120 });
const isPermutation = (order: readonly number[], count: number) =>
  order.length === count && new Set(order).size === count && order.every((index) => index >= 0 && index < count);

/** The resultant of unit loads of those tightened so far, on an even circle: 1 is one fastener alone. */
function resultants(order: readonly number[]): number[] {
  let [x, y] = [0, 0];
  return order.map((index) => {
    x += Math.cos((2 * Math.PI * index) / order.length);
    y += Math.sin((2 * Math.PI * index) / order.length);
    return Math.hypot(x, y);
  });
}

describe('star order', () => {
  it('takes every fastener once', () => {
    fc.assert(fc.property(counts, (count) => isPermutation(starOrder(count), count)));
  });

  it('goes by opposite pairs when the count is even', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (half) => {
        const order = starOrder(half * 2);
        for (let pair = 0; pair < half; pair++) expect(Math.abs(order[2 * pair]! - order[2 * pair + 1]!)).toBe(half);
      }),
    );
  });

  it('is never more out of balance than one fastener alone', () => {
    for (let count = 1; count <= 40; count++) expect(Math.max(...resultants(starOrder(count)))).toBeLessThanOrEqual(1 + 1e-9);
  });

  it('is hardly more out of balance for more fasteners than any joint has', () => {
    fc.assert(fc.property(counts, (count) => Math.max(...resultants(starOrder(count))) <= 1.2));
  });

  it('never has one quadrant more than one fastener ahead of another when the count is a multiple of four', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 30 }), (quarter) => {
        const quadrants = [0, 0, 0, 0];
        for (const index of starOrder(quarter * 4)) {
          quadrants[Math.floor(index / quarter)]! += 1;
          expect(Math.max(...quadrants) - Math.min(...quadrants)).toBeLessThanOrEqual(1);
        }
      }),
    );
  });

  it('fills any quarter of the circle to within two fasteners of its share, whatever the count', () => {
    for (let count = 3; count <= 40; count++) {
      const width = Math.max(1, Math.round(count / 4));
      const tight = new Set<number>();
      for (const index of starOrder(count)) {
        tight.add(index);
        for (let start = 0; start < count; start++) {
          const within = Array.from({ length: width }, (_, step) => (start + step) % count).filter((place) => tight.has(place));
          expect(Math.abs(within.length - (tight.size * width) / count)).toBeLessThan(2);
        }
      }
    }
  });

  it('begins with the first and has nothing to say about none', () => {
    fc.assert(fc.property(counts, (count) => starOrder(count)[0] === 0));
    expect(starOrder(0)).toEqual([]);
  });
});

describe('the other orders', () => {
  it('go round', () => {
    expect(circularOrder(5)).toEqual([0, 1, 2, 3, 4]);
  });

  it('draw on by opposite pairs, each round led by another', () => {
    expect(drawUpOrder(4, 0)).toEqual([0, 2, 1, 3]);
    expect(drawUpOrder(4, 1)).toEqual([1, 3, 0, 2]);
    expect(drawUpOrder(4, 2)).toEqual(drawUpOrder(4, 0));
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 0, max: 40 }), (half, round) => {
        const order = drawUpOrder(half * 2, round);
        expect(isPermutation(order, half * 2)).toBe(true);
        for (let pair = 0; pair < half; pair++) expect(Math.abs(order[2 * pair]! - order[2 * pair + 1]!)).toBe(half);
      }),
    );
    fc.assert(fc.property(counts, fc.nat(40), (count, round) => isPermutation(drawUpOrder(count, round), count)));
  });

  it('draw on an odd count one further each round', () => {
    expect(drawUpOrder(5)).toEqual([0, 2, 4, 1, 3]);
    expect(drawUpOrder(5, 1)).toEqual([2, 4, 1, 3, 0]);
    expect(drawUpOrder(5, 6)).toEqual(drawUpOrder(5, 1));
  });

  it('have nothing to say about none', () => {
    expect([circularOrder(0), drawUpOrder(0, 3), spiralOrder(0, 4)]).toEqual([[], [], []]);
  });

  it('wind outward from the middle of two rows of five', () => {
    expect(spiralOrder(2, 5).map((index) => index + 1)).toEqual([3, 8, 7, 2, 4, 9, 6, 1, 5, 10]);
  });

  it('wind outward from the middle of a square', () => {
    const order = spiralOrder(3, 3);
    expect(order[0]).toBe(4);
    const ring = order.slice(1);
    for (const [step, index] of ring.slice(1).entries()) {
      const before = ring[step]!;
      const apart = Math.abs((index % 3) - (before % 3)) + Math.abs(Math.floor(index / 3) - Math.floor(before / 3));
      expect(apart).toBe(1);
    }
  });

  it('never wind inward', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }), (rows, columns) => {
        const order = spiralOrder(rows, columns);
        expect(isPermutation(order, rows * columns)).toBe(true);
        const rings = order.map((index) =>
          Math.max(Math.abs((index % columns) - (columns - 1) / 2), Math.abs(Math.floor(index / columns) - (rows - 1) / 2)),
        );
        expect(rings).toEqual([...rings].sort((a, b) => a - b));
      }),
    );
  });
});

describe('orders for places in a picture', () => {
  const place = fc.record({ x: fc.double({ min: 0, max: 1, noNaN: true }), y: fc.double({ min: 0, max: 1, noNaN: true }) });

  it.each(patterns)('take every place once (%s)', (pattern) => {
    fc.assert(fc.property(fc.array(place, { maxLength: 40 }), (places) => isPermutation(orderPlaces(pattern, places), places.length)));
  });

  it('agree with the star for an even circle', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 40 }), (count) => {
        expect(orderPlaces('cross', circlePlaces(count))).toEqual(starOrder(count));
      }),
    );
  });

  it('agree with the spiral for an even grid', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 6 }), (rows, columns) => {
        expect(orderPlaces('spiral', gridPlaces(rows, columns))).toEqual(spiralOrder(rows, columns));
      }),
    );
  });

  it('take opposite corners of a rectangle whichever way they are listed', () => {
    const rowByRow: Place[] = [
      { x: 0, y: 0 },
      { x: 1, y: 0 },
      { x: 0, y: 0.4 },
      { x: 1, y: 0.4 },
    ];
    expect(orderPlaces('cross', rowByRow)).toEqual([0, 3, 1, 2]);
  });

  it('keep an uneven ring in balance', () => {
    const angles = [0, 10, 20, 170, 190, 210, 180].map((degrees) => (degrees * Math.PI) / 180);
    const places = angles.map((angle) => ({ x: 0.5 + 0.5 * Math.sin(angle), y: 0.5 - 0.5 * Math.cos(angle) }));
    const order = orderPlaces('cross', places);
    let [x, y] = [0, 0];
    for (const index of order.slice(0, 6)) {
      x += Math.sin(angles[index]!);
      y += Math.cos(angles[index]!);
      expect(Math.hypot(x, y)).toBeLessThanOrEqual(1.1);
    }
  });

  /** On a circle at those degrees clockwise from the top. */
  const at = (...degrees: readonly number[]): Place[] =>
    degrees.map((angle) => ({
      x: 0.5 + 0.45 * Math.sin((angle * Math.PI) / 180),
      y: 0.5 - 0.45 * Math.cos((angle * Math.PI) / 180),
    }));

  it('cross over and to both sides before they come to the neighbour of one that is tight', () => {
    expect(orderPlaces('cross', at(0, 10, 90, 180, 270))).toEqual([0, 3, 2, 4, 1]);
  });

  it('go by what faces what and not by number where most stand on one side', () => {
    expect(orderPlaces('cross', at(0, 20, 40, 60, 180, 270)).slice(0, 3)).toEqual([0, 4, 5]);
  });

  it('keep the opposite pairs and the star of a ring that was drawn by hand', () => {
    expect(orderPlaces('cross', at(0, 40, 120, 180, 240, 300))).toEqual(starOrder(6));
    expect(orderPlaces('cross', at(0, 80, 140, 222, 280))).toEqual(starOrder(5));
  });

  it('cross a cover with two rows of three by opposite pairs', () => {
    expect(orderPlaces('cross', gridPlaces(2, 3))).toEqual([0, 5, 1, 4, 2, 3]);
  });

  it('go round from the first listed, the inner of two at one angle first', () => {
    const places = [...at(90, 180, 270, 0), { x: 0.5, y: 0.25 }];
    expect(orderPlaces('circular', places)).toEqual([0, 1, 2, 4, 3]);
    expect(orderPlaces('circular', [...places].reverse())).toEqual([0, 1, 4, 3, 2]);
  });

  it('count the rows and columns of a grid that was drawn by hand', () => {
    const shaky = gridPlaces(3, 4).map(({ x, y }, index) => ({ x: x + (index % 2) * 0.03, y: y - (index % 3) * 0.02 }));
    expect(orderPlaces('spiral', shaky).slice(0, 2).sort()).toEqual([5, 6]);
    expect(placeNames(gridPlaces(3, 3).map(({ x, y }, index) => ({ x: x + (index % 2) * 0.04, y })))).toEqual(placeNames(gridPlaces(3, 3)));
  });

  it('begin in the middle where there is one, however roughly it was placed', () => {
    expect(orderPlaces('cross', [...circlePlaces(6), { x: 0.5, y: 0.5 }])[0]).toBe(6);
    expect(orderPlaces('cross', [...circlePlaces(6), { x: 0.52, y: 0.53 }])).toEqual([6, ...starOrder(6)]);
    expect(orderPlaces('cross', [...circlePlaces(4), { x: 0.5, y: 0.4 }])[0]).toBe(0);
  });
});

describe('where a place is', () => {
  it('gives the hour on the clock face', () => {
    expect([0, 1, 2, 3].map((index) => clockOnCircle(index, 4))).toEqual([12, 3, 6, 9]);
    expect([0, 1, 2, 3, 4].map((index) => clockOnCircle(index, 5))).toEqual([12, 2.5, 5, 7, 9.5]);
  });

  it('stays between half past twelve and twelve, in half hours', () => {
    fc.assert(
      fc.property(counts, fc.nat(200), (count, index) => {
        const hour = clockOnCircle(index % count, count);
        expect(hour).toBeGreaterThanOrEqual(0.5);
        expect(hour).toBeLessThanOrEqual(12);
        expect(Number.isInteger(hour * 2)).toBe(true);
      }),
    );
  });

  it.each([2, 4, 6, 8, 12, 24])('gives the same hour from the picture of %d', (count) => {
    expect(clockOfPlaces(circlePlaces(count))).toEqual(circularOrder(count).map((index) => clockOnCircle(index, count)));
  });

  it('gives none for one in the middle, nor for one alone', () => {
    expect(clockOfPlaces([...circlePlaces(4), { x: 0.5, y: 0.5 }])[4]).toBeNull();
    expect(clockOfPlaces([{ x: 0.2, y: 0.3 }])).toEqual([null]);
  });

  it('draws them inside the picture, one alone in its middle', () => {
    expect(circlePlaces(1)).toEqual([{ x: 0.5, y: 0.5 }]);
    expect(circlePlaces(2)).toEqual([
      { x: 0.5, y: 0.05 },
      { x: 0.5, y: 0.95 },
    ]);
    expect(gridPlaces(2, 3)).toEqual([
      { x: 0.05, y: 0.05 },
      { x: 0.5, y: 0.05 },
      { x: 0.95, y: 0.05 },
      { x: 0.05, y: 0.95 },
      { x: 0.5, y: 0.95 },
      { x: 0.95, y: 0.95 },
    ]);
  });

  it('names corners and sides', () => {
    expect(placeNames(gridPlaces(2, 2))).toEqual(['top left', 'top right', 'bottom left', 'bottom right']);
    expect(placeNames(gridPlaces(1, 3))).toEqual(['left', 'middle', 'right']);
    expect(placeNames(gridPlaces(2, 1))).toEqual(['top', 'bottom']);
    expect(placeNames(gridPlaces(3, 3)).slice(0, 5)).toEqual(['top left', 'top middle', 'top right', 'middle left', 'middle']);
    expect(placeNames(circlePlaces(4))).toEqual(['top', 'right', 'bottom', 'left']);
    expect(placeNames(circlePlaces(3))).toEqual(['top', 'bottom right', 'bottom left']);
  });

  it('numbers what such names cannot tell apart', () => {
    expect(placeNames(circlePlaces(5))).toEqual(['number 1', 'number 2', 'number 3', 'number 4', 'number 5']);
    expect(placeNames([{ x: 0.5, y: 0.5 }])).toEqual(['number 1']);
    expect(placeNames(gridPlaces(1, 4))[3]).toBe('number 4');
    expect(placeNames(gridPlaces(4, 1))[0]).toBe('number 1');
  });

  it('never gives one name twice', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 5 }), (rows, columns) => {
        const names = placeNames(gridPlaces(rows, columns));
        expect(new Set(names).size).toBe(rows * columns);
      }),
    );
  });
});
