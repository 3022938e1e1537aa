import type { Moment, Recorded } from '../../job/events.ts';

/** The instant in UTC: 2031-04-14T06:12:00.000Z (ISO 8601, RFC 3339). */
export function utcTime({ wall }: Moment): string {
  return new Date(wall).toISOString();
}

/**
 * The same instant as the clock on the wall had it, with how far that was ahead of UTC: 2031-04-14T08:12:00.000+02:00.
 * Two of these compare as instants, whatever daylight saving did between them.
 */
export function localTime(moment: Moment): string {
  const { date, time, zone } = localParts(moment);
  return `${date}T${time}${zone}`;
}

export function localParts({ wall, offset }: Moment): { readonly date: string; readonly time: string; readonly zone: string } {
  const minutes = Math.round(offset);
  const [date = '', time = ''] = new Date(wall + minutes * 60_000).toISOString().split('T');
  const hours = String(Math.floor(Math.abs(minutes) / 60)).padStart(2, '0');
  const zone = `${minutes < 0 ? '-' : '+'}${hours}:${String(Math.abs(minutes) % 60).padStart(2, '0')}`;
  return { date, time: time.slice(0, -1), zone };
}

/**
 * Milliseconds from one event to a later one. By the monotonic clock, which no clock change reaches, as long as the app ran on;
 * over a restart by the wall's, and never less than nothing.
 */
export function millisecondsBetween(from: Pick<Recorded, 'session' | 'moment'>, to: Pick<Recorded, 'session' | 'moment'>): number {
  const elapsed = from.session === to.session ? to.moment.mono - from.moment.mono : to.moment.wall - from.moment.wall;
  return Math.max(0, elapsed);
}
