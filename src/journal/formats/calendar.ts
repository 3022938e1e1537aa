import { packFor } from '../../phrasing/packs.ts';
import { dueFollowUps } from '../follow-ups.ts';
import type { FollowUpDue } from '../follow-ups.ts';
import type { Logged } from './logged.ts';
import { utcTime } from './times.ts';

export const calendarType = 'text/calendar; charset=utf-8';

/**
 * The follow-ups of signed jobs as iCalendar (RFC 5545): what is due at a time becomes an appointment with an alarm,
 * what is due after a distance or a count becomes a task without a date. Null when there is nothing to follow up,
 * since a calendar without anything in it is not one.
 */
export function calendarFile(jobs: Iterable<Logged>): string | null {
  const components = [...jobs].flatMap((logged) =>
    logged.plan === null ? [] : dueFollowUps({ ...logged, plan: logged.plan }).map((due) => component(logged, due)),
  );
  if (components.every((lines) => lines.length === 0)) return null;
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Undertray//Undertray//EN',
    'CALSCALE:GREGORIAN',
    ...components.flat(),
    'END:VCALENDAR',
  ];
  return lines.map(folded).join('');
}

/** Nothing is left of an appointment that was kept; a task is shown as done. */
function component({ job, plan }: Logged, { followUp, signed, due, done }: FollowUpDue): string[] {
  if (due !== null && done !== null) return [];
  const title = plan === null ? job : `${plan.procedure.title}, ${plan.procedure.vehicle}, ${plan.build.name}`;
  const common = [
    `UID:${escaped(`${job}/${followUp.id}`)}@undertray.example`,
    `DTSTAMP:${basicTime(utcTime(signed))}`,
    `SUMMARY:${escaped(followUp.say)}`,
    `DESCRIPTION:${escaped(`${title}. ${packFor('en').say({ kind: 'follow-up', followUp }).show}`)}`,
  ];
  if (due === null) {
    const status = done === null ? ['STATUS:NEEDS-ACTION'] : ['STATUS:COMPLETED', `COMPLETED:${basicTime(utcTime(done.moment))}`];
    return ['BEGIN:VTODO', ...common, ...status, 'END:VTODO'];
  }
  return [
    'BEGIN:VEVENT',
    ...common,
    `DTSTART:${basicTime(new Date(due).toISOString())}`,
    'DURATION:PT15M',
    'TRANSP:TRANSPARENT',
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    'TRIGGER:PT0S',
    `DESCRIPTION:${escaped(followUp.say)}`,
    'END:VALARM',
    'END:VEVENT',
  ];
}

/** 20310414T061200Z, in UTC so that daylight saving cannot move it. */
function basicTime(iso: string): string {
  return iso.replace(/\.\d+Z$/u, 'Z').replaceAll(/[-:]/gu, '');
}

/** A text value (RFC 5545, 3.3.11); control characters other than a line's end cannot be carried. */
function escaped(text: string): string {
  return text
    .replaceAll(/[\\;,]/gu, (character) => `\\${character}`)
    .replaceAll(/\r\n|\r|\n/gu, '\\n')
    .replaceAll(/(?!\t)\p{Cc}/gu, ' ');
}

/** A content line of at most 75 octets, its rest on lines that begin with a space (RFC 5545, 3.1), no character cut in two. */
function folded(line: string): string {
  const octets = new TextEncoder();
  const parts: string[] = [];
  let part = '';
  let length = 0;
  for (const character of line) {
    const width = octets.encode(character).length;
    if (length + width > 75) {
      parts.push(part);
      part = ' ';
      length = 1;
    }
    part += character;
    length += width;
  }
  return [...parts, part].map((each) => `${each}\r\n`).join('');
}
