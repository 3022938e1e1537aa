import { jobFile, logFileType } from '../log-file.ts';
import type { LoggedJob } from '../log-file.ts';
import { calendarFile, calendarType } from './calendar.ts';
import { csvFile, csvType } from './csv.ts';
import type { Logged } from './logged.ts';
import { xapiFile, xapiType } from './xapi.ts';
import { xesFile, xesType } from './xes.ts';

export const exportFormats = ['jsonl', 'csv', 'xes', 'xapi', 'ics'] as const;
export type ExportFormat = (typeof exportFormats)[number];

export interface ExportedFile {
  /** The text, piece by piece, so that years of logs need not be held at once. */
  readonly pieces: Iterable<string>;
  /** Media type. */
  readonly type: string;
  /** What a file's name ends in, with the dot. */
  readonly ending: string;
}

/** The jobs in that form, or null where there is nothing of its kind in them: a calendar without follow-ups. */
export function exported(format: ExportFormat, jobs: readonly Pick<LoggedJob, 'job' | 'plan' | 'events' | 'lines'>[]): ExportedFile | null {
  const logged = jobs.flatMap(({ job, plan, events }): Logged[] => (job === null ? [] : [{ job, plan, events }]));
  switch (format) {
    case 'jsonl':
      return { pieces: logFile(jobs), type: logFileType, ending: '.jsonl' };
    case 'csv':
      return { pieces: csvFile(logged), type: csvType, ending: '.csv' };
    case 'xes':
      return { pieces: xesFile(logged), type: xesType, ending: '.xes' };
    case 'xapi':
      return { pieces: xapiFile(logged), type: xapiType, ending: '.json' };
    case 'ics': {
      const calendar = calendarFile(logged);
      return calendar === null ? null : { pieces: [calendar], type: calendarType, ending: '.ics' };
    }
  }
}

/** What cannot be read is carried along as it stands. */
function* logFile(jobs: readonly Pick<LoggedJob, 'job' | 'plan' | 'events' | 'lines'>[]): Generator<string> {
  for (const { job, plan, events, lines } of jobs) {
    if (job !== null && plan !== null) yield* jobFile({ job, plan, events, lines });
    else for (const line of lines) yield `${line}\n`;
  }
}

/** Below this many characters pieces are put together before they become part of a blob. */
const partLength = 262_144;

/** The file as a blob, for a download. Parts are handed to the browser as they are made, which may keep them on disk. */
export function asBlob({ pieces, type }: ExportedFile): Blob {
  const parts: Blob[] = [];
  let text = '';
  for (const piece of pieces) {
    text += piece;
    if (text.length < partLength) continue;
    parts.push(new Blob([text]));
    text = '';
  }
  return new Blob([...parts, text], { type });
}
