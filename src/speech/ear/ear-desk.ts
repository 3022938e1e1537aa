import type { HearingGrammar } from '../hearing/port.ts';
import type { Ear, EarEvent, EarFault, EarKind } from './ear.ts';
import { earKinds } from './ear.ts';

/** One way to hear, and what it takes to use it. */
export interface EarCandidate {
  /** Whether it can be used for the language, perhaps after fetching models; a large fetch only where the person chose it by hand. Never rejects. */
  isUsable(language: string, byHand: boolean): Promise<boolean>;
  /** Fetches what is needed; null when ready, else why not. `onProgress` goes from 0 to 1. Never rejects. */
  prepare(language: string, onProgress: (share: number) => void): Promise<EarFault | null>;
  make(language: string, onEvent: (event: EarEvent) => void): Ear;
  setGrammar(grammar: HearingGrammar): void;
  /** Keeps the microphone open between sessions. */
  keepOpen(kept: boolean): void;
}

export type EarChoice = 'automatic' | 'browser' | 'local';

export interface EarWish {
  readonly choice: EarChoice;
  readonly language: string;
  /** The person allows audio to leave the device. */
  readonly remoteAllowed: boolean;
}

export type EarDeskStatus =
  | { readonly kind: 'off' }
  | { readonly kind: 'loading'; readonly ear: EarKind; readonly share: number }
  | { readonly kind: 'ready'; readonly ear: EarKind }
  /** Every ear that may be used has failed; the fault is the most telling one. */
  | { readonly kind: 'broken'; readonly fault: EarFault | 'no-ear' };

export interface EarDeskDeps {
  readonly candidates: Readonly<Record<EarKind, EarCandidate | null>>;
  readonly onEvent: (event: EarEvent, ear: EarKind) => void;
  readonly onStatus: (status: EarDeskStatus) => void;
  /** One ear failed and another has taken over. */
  readonly onSwitch: (from: EarKind, to: EarKind, fault: EarFault) => void;
}

/** Keeps one ear in use: the best that the person allows and that works, and the next best when it fails. */
export interface EarDesk {
  readonly status: EarDeskStatus;
  /** Chooses an ear. Asking for the same again gives ears that had failed another chance. */
  open(wish: EarWish): Promise<void>;
  setGrammar(grammar: HearingGrammar): void;
  keepOpen(kept: boolean): void;
  listen(): void;
  finish(): void;
  rest(): void;
}

export function createEarDesk(deps: EarDeskDeps): EarDesk {
  let status: EarDeskStatus = { kind: 'off' };
  let wish: EarWish | null = null;
  let ear: { readonly kind: EarKind; readonly candidate: EarCandidate; readonly it: Ear } | null = null;
  let failed = new Map<EarKind, EarFault>();
  let listening = false;
  let kept = false;
  let grammar: HearingGrammar | null = null;
  /** Counts openings, so that one that was overtaken changes nothing any more. */
  let openings = 0;

  function setStatus(next: EarDeskStatus): void {
    status = next;
    deps.onStatus(next);
  }

  async function choose(afterFailureOf: EarKind | null): Promise<void> {
    const opening = ++openings;
    const wanted = wish;
    if (!wanted) return;
    for (const kind of orderFor(wanted)) {
      const candidate = deps.candidates[kind];
      if (!candidate || failed.has(kind)) continue;
      const usable = await candidate.isUsable(wanted.language, isChosen(wanted.choice, kind));
      if (opening !== openings) return;
      if (!usable) continue;
      setStatus({ kind: 'loading', ear: kind, share: 0 });
      const fault = await candidate.prepare(wanted.language, (share) => {
        if (opening === openings) setStatus({ kind: 'loading', ear: kind, share });
      });
      if (opening !== openings) return;
      if (fault !== null) {
        failed.set(kind, fault);
        continue;
      }
      use(kind, candidate, wanted.language);
      const reason = afterFailureOf === null ? undefined : failed.get(afterFailureOf);
      if (afterFailureOf !== null && reason !== undefined) deps.onSwitch(afterFailureOf, kind, reason);
      return;
    }
    setStatus({ kind: 'broken', fault: tellingFault(failed) });
  }

  function use(kind: EarKind, candidate: EarCandidate, language: string): void {
    if (grammar) candidate.setGrammar(grammar);
    candidate.keepOpen(kept);
    const it = candidate.make(language, (event) => {
      if (ear?.it !== it) return;
      if (event.kind === 'broken') {
        ear = null;
        failed.set(kind, event.fault);
        candidate.keepOpen(false);
        void choose(kind);
        return;
      }
      deps.onEvent(event, kind);
    });
    ear = { kind, candidate, it };
    setStatus({ kind: 'ready', ear: kind });
    if (listening) it.listen();
  }

  return {
    get status() {
      return status;
    },
    async open(next) {
      wish = next;
      failed = new Map();
      ear?.it.rest();
      ear?.candidate.keepOpen(false);
      ear = null;
      await choose(null);
    },
    setGrammar(next) {
      if (grammar === next) return;
      grammar = next;
      ear?.candidate.setGrammar(next);
    },
    keepOpen(value) {
      kept = value;
      ear?.candidate.keepOpen(value);
    },
    listen() {
      listening = true;
      ear?.it.listen();
    },
    finish() {
      listening = false;
      ear?.it.finish();
    },
    rest() {
      listening = false;
      ear?.it.rest();
    },
  };
}

/** On the device before remote, remote only with consent; by hand the chosen one comes first and the others still stand in. */
function orderFor({ choice, remoteAllowed }: EarWish): readonly EarKind[] {
  const allowed = earKinds.filter((kind) => kind !== 'browser-remote' || remoteAllowed);
  return [...allowed.filter((kind) => isChosen(choice, kind)), ...allowed.filter((kind) => !isChosen(choice, kind))];
}

function isChosen(choice: EarChoice, kind: EarKind): boolean {
  switch (choice) {
    case 'automatic':
      return false;
    case 'local':
      return kind === 'local';
    case 'browser':
      return kind !== 'local';
  }
}

/** What the local ear says is nearest to the truth: it asks for the microphone itself. */
function tellingFault(failed: ReadonlyMap<EarKind, EarFault>): EarFault | 'no-ear' {
  return failed.get('local') ?? failed.get('browser-on-device') ?? failed.get('browser-remote') ?? 'no-ear';
}
