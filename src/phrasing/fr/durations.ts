import type { Spoken } from '../lines.ts';
import { numbers } from './numbers.ts';

/** "dix minutes", "deux minutes trente", "une heure, un cinq, quinze minutes"; on screen "10 min". Whole seconds. */
export function duration(seconds: number): Spoken {
  const whole = Math.max(0, Math.round(seconds));
  const parts: readonly (readonly [number, string, string])[] = [
    [Math.floor(whole / 3600), 'heure', 'h'],
    [Math.floor(whole / 60) % 60, 'minute', 'min'],
    [whole % 60, 'seconde', 's'],
  ];
  const present = parts.filter(([count]) => count > 0);
  if (present.length === 0) return { say: 'zéro seconde', show: '0 s' };
  const say =
    present.length > 1 && whole % 3600 > 60 && whole % 60 === 30
      ? `${present.slice(0, -1).map(spoken).join(', ')} trente`
      : present.map(spoken).join(', ');
  return { say, show: present.map(([count, , symbol]) => `${count} ${symbol}`).join(' ') };
}

function spoken([count, name]: readonly [number, string, string]): string {
  return `${feminine(count)} ${name}${count < 2 ? '' : 's'}`;
}

/** "une", "vingt et une": before a feminine noun. */
export function feminine(count: number): string {
  const words = numbers.plain(count);
  return count % 10 === 1 && count % 100 !== 11 && count % 100 !== 71 && count % 100 !== 91 ? words.replace(/\bun$/u, 'une') : words;
}

/** "quatre heures", "midi et demi" is left to people: "douze heures et demie". Hours from 0.5 to 12 in halves. */
export function clockHour(hour: number): Spoken {
  const full = Math.floor(hour) === 0 ? 12 : Math.floor(hour);
  const half = hour % 1 !== 0;
  return {
    say: `${feminine(full)} heure${full > 1 ? 's' : ''}${half ? ' et demie' : ''}`,
    show: half ? `${full} h 30` : `${full} h`,
  };
}
