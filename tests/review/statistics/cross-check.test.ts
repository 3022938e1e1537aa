import fc from 'fast-check';
import * as peer from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { normalAbove, regularizedBeta, studentBelow } from '../../../src/review/statistics/distributions.ts';
import { findingsAmong } from '../../../src/review/statistics/false-discovery.ts';
import { curveUpTo, fitLearningCurve, fitSharedRate, runReachingAim, timeOfRun } from '../../../src/review/statistics/learning-curve.ts';
import { fitLine, lineReach } from '../../../src/review/statistics/line-fit.ts';
import { medianPolish } from '../../../src/review/statistics/median-polish.ts';
import { moments } from '../../../src/review/statistics/moments.ts';
import { outlierFences } from '../../../src/review/statistics/outliers.ts';
import { medianInterval, medianOf, quantileOfSorted, sorted } from '../../../src/review/statistics/quantiles.ts';
import { compareByRanks, chancesAmong, shiftBetween } from '../../../src/review/statistics/rank-sum.ts';
import { spreadShares } from '../../../src/review/statistics/spread-shares.ts';
import { atLeastSoManyByChance } from '../../../src/review/statistics/two-by-two.ts';

const times = (minLength: number): fc.Arbitrary<number[]> =>
  fc.array(fc.double({ min: 0.1, max: 5000, noNaN: true }), { minLength, maxLength: 60 });
const near = (one: number, other: number): void => expect(Math.abs(one - other)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(other)));

describe('beside simple-statistics', () => {
  it('has the same mean, deviation and median', () => {
    fc.assert(
      fc.property(times(2), (values) => {
        near(moments(values)!.mean, peer.mean(values));
        near(moments(values)!.deviation, peer.sampleStandardDeviation(values));
        near(medianOf(values), peer.median(values));
      }),
    );
  });

  it('has the same line', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -99, max: 99 }), fc.integer({ min: -99, max: 99 })), { minLength: 3, maxLength: 40 }),
        (points) => {
          const fit = fitLine(
            points.map(([x]) => x),
            points.map(([, y]) => y),
          );
          fc.pre(fit !== null);
          const other = peer.linearRegression(points);
          near(fit.slope, other.m);
          near(fit.intercept, other.b);
        },
      ),
    );
  });

  it('has the same rank sum', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 9 }),
        fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 9 }),
        (one, other) => {
          const sum = peer.wilcoxonRankSum(one, other);
          near(compareByRanks(one, other)!.u, sum - (one.length * (one.length + 1)) / 2);
        },
      ),
    );
  });

  it('has the same normal tail, to the digits that its table holds', () => {
    for (const z of [0, 0.5, 1, 1.65, 1.96, 2.5, 3]) expect(normalAbove(z)).toBeCloseTo(1 - peer.cumulativeStdNormalProbability(z), 4);
  });
});

describe('quantiles', () => {
  it('interpolate between order statistics', () => {
    expect([0, 0.25, 0.5, 0.75, 0.9, 1].map((p) => quantileOfSorted([1, 2, 3, 4], p))).toEqual([1, 1.75, 2.5, 3.25, 3.7, 4]);
  });

  it('find the middle by selecting as by sorting, ties and long lists included', () => {
    const values = fc.oneof(
      fc.array(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e6, max: 1e6 }), { maxLength: 200 }),
      fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 200 }),
    );
    fc.assert(
      fc.property(values, (list) => {
        expect(medianOf(list)).toBe(quantileOfSorted(sorted(list), 0.5));
      }),
    );
  });

  it('stay within the values and rise with the share', () => {
    fc.assert(
      fc.property(
        times(1),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (values, one, other) => {
          const [low, high] = [Math.min(one, other), Math.max(one, other)].map((p) => quantileOfSorted(sorted(values), p));
          expect(low).toBeLessThanOrEqual(high! * (1 + 1e-12));
          expect(low).toBeGreaterThanOrEqual(Math.min(...values));
          expect(high).toBeLessThanOrEqual(Math.max(...values));
        },
      ),
    );
  });

  it('give an interval for the median of a hundred thousand values as quickly as of ten', () => {
    const interval = medianInterval(Array.from({ length: 100_000 }, (_, index) => index));
    // Normal approximation: n/2 − 0.98·√n.
    expect(interval!.k).toBeGreaterThan(49_680);
    expect(interval!.k).toBeLessThan(49_700);
    expect(interval!.confidence).toBeGreaterThan(0.95);
    expect(interval!.confidence).toBeLessThan(0.951);
  });
});

describe('distributions', () => {
  it('know the closed forms of the incomplete beta function', () => {
    for (const x of [0.01, 0.2, 0.5, 0.9]) {
      expect(regularizedBeta(x, 1, 3)).toBeCloseTo(1 - (1 - x) ** 3, 13);
      expect(regularizedBeta(x, 4, 1)).toBeCloseTo(x ** 4, 13);
    }
  });

  it('make Student’s t with one degree of freedom the arc tangent', () => {
    for (const t of [-3, -0.5, 0, 1, 12.7]) expect(studentBelow(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 12);
  });
});

describe('rank-sum test', () => {
  const shuffledChance = (one: readonly number[], other: readonly number[]): { twoSided: number; oneSided: number } => {
    const all = [...one, ...other];
    const observed = compareByRanks(one, other)!.u;
    const middle = (one.length * other.length) / 2;
    let far = 0;
    let above = 0;
    let every = 0;
    for (let chosen = 0; chosen < 2 ** all.length; chosen++) {
      const first = all.filter((_, index) => (chosen >> index) & 1);
      if (first.length !== one.length) continue;
      const u = compareByRanks(
        first,
        all.filter((_, index) => !((chosen >> index) & 1)),
      )!.u;
      every += 1;
      if (Math.abs(u - middle) >= Math.abs(observed - middle) - 1e-9) far += 1;
      if (u >= observed) above += 1;
    }
    return { twoSided: far / every, oneSided: above / every };
  };

  it('counts every way to deal the values out, ties included', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 4 }),
        fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 4 }),
        (one, other) => {
          const chance = shuffledChance(one, other);
          const result = compareByRanks(one, other)!;
          near(result.twoSided, chance.twoSided);
          near(result.oneSided, chance.oneSided);
          near(chancesAmong([...one, ...other], [one])[0]!, chance.oneSided);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('comes near the exact chance where it must approximate', () => {
    const one = Array.from({ length: 30 }, (_, index) => index * 1.07 + 4);
    const other = Array.from({ length: 30 }, (_, index) => index);
    const exact = compareByRanks(one, other)!;
    const normal = compareByRanks(one, other, 0)!;
    expect([exact.method, normal.method]).toEqual(['exact', 'normal']);
    expect(normal.twoSided / exact.twoSided).toBeGreaterThan(0.95);
    expect(normal.twoSided / exact.twoSided).toBeLessThan(1.05);
  });

  it('is exact for a few high values among very many', () => {
    const few = [1000, 1001, 1002, 1003, 1004];
    const many = Array.from({ length: 500 }, (_, index) => index);
    let ways = 1;
    for (let taken = 0; taken < 5; taken++) ways *= (505 - taken) / (taken + 1);
    expect(chancesAmong([...few, ...many], [few])[0]! * ways).toBeCloseTo(1, 9);
  });

  it('gives each of many groups the chance that it has alone', () => {
    const values = Array.from({ length: 60 }, (_, index) => (index * 37) % 53);
    const groups = [[52, 51, 50], [49, 52], [0, 1, 2], [10, 40, 52, 52], []];
    const alone = groups.map((group) => chancesAmong(values, [group])[0]!);
    expect(chancesAmong(values, groups)).toEqual(alone.map((chance): unknown => expect.closeTo(chance, 12)));
    // Two of them are too much work and are approximated; the others stay exact.
    const few = chancesAmong(values, groups, 3000);
    expect(few[0]).toBe(alone[0]);
  });

  it('finds a planted shift and says that it may be smaller or larger', () => {
    const one = Array.from({ length: 12 }, (_, index) => 10 + index);
    const shift = shiftBetween(
      one,
      one.map((value) => value - 3),
    );
    expect(shift!.shift).toBe(3);
    expect(shift!.low).toBeLessThan(3);
    expect(shift!.high).toBeGreaterThan(3);
  });

  it('has nothing to compare in an empty group', () => {
    expect(compareByRanks([], [1])).toBeNull();
    expect(shiftBetween([1], [])).toBeNull();
  });
});

describe('learning curve', () => {
  it('finds a curve again that it was made from', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 9000, noNaN: true }),
        fc.double({ min: 0.6, max: 0.99, noNaN: true }),
        fc.integer({ min: 3, max: 30 }),
        (first, rate, runs) => {
          const trials = Array.from({ length: runs }, (_, index) => ({
            run: index + 1,
            time: timeOfRun(first, Math.log2(rate), index + 1),
          }));
          const curve = fitLearningCurve(trials)!;
          near(curve.rate, rate);
          near(curve.first, first);
          const aimed = runReachingAim(curve, trials.at(-1)!.time);
          expect(aimed.kind === 'run' && aimed.run).toBe(runs);
        },
      ),
    );
  });

  it('gives a range that holds the run at which the aim is reached, or says that it has no end', () => {
    const noise = [1.06, 0.95, 1.02, 0.98, 1.04, 0.97, 0.99, 1.01];
    const curve = fitLearningCurve(noise.map((factor, index) => ({ run: index + 1, time: 600 * factor * (index + 1) ** -0.2 })))!;
    const aim = runReachingAim(curve, 380);
    expect(aim.kind).toBe('run');
    if (aim.kind !== 'run') return;
    expect(aim.earliest).toBeLessThanOrEqual(aim.run);
    expect(aim.latest ?? Infinity).toBeGreaterThanOrEqual(aim.run);
    const laid = curveUpTo(curve, 1000);
    expect(aim.run).toBe(laid.find(({ time }) => time <= 380)?.run);
    expect(aim.earliest).toBe(laid.find(({ low }) => low <= 380)?.run);
    expect(aim.latest).toBe(laid.find(({ high }) => high <= 380)?.run ?? null);
  });

  it('does not see an aim that a flat curve never comes to', () => {
    const curve = fitLearningCurve([1, 2, 3, 4].map((run) => ({ run, time: run % 2 === 0 ? 100 : 101 })))!;
    expect(runReachingAim(curve, 50).kind).toBe('not in sight');
  });

  it('needs three runs', () => {
    expect(
      fitLearningCurve([
        { run: 1, time: 10 },
        { run: 2, time: 8 },
      ]),
    ).toBeNull();
  });

  it('finds one rate in several procedures of different length', () => {
    const made = (first: number): { run: number; time: number }[] =>
      [1, 2, 3, 4, 5].map((run) => ({ run, time: first * run ** Math.log2(0.85) }));
    const shared = fitSharedRate([made(300), made(5000), made(60)]);
    near(shared!.rate, 0.85);
    expect(shared!.freedom).toBe(15 - 3 - 1);
  });

  it('widens where the line is asked about far from its points', () => {
    const fit = fitLine([1, 2, 3, 4, 5], [2, 1, 4, 3, 6])!;
    const width = lineReach(fit);
    expect(width(3)).toBeLessThan(width(5));
    expect(width(5)).toBeLessThan(width(20));
  });
});

describe('outliers', () => {
  it('are told by Tukey’s fences on the logarithms', () => {
    const values = [8, 9, 10, 10, 11, 11, 12, 13];
    const fences = outlierFences(values)!;
    const logs = values.map(Math.log);
    const [low, high] = [quantileOfSorted(values, 0.25), quantileOfSorted(values, 0.75)].map(Math.log);
    near(Math.log(fences.low), low! - 1.5 * (high! - low!));
    near(Math.log(fences.high), high! + 1.5 * (high! - low!));
    expect(logs.every((log) => log > Math.log(fences.low) && log < Math.log(fences.high))).toBe(true);
  });

  it('are not judged from fewer than eight values', () => {
    expect(outlierFences([1, 2, 3, 4, 5, 6, 700])).toBeNull();
  });
});

describe('shares of the spread', () => {
  const sharesOf = (one: readonly number[], other: readonly number[]): Float64Array | null =>
    spreadShares(
      {
        starts: [...one.keys(), one.length].map((run) => run * 2),
        part: one.flatMap(() => [0, 1]),
        value: one.flatMap((value, run) => [value, other[run]!]),
      },
      2,
      [...one.keys()],
    );

  it('add up to one and follow the part that varies', () => {
    // Times are known to the millisecond.
    const seconds = fc.nat(99_000).map((milliseconds) => milliseconds / 1000);
    fc.assert(
      fc.property(fc.array(fc.tuple(seconds, seconds), { minLength: 3, maxLength: 20 }), (runs) => {
        const shares = sharesOf(
          runs.map(([a]) => a),
          runs.map(([, b]) => b),
        );
        fc.pre(shares !== null);
        near(shares[0]! + shares[1]!, 1);
      }),
    );
    near(
      sharesOf([98.954, 0, 0], [0, 98.961, 98.937])!.reduce((sum, share) => sum + share),
      1,
    );
    expect([...sharesOf([5, 5, 5, 5], [1, 9, 2, 8])!]).toEqual([0, 1]);
  });

  it('are the covariances with the total, over its variance', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.integer({ min: 0, max: 99 }), fc.integer({ min: 0, max: 99 })), { minLength: 3 }), (runs) => {
        const totals = runs.map(([a, b]) => a + b);
        const shares = sharesOf(
          runs.map(([a]) => a),
          runs.map(([, b]) => b),
        );
        fc.pre(shares !== null);
        const parts = [runs.map(([a]) => a), runs.map(([, b]) => b)];
        for (const [index, part] of parts.entries())
          near(shares[index]!, peer.sampleCovariance(part, totals) / peer.sampleVariance(totals));
      }),
    );
  });

  it('take a part that a run has nothing of for nothing', () => {
    const there = { starts: [0, 1, 3, 3, 4], part: [0, 0, 1, 0], value: [4, 4, 6, 4] };
    expect([...spreadShares(there, 2, [0, 1, 3])!].map((share) => Math.round(share * 1e12) / 1e12)).toEqual([0, 1]);
  });
});

describe('median polish', () => {
  it('takes an additive table apart and leaves an odd cell standing', () => {
    const rows = [0, 1, 5, 7];
    const columns = [10, 20, 40, 45, 60];
    const table = rows.flatMap((row, y) =>
      columns.map((column, x) => (x === 2 && y === 1 ? NaN : row + column + (x === 3 && y === 2 ? 9 : 0))),
    );
    const { left } = medianPolish(Float64Array.from(table), columns.length);
    for (const [place, value] of left.entries()) expect(value).toBe(place === 7 ? NaN : place === 13 ? 9 : 0);
  });

  it('gives the same as taking medians out by hand, rows first', () => {
    const polishedByHand = (table: readonly number[][]): number[][] => {
      const left = table.map((row) => [...row]);
      const there = (values: readonly number[]): number => {
        const known = values.filter((value) => !Number.isNaN(value));
        return known.length === 0 ? 0 : peer.median(known);
      };
      for (let round = 0; round < 10; round++) {
        let moved = 0;
        for (const row of left) {
          const middle = there(row);
          moved += Math.abs(middle);
          for (const [x, value] of row.entries()) row[x] = value - middle;
        }
        for (const x of left[0]!.keys()) {
          const middle = there(left.map((row) => row[x]!));
          moved += Math.abs(middle);
          for (const row of left) row[x] = row[x]! - middle;
        }
        if (moved < 1e-5 * (left.length + left[0]!.length)) break;
      }
      return left;
    };
    const value = fc.oneof(
      { weight: 9, arbitrary: fc.double({ min: -5, max: 5, noNaN: true }) },
      { weight: 1, arbitrary: fc.constant(NaN) },
    );
    const tables = fc
      .nat({ max: 4 })
      .chain((more) => fc.array(fc.array(value, { minLength: more + 1, maxLength: more + 1 }), { minLength: 1, maxLength: 40 }));
    fc.assert(
      fc.property(tables, (table) => {
        const { left } = medianPolish(Float64Array.from(table.flat()), table[0]!.length);
        for (const [place, expected] of polishedByHand(table).flat().entries()) {
          if (Number.isNaN(expected)) expect(left[place]).toBeNaN();
          else expect(Math.abs(left[place]! - expected)).toBeLessThan(1e-9);
        }
      }),
    );
  });
});

describe('counting by chance', () => {
  it('agrees with the tea-tasting lady: three or four of four right', () => {
    // Fisher, The Design of Experiments: 17 of 70 ways, 1 of 70.
    expect(atLeastSoManyByChance(3, 4, 1, 4)).toBeCloseTo(17 / 70, 12);
    expect(atLeastSoManyByChance(4, 4, 0, 4)).toBeCloseTo(1 / 70, 12);
  });

  it('counts what was looked at and not listed, too', () => {
    const listed = [0.001, 0.02, 0.04];
    expect(findingsAmong(listed, 0.05, 10)).toEqual(findingsAmong([...listed, 1, 1, 1, 1, 1, 1, 1], 0.05).slice(0, 3));
  });

  it('keeps the findings of Benjamini and Hochberg’s own example', () => {
    // Fifteen chances of a trial of thrombolysis, 1995, section 3; four are kept at 5 %. The values from memory.
    const chances = [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528, 0.759, 1];
    expect(findingsAmong(chances, 0.05).filter(Boolean)).toHaveLength(4);
    expect(findingsAmong([1, 0.0001], 0.05)).toEqual([false, true]);
  });
});
