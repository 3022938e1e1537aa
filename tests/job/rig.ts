import type { Intent } from '../../src/phrasing/intents.ts';
import type { FailureCode, Line } from '../../src/phrasing/lines.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import type { Cue, VoiceSetting, Wanted } from '../../src/job/decide.ts';
import type { Now } from '../../src/job/dialogue.ts';
import type { Folded } from '../../src/job/state.ts';
import type { Session } from '../../src/job/session.ts';
import { startSession } from '../../src/job/session.ts';

/** A session with a journal in memory and a clock that moves only when told to. */
export interface Rig extends Session {
  readonly events: Folded[];
  readonly said: Line[];
  /** The sounds that went with what was said, oldest first; null for none. */
  readonly cues: (Cue | null)[];
  /** What the device was asked for: a way to speak, a note, a picture. */
  readonly asked: (VoiceSetting | Wanted)[];
  /** What was said since the last call. */
  heard(): readonly Line[];
  say(...intents: (Intent | Intent['type'])[]): Promise<void>;
  advance(seconds: number): Promise<void>;
  failWith(code: FailureCode | null): void;
}

export async function rig(plan: Plan, earlier: readonly Folded[] = [], person: string | null = 'Alex'): Promise<Rig> {
  const events = [...earlier];
  const said: Line[] = [];
  const cues: (Cue | null)[] = [];
  const asked: (VoiceSetting | Wanted)[] = [];
  let seconds = 0;
  let failure: FailureCode | null = null;
  let seen = 0;
  const run = `run-${earlier.length}`;
  const now = (): Now => ({ moment: { wall: 1_800_000_000_000 + seconds * 1000, offset: 60, mono: seconds * 1000 }, session: run });
  const session = startSession(plan, earlier, {
    store: (happenings) => {
      if (failure !== null) return Promise.resolve({ ok: false, code: failure });
      const stored = happenings.map((happening, index): Folded => ({
        seq: events.length + index,
        session: run,
        moment: happening.moment,
        event: happening.event,
      }));
      events.push(...stored);
      return Promise.resolve({ ok: true, events: stored });
    },
    now,
    say: (lines, cue) => {
      said.push(...lines);
      cues.push(cue);
    },
    set: (setting) => asked.push(setting),
    wants: (what) => asked.push(what),
    changed: () => undefined,
  });
  await session.begin({ person, group: null });
  return {
    ...session,
    events,
    said,
    cues,
    asked,
    heard: () => {
      const fresh = said.slice(seen);
      seen = said.length;
      return fresh;
    },
    say: async (...intents) => {
      for (const intent of intents) await session.intent(asIntent(intent));
    },
    advance: async (by) => {
      seconds += by;
      await session.clock();
    },
    failWith: (code) => {
      failure = code;
    },
  };
}

const asIntent = (intent: Intent | Intent['type']): Intent => {
  if (typeof intent !== 'string') return intent;
  switch (intent) {
    case 'done':
      return { type: 'done', count: 1 };
    case 'number':
      return { type: 'number', value: 0.1, unit: 'mm' };
    case 'reason':
      return { type: 'reason', reason: 'no-tool', text: null };
    case 'skip':
      return { type: 'skip', scope: 'this', reason: null };
    case 'note':
      return { type: 'note', text: 'a note' };
    case 'unit':
      return { type: 'unit', unit: 'lbf·ft' };
    case 'sign':
      return { type: 'sign', name: 'Alex' };
    case 'yes':
      return { type: intent };
    case 'no':
      return { type: intent };
    default:
      return { type: intent };
  }
};

export const done = (count: number): Intent => ({ type: 'done', count });

/** Through the briefing and the kit of `fullPlan`, to the first step. */
export async function atWork(plan: Plan): Promise<Rig> {
  const job = await rig(plan);
  while (job.state() === 'briefing' || job.state() === 'kit') await job.say('yes');
  job.heard();
  return job;
}
