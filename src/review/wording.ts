/** "3 min 40 s", "1 h 05 min", "8.4 s". For reading and for reading aloud. */
export function duration(seconds: number): string {
  if (!Number.isFinite(seconds)) return 'unknown';
  const size = Math.abs(seconds);
  const sign = seconds < 0 ? '−' : '';
  if (size < 9.95) return `${sign}${Number(size.toFixed(1))} s`;
  const whole = Math.round(size);
  if (whole < 60) return `${sign}${whole} s`;
  if (whole < 3600) return `${sign}${Math.floor(whole / 60)} min ${pad(whole % 60)} s`;
  const minutes = Math.round(size / 60);
  return `${sign}${Math.floor(minutes / 60)} h ${pad(minutes % 60)} min`;
}

/** The same in words that a voice reads well. */
export function spokenDuration(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const hours = Math.floor(whole / 3600);
  const minutes = hours > 0 ? Math.round((whole % 3600) / 60) : Math.floor(whole / 60);
  const rest = hours > 0 || minutes >= 10 ? 0 : whole % 60;
  const parts = [many(hours, 'hour'), many(minutes, 'minute'), many(rest, 'second')].filter((part) => !part.startsWith('0 '));
  return parts.length === 0 ? 'no time' : parts.join(' ');
}

/** "18 %", with one decimal below ten. */
export function percent(share: number): string {
  const value = share * 100;
  return `${Math.abs(value) < 9.95 ? Number(value.toFixed(1)) : Math.round(value)} %`;
}

/** "18 % longer", "6 % shorter", from a ratio. */
export function longerOrShorter(ratio: number): string {
  return ratio >= 1 ? `${percent(ratio - 1)} longer` : `${percent(1 - ratio)} shorter`;
}

export function many(count: number, one: string, several = `${one}s`): string {
  return `${count} ${count === 1 ? one : several}`;
}

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[]): string {
  if (items.length <= 1) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1) ?? ''}`;
}

/** How often chance does it, as it is fit to be told: never more exact than it is. */
export function chance(p: number): string {
  if (p < 0.001) return 'less than once in 1000 times';
  if (p < 0.01) return `about once in ${Math.round(1 / p / 10) * 10} times`;
  if (p < 0.2) return `about once in ${Math.round(1 / p)} times`;
  return `about ${Math.round(p * 100)} times in 100`;
}

/** "2025-03-14" of a moment, in the local time it was taken in. */
export function localDay(wall: number, offset: number): string {
  return new Date(wall + offset * 60_000).toISOString().slice(0, 10);
}

/** "2025-03-14 09:05", in the local time it was taken in. */
export function localTime(wall: number, offset: number): string {
  return new Date(wall + offset * 60_000).toISOString().slice(0, 16).replace('T', ' ');
}

/** A sentence cut to fit a label. */
export function shortened(text: string, length: number): string {
  if (text.length <= length) return text;
  const cut = text.slice(0, length - 1);
  const space = cut.lastIndexOf(' ');
  return `${(space > length / 2 ? cut.slice(0, space) : cut).replace(/[,;:.]$/, '')}…`;
}

function pad(value: number): string {
  return String(value).padStart(2, '0');
}
