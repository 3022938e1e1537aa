import { intentNames, reasons } from '../../phrasing/intents.ts';
import { eventKinds } from '../event-kinds.ts';
import type { Logbook } from '../logbook.ts';
import { breaks, endings } from '../logbook.ts';
import type { StepName } from './asking.ts';
import { stepName } from './asking.ts';

/** A stretch of a run, in seconds from its first event. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly kind: 'step' | 'wait' | 'pause' | 'around';
  /** Place in `steps` of the timeline, or −1 outside the steps. */
  readonly step: number;
}

export interface Mark {
  readonly at: number;
  readonly kind:
    | 'asked'
    | 'repeat'
    | 'misheard'
    | 'refused'
    | 'note'
    | 'undone'
    | 'back'
    | 'stopped'
    | 'hold failed'
    | 'hold passed'
    | 'fastener'
    | 'left out'
    | 'skipped'
    | 'restart';
  readonly step: number;
  /** What was said or noted, the intent asked for, the reason given. */
  readonly text: string;
}

/** One run, laid out in time. */
export interface Timeline {
  readonly job: string;
  readonly procedure: string;
  readonly title: string;
  readonly build: string;
  readonly person: number;
  readonly number: number;
  readonly begun: number;
  readonly offset: number;
  readonly ending: (typeof endings)[number];
  readonly faults: number;
  /** Seconds, all gaps included. */
  readonly length: number;
  /** The steps in the order in which they were begun. */
  readonly steps: readonly TimelineStep[];
  readonly stretches: readonly Stretch[];
  readonly marks: readonly Mark[];
}

interface TimelineStep {
  readonly name: StepName;
  readonly active: number;
  readonly paused: number;
  readonly waited: number;
  readonly how: 'done' | 'skipped' | 'passed over' | 'not finished';
}

const hows = ['not finished', 'done', 'skipped', 'passed over'] as const;

export function runOfJob({ runs }: Logbook, job: string): number | null {
  const run = runs.job.indexOf(job);
  return run < 0 ? null : run;
}

/** The same attribution of time as in the cells (see `makeCells`), laid out one after another. */
export function timeline(logbook: Logbook, run: number): Timeline {
  const { runs, events, cells, names, stepNames, procedures, builds } = logbook;
  const procedure = runs.procedure[run] ?? 0;
  const ownSteps = stepsOfRun(logbook, run);
  const placeOf = new Map(ownSteps.map(({ name }, place) => [stepNames.numberOfText(name.id), place]));
  const stretches: Stretch[] = [];
  const marks: Mark[] = [];
  const first = runs.firstEvent[run] ?? 0;
  const end = first + (runs.events[run] ?? 0);
  let at = 0;
  let current = -1;
  let isHalted = false;
  let isClosed = false;
  /** Where the stretches since the last piece of work begin: a wait turns them into waiting. */
  let sinceWork = 0;
  for (let row = first; row < end; row++) {
    const kind = eventKinds[events.kind[row] ?? 0];
    const step = placeOf.get(events.step[row] ?? 0) ?? -1;
    const broken = events.breaks[row] ?? 0;
    const from = at;
    if (!isClosed) at += (events.gap[row] ?? 0) / 1000;
    if ((broken & breaks.torn) !== 0) current = step;
    const isPause = isHalted || (broken & breaks.away) !== 0;
    if (at > from) stretches.push({ from, to: at, kind: isPause ? 'pause' : current < 0 ? 'around' : 'step', step: current });
    if ((broken & breaks.away) !== 0) mark('restart', '');
    const detail = events.detail[row] ?? 0;
    switch (kind) {
      case 'step-begun':
        current = step;
        sinceWork = stretches.length;
        break;
      case 'step-finished':
        if (step === current) current = -1;
        break;
      case 'finish-asked':
        current = -1;
        break;
      case 'paused':
      case 'left-open':
      case 'handed-over':
        isHalted = true;
        break;
      case 'resumed':
        isHalted = false;
        break;
      case 'signed':
        isClosed = true;
        break;
      case 'timer-ended':
      case 'wait-cut-short':
        if (step === current && step >= 0) {
          for (let index = sinceWork; index < stretches.length; index++) {
            const stretch = stretches[index];
            if (stretch?.kind === 'step' && stretch.step === step) stretches[index] = { ...stretch, kind: 'wait' };
          }
          sinceWork = stretches.length;
        }
        break;
      case 'asked':
        mark(intentNames[detail] === 'repeat' ? 'repeat' : 'asked', intentNames[detail] ?? '');
        break;
      case 'misheard':
        mark('misheard', names.text(detail));
        break;
      case 'refused':
        mark('refused', intentNames[detail] ?? '');
        break;
      case 'noted':
        mark('note', names.text(detail));
        break;
      case 'looked-back':
        if (detail === 1) mark('back', '');
        break;
      case 'stopped':
        mark('stopped', '');
        break;
      case 'step-skipped':
        mark('skipped', reasons[detail] ?? '');
        break;
      case 'undone':
        mark('undone', '');
        sinceWork = stretches.length;
        break;
      case 'hold-answered':
        mark(events.extra[row] === 1 ? 'hold passed' : 'hold failed', names.text(detail));
        sinceWork = stretches.length;
        break;
      case 'fastener-tightened':
        mark('fastener', `${names.text(detail)} ${((events.extra[row] ?? 0) & 255) + 1}`);
        sinceWork = stretches.length;
        break;
      case 'fastener-left-out':
        mark('left out', names.text(detail));
        sinceWork = stretches.length;
        break;
      case 'step-reopened':
        mark('back', '');
        sinceWork = stretches.length;
        break;
      case 'measured':
      case 'step-carried-out':
      case 'caution-acknowledged':
      case 'timer-started':
      case 'stop-sign-answered':
        sinceWork = stretches.length;
        break;
      default:
        break;
    }

    function mark(which: Mark['kind'], text: string): void {
      marks.push({ at, kind: which, step: current, text });
    }
  }
  return {
    job: runs.job[run] ?? '',
    procedure: procedures[procedure]?.id ?? '',
    title: procedures[procedure]?.title ?? '',
    build: builds[runs.build[run] ?? 0] ?? '',
    person: runs.person[run] ?? 0,
    number: runs.number[run] ?? 0,
    begun: runs.begun[run] ?? 0,
    offset: runs.offset[run] ?? 0,
    ending: endings[runs.ending[run] ?? 2] ?? 'not finished',
    faults: runs.faults[run] ?? 0,
    length: at,
    steps: ownSteps.map(({ name, cell }) => ({
      name,
      active: (cells.active[cell] ?? 0) / 1000,
      paused: (cells.paused[cell] ?? 0) / 1000,
      waited: (cells.waited[cell] ?? 0) / 1000,
      how: hows[cells.ended[cell] ?? 0] ?? 'not finished',
    })),
    stretches: joined(stretches),
    marks,
  };
}

function stepsOfRun(logbook: Logbook, run: number): readonly { readonly name: StepName; readonly cell: number }[] {
  const { cells, runs } = logbook;
  const own: { name: StepName; cell: number }[] = [];
  for (let cell = runs.firstCell[run] ?? 0; cell < (runs.firstCell[run + 1] ?? 0); cell++)
    own.push({ name: stepName(logbook, cells.step[cell] ?? 0), cell });
  return own;
}

/** Neighbours of the same kind and step as one. */
function joined(stretches: readonly Stretch[]): readonly Stretch[] {
  const result: Stretch[] = [];
  for (const stretch of stretches) {
    const last = result.at(-1);
    if (last?.kind === stretch.kind && last.step === stretch.step && Math.abs(last.to - stretch.from) < 1e-6)
      result[result.length - 1] = { ...last, to: stretch.to };
    else result.push(stretch);
  }
  return result;
}
