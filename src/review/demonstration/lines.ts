import type { JobEvent, Moment } from '../../job/events.ts';
import type { WorkshopRun } from './workshop.ts';

/**
 * The event lines of a run as the journal would chain and write them, made in one pass: a workshop has hundreds of thousands.
 * `sha256` is the journal's own hash of a text, in hexadecimal.
 */
export function chainedLines({ job, sittings }: WorkshopRun, sha256: (text: string) => string): readonly string[] {
  const lines: string[] = [];
  let previous = '0'.repeat(64);
  for (const { session, happenings } of sittings) {
    for (const { moment, step, event } of happenings) {
      const head = `{"event":${sortedJson(event)},`;
      const tail = `"job":${JSON.stringify(job)},"moment":${momentJson(moment)},"previous":"${previous}","seq":${lines.length},"session":${JSON.stringify(session)},"step":${JSON.stringify(step)},"v":1}`;
      const hash = sha256(head + tail);
      lines.push(`${head}"hash":"${hash}",${tail}`);
      previous = hash;
    }
  }
  return lines;
}

function momentJson({ mono, offset, wall }: Moment): string {
  return `{"mono":${JSON.stringify(mono)},"offset":${JSON.stringify(offset)},"wall":${JSON.stringify(wall)}}`;
}

/** Events hold nothing but plain values, so that sorting their keys is all that the canonical form takes. */
function sortedJson(event: JobEvent): string {
  const entries = Object.entries(event).sort(([one], [other]) => (one < other ? -1 : 1));
  return `{${entries.map(([key, value]) => `${JSON.stringify(key)}:${JSON.stringify(value)}`).join(',')}}`;
}
