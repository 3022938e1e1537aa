/** Coefficients of Lanczos's series for g = 7, nine terms (Godfrey 2001): about 15 digits. */
const lanczos = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
  -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** Natural logarithm of the gamma function, for positive arguments. */
function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const z = x - 1;
  const t = z + 7.5;
  const series = lanczos.reduce((sum, coefficient, index) => (index === 0 ? coefficient : sum + coefficient / (z + index)), 0);
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(series);
}

/** Natural logarithm of "n choose k". */
export function logChoose(n: number, k: number): number {
  return logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);
}

/** The regularised incomplete beta function I_x(a, b), by Lentz's continued fraction (DLMF 8.17.22). */
export function regularizedBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - regularizedBeta(1 - x, b, a);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b)) / a;
  const tiny = 1e-300;
  const away = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-15) break;
  }
  return front * fraction;
}

/** Probability that Student's t with `freedom` degrees is at most `t`. */
export function studentBelow(t: number, freedom: number): number {
  const tail = 0.5 * regularizedBeta(freedom / (freedom + t * t), freedom / 2, 0.5);
  return t < 0 ? tail : 1 - tail;
}

/** Quantiles found before: every interval asks for the same few, and each takes a search. */
const studentFound = new Map<number, Map<number, number>>();

/** The value that Student's t with `freedom` degrees stays below with `probability`. */
export function studentQuantile(probability: number, freedom: number): number {
  if (probability === 0.5) return 0;
  if (probability < 0.5) return -studentQuantile(1 - probability, freedom);
  const found = studentFound.get(probability) ?? new Map<number, number>();
  studentFound.set(probability, found);
  const quantile = found.get(freedom) ?? searchStudent(probability, freedom);
  found.set(freedom, quantile);
  return quantile;
}

function searchStudent(probability: number, freedom: number): number {
  let low = 0;
  let high = 2;
  while (studentBelow(high, freedom) < probability && high < 1e12) high *= 2;
  for (let step = 0; step < 200 && high - low > 1e-14 * high; step++) {
    const middle = (low + high) / 2;
    if (studentBelow(middle, freedom) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Probability that a standard normal value is above `z`, by series near zero and continued fraction in the tail (DLMF 7.6.2, 7.9.1). */
export function normalAbove(z: number): number {
  if (z < 0) return 1 - normalAbove(-z);
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (z < 3) {
    let term = z;
    let sum = z;
    for (let odd = 3; odd < 200 && term > 1e-18 * sum; odd += 2) {
      term *= (z * z) / odd;
      sum += term;
    }
    return 0.5 - density * sum;
  }
  let fraction = z;
  for (let level = 200; level >= 1; level--) fraction = z + level / fraction;
  return density / fraction;
}
