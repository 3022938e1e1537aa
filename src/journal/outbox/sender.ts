import type { Answer, HaltReason } from './answers.ts';

/** Where the sending stands. A pure machine: what happens goes in, what to do comes out, and time and network are somebody else's. */
export type SenderState = SendingRate &
  (
    | { readonly phase: 'idle' }
    /** `again` when something was put in meanwhile. */
    | { readonly phase: 'sending'; readonly again: boolean }
    /** `told` when the store named the time itself; then nothing shortens the wait. */
    | { readonly phase: 'waiting'; readonly told: boolean }
    | { readonly phase: 'halted'; readonly reason: HaltReason }
  );

interface SendingRate {
  /** Tries in a row without an answer that settled anything. */
  readonly failures: number;
  /** How many statements to send at once. */
  readonly size: number;
}

export type SenderEvent =
  /** There may be something to send: a job was signed, the app opened, the network came back. */
  | { readonly type: 'nudged' }
  | { readonly type: 'settings-changed' }
  | { readonly type: 'waited' }
  | { readonly type: 'nothing-left' }
  /** `count` statements had been sent. `chance` from 0 to 1 spreads out devices that failed together. */
  | { readonly type: 'answered'; readonly answer: Answer; readonly count: number; readonly chance: number }
  /** What was answered for has left the outbox, or been put aside. */
  | { readonly type: 'settled' };

export type SenderCommand =
  | { readonly do: 'nothing' }
  | { readonly do: 'send'; readonly size: number }
  | { readonly do: 'wait'; readonly milliseconds: number }
  /** Remove what is stored from the outbox, and send on. */
  | { readonly do: 'settle'; readonly ids: readonly string[] | 'all' }
  /** One statement alone was rejected: find out whether it is there already, else put it aside. */
  | { readonly do: 'judge'; readonly status: number };

export const largestBatch = 50;
const firstWait = 2_000;
const longestWait = 600_000;

export const senderStart: SenderState = { phase: 'idle', failures: 0, size: largestBatch };

export function senderStep(state: SenderState, event: SenderEvent): readonly [SenderState, SenderCommand] {
  switch (event.type) {
    case 'nudged':
      if (state.phase === 'idle' || (state.phase === 'waiting' && !state.told)) return send(state);
      return [state.phase === 'sending' ? { ...state, again: true } : state, { do: 'nothing' }];
    case 'settings-changed':
      // A batch under way is answered first; the next one goes by the new settings.
      return state.phase === 'sending' ? [state, { do: 'nothing' }] : send({ ...state, failures: 0 });
    case 'waited':
      return state.phase === 'waiting' ? send(state) : [state, { do: 'nothing' }];
    case 'nothing-left':
      if (state.phase === 'sending' && state.again) return send(state);
      return [{ phase: 'idle', failures: 0, size: state.size }, { do: 'nothing' }];
    case 'settled':
      return send({ ...state, failures: 0 });
    case 'answered':
      return answered(state, event);
  }
}

function send({ failures, size }: SendingRate): readonly [SenderState, SenderCommand] {
  return [
    { phase: 'sending', again: false, failures, size },
    { do: 'send', size },
  ];
}

function answered(
  state: SenderState,
  { answer, count, chance }: Extract<SenderEvent, { type: 'answered' }>,
): readonly [SenderState, SenderCommand] {
  const { failures, size } = state;
  switch (answer.kind) {
    case 'stored':
      // "Stored" without a single id that was sent is a failure in disguise, and must not go round for ever.
      if (answer.ids !== 'all' && answer.ids.length === 0) return wait(failures + 1, size, backOff(failures, chance), false);
      return [
        { phase: 'sending', again: false, failures, size: Math.min(largestBatch, size * 2) },
        { do: 'settle', ids: answer.ids },
      ];
    case 'rejected':
      if (count <= 1)
        return [
          { phase: 'sending', again: false, failures: 0, size: 1 },
          { do: 'judge', status: answer.status },
        ];
      // Halves find the one among many in a few tries, and let the others through.
      return send({ failures: 0, size: Math.ceil(count / 2) });
    case 'busy':
      return wait(failures + 1, size, Math.max(answer.retryAfter ?? 0, backOff(failures, chance)), answer.retryAfter !== null);
    case 'unreachable':
      return wait(failures + 1, size, backOff(failures, chance), false);
    case 'halted':
      return [{ phase: 'halted', reason: answer.reason, failures: 0, size }, { do: 'nothing' }];
  }
}

function wait(failures: number, size: number, milliseconds: number, told: boolean): readonly [SenderState, SenderCommand] {
  return [
    { phase: 'waiting', told, failures, size },
    { do: 'wait', milliseconds },
  ];
}

/** Twice as long each time, up to ten minutes, and anywhere in the upper half of that. */
export function backOff(failures: number, chance: number): number {
  const whole = Math.min(longestWait, firstWait * 2 ** Math.min(failures, 30));
  return Math.round((whole * (1 + chance)) / 2);
}
