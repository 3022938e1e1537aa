import { assign, emit, setup } from 'xstate';
import type { DialogueState, Intent, IntentName } from '../phrasing/intents.ts';
import type { FailureCode, Line } from '../phrasing/lines.ts';
import type { Plan } from '../procedure/plan-types.ts';
import type { ClockTrouble, Cue, Decision, TakenNote, VoiceSetting, Wanted } from './decide.ts';
import { clockChanged, clockTick, decide, keepNote, misheard, nothing, notStored, openJob, refuse } from './decide.ts';
import type { Dialogue, Now } from './dialogue.ts';
import { stateOf } from './dialogue.ts';
import type { JobEvent } from './events.ts';
import { applyEvent } from './fold.ts';
import type { Folded, JobState } from './state.ts';
import { restate } from './announce.ts';

export interface JobMachineInput {
  readonly plan: Plan;
  /** The fold of what is stored so far. */
  readonly job: JobState;
}

interface JobMachineContext extends Dialogue {
  /** Decided, and not yet stored. */
  readonly decision: Decision | null;
}

export type JobMachineEvent =
  /** Starts: says where we are, or opens the record when there is none yet. */
  | { readonly type: 'BEGIN'; readonly person: string | null; readonly group: string | null; readonly now: Now }
  | { readonly type: 'INTENT'; readonly intent: Intent; readonly now: Now }
  /** Understood, but not to be done now. */
  | { readonly type: 'NOT_NOW'; readonly intent: IntentName }
  /** A recording, a picture or dictated words that were asked for. */
  | { readonly type: 'NOTE'; readonly note: TakenNote; readonly now: Now }
  | { readonly type: 'MISHEARD'; readonly text: string; readonly now: Now }
  | { readonly type: 'CLOCK'; readonly now: Now }
  /** The device slept or its clock was set; `milliseconds` is how far the wall clock strayed. */
  | { readonly type: 'CLOCK_CHANGED'; readonly code: ClockTrouble; readonly milliseconds: number }
  /** Something around the job went wrong and has to be said. */
  | { readonly type: 'TROUBLE'; readonly code: FailureCode }
  | { readonly type: 'STORED'; readonly events: readonly Folded[] }
  | { readonly type: 'NOT_STORED'; readonly code: FailureCode };

/** What the machine asks of the world. Actors outside carry it out. */
export type JobMachineEmitted =
  | { readonly type: 'store'; readonly events: readonly JobEvent[] }
  | { readonly type: 'say'; readonly lines: readonly Line[]; readonly cue: Cue | null }
  | { readonly type: 'set'; readonly setting: VoiceSetting }
  | { readonly type: 'wants'; readonly what: Wanted };

const decided = ({ decision }: JobMachineContext): Decision => decision ?? nothing;

const jobSetup = setup({
  types: {
    context: {} as JobMachineContext,
    input: {} as JobMachineInput,
    events: {} as JobMachineEvent,
    emitted: {} as JobMachineEmitted,
  },
  actions: {
    decide: assign(({ context, event }) => ({ decision: decisionFor(context, event) })),
    askToStore: emit(({ context }) => ({ type: 'store', events: decided(context).events })),
    say: emit(({ context }) => ({ type: 'say', lines: decided(context).lines, cue: decided(context).cue })),
    set: emit(({ context }) => ({ type: 'set', setting: decided(context).setting ?? 'louder' })),
    askForIt: emit(({ context }) => ({ type: 'wants', what: decided(context).wants ?? 'note' })),
    sayFailure: emit(({ event }) => ({
      type: 'say',
      lines: event.type === 'NOT_STORED' || event.type === 'TROUBLE' ? notStored(event.code) : [],
      cue: 'caution',
    })),
    fold: assign(({ context, event }) => ({
      job: event.type === 'STORED' ? event.events.reduce((job, folded) => applyEvent(context.plan, job, folded), context.job) : context.job,
    })),
    takeDecision: assign(({ context }) => ({ pending: decided(context).pending, misses: decided(context).misses })),
    dropDecision: assign({ decision: null }),
  },
  guards: {
    storesEvents: ({ context }) => decided(context).events.length > 0,
    decided: ({ context }) => context.decision !== null,
    setsVoice: ({ context }) => decided(context).setting !== null,
    wantsSomething: ({ context }) => decided(context).wants !== null,
    is: ({ context }, params: { state: DialogueState }) => stateOf(context) === params.state,
  },
});

function decisionFor(context: JobMachineContext, event: JobMachineEvent): Decision | null {
  switch (event.type) {
    case 'BEGIN':
      if (context.job.opened === null) return openJob(context, { person: event.person, group: event.group }, event.now);
      return { ...nothing, lines: [{ kind: 'welcome-back', title: context.plan.procedure.title }, ...restate(context, event.now)] };
    case 'INTENT':
      return decide(context, event.intent, event.now);
    case 'NOTE':
      return keepNote(context, event.note, event.now);
    case 'NOT_NOW':
      return refuse(context, event.intent);
    case 'MISHEARD':
      return misheard(context, event.text, event.now);
    case 'CLOCK':
      return clockTick(context, event.now);
    case 'CLOCK_CHANGED':
      return clockChanged(context, event.code, event.milliseconds);
    case 'TROUBLE':
    case 'STORED':
    case 'NOT_STORED':
      return null;
  }
}

/** Every place where somebody may speak hears the same inputs; which of them are legal is the table's matter. */
const hears = {
  on: {
    BEGIN: { target: '#job.deciding', actions: 'decide' },
    INTENT: { target: '#job.deciding', actions: 'decide' },
    NOT_NOW: { target: '#job.deciding', actions: 'decide' },
    NOTE: { target: '#job.deciding', actions: 'decide' },
    MISHEARD: { target: '#job.deciding', actions: 'decide' },
    CLOCK: { target: '#job.deciding', actions: 'decide' },
    CLOCK_CHANGED: { target: '#job.deciding', actions: 'decide' },
    TROUBLE: { actions: 'sayFailure' },
  },
} as const;

const to = (target: string, state: DialogueState) => ({ guard: { type: 'is' as const, params: { state } }, target });

/**
 * The dialogue. It decides nothing by itself: `decide` does, purely, and the facts (the fold) say in which state we are.
 * The chart holds the order of things: decide, store, and only then speak; if storing fails, nothing has happened.
 */
export const jobMachine = jobSetup.createMachine({
  id: 'job',
  context: ({ input }) => ({ plan: input.plan, job: input.job, pending: null, misses: 0, decision: null }),
  initial: 'finding',
  states: {
    /** Where the facts say that we are. */
    finding: {
      always: [
        to('briefing', 'briefing'),
        to('kit', 'kit'),
        to('working.stating', 'stating'),
        to('working.visiting', 'visiting'),
        to('working.fastening', 'fastening'),
        to('working.checking', 'checking'),
        to('working.measuring', 'measuring'),
        to('working.waiting', 'waiting'),
        to('working.diagnosing', 'diagnosing'),
        to('asking.confirming', 'confirming'),
        to('asking.reasoning', 'reasoning'),
        to('paused', 'paused'),
        to('closing.answering', 'closing'),
        to('closing.signing', 'signing'),
        { target: 'closed' },
      ],
    },
    deciding: {
      always: [{ guard: 'storesEvents', target: 'storing' }, { guard: 'decided', target: 'answering' }, { target: 'finding' }],
    },
    storing: {
      entry: 'askToStore',
      on: {
        STORED: { target: 'answering', actions: 'fold' },
        NOT_STORED: { target: 'finding', actions: ['sayFailure', 'dropDecision'] },
      },
    },
    answering: {
      entry: 'takeDecision',
      always: [
        { guard: 'setsVoice', target: 'finding', actions: ['set', 'say', 'dropDecision'] },
        { guard: 'wantsSomething', target: 'finding', actions: ['say', 'askForIt', 'dropDecision'] },
        { target: 'finding', actions: ['say', 'dropDecision'] },
      ],
    },
    briefing: hears,
    kit: hears,
    working: {
      initial: 'stating',
      states: { stating: hears, visiting: hears, fastening: hears, checking: hears, measuring: hears, waiting: hears, diagnosing: hears },
    },
    /** Something risky was read back, or a reason is wanted. */
    asking: { initial: 'confirming', states: { confirming: hears, reasoning: hears } },
    paused: hears,
    closing: { initial: 'answering', states: { answering: hears, signing: hears } },
    closed: hears,
  },
});
