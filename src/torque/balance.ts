/** How finely the spread of the load is judged: the first is balance about the middle, the second ovalness, and so on. */
const harmonics = Array.from({ length: 16 }, (_, index) => index + 1);

/**
 * Begins with the first, then takes each time the one that leaves the load most evenly spread: the least sum of the squared harmonics of the unit loads so far,
 * each weighed by 1/h² (the way a quadrature rule's unevenness is judged). Among equals it takes the one furthest from the last,
 * then the first listed. For an even circle of up to 40 the resultant never exceeds one fastener's own load.
 */
export function balancedOrder(angles: readonly number[]): readonly number[] {
  const left = angles.map((angle, index) => ({ index, angle, waves: wavesOf(angle) }));
  const load: number[] = [];
  const order: number[] = [];
  let taken = left.shift();
  while (taken) {
    order.push(taken.index);
    taken.waves.forEach((wave, place) => (load[place] = (load[place] ?? 0) + wave));
    const last = taken.angle;
    const ranks = left.map(({ angle, waves }) => [unevenness(load, waves), Math.cos(angle - last)] as const);
    const best = ranks.reduce((least, rank, place) => (comesBefore(rank, ranks[least] ?? rank) ? place : least), 0);
    [taken] = left.splice(best, 1);
  }
  return order;
}

/** Cosine and sine of each harmonic, each already divided by its number. */
function wavesOf(angle: number): readonly number[] {
  return harmonics.flatMap((harmonic) => [Math.cos(harmonic * angle) / harmonic, Math.sin(harmonic * angle) / harmonic]);
}

function unevenness(load: readonly number[], waves: readonly number[]): number {
  return waves.reduce((sum, wave, place) => sum + ((load[place] ?? 0) + wave) ** 2, 0);
}

/** Compares with room for rounding, so that the choice among equals does not hang on the last bit. */
function comesBefore(a: readonly [number, number], b: readonly [number, number]): boolean {
  const difference = a[0] - b[0];
  return Math.abs(difference) > 1e-9 ? difference < 0 : a[1] < b[1] - 1e-9;
}
