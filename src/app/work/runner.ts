import type { ClockTrouble, Cue, TakenNote, VoiceSetting, Wanted } from '../../job/decide.ts';
import type { Dialogue, Now } from '../../job/dialogue.ts';
import { legalNow, stateOf } from '../../job/dialogue.ts';
import type { Recorded } from '../../job/events.ts';
import type { Session } from '../../job/session.ts';
import { startSession } from '../../job/session.ts';
import type { Journal } from '../../journal/port.ts';
import type { DialogueState, Intent, IntentName } from '../../phrasing/intents.ts';
import type { FailureCode, Line } from '../../phrasing/lines.ts';
import type { Plan } from '../../procedure/plan-types.ts';

/** One thing that the tool has said, as it is shown. */
export interface Caption {
  readonly id: number;
  readonly text: string;
  /** The same for all that was said in one breath. */
  readonly breath: number;
  /** It is about something around the job, and asks nothing. */
  readonly isTrouble: boolean;
}

export type Heard = { readonly kind: 'understood' | 'not-understood' | 'not-now'; readonly text: string } | null;

/** What the work screen shows. A new object whenever anything in it changes. */
export interface RunnerView {
  readonly dialogue: Dialogue;
  readonly state: DialogueState;
  readonly legal: readonly IntentName[];
  readonly captions: readonly Caption[];
  readonly heard: Heard;
  readonly trouble: FailureCode | null;
  /** What the app is to bring: a recording, a picture, the hand-over; null while nothing is wanted. */
  readonly wants: Wanted | null;
  readonly events: readonly Recorded[];
}

export interface RunnerDeps {
  readonly journal: Journal;
  readonly job: string;
  readonly plan: Plan;
  /** What is stored of the job; empty for a new one. */
  readonly events: readonly Recorded[];
  readonly now: () => Now;
  /** Turns lines into words: what is said, what is shown. */
  readonly words: (line: Line) => { readonly say: string; readonly show: string };
  readonly speak: (text: string, cue: Cue | null) => void;
  readonly hush: () => void;
  /** Whether what was last spoken still sounds. */
  readonly isSpeaking: () => boolean;
  readonly set: (setting: VoiceSetting) => void;
}

/** A job on the screen: the session, the journal and the captions, as one thing that React can watch. */
export interface Runner {
  readonly view: () => RunnerView;
  readonly subscribe: (listener: () => void) => () => void;
  begin(who: { readonly person: string | null; readonly group: string | null }): Promise<void>;
  intent(intent: Intent, heard?: string): Promise<void>;
  notNow(intent: IntentName, heard: string): Promise<void>;
  notUnderstood(text: string): Promise<void>;
  clock(): Promise<void>;
  clockChanged(code: ClockTrouble, milliseconds: number): Promise<void>;
  trouble(code: FailureCode): Promise<void>;
  note(note: TakenNote): Promise<void>;
  /** What was wanted is there, or is wanted no more. */
  brought(): void;
  end(): void;
}

const captionsKept = 30;

export function startRunner(deps: RunnerDeps): Runner {
  const listeners = new Set<() => void>();
  const events: Recorded[] = [...deps.events];
  let captions: readonly Caption[] = [];
  let captionId = 0;
  let breath = 0;
  let heard: Heard = null;
  let trouble: FailureCode | null = null;
  let wants: Wanted | null = null;
  let sounding = '';
  let view: RunnerView;

  const session: Session = startSession(deps.plan, deps.events, {
    now: deps.now,
    set: deps.set,
    store: async (happenings) => {
      const opens = happenings[0]?.event.type === 'opened';
      const appended = opens ? await deps.journal.begin(deps.job, deps.plan, happenings) : await deps.journal.append(deps.job, happenings);
      if (!appended.ok) return { ok: false, code: appended.code };
      events.push(...appended.recorded);
      // Said only after the answer to what was just stored, so that the two do not cut each other off.
      if (appended.notice !== null) queueMicrotask(() => void session.trouble('storage-evicted'));
      return { ok: true, events: appended.recorded };
    },
    say: (lines, cue) => {
      const spoken = lines.map(deps.words);
      breath += 1;
      trouble = lines.find((line) => line.kind === 'failure')?.code ?? null;
      captions = [
        ...captions,
        ...lines.flatMap((line, index): Caption[] => {
          const text = spoken[index]?.show ?? '';
          return text === '' ? [] : [{ id: (captionId += 1), text, breath, isTrouble: line.kind === 'failure' }];
        }),
      ].slice(-captionsKept);
      const words = spoken
        .map((line) => line.say)
        .filter((text) => text !== '')
        .join(' ');
      // Speaking ends what is being said. A trouble cuts in, so what it cut off is said again behind it.
      const cutsIn = lines.every((line) => line.kind === 'failure') && deps.isSpeaking();
      sounding = cutsIn ? `${words} ${sounding}` : words;
      deps.speak(sounding, cue);
      publish();
    },
    wants: (what) => {
      wants = what;
      publish();
    },
    changed: publish,
  });
  view = look();

  function look(): RunnerView {
    const dialogue = session.dialogue();
    return { dialogue, state: stateOf(dialogue), legal: legalNow(dialogue), captions, heard, trouble, wants, events };
  }

  function publish(): void {
    view = look();
    for (const listener of listeners) listener();
  }

  return {
    view: () => view,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    begin: (who) => session.begin(who),
    intent: (intent, text) => {
      if (text !== undefined) heard = { kind: 'understood', text };
      // Silence comes before anything else, storing included: "stop" must not wait for a disk.
      sounding = '';
      deps.hush();
      // A note that is being recorded is kept as far as it got; "stop" must not wait for its end.
      if (intent.type === 'note' || intent.type === 'stop') wants = null;
      return session.intent(intent);
    },
    notNow: (intent, text) => {
      heard = { kind: 'not-now', text };
      return session.notNow(intent);
    },
    notUnderstood: (text) => {
      heard = { kind: 'not-understood', text };
      return session.misheard(text);
    },
    clock: () => session.clock(),
    clockChanged: (code, milliseconds) => session.clockChanged(code, milliseconds),
    trouble: (code) => session.trouble(code),
    note: (note) => session.note(note),
    brought: () => {
      wants = null;
      publish();
    },
    end: () => {
      session.end();
      listeners.clear();
    },
  };
}
