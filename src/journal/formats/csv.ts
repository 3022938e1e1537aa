import type { JobEvent, Recorded } from '../../job/events.ts';
import { groupOf, personOf, stepOf } from './logged.ts';
import type { Logged } from './logged.ts';
import { localTime, utcTime } from './times.ts';

export const csvType = 'text/csv; charset=utf-8; header=present';

/** The columns, in order. One row an event; what does not apply is empty. */
const columns = [
  'job',
  'seq',
  'time_utc',
  'time_local',
  'monotonic_ms',
  'session',
  'procedure',
  'revision',
  'build',
  'person',
  'group',
  'event',
  'step',
  'step_number',
  'stage',
  'fasteners',
  'pass',
  'pass_kind',
  'position',
  'position_name',
  'item',
  'value',
  'unit',
  'answer',
  'reason',
  'text',
  'hash',
] as const;
type Column = (typeof columns)[number];
type Cells = Partial<Record<Column, string | number | boolean | null>>;

/** The log as CSV (RFC 4180): CRLF, quotes doubled, a header row. Made for spreadsheets; the lossless form is JSON Lines. */
export function* csvFile(jobs: Iterable<Logged>): Generator<string> {
  yield row(columns);
  for (const logged of jobs) {
    for (const recorded of logged.events) {
      const cells = { ...commonCells(logged, recorded), ...eventCells(logged, recorded.event) };
      yield row(columns.map((column) => cells[column] ?? null));
    }
  }
}

function commonCells(logged: Logged, { job, seq, moment, session, step, event, hash }: Recorded): Cells {
  const planned = stepOf(logged, step);
  return {
    job,
    seq,
    time_utc: utcTime(moment),
    time_local: localTime(moment),
    monotonic_ms: moment.mono,
    session,
    procedure: logged.plan?.procedure.id ?? null,
    revision: logged.plan?.procedure.revision ?? null,
    build: logged.plan?.build.id ?? null,
    ...personOf(logged),
    event: event.type,
    step,
    step_number: planned?.number ?? null,
    stage: planned?.stage.title ?? null,
    hash,
  };
}

function eventCells(logged: Logged, event: JobEvent): Cells {
  switch (event.type) {
    case 'opened':
      return { procedure: event.procedure, revision: event.revision, build: event.build, text: event.title };
    case 'caution-acknowledged':
      return { item: event.caution };
    case 'before-answered':
      return { item: event.before, answer: event.isTrue };
    case 'before-left':
      return { item: event.before, reason: event.reason, text: event.text };
    case 'kit-answered':
      return { item: event.item, answer: event.atHand };
    case 'fastener-tightened':
      return { ...placeCells(logged, event), pass: event.pass + 1, pass_kind: passKind(logged, event) };
    case 'fastener-left-out':
      return { ...placeCells(logged, event), reason: event.reason, text: event.text };
    case 'measured':
      return { item: event.measure, value: event.value, unit: event.unit, answer: event.within };
    case 'hold-answered':
      return { item: event.hold, answer: event.passed };
    case 'stop-sign-answered':
      return { item: event.sign, answer: event.felt };
    case 'step-skipped':
      return { reason: event.reason, text: event.text };
    case 'step-reopened':
      return { step: event.step, answer: event.fresh };
    case 'looked-back':
      return { item: event.step };
    case 'noted':
      return { text: event.text, answer: event.question, item: event.recording, unit: event.media };
    case 'misheard':
      return { text: event.text };
    case 'matter-accepted':
      return { item: event.matter, reason: event.reason, text: event.text };
    case 'handed-over':
      return { item: event.way };
    case 'follow-up-done':
      return { item: event.followUp, text: event.text ?? event.name };
    case 'signed':
      return { text: event.name };
    case 'undone':
      return { value: event.seq };
    case 'step-begun':
      return { value: event.visit };
    case 'step-finished':
      return { answer: event.how };
    case 'asked':
    case 'refused':
      return { item: event.intent };
    case 'unit-chosen':
      return { unit: event.unit };
    case 'clock-jumped':
      return { value: event.milliseconds, unit: 'ms' };
    case 'kit-waved-through':
    case 'step-carried-out':
    case 'wait-cut-short':
    case 'stopped':
    case 'paused':
    case 'resumed':
    case 'timer-started':
    case 'timer-ended':
    case 'finish-asked':
    case 'left-open':
      return {};
  }
}

/** Passes and positions are counted from 1 here, as people do. */
function placeCells(logged: Logged, event: Extract<JobEvent, { readonly position: number }>): Cells {
  const group = groupOf(logged, event.step, event.group);
  return { fasteners: event.group, position: event.position + 1, position_name: group?.positions[event.position]?.name ?? null };
}

function passKind(logged: Logged, { step, group, pass }: Extract<JobEvent, { type: 'fastener-tightened' }>): string | null {
  return groupOf(logged, step, group)?.passes[pass]?.kind ?? null;
}

function row(cells: readonly (string | number | boolean | null)[]): string {
  return `${cells.map(cell).join(',')}\r\n`;
}

function cell(value: string | number | boolean | null): string {
  if (value === null) return '';
  if (typeof value !== 'string') return String(value);
  // A spreadsheet takes a text that begins like this for a formula and runs it; the apostrophe tells it that it is text.
  const text = /^[=+\-@\t\r]/u.test(value) ? `'${value}` : value;
  return /[",\r\n]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
