import { foldJob } from '../../job/fold.ts';
import { openMatters } from '../../job/matters.ts';
import type { Moment, Recorded } from '../../job/events.ts';
import type { JobState } from '../../job/state.ts';
import { matterWords, reasonWords } from '../../phrasing/en/close-out-lines.ts';
import { wholeTool } from '../../phrasing/en/tools.ts';
import { plural } from '../../phrasing/en/torque-lines.ts';
import type { Plan, PlannedGroup, PlannedMeasure, PlannedPass, PlannedStep } from '../../procedure/plan-types.ts';
import { formatNumber } from '../../torque/numbers.ts';
import { formatTorque, shownTorque } from '../../torque/units.ts';
import { personOf } from '../formats/logged.ts';
import { localParts } from '../formats/times.ts';
import { dueFollowUps } from '../follow-ups.ts';
import type { StoredJob } from '../port.ts';
import { groupFacts, holdFacts, measureFacts, timeSpent } from './facts.ts';
import type { GroupFacts, HoldFacts, MeasureFacts } from './facts.ts';
import { html, Markup } from './markup.ts';
import type { Insert } from './markup.ts';
import { sheetStyle } from './style.ts';

type Clock = (moment: Moment) => string;

/** What a sheet is made of; `faults` says whether the record behind it is whole. */
export type SheetSource = Pick<StoredJob, 'job' | 'plan' | 'events'> & { readonly faults: readonly unknown[] };

/**
 * The job on one or two printed pages: a whole HTML document without script, links or anything to load.
 * Everything on it comes from the plan and the fold over the events; every text from outside is escaped.
 */
export function sheetHtml(source: SheetSource): string {
  const { plan, events } = source;
  const state = foldJob(plan, events);
  const groups = groupFacts(plan, state, events);
  const measures = measureFacts(plan, state, events);
  const holds = holdFacts(plan, state, events);
  const at = clockOf(events);
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
        <title>Job sheet: ${plan.procedure.title}, build ${plan.build.id}</title>
        <style>
          ${new Markup(sheetStyle)}
        </style>
      </head>
      <body>
        ${heading(source, state)} ${damage(source)} ${exceptions(plan, state)} ${fasteners(plan, groups, at)} ${measured(measures, at)}
        ${checked(holds, at)} ${notes(plan, state, events, at)} ${beforehand(plan, state)} ${afterwards(plan, events)} ${signatures(state)}
        ${footing(source)}
      </body>
    </html> `.text;
}

function heading({ job, plan, events }: SheetSource, state: JobState): Markup {
  const { procedure, build } = plan;
  const { person, group } = personOf({ events });
  const first = events[0];
  const last = state.signed?.moment ?? events.at(-1)?.moment;
  const { whole, paused } = timeSpent(events);
  return html`<header>
      <div>
        <h1>${procedure.title}</h1>
        <p>${procedure.vehicle} · build ${build.id}: ${build.name}</p>
      </div>
      ${standingOf(state)}
    </header>
    <dl>
      <dt>Worked by</dt>
      <dd>${person ?? 'not given'}${group === null ? null : `, ${group}`}</dd>
      <dt>Begun</dt>
      <dd>${first === undefined ? '–' : dateAndTime(first.moment)}</dd>
      <dt>Procedure</dt>
      <dd>${procedure.id}, revision ${procedure.revision}</dd>
      <dt>Time at work</dt>
      <dd>${spell(whole - paused)}, and ${spell(paused)} paused</dd>
      <dt>${state.signed === null ? 'Newest entry' : 'Signed'}</dt>
      <dd>${last === undefined ? '–' : dateAndTime(last)}</dd>
      <dt>Author</dt>
      <dd>${procedure.author}</dd>
    </dl>
    <p>Job ${job}. Source of the values: ${procedure.source}</p>`;
}

function standingOf(state: JobState): Markup {
  if (state.signed !== null) return html`<p class="state">SIGNED<small>every open matter answered for</small></p>`;
  if (state.halt?.kind === 'left open') return html`<p class="state">LEFT OPEN<small>not finished</small></p>`;
  return html`<p class="state">NOT FINISHED<small>work in progress</small></p>`;
}

function damage({ faults }: SheetSource): Markup | null {
  if (faults.length === 0) return null;
  return html`<p class="warn">
    The record behind this sheet is damaged in ${faults.length} ${faults.length === 1 ? 'place' : 'places'}. What could not be read is not
    on it.
  </p>`;
}

function exceptions(plan: Plan, state: JobState): Markup {
  const matters = openMatters(plan, state.work);
  if (matters.length === 0)
    return html`<h2>Exceptions</h2>
      <p>None.</p>`;
  const rows = matters.map((matter) => {
    const accepted = state.work.accepted[matter.id];
    const answer =
      accepted === undefined
        ? html`<span class="mark">not answered for</span>`
        : `accepted: ${reasonWords(accepted.reason, accepted.text).show}`;
    return html`<tr>
      <td>${matterWords(matter).show}</td>
      <td>${answer}</td>
    </tr>`;
  });
  return html`<h2>Exceptions</h2>
    <table>
      <thead>
        <tr>
          <th>What</th>
          <th>Answer</th>
        </tr>
      </thead>
      <tbody>
        ${rows}
      </tbody>
    </table>`;
}

function fasteners(plan: Plan, groups: readonly GroupFacts[], at: Clock): Markup | null {
  if (groups.length === 0) return null;
  const rows = groups.map(
    ({ step, group, finished, leftOut, newest, otherOrder }) =>
      html`<tr>
        <td class="narrow">${step.number}</td>
        <td>
          ${groupWords(group)}${leftOut.map(({ position, left }) => html`<br /><span class="mark">${position} left out:</span> ${reasonWords(left.reason, left.text).show}`)}
        </td>
        <td class="number ${finished < group.positions.length ? 'mark' : ''}">${finished} of ${group.positions.length}</td>
        <td>${targetWords(plan, group)}</td>
        <td>${wrenchWords(group)}</td>
        <td>${orderWords(group)}${otherOrder === null ? null : html`<br /><span class="mark">taken:</span> ${otherOrder.join(', ')}`}</td>
        <td class="narrow">${newest === null ? '–' : at(newest.moment)}</td>
      </tr>`,
  );
  return html`<h2>Fasteners</h2>
    <table>
      <thead>
        <tr>
          <th class="narrow">Step</th>
          <th>Group</th>
          <th class="narrow">Done</th>
          <th>Torque</th>
          <th>Tool and wrench setting</th>
          <th>Order: passes</th>
          <th class="narrow">Last at</th>
        </tr>
      </thead>
      <tbody>
        ${rows}
      </tbody>
    </table>`;
}

function groupWords({ name, positions, thread, singleUse, condition }: PlannedGroup): string {
  return [`${plural(name, positions.length)}${thread === null ? '' : ` ${thread}`}`, singleUse ? 'new' : null, condition]
    .filter((part) => part !== null)
    .join(', ');
}

function targetWords(plan: Plan, group: PlannedGroup): Insert {
  const { torque, band, angle, passes } = group;
  if (torque === null && angle !== null) return `then ${formatNumber(angle)}°`;
  if (torque === null)
    return passes.every(({ kind }) => kind === 'seat' || kind === 'draw') ? 'not in this step' : 'none given: see the maker’s manual';
  const converted = shownTorque(torque, plan.spokenUnit);
  return [
    html`<span class="mark">${formatTorque(torque)}</span>`,
    band === null
      ? null
      : band.minus === band.plus
        ? ` ±${formatNumber(band.plus)}`
        : ` −${formatNumber(band.minus)} +${formatNumber(band.plus)}`,
    angle === null ? null : ` + ${formatNumber(angle)}°`,
    converted === torque ? null : ` (converted: ${formatTorque(converted)})`,
  ];
}

function wrenchWords({ tool, passes }: PlannedGroup): Insert {
  const settings = passes.flatMap(({ setting }) =>
    setting?.fits === true
      ? [`${setting.wrench}: set ${formatTorque(setting.set)}${setting.corrected ? ' (corrected for the adapter)' : ''}`]
      : [],
  );
  return [wholeTool(tool).show, ...[...new Set(settings)].map((setting) => html`<br />${setting}`)];
}

function orderWords({ pattern, passes }: PlannedGroup): string {
  return `${pattern}: ${passes.map(passWords).join(', ')}`;
}

function passWords({ kind, torque, angle, share }: PlannedPass): string {
  switch (kind) {
    case 'seat':
      return 'seat';
    case 'draw':
      return 'draw';
    case 'check':
      return 'check';
    case 'angle':
      return angle === null ? 'angle' : `+${formatNumber(angle)}°`;
    case 'torque':
      return share !== null ? `${formatNumber(share)} %` : torque === null ? 'torque' : formatTorque(torque);
  }
}

function measured(measures: readonly MeasureFacts[], at: Clock): Markup | null {
  if (measures.length === 0) return null;
  const rows = measures.map(
    ({ step, measure, taken }) =>
      html`<tr>
        <td class="narrow">${step.number}</td>
        <td>${measure.name}</td>
        <td>${limitWords(measure)}</td>
        <td>
          ${taken.length === 0 ? 'not measured' : taken.map(({ value, within, recorded }, index) => [index === 0 ? null : ', then ', html`<span class="${within ? '' : 'mark'}">${formatNumber(value)} ${measure.unit}${within ? null : ' outside'}</span> at ${at(recorded.moment)}`])}
        </td>
      </tr>`,
  );
  return html`<h2>Measures</h2>
    <table>
      <thead>
        <tr>
          <th>Step</th>
          <th>What</th>
          <th>Limits</th>
          <th>Measured</th>
        </tr>
      </thead>
      <tbody>
        ${rows}
      </tbody>
    </table>`;
}

function limitWords({ min, max, unit }: PlannedMeasure): string {
  if (min !== null && max !== null) return `${formatNumber(min)} to ${formatNumber(max)} ${unit}`;
  if (min !== null) return `at least ${formatNumber(min)} ${unit}`;
  return max === null ? 'none given' : `at most ${formatNumber(max)} ${unit}`;
}

function checked(holds: readonly HoldFacts[], at: Clock): Markup | null {
  if (holds.length === 0) return null;
  const items = holds.map(
    ({ step, hold, answers }) =>
      html`<li>
        ${step.number}: ${hold.ask}
        ${answers.length === 0 ? html`<span class="mark">not answered</span>` : answers.map(({ passed, recorded }, index) => [index === 0 ? null : ', then ', html`<span class="${passed ? '' : 'mark'}">${passed ? 'passed' : 'failed'}</span> ${at(recorded.moment)}`])}
      </li>`,
  );
  return html`<h2>Checks</h2>
    <ul class="columns">
      ${items}
    </ul>`;
}

function notes(plan: Plan, { work }: JobState, events: readonly Recorded[], at: Clock): Markup | null {
  if (work.notes.length === 0) return null;
  const items = work.notes.map(({ text, question, recording, step, seq }) => {
    const moment = events.find((recorded) => recorded.seq === seq)?.moment;
    return html`<li>
      ${stepWords(plan.steps.find(({ id }) => id === step))}${moment === undefined ? null : `, ${at(moment)}`}:
      ${question ? html`<span class="mark">question</span> ` : null}${text === '' ? 'no text' : text}${recording === null ? null : ' (recorded)'}
    </li>`;
  });
  return html`<h2>Notes</h2>
    <ul>
      ${items}
    </ul>`;
}

function stepWords(step: PlannedStep | undefined): string {
  return step === undefined ? 'Outside the steps' : `Step ${step.number}`;
}

function beforehand(plan: Plan, { work }: JobState): Markup | null {
  if (plan.befores.length + plan.cautions.length === 0) return null;
  const befores = plan.befores.map(({ check }, index) => {
    const progress = work.befores[index];
    const answer =
      progress === undefined || progress.answer === 'open'
        ? 'not answered'
        : progress.answer === 'left'
          ? `went on without: ${reasonWords(progress.left.reason, progress.left.text).show}`
          : progress.answer;
    return html`<li>${check} ${answer === 'true' ? 'Yes.' : html`<span class="mark">${answer}</span>`}</li>`;
  });
  const acknowledged = plan.cautions.filter(({ id }) => work.acknowledged.includes(id)).length;
  return html`<h2>Before the work</h2>
    <ul>
      ${befores}${plan.cautions.length === 0 ? null : html`<li>Cautions acknowledged: ${acknowledged} of ${plan.cautions.length}.</li>`}
    </ul>`;
}

function afterwards(plan: Plan, events: readonly Recorded[]): Markup | null {
  if (plan.followUps.length === 0) return null;
  const due = dueFollowUps({ plan, events });
  const items = plan.followUps.map((followUp) => {
    const when = due.find((entry) => entry.followUp.id === followUp.id);
    const by = when?.due == null ? null : ` (${dateAndTime({ ...when.signed, wall: when.due })})`;
    return html`<li>${followUp.say}${when === undefined ? null : ` Due ${when.after} from the signature${by ?? ''}.`}</li>`;
  });
  return html`<h2>Afterwards</h2>
    <ul>
      ${items}
    </ul>`;
}

function signatures({ signed }: JobState): Markup {
  const own =
    signed === null
      ? html`<div>Worked by (name, date)</div>`
      : html`<div class="signed">Signed by name in the tool: <span class="mark">${signed.name}</span>, ${dateAndTime(signed.moment)}</div>`;
  return html`<h2>Signatures</h2>
    <section class="signatures">
      ${own}
      <div>Checked by (name, date)</div>
    </section>`;
}

function footing({ events }: SheetSource): Markup {
  const last = events.at(-1);
  return html`<footer>
    Torques are those of the procedure named above and of nobody else; what is called converted is rounded and not the source’s own figure.
    The vehicle maker’s manual, local rules and licensed practice come first. Made by Undertray from a record of ${events.length}
    events${last === undefined ? null : html`, chained up to SHA-256 ${last.hash}`}. Times are local.
  </footer>`;
}

function dateAndTime(moment: Moment): string {
  const { date, time, zone } = localParts(moment);
  return `${date} ${time.slice(0, 5)} (UTC${zone})`;
}

/** The time of day; with its date on every other day than that of the first event. */
function clockOf(events: readonly Recorded[]): Clock {
  const first = events[0];
  const day = first === undefined ? null : localParts(first.moment).date;
  return (moment) => {
    const { date, time } = localParts(moment);
    return date === day ? time.slice(0, 5) : `${date} ${time.slice(0, 5)}`;
  };
}

function spell(milliseconds: number): string {
  const minutes = Math.round(milliseconds / 60_000);
  return minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
