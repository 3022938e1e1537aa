import { foldJob } from '../../job/fold.ts';
import { openMatters } from '../../job/matters.ts';
import type { Moment, Recorded } from '../../job/events.ts';
import type { JobState } from '../../job/state.ts';
import type { Language } from '../../phrasing/language.ts';
import type { Plan, PlannedGroup, PlannedMeasure, PlannedPass, PlannedStep } from '../../procedure/plan-types.ts';
import type { Torque } from '../../torque/quantities.ts';
import { shownTorque } from '../../torque/units.ts';
import { personOf } from '../formats/logged.ts';
import { localParts } from '../formats/times.ts';
import { dueFollowUps } from '../follow-ups.ts';
import type { StoredJob } from '../port.ts';
import { groupFacts, holdFacts, measureFacts, timeSpent } from './facts.ts';
import type { GroupFacts, HoldFacts, MeasureFacts } from './facts.ts';
import { html, Markup } from './markup.ts';
import type { Insert } from './markup.ts';
import { sheetStyle } from './style.ts';
import { sheetWords } from './words.ts';
import type { SheetWords } from './words.ts';

type Clock = (moment: Moment) => string;

/** What a sheet is made of; `faults` says whether the record behind it is whole. */
export type SheetSource = Pick<StoredJob, 'job' | 'plan' | 'events'> & { readonly faults: readonly unknown[] };

/**
 * The job on one or two printed pages: a whole HTML document without script, links or anything to load.
 * Everything on it comes from the plan and the fold over the events; every text from outside is escaped. The procedure's own words stay
 * in its language, whatever `language` the rest is in.
 */
export function sheetHtml(source: SheetSource, language: Language = 'en'): string {
  const words = sheetWords(language);
  const { plan, events } = source;
  const state = foldJob(plan, events);
  const groups = groupFacts(plan, state, events);
  const measures = measureFacts(plan, state, events);
  const holds = holdFacts(plan, state, events);
  const at = clockOf(events);
  return html`<!doctype html>
    <html lang="${language}">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
        <title>${words.title}: ${plan.procedure.title}, ${words.build} ${plan.build.id}</title>
        <style>
          ${new Markup(sheetStyle)}
        </style>
      </head>
      <body>
        ${heading(source, state, words)} ${damage(source, words)} ${exceptions(plan, state, words)} ${fasteners(plan, groups, at, words)}
        ${measured(measures, at, words)} ${checked(holds, at, words)} ${notes(plan, state, events, at, words)}
        ${beforehand(plan, state, words)} ${afterwards(plan, events, words)} ${signatures(state, words)} ${footing(source, words)}
      </body>
    </html> `.text;
}

function heading({ job, plan, events }: SheetSource, state: JobState, words: SheetWords): Markup {
  const { procedure, build } = plan;
  const { person, group } = personOf({ events });
  const first = events[0];
  const last = state.signed?.moment ?? events.at(-1)?.moment;
  const { whole, paused } = timeSpent(events);
  return html`<header>
      <div>
        <h1>${procedure.title}</h1>
        <p>${procedure.vehicle} · ${words.build} ${build.id}: ${build.name}</p>
      </div>
      ${standingOf(state, words)}
    </header>
    <dl>
      <dt>${words.workedBy}</dt>
      <dd>${person ?? words.notGiven}${group === null ? null : `, ${group}`}</dd>
      <dt>${words.begun}</dt>
      <dd>${first === undefined ? '–' : dateAndTime(first.moment)}</dd>
      <dt>${words.procedure}</dt>
      <dd>${procedure.id}, ${words.revision} ${procedure.revision}</dd>
      <dt>${words.timeAtWork}</dt>
      <dd>${words.timeSpent(spell(whole - paused), spell(paused))}</dd>
      <dt>${state.signed === null ? words.newest : words.signed}</dt>
      <dd>${last === undefined ? '–' : dateAndTime(last)}</dd>
      <dt>${words.author}</dt>
      <dd>${procedure.author}</dd>
    </dl>
    <p>${words.jobAndSource(job, procedure.source)}</p>`;
}

function standingOf(state: JobState, words: SheetWords): Markup {
  const { signed, leftOpen, handedOver, open } = words.states;
  const halt = state.halt?.kind;
  const [name, meaning] = state.signed !== null ? signed : halt === 'left open' ? leftOpen : halt === 'handed over' ? handedOver : open;
  return html`<p class="state">${name}<small>${meaning}</small></p>`;
}

function damage({ faults }: SheetSource, words: SheetWords): Markup | null {
  return faults.length === 0 ? null : html`<p class="warn">${words.damaged(faults.length)}</p>`;
}

function exceptions(plan: Plan, state: JobState, words: SheetWords): Markup {
  const matters = openMatters(plan, state.work);
  if (matters.length === 0)
    return html`<h2>${words.exceptions}</h2>
      <p>${words.none}</p>`;
  const rows = matters.map((matter) => {
    const accepted = state.work.accepted[matter.id];
    const answer =
      accepted === undefined
        ? html`<span class="mark">${words.unanswered}</span>`
        : words.accepted(words.reason(accepted.reason, accepted.text));
    return html`<tr>
      <td>${words.matter(matter)}</td>
      <td>${answer}</td>
    </tr>`;
  });
  return html`<h2>${words.exceptions}</h2>
    <table>
      <thead>
        <tr>
          <th>${words.what}</th>
          <th>${words.answer}</th>
        </tr>
      </thead>
      <tbody>
        ${rows}
      </tbody>
    </table>`;
}

function fasteners(plan: Plan, groups: readonly GroupFacts[], at: Clock, words: SheetWords): Markup | null {
  if (groups.length === 0) return null;
  const rows = groups.map(
    ({ step, group, finished, leftOut, newest, otherOrder }) =>
      html`<tr>
        <td class="narrow">${step.number}</td>
        <td>
          ${groupWords(group, words)}${leftOut.map(({ position, left }) => html`<br /><span class="mark">${words.leftOut(position)}</span> ${words.reason(left.reason, left.text)}`)}
        </td>
        <td class="number ${finished < group.positions.length ? 'mark' : ''}">${words.doneOf(finished, group.positions.length)}</td>
        <td>${targetWords(plan, group, words)}</td>
        <td>${wrenchWords(group, words)}</td>
        <td>
          ${orderWords(group, words)}${otherOrder === null ? null : html`<br /><span class="mark">${words.taken}</span> ${otherOrder.join(', ')}`}
        </td>
        <td class="narrow">${newest === null ? '–' : at(newest.moment)}</td>
      </tr>`,
  );
  const [step, group, done, torque, tool, order, lastAt] = words.fastenerColumns;
  return html`<h2>${words.fasteners}</h2>
    <table>
      <thead>
        <tr>
          <th class="narrow">${step}</th>
          <th>${group}</th>
          <th class="narrow">${done}</th>
          <th>${torque}</th>
          <th>${tool}</th>
          <th>${order}</th>
          <th class="narrow">${lastAt}</th>
        </tr>
      </thead>
      <tbody>
        ${rows}
      </tbody>
    </table>`;
}

function groupWords(group: PlannedGroup, words: SheetWords): string {
  const { thread, singleUse, condition } = group;
  return [`${words.groupName(group)}${thread === null ? '' : ` ${thread}`}`, singleUse ? words.isNew : null, condition]
    .filter((part) => part !== null)
    .join(', ');
}

function targetWords(plan: Plan, group: PlannedGroup, words: SheetWords): Insert {
  const { torque, band, angle, passes } = group;
  const { figure } = words;
  if (torque === null && angle !== null) return words.thenAngle(`${figure(angle)}°`);
  if (torque === null) return passes.every(({ kind }) => kind === 'seat' || kind === 'draw') ? words.notInThisStep : words.noTorque;
  const converted = shownTorque(torque, plan.spokenUnit);
  return [
    html`<span class="mark">${torqueWords(torque, words)}</span>`,
    band === null ? null : band.minus === band.plus ? ` ±${figure(band.plus)}` : ` −${figure(band.minus)} +${figure(band.plus)}`,
    angle === null ? null : ` + ${figure(angle)}°`,
    converted === torque ? null : ` (${words.converted(torqueWords(converted, words))})`,
  ];
}

function torqueWords({ value, unit }: Torque, { figure }: SheetWords): string {
  return `${figure(value)} ${unit}`;
}

function wrenchWords({ tool, passes }: PlannedGroup, words: SheetWords): Insert {
  const settings = passes.flatMap(({ setting }) =>
    setting?.fits === true ? [words.wrenchSet(setting.wrench, torqueWords(setting.set, words), setting.corrected)] : [],
  );
  return [words.tool(tool), ...[...new Set(settings)].map((setting) => html`<br />${setting}`)];
}

function orderWords({ pattern, passes }: PlannedGroup, words: SheetWords): string {
  return `${words.patterns[pattern]}${words.colon} ${passes.map((pass) => passWords(pass, words)).join(', ')}`;
}

function passWords({ kind, torque, angle, share }: PlannedPass, words: SheetWords): string {
  if (kind === 'angle' && angle !== null) return `+${words.figure(angle)}°`;
  if (kind === 'torque' && share !== null) return `${words.figure(share)} %`;
  return kind === 'torque' && torque !== null ? torqueWords(torque, words) : words.passes[kind];
}

function measured(measures: readonly MeasureFacts[], at: Clock, words: SheetWords): Markup | null {
  if (measures.length === 0) return null;
  const rows = measures.map(
    ({ step, measure, taken }) =>
      html`<tr>
        <td class="narrow">${step.number}</td>
        <td>${measure.name}</td>
        <td>${limitWords(measure, words)}</td>
        <td>
          ${taken.length === 0 ? words.notMeasured : taken.map(({ value, within, recorded }, index) => [index === 0 ? null : `, ${words.then} `, html`<span class="${within ? '' : 'mark'}">${words.figure(value)} ${measure.unit}${within ? null : ` ${words.outside}`}</span> ${words.at} ${at(recorded.moment)}`])}
        </td>
      </tr>`,
  );
  const [step, what, limits, value] = words.measureColumns;
  return html`<h2>${words.measures}</h2>
    <table>
      <thead>
        <tr>
          <th>${step}</th>
          <th>${what}</th>
          <th>${limits}</th>
          <th>${value}</th>
        </tr>
      </thead>
      <tbody>
        ${rows}
      </tbody>
    </table>`;
}

function limitWords({ min, max, unit }: PlannedMeasure, words: SheetWords): string {
  const { figure } = words;
  if (min !== null && max !== null) return words.between(figure(min), `${figure(max)} ${unit}`);
  if (min !== null) return words.atLeast(`${figure(min)} ${unit}`);
  return max === null ? words.noLimits : words.atMost(`${figure(max)} ${unit}`);
}

function checked(holds: readonly HoldFacts[], at: Clock, words: SheetWords): Markup | null {
  if (holds.length === 0) return null;
  const items = holds.map(
    ({ step, hold, answers }) =>
      html`<li>
        ${step.number}${words.colon} ${hold.ask}
        ${answers.length === 0 ? html`<span class="mark">${words.notAnswered}</span>` : answers.map(({ passed, recorded }, index) => [index === 0 ? null : `, ${words.then} `, html`<span class="${passed ? '' : 'mark'}">${passed ? words.passed : words.failed}</span> ${at(recorded.moment)}`])}
      </li>`,
  );
  return html`<h2>${words.checks}</h2>
    <ul class="columns">
      ${items}
    </ul>`;
}

function notes(plan: Plan, { work }: JobState, events: readonly Recorded[], at: Clock, words: SheetWords): Markup | null {
  if (work.notes.length === 0) return null;
  const items = work.notes.map(({ text, question, media, step, seq }) => {
    const moment = events.find((recorded) => recorded.seq === seq)?.moment;
    return html`<li>
      ${stepWords(
        plan.steps.find(({ id }) => id === step),
        words,
      )}${moment === undefined ? null : `, ${at(moment)}`}:
      ${question ? html`<span class="mark">${words.question}</span> ` : null}${text === '' ? words.noText : text}${media === null ? null : ` (${words.media[media]})`}
    </li>`;
  });
  return html`<h2>${words.notes}</h2>
    <ul>
      ${items}
    </ul>`;
}

function stepWords(step: PlannedStep | undefined, words: SheetWords): string {
  return step === undefined ? words.outsideSteps : words.step(step.number);
}

function beforehand(plan: Plan, { work }: JobState, words: SheetWords): Markup | null {
  if (plan.befores.length + plan.cautions.length === 0) return null;
  const befores = plan.befores.map(({ check }, index) => {
    const progress = work.befores[index];
    if (progress?.answer === 'true') return html`<li>${check} ${words.answers.true}</li>`;
    const answer =
      progress?.answer === 'left'
        ? words.wentOnWithout(words.reason(progress.left.reason, progress.left.text))
        : progress?.answer === 'not true'
          ? words.answers['not true']
          : words.notAnswered;
    return html`<li>${check} <span class="mark">${answer}</span></li>`;
  });
  const acknowledged = plan.cautions.filter(({ id }) => work.acknowledged.includes(id)).length;
  return html`<h2>${words.before}</h2>
    <ul>
      ${befores}${plan.cautions.length === 0 ? null : html`<li>${words.cautionsAcknowledged(acknowledged, plan.cautions.length)}</li>`}
    </ul>`;
}

function afterwards(plan: Plan, events: readonly Recorded[], words: SheetWords): Markup | null {
  if (plan.followUps.length === 0) return null;
  const all = dueFollowUps({ plan, events });
  const items = plan.followUps.map((followUp) => {
    const entry = all.find((one) => one.followUp.id === followUp.id);
    const due = entry?.due == null ? null : ` ${words.due(dateAndTime({ ...entry.signed, wall: entry.due }))}`;
    const done =
      entry?.done == null ? null : html` <span class="mark">${words.followedUp(entry.done.name, dateAndTime(entry.done.moment))}</span>`;
    return html`<li>${words.followUp(followUp)}${due}${done}</li>`;
  });
  return html`<h2>${words.afterwards}</h2>
    <ul>
      ${items}
    </ul>`;
}

function signatures({ signed }: JobState, words: SheetWords): Markup {
  const own =
    signed === null
      ? html`<div>${words.signHere}</div>`
      : html`<div class="signed">${words.signedInTool} <span class="mark">${signed.name}</span>, ${dateAndTime(signed.moment)}</div>`;
  return html`<h2>${words.signatures}</h2>
    <section class="signatures">
      ${own}
      <div>${words.checkedHere}</div>
    </section>`;
}

function footing({ events }: SheetSource, words: SheetWords): Markup {
  const last = events.at(-1);
  return html`<footer>
    ${words.footing(events.length)}${last === undefined ? null : html`, ${words.chainedUpTo} ${last.hash}`}. ${words.timesAreLocal}
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
