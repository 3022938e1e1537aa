import type { PlotOptions } from '@observablehq/plot';

/** Colours as the page's tokens: they follow the theme, and paper. See review.css for why these two tell apart for everybody. */
export const colours = {
  ink: 'var(--ink)',
  quiet: 'var(--quiet)',
  line: 'var(--line)',
  ground: 'var(--ground)',
  /** Blue: the ordinary, the first of two, quicker. */
  one: 'var(--review-one)',
  /** Orange: what stands out, the second of two, slower. */
  other: 'var(--review-other)',
  faint: 'var(--review-faint)',
} as const;

/** What every picture has in common. */
export function frame(width: number, options: PlotOptions): PlotOptions {
  return {
    width,
    ...options,
    style: { background: 'transparent', color: 'var(--ink)', fontFamily: 'inherit', fontSize: '13px', overflow: 'visible' },
  };
}

/** Ticks at times that people think in, in seconds. */
const timeTicks = [1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200, 14_400, 28_800];

/** "10 s", "2 min", "1 h". */
export function tickText(seconds: number): string {
  if (seconds < 60) return `${seconds} s`;
  if (seconds < 3600) return `${Number((seconds / 60).toFixed(1))} min`;
  return `${Number((seconds / 3600).toFixed(1))} h`;
}

/** Pixels that a tick's text needs. */
const tickRoom = 58;

/** As many of the ticks as fit a logarithmic scale from low to high. */
export function ticksWithin(low: number, high: number, width: number): readonly number[] {
  const pixels = width / Math.log(Math.max(2, high / low));
  const kept: number[] = [];
  for (const tick of timeTicks) {
    const before = kept.at(-1);
    if (tick < low || tick > high || (before !== undefined && Math.log(tick / before) * pixels < tickRoom)) continue;
    kept.push(tick);
  }
  return kept;
}

/** How many letters of a label fit a margin, at the pictures' 13 px (12 where it is narrow). */
export function lettersWithin(pixels: number, narrow: boolean): number {
  return Math.floor(pixels / (narrow ? 7.3 : 8.2));
}

export const isNarrow = (width: number): boolean => width < 560;
