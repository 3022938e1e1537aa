import { legalNow, stateOf, stepAtHand } from '../../job/dialogue.ts';
import type { Dialogue } from '../../job/dialogue.ts';
import { clockTick, decide, misheard, openJob } from '../../job/decide.ts';
import type { Decision } from '../../job/decide.ts';
import type { Happening, Moment } from '../../job/events.ts';
import { applyEvent, newJob } from '../../job/fold.ts';
import type { Intent } from '../../phrasing/intents.ts';
import type { Plan } from '../../procedure/plan-types.ts';

/** One run of the app on a job. */
export interface Sitting {
  readonly session: string;
  readonly happenings: readonly Happening[];
}

/**
 * A simulated person at the real dialogue: what they say goes through the same decisions as in the app,
 * so that the logs are what the app would have written.
 */
export interface Worker {
  dialogue(): Dialogue;
  /** Lets time pass; timers that run out meanwhile end at their moment. */
  pass(seconds: number): void;
  say(intent: Intent): void;
  mumble(text: string): void;
  /** The app is closed and, after a while, opened again. */
  restart(session: string, awaySeconds: number): void;
  sittings(): readonly Sitting[];
  isClosed(): boolean;
}

export interface Opening {
  readonly plan: Plan;
  readonly person: string | null;
  readonly group: string | null;
  readonly session: string;
  readonly wall: number;
  readonly offset: number;
}

export function makeWorker({ plan, person, group, session: firstSession, wall: opened, offset }: Opening): Worker {
  let dialogue: Dialogue = { plan, job: newJob(plan), pending: null, misses: 0 };
  let session = firstSession;
  let wall = opened;
  let mono = 1200;
  let happenings: Happening[] = [];
  const sittings: Sitting[] = [{ session, happenings }];

  const moment = (): Moment => ({ wall: Math.round(wall), offset, mono: Math.round(mono * 10) / 10 });

  function carryOut(decision: Decision): void {
    const now = moment();
    let { job } = dialogue;
    const step = stepAtHand(plan, job)?.id ?? null;
    for (const event of decision.events) {
      happenings.push({ moment: now, step, event });
      job = applyEvent(plan, job, { seq: job.events, session, moment: now, event });
    }
    dialogue = { plan, job, pending: decision.pending, misses: decision.misses };
  }

  function pass(seconds: number): void {
    let left = seconds;
    while (dialogue.job.work.timers.length > 0 && left > 1) {
      left -= 1;
      wall += 1000;
      mono += 1000;
      const tick = clockTick(dialogue, { moment: moment(), session });
      if (tick !== null) carryOut(tick);
    }
    wall += left * 1000;
    mono += left * 1000;
  }

  carryOut(openJob(dialogue, { person, group }, { moment: moment(), session }));
  return {
    dialogue: () => dialogue,
    pass,
    say: (intent) => carryOut(decide(dialogue, intent, { moment: moment(), session })),
    mumble: (text) => carryOut(misheard(dialogue, text, { moment: moment(), session })),
    restart(next, awaySeconds) {
      session = next;
      wall += awaySeconds * 1000;
      mono = 900;
      dialogue = { ...dialogue, pending: null, misses: 0 };
      happenings = [];
      sittings.push({ session, happenings });
    },
    sittings: () => sittings,
    isClosed: () => stateOf(dialogue) === 'closed',
  };
}

export function mayBeSaid(worker: Worker, intent: Intent['type']): boolean {
  return legalNow(worker.dialogue()).includes(intent);
}
