import { describe, expect, it } from 'vitest';
import { normalTime, observationsNeeded, standardTime } from '../../src/review/statistics/fair-time.ts';
import { exponentOfRate, timeOfRun } from '../../src/review/statistics/learning-curve.ts';
import { fitLine } from '../../src/review/statistics/line-fit.ts';
import { moments } from '../../src/review/statistics/moments.ts';
import { medianInterval } from '../../src/review/statistics/quantiles.ts';
import { compareByRanks } from '../../src/review/statistics/rank-sum.ts';
import { studentQuantile } from '../../src/review/statistics/distributions.ts';

describe('observations needed', () => {
  it('gives the unrounded value of Heizer and Render, problem 10.26 (second-hand; printed as 14.13 with s rounded to 0.35)', () => {
    const times = moments([3.5, 3.2, 4.1, 3.6, 3.9]);
    expect(times?.mean).toBeCloseTo(3.66, 12);
    expect(times?.deviation).toBeCloseTo(0.350713558, 9);
    expect(observationsNeeded(times!, { share: 0.05, z: 1.96 })).toBeCloseTo(14.109612, 6);
  });

  it('gives the unrounded value of Heizer and Render, problem 10.27 (second-hand; printed as 426, though a ceiling gives 427)', () => {
    expect(observationsNeeded({ mean: 3.2, deviation: 1.28 }, { share: 0.05, z: 2.58 })).toBeCloseTo(426.0096, 9);
  });
});

describe('normal and standard time', () => {
  // Stevenson, Operations Management, formulas 7-6 to 7-8 (seen).
  it('divides by one less the allowance when it is a share of the working day', () => {
    const normal = normalTime(18.75, 0.96);
    expect(normal).toBeCloseTo(18, 12);
    expect(standardTime(normal, 0.15, 'day')).toBeCloseTo(21.176471, 6);
  });

  it('multiplies by one and the allowance when it is a share of the job', () => {
    expect(standardTime(18, 0.15, 'job')).toBeCloseTo(20.7, 12);
  });

  it('sums rated elements as Heizer and Render, problem 10.28, does (second-hand)', () => {
    const normal = normalTime(37.8, 1.2) + normalTime(12.5, 1.1) + normalTime(4, 0.9) + normalTime(17.75, 0.85);
    expect(normal).toBeCloseTo(77.7975, 10);
    expect(standardTime(normal, 0.15, 'day')).toBeCloseTo(91.526471, 6);
  });
});

describe('unit learning curve', () => {
  // Tables of the unit model in textbooks of operations management; computed from y = x^log2(rate).
  it.each([
    [0.8, 2, 0.8],
    [0.8, 4, 0.64],
    [0.8, 10, 0.47651],
    [0.8, 100, 0.227062],
    [0.85, 10, 0.58282],
    [0.9, 20, 0.634219],
  ])('at %d, run %d takes %d of the first', (rate, run, share) => {
    expect(timeOfRun(1, exponentOfRate(rate), run)).toBeCloseTo(share, 6);
  });
});

describe('median interval by order statistics', () => {
  // Computed from the binomial distribution with p = ½ (Conover, Practical Nonparametric Statistics).
  it.each([
    [6, 1, 0.96875],
    [9, 2, 0.9609375],
    [12, 3, 0.961425781],
    [20, 6, 0.958610535],
  ])('of %d values takes the number %d from either end', (count, k, confidence) => {
    const values = Array.from({ length: count }, (_, index) => index + 1);
    const interval = medianInterval(values);
    expect(interval?.k).toBe(k);
    expect(interval?.confidence).toBeCloseTo(confidence, 8);
    expect([interval?.low, interval?.high]).toEqual([k, count + 1 - k]);
  });

  it.each([0, 1, 2, 3, 4, 5])('of %d values there is none at 95 %%', (count) => {
    expect(medianInterval(Array.from({ length: count }, (_, index) => index))).toBeNull();
  });
});

describe('rank-sum test', () => {
  it('agrees with the tabled example of two small groups (U 17 and 3, exact two-sided 0.1111)', () => {
    const result = compareByRanks([19, 22, 16, 29, 24], [20, 11, 17, 12]);
    expect([result?.u, result?.uOther]).toEqual([17, 3]);
    expect(result?.method).toBe('exact');
    expect(result?.twoSided).toBeCloseTo(0.1111111, 7);
  });

  it('agrees with the permeability example of Hollander and Wolfe (U 35, exact one-sided 0.1272)', () => {
    const term = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46];
    const early = [1.15, 0.88, 0.9, 0.74, 1.21];
    const result = compareByRanks(term, early);
    expect(result?.u).toBe(35);
    expect(result?.oneSided).toBeCloseTo(0.1272061, 7);
  });
});

describe('NIST Statistical Reference Datasets', () => {
  it('Michelso: mean and standard deviation of 100 measurements of the speed of light', () => {
    // Last three digits of 299.xxx, in thousandths of a thousand km/s; the data from memory, which the certified values confirm.
    const data = `850 740 900 1070 930 850 950 980 980 880 1000 980 930 650 760 810 1000 1000 960 960
      960 940 960 940 880 800 850 880 900 840 830 790 810 880 880 830 800 790 760 800
      880 880 880 860 720 720 620 860 970 950 880 910 850 870 840 840 850 840 840 840
      890 810 810 820 800 770 760 740 750 760 910 920 890 860 880 720 840 850 850 780
      890 840 780 810 760 810 790 810 820 850 870 870 810 740 810 940 950 800 810 870`;
    const result = moments(
      data
        .trim()
        .split(/\s+/)
        .map((digits) => 299 + Number(digits) / 1000),
    );
    expect(result?.count).toBe(100);
    expect(result?.mean).toBeCloseTo(299.8524, 11);
    expect(result?.deviation).toBeCloseTo(0.0790105478190518, 11);
  });

  it('NumAcc1: three values of eight digits', () => {
    const result = moments([10000001, 10000003, 10000002]);
    expect([result?.mean, result?.deviation]).toEqual([10000002, 1]);
  });

  // Each is the same 1001 values, farther and farther from zero. What a double cannot hold of the data itself bounds the digits.
  it.each([
    ['NumAcc2', 1.2, 13],
    ['NumAcc3', 1000000.2, 9],
    ['NumAcc4', 10000000.2, 8],
  ])('%s: standard deviation 0.1 about %d', (_, middle, digits) => {
    const values = Array.from({ length: 1001 }, (_value, index) =>
      index === 0 ? middle : index % 2 === 1 ? Number((middle - 0.1).toFixed(1)) : Number((middle + 0.1).toFixed(1)),
    );
    const result = moments(values);
    expect(Math.abs(result!.mean / middle - 1)).toBeLessThan(1e-15);
    expect(result?.deviation).toBeCloseTo(0.1, digits);
  });

  it('Norris: straight line through 36 points', () => {
    const y = `0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8
      557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2`;
    const x = `0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6
      556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5`;
    const numbers = (text: string): number[] => text.trim().split(/\s+/).map(Number);
    const fit = fitLine(numbers(x), numbers(y));
    expect(fit?.count).toBe(36);
    expect(fit?.intercept).toBeCloseTo(-0.262323073774029, 11);
    expect(fit?.slope).toBeCloseTo(1.00211681802045, 13);
    expect(fit?.rSquared).toBeCloseTo(0.999993745883712, 13);
    // Certified with the data set as well; from memory.
    expect(fit?.residual).toBeCloseTo(0.884796396144373, 11);
    expect(fit?.slopeError).toBeCloseTo(0.000429796848199937, 14);
  });
});

describe('Student’s t', () => {
  // Tables of the t distribution, 97.5 %; from memory, to the three decimals that tables print.
  it.each([
    [1, 12.706],
    [2, 4.303],
    [5, 2.571],
    [10, 2.228],
    [30, 2.042],
  ])('with %d degrees of freedom stays below %d', (freedom, value) => {
    expect(studentQuantile(0.975, freedom)).toBeCloseTo(value, 3);
  });
});
