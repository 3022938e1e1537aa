import { createActor } from 'xstate';
import type { DialogueState, Intent, IntentName } from '../phrasing/intents.ts';
import type { FailureCode, Line } from '../phrasing/lines.ts';
import type { Plan } from '../procedure/plan-types.ts';
import type { ClockTrouble, Cue, TakenNote, VoiceSetting, Wanted } from './decide.ts';
import type { Dialogue, Now } from './dialogue.ts';
import { stateOf, stepAtHand } from './dialogue.ts';
import type { Happening } from './events.ts';
import type { JobMachineEvent } from './machine.ts';
import { jobMachine } from './machine.ts';
import { foldJob } from './fold.ts';
import type { Folded } from './state.ts';

export type Stored = { readonly ok: true; readonly events: readonly Folded[] } | { readonly ok: false; readonly code: FailureCode };

/** What a job needs of the world around it. */
export interface SessionPorts {
  /** Stores one batch, all or nothing, before anything about it is said. */
  readonly store: (happenings: readonly Happening[]) => Promise<Stored>;
  readonly now: () => Now;
  readonly say: (lines: readonly Line[], cue: Cue | null) => void;
  readonly set: (setting: VoiceSetting) => void;
  readonly wants: (what: Wanted) => void;
  /** Called after each input has been dealt with. */
  readonly changed: (dialogue: Dialogue) => void;
}

/** One run of one job: inputs are taken one at a time, in order, each dealt with to its end before the next. */
export interface Session {
  readonly dialogue: () => Dialogue;
  readonly state: () => DialogueState;
  begin(who: { readonly person: string | null; readonly group: string | null }): Promise<void>;
  intent(intent: Intent): Promise<void>;
  /** Something was understood that cannot be done now. */
  notNow(intent: IntentName): Promise<void>;
  /** What the app comes back with after it was asked for a note or a picture. */
  note(note: TakenNote): Promise<void>;
  misheard(text: string): Promise<void>;
  clock(): Promise<void>;
  /** As the machine's event of that name. */
  clockChanged(code: ClockTrouble, milliseconds: number): Promise<void>;
  trouble(code: FailureCode): Promise<void>;
  end(): void;
}

export function startSession(plan: Plan, events: readonly Folded[], ports: SessionPorts): Session {
  const actor = createActor(jobMachine, { input: { plan, job: foldJob(plan, events) } });
  let storing: Promise<void> | null = null;
  let isOver = false;
  const send = (event: JobMachineEvent): void => {
    if (!isOver) actor.send(event);
  };
  actor.on('say', ({ lines, cue }) => ports.say(lines, cue));
  actor.on('set', ({ setting }) => ports.set(setting));
  actor.on('wants', ({ what }) => ports.wants(what));
  actor.on('store', ({ events: decided }) => {
    const { moment } = ports.now();
    const { plan: ofPlan, job } = actor.getSnapshot().context;
    const step = stepAtHand(ofPlan, job)?.id ?? null;
    storing = ports.store(decided.map((event) => ({ moment, step, event }))).then(
      (stored) => send(stored.ok ? { type: 'STORED', events: stored.events } : { type: 'NOT_STORED', code: stored.code }),
      // A store that throws has not stored; the person must hear that, and the job must go on.
      () => send({ type: 'NOT_STORED', code: 'not-stored-blocked' }),
    );
  });
  actor.start();

  const dialogue = (): Dialogue => {
    const { plan: ofPlan, job, pending, misses } = actor.getSnapshot().context;
    return { plan: ofPlan, job, pending, misses };
  };
  let queue: Promise<void> = Promise.resolve();
  const take = (makeEvent: () => JobMachineEvent): Promise<void> => {
    queue = queue.then(async () => {
      send(makeEvent());
      while (storing !== null) {
        const pending = storing;
        storing = null;
        await pending;
      }
      ports.changed(dialogue());
    });
    return queue;
  };
  return {
    dialogue,
    state: () => stateOf(dialogue()),
    begin: (who) => take(() => ({ type: 'BEGIN', ...who, now: ports.now() })),
    intent: (intent) => take(() => ({ type: 'INTENT', intent, now: ports.now() })),
    notNow: (intent) => take(() => ({ type: 'NOT_NOW', intent })),
    note: (note) => take(() => ({ type: 'NOTE', note, now: ports.now() })),
    misheard: (text) => take(() => ({ type: 'MISHEARD', text, now: ports.now() })),
    clock: () => take(() => ({ type: 'CLOCK', now: ports.now() })),
    clockChanged: (code, milliseconds) => take(() => ({ type: 'CLOCK_CHANGED', code, milliseconds })),
    trouble: (code) => take(() => ({ type: 'TROUBLE', code })),
    end: () => {
      isOver = true;
      actor.stop();
    },
  };
}
