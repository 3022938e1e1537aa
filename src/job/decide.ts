import type { Intent, IntentName } from '../phrasing/intents.ts';
import { isAsking } from '../phrasing/questions.ts';
import type { FailureCode, Line } from '../phrasing/lines.ts';
import type { Plan, PlannedMeasure } from '../procedure/plan-types.ts';
import { announce, pendingLine, restate, stopSignLine } from './announce.ts';
import { answer } from './answer.ts';
import type { Dialogue, Now, Pending, ReasonWanted } from './dialogue.ts';
import {
  briefingItem,
  fastenerAtHand,
  kitItemIndex,
  legalNow,
  mainSteps,
  matterAtHand,
  nextFollowUp,
  secondsLeft,
  stateOf,
} from './dialogue.ts';
import type { JobEvent, NoteMedia } from './events.ts';
import { applyEvent } from './fold.ts';
import { isQuestion } from './legal.ts';
import { nextFastener } from './progress.ts';
import type { Folded, JobState } from './state.ts';
import { stepAt } from './state.ts';

/** Short sounds that go with an answer. */
export type Cue = 'heard' | 'not-understood' | 'step-complete' | 'fastener-counted' | 'caution' | 'timer';

export type VoiceSetting = 'louder' | 'quieter' | 'slower' | 'faster';

/** A note recorded or dictated, a picture taken, the screen for handing over. */
export type Wanted = 'note' | 'photo' | 'hand-over';

/** What can be seen of the clocks from inside. */
export type ClockTrouble = Extract<FailureCode, 'slept' | 'clock-changed'>;

/** What an input leads to. Nothing of it happens before `events` are stored; if they cannot be, none of it does. */
export interface Decision {
  /** One atomic batch for the journal, markers included. */
  readonly events: readonly JobEvent[];
  readonly lines: readonly Line[];
  readonly cue: Cue | null;
  readonly pending: Pending | null;
  readonly misses: number;
  readonly setting: VoiceSetting | null;
  /** What the app is to do with the device, and come back with. */
  readonly wants: Wanted | null;
}

/** A decision that changes nothing, says nothing and asks for nothing. */
export const nothing: Decision = { events: [], lines: [], cue: null, pending: null, misses: 0, setting: null, wants: null };

/** What a person's intent leads to. Pure: the same dialogue, intent and time give the same decision. */
export function decide(dialogue: Dialogue, intent: Intent, now: Now): Decision {
  if (!legalNow(dialogue).includes(intent.type)) return refuse(dialogue, intent.type);
  if (isQuestion(intent.type))
    return {
      ...nothing,
      pending: dialogue.pending,
      events: [{ type: 'asked', intent: intent.type }],
      lines: answer(dialogue, intent.type, now),
    };
  switch (intent.type) {
    case 'louder':
    case 'quieter':
    case 'slower':
    case 'faster':
      return { ...nothing, pending: dialogue.pending, setting: intent.type, lines: [{ kind: intent.type }] };
    case 'unit':
      return {
        ...commit(dialogue, [{ type: 'unit-chosen', unit: intent.unit }], now, [{ kind: 'unit-chosen', unit: intent.unit }]),
        pending: dialogue.pending,
      };
    case 'note':
      return note(dialogue, intent.text, now);
    case 'photo':
      return { ...nothing, pending: dialogue.pending, lines: [{ kind: 'photo-asked' }], wants: 'photo' };
    case 'hand-over':
      return { ...nothing, lines: [{ kind: 'hand-over-begins' }], wants: 'hand-over' };
    case 'follow-up-done':
      return askFollowUp(dialogue, 0, now);
    case 'stop':
      return stop(dialogue, now);
    case 'hold-on':
      return commit(dialogue, [{ type: 'paused' }], now, [{ kind: 'paused' }]);
    case 'undo':
      return undo(dialogue, now);
    default:
      return decideInState(dialogue, intent, now);
  }
}

/** The journal could not store the events of a decision: nothing was done, and it is said. */
export const notStored = (code: FailureCode): readonly Line[] => [{ kind: 'failure', code }];

/** An utterance that fits nothing that may be said now. The third time in a row everything is said again. */
export function misheard(dialogue: Dialogue, text: string, now: Now): Decision {
  const misses = dialogue.misses + 1;
  const lines: Line[] = [{ kind: 'not-understood', legal: legalNow(dialogue), times: misses }];
  if (misses >= 3) lines.push(...restate(dialogue, now));
  return {
    ...nothing,
    pending: dialogue.pending,
    misses: misses >= 3 ? 0 : misses,
    events: [{ type: 'misheard', text: text.slice(0, 200) }],
    lines,
    cue: 'not-understood',
  };
}

/** The clock has moved on: timers that are due end. Null when there is nothing to do. */
export function clockTick(dialogue: Dialogue, now: Now): Decision | null {
  const due = dialogue.job.work.timers.filter((timer) => secondsLeft(timer, now) === 0);
  if (due.length === 0) return null;
  const events = due.map((timer): JobEvent => ({ type: 'timer-ended', step: timer.step }));
  const lines = due.map((timer): Line => ({ kind: 'wait-over', name: timer.name }));
  return {
    ...commit(dialogue, events, now, lines),
    pending: dialogue.pending?.kind === 'cut-wait' ? null : dialogue.pending,
    misses: dialogue.misses,
    cue: 'timer',
  };
}

/** The device slept, or its clock was set: said, and kept on the record where the wall clock strayed, by so many milliseconds. */
export function clockChanged(dialogue: Dialogue, code: ClockTrouble, milliseconds: number): Decision {
  const isKept = milliseconds !== 0 && dialogue.job.signed === null;
  return {
    ...nothing,
    pending: dialogue.pending,
    misses: dialogue.misses,
    events: isKept ? [{ type: 'clock-jumped', milliseconds }] : [],
    lines: [{ kind: 'failure', code }],
    cue: 'caution',
  };
}

/** Opens a new job: the first event of its record, and the first thing said. */
export function openJob(dialogue: Dialogue, who: { readonly person: string | null; readonly group: string | null }, now: Now): Decision {
  const { plan } = dialogue;
  const { procedure, build } = plan;
  const opened: JobEvent = {
    type: 'opened',
    procedure: procedure.id,
    title: procedure.title,
    revision: procedure.revision,
    build: build.id,
    ...who,
  };
  const welcome: Line = {
    kind: 'welcome',
    title: procedure.title,
    build: build.name,
    source: procedure.source,
    steps: mainSteps(plan).length,
  };
  const decision = commit(dialogue, [opened], now, [welcome]);
  return {
    ...decision,
    lines:
      decision.lines.length > 1 ? decision.lines : [welcome, ...restate({ ...dialogue, job: foldLocally(dialogue, [opened], now) }, now)],
  };
}

/** Understood, but nothing that can be done now. */
export function refuse(dialogue: Dialogue, intent: IntentName): Decision {
  const legal = legalNow(dialogue);
  const line: Line =
    intent === 'undo'
      ? { kind: 'nothing-to-undo' }
      : intent === 'start-timer' || intent === 'time-left'
        ? { kind: 'no-timer-here' }
        : { kind: 'not-now', intent, legal };
  return { ...nothing, pending: dialogue.pending, events: [{ type: 'refused', intent }], lines: [line], cue: 'not-understood' };
}

function decideInState(dialogue: Dialogue, intent: Intent, now: Now): Decision {
  const { plan, job, pending } = dialogue;
  if (pending !== null) return settlePending(dialogue, pending, intent, now);
  const state = stateOf(dialogue);
  if (intent.type === 'finish') return finish(dialogue, now);
  if (intent.type === 'back') return back(dialogue, now);
  if (intent.type === 'skip') return skip(dialogue, intent, now);
  switch (state) {
    case 'briefing':
      return briefing(dialogue, intent.type === 'no' ? 'no' : 'yes', now);
    case 'kit': {
      const item = plan.kit[kitItemIndex(job) ?? -1];
      if (item === undefined) return nothing;
      const atHand = intent.type === 'done' || intent.type === 'yes';
      return commit(
        dialogue,
        [{ type: 'kit-answered', item: item.id, atHand }],
        now,
        atHand ? [] : [{ kind: 'kit-missing', item }],
        'heard',
      );
    }
    case 'stating':
      return intent.type === 'start-timer' ? startTimer(dialogue, now) : carryOut(dialogue, now);
    case 'visiting':
      if (intent.type === 'do-it-now' && job.work.visit !== null) return ask(dialogue, { kind: 'reopen', step: job.work.visit }, now);
      return commit(dialogue, [{ type: 'looked-back', step: null }], now, []);
    case 'fastening':
      return intent.type === 'done' ? tighten(dialogue, intent.count, now) : startTimer(dialogue, now);
    case 'checking':
      return intent.type === 'start-timer' ? startTimer(dialogue, now) : answerHold(dialogue, intent.type === 'yes', now);
    case 'measuring':
      return intent.type === 'number' ? readBack(dialogue, intent, now) : startTimer(dialogue, now);
    case 'waiting':
      return ask(dialogue, { kind: 'cut-wait' }, now);
    case 'diagnosing':
      return intent.type === 'carry-on' ? resume(dialogue, now) : answerStopSign(dialogue, intent.type === 'yes', now);
    case 'paused':
      return resume(dialogue, now);
    case 'closing':
      return closing(dialogue, intent, now);
    case 'signing':
      return signing(dialogue, intent, now);
    case 'confirming':
    case 'reasoning':
    case 'closed':
      return nothing;
  }
}

// ---- the steps

function briefing(dialogue: Dialogue, said: 'yes' | 'no', now: Now): Decision {
  const item = briefingItem(dialogue.plan, dialogue.job);
  if (item === null) return nothing;
  if (item.kind === 'caution') {
    // A caution that is not understood is read again; there is no going on without it.
    if (said === 'no') return { ...nothing, lines: restate(dialogue, now), cue: 'caution' };
    return commit(dialogue, [{ type: 'caution-acknowledged', caution: item.caution.id }], now, [], 'heard');
  }
  if (said === 'yes') return commit(dialogue, [{ type: 'before-answered', before: item.before.id, isTrue: true }], now, [], 'heard');
  const decision = commit(dialogue, [{ type: 'before-answered', before: item.before.id, isTrue: false }], now, []);
  return { ...decision, lines: [{ kind: 'before-not-true', before: item.before }] };
}

function carryOut(dialogue: Dialogue, now: Now): Decision {
  const { cursor } = dialogue.job.work;
  if (cursor === null) return nothing;
  const step = stepAt(dialogue.plan, cursor.step);
  if (cursor.part.kind === 'caution') {
    const caution = step.cautions[cursor.part.index];
    return caution === undefined ? nothing : commit(dialogue, [{ type: 'caution-acknowledged', caution: caution.id }], now, [], 'heard');
  }
  return commit(dialogue, [{ type: 'step-carried-out', step: step.id }], now, [], 'heard');
}

/** Counts one or several fasteners, in order, within the pass under way. */
function tighten(dialogue: Dialogue, count: number, now: Now): Decision {
  const { plan, job } = dialogue;
  const place = fastenerAtHand(plan, job);
  const { cursor } = job.work;
  if (place === null || cursor?.part.kind !== 'fastener') return nothing;
  if (!Number.isInteger(count) || count < 1 || count > place.left)
    return { ...nothing, lines: [{ kind: 'too-many', said: count, left: place.left }], cue: 'not-understood' };
  const step = stepAt(plan, cursor.step);
  let progress = job.work.steps.get(cursor.step)?.groups[cursor.part.group];
  const events: JobEvent[] = [];
  while (progress !== undefined && events.length < count) {
    const next = nextFastener(place.group, progress);
    if (next === null) break;
    events.push({ type: 'fastener-tightened', step: step.id, group: place.group.id, ...next });
    progress = { ...progress, passesDone: progress.passesDone.with(next.position, next.pass + 1) };
  }
  return commit(dialogue, events, now, [], 'fastener-counted');
}

function answerHold(dialogue: Dialogue, passed: boolean, now: Now): Decision {
  const { cursor } = dialogue.job.work;
  if (cursor?.part.kind !== 'hold') return nothing;
  const step = stepAt(dialogue.plan, cursor.step);
  const hold = step.holds[cursor.part.index];
  if (hold === undefined) return nothing;
  const event: JobEvent = { type: 'hold-answered', step: step.id, hold: hold.id, passed };
  if (passed) return commit(dialogue, [event], now, [{ kind: 'hold-passed' }], 'heard');
  return commitBranch(dialogue, event, now, [{ kind: 'hold-failed', hold }], hold.fail);
}

function measureAtHand(dialogue: Dialogue): { step: string; measure: PlannedMeasure } | null {
  const { cursor } = dialogue.job.work;
  if (cursor?.part.kind !== 'measure') return null;
  const step = stepAt(dialogue.plan, cursor.step);
  const measure = step.measures[cursor.part.index];
  return measure === undefined ? null : { step: step.id, measure };
}

function readBack(dialogue: Dialogue, said: Extract<Intent, { type: 'number' }>, now: Now): Decision {
  const at = measureAtHand(dialogue);
  if (at === null) return nothing;
  if (said.unit !== null && said.unit !== at.measure.unit)
    return { ...nothing, lines: [{ kind: 'measure-wrong-unit', measure: at.measure, saidUnit: said.unit }], cue: 'not-understood' };
  return ask(dialogue, { kind: 'measure', value: said.value, saidUnit: said.unit }, now);
}

function startTimer(dialogue: Dialogue, now: Now): Decision {
  const { cursor } = dialogue.job.work;
  return cursor === null
    ? nothing
    : commit(dialogue, [{ type: 'timer-started', step: stepAt(dialogue.plan, cursor.step).id }], now, [], 'timer');
}

function back(dialogue: Dialogue, now: Now): Decision {
  const { plan, job } = dialogue;
  const from = job.work.visit ?? job.work.cursor?.step;
  if (from === undefined) return nothing;
  const side = stepAt(plan, from).side;
  const earlier = plan.steps.slice(0, from).findLast((step) => step.side === side);
  if (earlier === undefined) return { ...nothing, lines: [{ kind: 'at-the-start' }] };
  return commit(dialogue, [{ type: 'looked-back', step: earlier.id }], now, []);
}

// ---- stop, pause, undo

function stop(dialogue: Dialogue, now: Now): Decision {
  const { job } = dialogue;
  if (job.signed !== null) return nothing;
  if (job.halt !== null) return { ...nothing, lines: [{ kind: 'stopped' }] };
  if (job.work.phase !== 'working') return commit(dialogue, [{ type: 'paused' }], now, [{ kind: 'stopped' }], 'heard');
  const at = job.work.cursor === null ? null : stepAt(dialogue.plan, job.work.cursor.step).id;
  const decision = commit(dialogue, [{ type: 'stopped', step: at }], now, []);
  const halted = foldLocally(dialogue, [{ type: 'stopped', step: at }], now);
  return { ...decision, lines: [{ kind: 'stopped' }, stopSignLine(dialogue.plan, halted)], cue: 'heard' };
}

function answerStopSign(dialogue: Dialogue, felt: boolean, now: Now): Decision {
  const { plan, job } = dialogue;
  const step = job.work.cursor === null ? null : stepAt(plan, job.work.cursor.step);
  const sign = job.halt?.kind === 'stopped' ? step?.stopSigns[job.halt.sign] : undefined;
  if (step === null || sign === undefined) return { ...nothing, lines: [{ kind: 'no-more-stop-signs' }] };
  const event: JobEvent = { type: 'stop-sign-answered', step: step.id, sign: sign.id, felt };
  if (felt) return commitBranch(dialogue, event, now, [], sign.branch);
  const decision = commit(dialogue, [event], now, []);
  return { ...decision, lines: [stopSignLine(plan, foldLocally(dialogue, [event], now))] };
}

function resume(dialogue: Dialogue, now: Now): Decision {
  const event: JobEvent = { type: 'resumed' };
  const decision = commit(dialogue, [event], now, []);
  return {
    ...decision,
    lines: [{ kind: 'resumed' }, ...restate({ ...dialogue, job: foldLocally(dialogue, [event], now), pending: null }, now)],
  };
}

function undo(dialogue: Dialogue, now: Now): Decision {
  const newest = dialogue.job.past.at(-1);
  if (newest === undefined) return refuse(dialogue, 'undo');
  return commit(dialogue, [{ type: 'undone', seq: newest.seq }], now, [{ kind: 'undone', what: newest.what }]);
}

function note(dialogue: Dialogue, text: string | null, now: Now): Decision {
  const kept = text?.trim() ?? '';
  if (kept === '') return { ...nothing, pending: dialogue.pending, lines: [{ kind: 'note-asked' }], wants: 'note' };
  return keepNote(dialogue, { text: kept, recording: null, media: null, question: false }, now);
}

/** What the app comes back with: words, a recording, a picture. It may come at any moment, since recording takes its time. */
export interface TakenNote {
  readonly text: string;
  /** As in the event. */
  readonly recording: string | null;
  readonly media: NoteMedia | null;
  /** Marked as a question by hand; words that ask are known for questions anyway. */
  readonly question: boolean;
}

export function keepNote(dialogue: Dialogue, { text, recording, media, question }: TakenNote, now: Now): Decision {
  if (dialogue.job.signed !== null) return refuse(dialogue, 'note');
  const event: JobEvent = { type: 'noted', text, question: question || isAsking(text), recording, media };
  return { ...commit(dialogue, [event], now, [{ kind: 'noted', text, media }], 'heard'), pending: dialogue.pending };
}

// ---- what wants a reason or a yes

function ask(dialogue: Dialogue, pending: Pending, now: Now): Decision {
  return { ...nothing, pending, lines: [pendingLine(dialogue, pending, now)] };
}

function askReason(wantedFor: ReasonWanted): Decision {
  return { ...nothing, pending: { kind: 'reason', wantedFor }, lines: [{ kind: 'reason-asked' }] };
}

function skip(dialogue: Dialogue, intent: Extract<Intent, { type: 'skip' }>, now: Now): Decision {
  const { plan, job } = dialogue;
  const { work } = job;
  if (work.phase === 'kit') return ask(dialogue, { kind: 'wave-kit', left: work.kit.filter((answer) => answer === null).length }, now);
  if (work.phase === 'briefing') {
    const item = briefingItem(plan, job);
    // Cautions are not skipped: they are heard again.
    if (item?.kind !== 'before') return { ...nothing, lines: restate(dialogue, now), cue: 'caution' };
    return wantReason(dialogue, { kind: 'leave-before', before: item.before }, intent.reason, now);
  }
  if (work.cursor === null) return nothing;
  const onlyThis = intent.scope === 'this' && work.cursor.part.kind === 'fastener';
  return wantReason(dialogue, onlyThis ? { kind: 'skip-fastener' } : { kind: 'skip-step', step: work.cursor.step }, intent.reason, now);
}

function wantReason(dialogue: Dialogue, wantedFor: ReasonWanted, reason: Extract<Intent, { type: 'skip' }>['reason'], now: Now): Decision {
  return reason === null ? askReason(wantedFor) : giveReason(dialogue, wantedFor, { type: 'reason', reason, text: null }, now);
}

function giveReason(dialogue: Dialogue, wantedFor: ReasonWanted, said: Extract<Intent, { type: 'reason' }>, now: Now): Decision {
  const { reason } = said;
  const text = said.text?.trim().slice(0, 500) ?? null;
  if (wantedFor.kind === 'accept') {
    const settled: Dialogue = { ...dialogue, pending: null };
    return commit(
      settled,
      [{ type: 'matter-accepted', matter: wantedFor.matter, reason, text }],
      now,
      [{ kind: 'matter-accepted' }],
      'heard',
    );
  }
  return ask(dialogue, { ...wantedFor, reason, text }, now);
}

function settlePending(dialogue: Dialogue, pending: Pending, intent: Intent, now: Now): Decision {
  const settled: Dialogue = { ...dialogue, pending: null };
  if (intent.type === 'number' && pending.kind === 'measure') return readBack(settled, intent, now);
  if (intent.type === 'reason' && pending.kind === 'reason') return giveReason(settled, pending.wantedFor, intent, now);
  if (pending.kind === 'follow-up' && intent.type === 'no') return askFollowUp(settled, pending.index + 1, now);
  if (intent.type !== 'yes') return { ...nothing, lines: [{ kind: 'dropped' }, ...restate(settled, now)] };
  const { plan, job } = dialogue;
  switch (pending.kind) {
    case 'reason':
      return askReason(pending.wantedFor);
    case 'skip-step': {
      const step = stepAt(plan, pending.step);
      return commit(settled, [{ type: 'step-skipped', step: step.id, reason: pending.reason, text: pending.text }], now, [
        { kind: 'skipped-step', step },
      ]);
    }
    case 'skip-fastener': {
      const place = fastenerAtHand(plan, job);
      const { cursor } = job.work;
      if (place === null || cursor === null) return nothing;
      const event: JobEvent = {
        type: 'fastener-left-out',
        step: stepAt(plan, cursor.step).id,
        group: place.group.id,
        position: place.position,
        reason: pending.reason,
        text: pending.text,
      };
      return commit(settled, [event], now, [{ kind: 'skipped-fastener' }]);
    }
    case 'leave-before':
      return commit(settled, [{ type: 'before-left', before: pending.before.id, reason: pending.reason, text: pending.text }], now, []);
    case 'check-before':
      return commit(settled, [{ type: 'before-answered', before: pending.before.id, isTrue: true }], now, [], 'heard');
    case 'wave-kit':
      return commit(settled, [{ type: 'kit-waved-through' }], now, []);
    case 'finish':
      return commit(settled, [{ type: 'finish-asked' }], now, []);
    case 'reopen':
      return commit(settled, [{ type: 'step-reopened', step: stepAt(plan, pending.step).id, fresh: true }], now, []);
    case 'cut-wait': {
      const { cursor } = job.work;
      return cursor === null ? nothing : commit(settled, [{ type: 'wait-cut-short', step: stepAt(plan, cursor.step).id }], now, []);
    }
    case 'measure':
      return takeMeasure(settled, pending.value, now);
    case 'follow-up':
      return logFollowUp(settled, pending.index, now);
    case 'sign':
      return commit(settled, [{ type: 'signed', name: pending.name }], now, [], 'step-complete');
  }
}

function takeMeasure(dialogue: Dialogue, value: number, now: Now): Decision {
  const at = measureAtHand(dialogue);
  if (at === null) return nothing;
  const { measure } = at;
  const within = (measure.min === null || value >= measure.min) && (measure.max === null || value <= measure.max);
  const event: JobEvent = { type: 'measured', step: at.step, measure: measure.id, value, unit: measure.unit, within };
  if (within) return commit(dialogue, [event], now, [{ kind: 'measure-within', measure, value }], 'heard');
  return commitBranch(dialogue, event, now, [{ kind: 'measure-outside', measure, value }], measure.outside);
}

// ---- close-out

function finish(dialogue: Dialogue, now: Now): Decision {
  const openSteps = mainSteps(dialogue.plan).filter((step) => dialogue.job.work.steps.get(step.index)?.status === 'open').length;
  return ask(dialogue, { kind: 'finish', openSteps }, now);
}

function closing(dialogue: Dialogue, intent: Intent, now: Now): Decision {
  const at = matterAtHand(dialogue.plan, dialogue.job);
  if (at === null) return nothing;
  if (intent.type === 'leave-open') return commit(dialogue, [{ type: 'left-open' }], now, [{ kind: 'left-open' }]);
  if (intent.type === 'accept') return askReason({ kind: 'accept', matter: at.matter.id });
  const { matter } = at;
  switch (matter.kind) {
    case 'fasteners':
    case 'step':
    case 'hold':
    case 'measure':
      return commit(dialogue, [{ type: 'step-reopened', step: matter.step.id, fresh: false }], now, []);
    case 'before':
      return ask(dialogue, { kind: 'check-before', before: matter.before }, now);
    case 'kit':
      return commit(dialogue, [{ type: 'kit-answered', item: matter.item.id, atHand: true }], now, [], 'heard');
    case 'timer': {
      const timer = dialogue.job.work.timers.find((one) => `timer:${one.step}` === matter.id);
      return {
        ...nothing,
        lines: [{ kind: 'wait-running', name: matter.name, seconds: timer === undefined ? 0 : secondsLeft(timer, now) }],
      };
    }
    case 'note':
      // A question is answered by saying what was found: the answer is the reason it is accepted with.
      return askReason({ kind: 'accept', matter: matter.id });
  }
}

function signing(dialogue: Dialogue, intent: Intent, now: Now): Decision {
  if (intent.type === 'leave-open') return commit(dialogue, [{ type: 'left-open' }], now, [{ kind: 'left-open' }]);
  const name = intent.type === 'sign' ? intent.name.trim().slice(0, 100) : (dialogue.job.opened?.person ?? '');
  if (name === '') return { ...nothing, lines: [{ kind: 'sign-asked', name: null }] };
  // The question named the person already, so their "yes" needs no second one.
  if (intent.type === 'yes') return commit(dialogue, [{ type: 'signed', name }], now, [], 'step-complete');
  return ask(dialogue, { kind: 'sign', name }, now);
}

/** Which of the things to be done afterwards is meant is found by asking, one after the other. */
function askFollowUp(dialogue: Dialogue, from: number, now: Now): Decision {
  const index = nextFollowUp(dialogue.plan, dialogue.job, from);
  return index === null ? { ...nothing, lines: [{ kind: 'dropped' }] } : ask(dialogue, { kind: 'follow-up', index }, now);
}

function logFollowUp(dialogue: Dialogue, index: number, now: Now): Decision {
  const { plan, job } = dialogue;
  const followUp = plan.followUps[index];
  if (followUp === undefined) return nothing;
  const left = plan.followUps.filter(({ id }) => id !== followUp.id && !Object.hasOwn(job.followedUp, id)).length;
  const name = job.opened?.person ?? job.signed?.name ?? '';
  const event: JobEvent = { type: 'follow-up-done', followUp: followUp.id, name, text: null };
  return commit(dialogue, [event], now, [{ kind: 'follow-up-logged', left }], 'heard');
}

// ---- events into decisions

function foldLocally(dialogue: Dialogue, events: readonly JobEvent[], now: Now): JobState {
  return events.reduce<JobState>((job, event) => applyEvent(dialogue.plan, job, folded(job, event, now)), dialogue.job);
}

const folded = (job: JobState, event: JobEvent, now: Now): Folded => ({ seq: job.events, session: now.session, moment: now.moment, event });

/** The events with their markers, and what is said about where they lead. */
function commit(dialogue: Dialogue, events: readonly JobEvent[], now: Now, first: readonly Line[], cue: Cue | null = null): Decision {
  const { plan, job } = dialogue;
  const after = foldLocally(dialogue, events, now);
  const markers = markersBetween(plan, job, after);
  const finished = markers.some((marker) => marker.type === 'step-finished');
  return {
    ...nothing,
    events: [...events, ...markers],
    lines: [...first, ...announce(plan, job, after)],
    cue: finished && cue !== null ? 'step-complete' : cue,
  };
}

/** A check that failed: what failed, where it leads, and then where we are. */
function commitBranch(dialogue: Dialogue, event: JobEvent, now: Now, first: readonly Line[], branch: PlannedMeasure['outside']): Decision {
  const { plan, job } = dialogue;
  const after = foldLocally(dialogue, [event], now);
  const target = branch.kind === 'go' ? (plan.steps.find((step) => step.id === branch.step) ?? null) : null;
  const reopened = [...after.work.steps].filter(
    (progress, index) => progress.status === 'open' && job.work.steps.get(index)?.status === 'done',
  ).length;
  const decision = commit(dialogue, [event], now, [...first, { kind: 'branch', branch, target, reopened }], 'caution');
  // Staying means that the same thing is asked again, and `announce` sees no change to speak of.
  const again = branch.kind === 'stay' ? restate({ ...dialogue, job: after, pending: null }, now) : [];
  return { ...decision, cue: 'caution', lines: [...decision.lines, ...again] };
}

/** For the record: which steps began and ended. They follow from the fold and change nothing in it. */
function markersBetween(plan: Plan, before: JobState, after: JobState): readonly JobEvent[] {
  const markers: JobEvent[] = [];
  for (const [index, progress] of [...after.work.steps].entries()) {
    const was = before.work.steps.get(index);
    if (was === progress || was?.status !== 'open' || progress.status === 'open') continue;
    markers.push({ type: 'step-finished', step: stepAt(plan, index).id, how: progress.status });
  }
  const { cursor } = after.work;
  if (cursor !== null && cursor.step !== before.work.cursor?.step)
    markers.push({ type: 'step-begun', step: stepAt(plan, cursor.step).id, visit: after.work.steps.get(cursor.step)?.reopened ?? 0 });
  return markers;
}
