import type { Spoken } from '../lines.ts';
import { numbers } from './numbers.ts';

/** "ten minutes", "two minutes thirty", "one hour, one five, fifteen minutes"; on screen "10 min". Whole seconds. */
export function duration(seconds: number): Spoken {
  const whole = Math.max(0, Math.round(seconds));
  const parts: readonly (readonly [number, string, string])[] = [
    [Math.floor(whole / 3600), 'hour', 'h'],
    [Math.floor(whole / 60) % 60, 'minute', 'min'],
    [whole % 60, 'second', 's'],
  ];
  const present = parts.filter(([count]) => count > 0);
  if (present.length === 0) return { say: 'no seconds', show: '0 s' };
  // After whole minutes, "thirty" cannot be thirteen: that would have been spelled.
  const say =
    present.length > 1 && whole % 3600 > 60 && whole % 60 === 30
      ? `${present.slice(0, -1).map(spoken).join(', ')} thirty`
      : present.map(spoken).join(', ');
  return { say, show: present.map(([count, , symbol]) => `${count} ${symbol}`).join(' ') };
}

function spoken([count, name]: readonly [number, string, string]): string {
  return `${numbers.plain(count)} ${name}${count === 1 ? '' : 's'}`;
}

/** "four o'clock", "half past twelve"; hours from 0.5 to 12 in halves. */
export function clockHour(hour: number): Spoken {
  const full = Math.floor(hour) === 0 ? 12 : Math.floor(hour);
  return hour % 1 === 0
    ? { say: `${numbers.word(full)} o'clock`, show: `${full} o'clock` }
    : { say: `half past ${numbers.word(full)}`, show: `half past ${full}` };
}
