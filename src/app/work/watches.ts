/** Both clocks of a device, read at once, in milliseconds. */
export interface Clocks {
  readonly wall: number;
  /** Never goes back; in some systems it stands still while the device sleeps. */
  readonly mono: number;
}

/** What the clocks show beside time passing; `jumped` is how far the wall clock strayed from the other one since the last look. */
export type ClockNews = { readonly kind: 'slept' | 'clock-changed'; readonly jumped: number } | null;

/** Looks come every second, and every minute in a tab in the background: what took longer than this was sleep, not work. */
const asleepAfter = 90_000;
/** A wall clock that strays from the monotonic one by more than this was set. Clocks that are put right over the network move less. */
const jumpedBy = 30_000;

/** Tells sleep and a clock that was set from time passing, from one look at the clocks to the next. */
export function clockWatch(first: Clocks): (look: Clocks) => ClockNews {
  let last = first;
  return (look) => {
    const wallPassed = look.wall - last.wall;
    const monoPassed = look.mono - last.mono;
    last = look;
    const strayed = wallPassed - monoPassed;
    const jumped = Math.abs(strayed) > jumpedBy ? strayed : 0;
    // Where the monotonic clock stops in sleep only the wall has moved, and forward; a clock set forward looks the same.
    if (monoPassed > asleepAfter || wallPassed > asleepAfter) return { kind: 'slept', jumped };
    return jumped === 0 ? null : { kind: 'clock-changed', jumped };
  };
}

/** Tells once that something has fallen below its limit, and again only after it was above it. Null is unknown, and tells nothing. */
export function lowWatch(limit: number): (value: number | null) => boolean {
  let isLow = false;
  return (value) => {
    if (value === null) return false;
    const wasLow = isLow;
    isLow = value < limit;
    return isLow && !wasLow;
  };
}
