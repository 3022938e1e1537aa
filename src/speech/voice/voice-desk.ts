import type { SpokenPart } from '../../phrasing/foreign-text.ts';
import type { ChunkEvent, SayOutcome, Speaking, SpeakingSettings, Voice, VoiceFault, VoiceKind } from './voice.ts';
import { voiceKinds } from './voice.ts';

/** One way to speak, and what it takes to use it. */
export interface VoiceCandidate {
  /** Whether it has a voice for the language. Never rejects. */
  isUsable(language: string): Promise<boolean>;
  /** Begins to fetch what is needed, without waiting for it. */
  prepare(): void;
  readonly voice: Voice;
}

export type VoiceChoice = 'automatic' | 'browser' | 'local';

export interface VoiceWish {
  readonly choice: VoiceChoice;
  readonly language: string;
  /** The person allows texts to leave the device. */
  readonly remoteAllowed: boolean;
}

export type VoiceDeskStatus =
  | { readonly kind: 'off' }
  | { readonly kind: 'ready'; readonly voice: VoiceKind }
  | { readonly kind: 'broken'; readonly fault: VoiceFault };

export interface VoiceDeskDeps {
  readonly candidates: Readonly<Record<VoiceKind, VoiceCandidate | null>>;
  readonly onChunk: (event: ChunkEvent) => void;
  readonly onStatus: (status: VoiceDeskStatus) => void;
  readonly onSwitch: (from: VoiceKind, to: VoiceKind, fault: VoiceFault) => void;
}

/** Keeps one voice in use, and says a text again with the next when one fails: rather twice than not at all. */
export interface VoiceDesk {
  readonly status: VoiceDeskStatus;
  open(wish: VoiceWish): Promise<void>;
  /**
   * Cancels what is being said, then says this, each part by a voice of its language. Where there is none, the voice in use reads it:
   * better heard with an accent than not at all. Always resolves.
   */
  say(parts: readonly SpokenPart[], settings: SpeakingSettings): Speaking;
}

export function createVoiceDesk(deps: VoiceDeskDeps): VoiceDesk {
  let status: VoiceDeskStatus = { kind: 'off' };
  let wish: VoiceWish | null = null;
  let failed = new Map<VoiceKind, VoiceFault>();
  let current: VoiceKind | null = null;
  let opening: Promise<void> = Promise.resolve();
  let speaking: Speaking | null = null;

  function setStatus(next: VoiceDeskStatus): void {
    status = next;
    deps.onStatus(next);
  }

  async function choose(wanted: VoiceWish): Promise<void> {
    current = null;
    for (const kind of orderFor(wanted)) {
      const candidate = deps.candidates[kind];
      if (!candidate || failed.has(kind)) continue;
      if (!(await candidate.isUsable(wanted.language))) continue;
      if (wish !== wanted) return;
      current = kind;
      candidate.prepare();
      setStatus({ kind: 'ready', voice: kind });
      return;
    }
    setStatus({ kind: 'broken', fault: failed.get('local') ?? failed.get('browser') ?? failed.get('browser-remote') ?? 'no-voice' });
  }

  async function sayWith(text: string, settings: SpeakingSettings, use: (speaking: Speaking) => boolean): Promise<SayOutcome> {
    for (;;) {
      await opening;
      const kind = current;
      const candidate = kind === null ? null : deps.candidates[kind];
      if (kind === null || !candidate) {
        const fault = status.kind === 'broken' ? status.fault : 'no-voice';
        return { kind: 'failed', fault, message: 'No voice is left.' };
      }
      const attempt = candidate.voice.speak(text, settings, deps.onChunk);
      if (!use(attempt)) attempt.cancel();
      const outcome = await attempt.done;
      // Sound that is not allowed yet is no fault of the voice, and no other voice would be heard either.
      if (outcome.kind !== 'failed' || outcome.fault === 'sound-blocked' || !wish) return outcome;
      failed.set(kind, outcome.fault);
      opening = choose(wish);
      await opening;
      const next = voiceInUse();
      if (next !== null) deps.onSwitch(kind, next, outcome.fault);
    }
  }

  /** Says a text of another language than the one that was asked for. A voice that fails at it stays in use for the rest. */
  async function sayAbroad(text: string, settings: SpeakingSettings, use: (speaking: Speaking) => boolean): Promise<SayOutcome | null> {
    for (const kind of wish === null ? [] : orderFor(wish)) {
      const candidate = deps.candidates[kind];
      if (!candidate || failed.has(kind) || !(await candidate.isUsable(settings.language))) continue;
      candidate.prepare();
      const attempt = candidate.voice.speak(text, settings, deps.onChunk);
      if (!use(attempt)) attempt.cancel();
      const outcome = await attempt.done;
      if (outcome.kind !== 'failed' || outcome.fault === 'sound-blocked') return outcome;
    }
    return null;
  }

  async function sayAll(
    parts: readonly SpokenPart[],
    settings: SpeakingSettings,
    use: (speaking: Speaking) => boolean,
  ): Promise<SayOutcome> {
    for (const { text, language } of parts) {
      const abroad = language === null ? null : await sayAbroad(text, { ...settings, language }, use);
      const outcome = abroad ?? (await sayWith(text, settings, use));
      if (outcome.kind !== 'ended') return outcome;
    }
    return { kind: 'ended' };
  }

  function voiceInUse(): VoiceKind | null {
    return current;
  }

  return {
    get status() {
      return status;
    },
    async open(next) {
      wish = next;
      failed = new Map();
      opening = choose(next);
      await opening;
    },
    say(parts, settings) {
      speaking?.cancel();
      let attempt: Speaking | null = null;
      let cancelled = false;
      const own: Speaking = {
        done: sayAll(parts, settings, (next) => {
          attempt = next;
          return !cancelled;
        }),
        cancel() {
          cancelled = true;
          attempt?.cancel();
        },
      };
      speaking = own;
      return own;
    },
  };
}

function orderFor({ choice, remoteAllowed }: VoiceWish): readonly VoiceKind[] {
  const allowed = voiceKinds.filter((kind) => kind !== 'browser-remote' || remoteAllowed);
  const isFirst = (kind: VoiceKind): boolean => (choice === 'local' ? kind === 'local' : choice === 'browser' ? kind !== 'local' : false);
  return [...allowed.filter(isFirst), ...allowed.filter((kind) => !isFirst(kind))];
}
