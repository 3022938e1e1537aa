/** How figures are written in a language. */
export interface Figures {
  /** "155,821": how many there are, in groups of three. */
  readonly whole: (count: number) => string;
  /** "1,3": always so many digits behind the mark. */
  readonly number: (value: number, digits: number) => string;
  /** "1.3", "2": no zeros at the end. */
  readonly trimmed: (value: number, digits: number) => string;
  /** "3 min 40 s", "1 h 05 min", "8.4 s". For reading and for reading aloud. */
  readonly duration: (seconds: number) => string;
  /** "3:40" or "1:05:00"; tenths below ten seconds. For tables. */
  readonly clock: (seconds: number) => string;
  /** "18 %", with one decimal below ten. */
  readonly percent: (share: number) => string;
}

/** A space at which no line is broken: a number and its unit stay together. */
const together = '\u00a0';

export function figuresWith(mark: '.' | ',', group: string, unknown: string): Figures {
  const whole = (count: number): string => String(Math.round(count)).replace(/\B(?=(?:\d{3})+$)/gu, group);
  const number = (value: number, digits: number): string => value.toFixed(digits).replace('.', mark);
  const trimmed = (value: number, digits: number): string => String(Number(value.toFixed(digits))).replace('.', mark);
  return {
    whole,
    number,
    trimmed,
    duration(seconds) {
      if (!Number.isFinite(seconds)) return unknown;
      const size = Math.abs(seconds);
      const sign = seconds < 0 ? '−' : '';
      if (size < 9.95) return `${sign}${trimmed(size, 1)}${together}s`;
      const whole = Math.round(size);
      if (whole < 60) return `${sign}${whole}${together}s`;
      if (whole < 3600) return `${sign}${Math.floor(whole / 60)}${together}min${together}${pad(whole % 60)}${together}s`;
      const minutes = Math.round(size / 60);
      return `${sign}${Math.floor(minutes / 60)}${together}h${together}${pad(minutes % 60)}${together}min`;
    },
    clock(seconds) {
      if (!Number.isFinite(seconds)) return '';
      const sign = seconds < 0 ? '−' : '';
      const size = Math.abs(seconds);
      if (size < 9.95) return `${sign}0:0${trimmed(size, 1)}`;
      const whole = Math.round(size);
      const minutes = Math.floor(whole / 60);
      if (minutes < 60) return `${sign}${minutes}:${pad(whole % 60)}`;
      return `${sign}${Math.floor(minutes / 60)}:${pad(minutes % 60)}:${pad(whole % 60)}`;
    },
    percent(share) {
      const value = share * 100;
      return `${Math.abs(value) < 9.95 ? trimmed(value, 1) : Math.round(value)}${together}%`;
    },
  };
}

/** Hours, minutes and seconds as a voice says them: no seconds from ten minutes on. */
export function partsOfDuration(seconds: number): { readonly hours: number; readonly minutes: number; readonly seconds: number } {
  const whole = Math.round(Math.abs(seconds));
  if (whole < 600) return { hours: 0, minutes: Math.floor(whole / 60), seconds: whole % 60 };
  const minutes = Math.round(whole / 60);
  return { hours: Math.floor(minutes / 60), minutes: minutes % 60, seconds: 0 };
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
