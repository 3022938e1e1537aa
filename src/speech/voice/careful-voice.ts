import type { Cancel, Clock } from '../clock.ts';
import type { SynthesisErrorCode, SynthesisLike, UtteranceLike, VoiceLike } from '../ports.ts';
import { pickVoice } from './pick-voice.ts';
import { speakingTime } from './speaking-time.ts';
import { splitText } from './text-chunks.ts';
import type { SayOutcome, Voice, VoiceFault } from './voice.ts';

export interface CarefulVoiceDeps<V extends VoiceLike, U extends UtteranceLike<V>> {
  readonly synthesis: SynthesisLike<V, U>;
  readonly makeUtterance: (text: string) => U;
  readonly clock: Clock;
  readonly remoteAllowed: boolean;
  readonly limits: VoiceLimits;
}

export interface VoiceLimits {
  /** Milliseconds from `speak()` to `start`. */
  readonly startWithin: number;
  /** Milliseconds that the list of voices may take to come. */
  readonly voicesWithin: number;
  /** Characters in one utterance: Chrome's remote voices fall silent after 15 seconds. */
  readonly chunkLength: number;
  readonly fineChunks: boolean;
}

export const browserVoiceLimits: VoiceLimits = { startWithin: 3_000, voicesWithin: 1_500, chunkLength: 120, fineChunks: false };

/** The local voice cuts its own chunks, and may still be fetching its model when it is first asked to speak. */
export const localVoiceLimits: VoiceLimits = { startWithin: 30_000, voicesWithin: 0, chunkLength: 400, fineChunks: false };

/** Faults that are not the voice's: `canceled` and `interrupted` are left out, they answer a cancel. */
const faults: Record<Exclude<SynthesisErrorCode, 'canceled' | 'interrupted'>, VoiceFault> = {
  'audio-busy': 'voice-failed',
  'audio-hardware': 'voice-failed',
  network: 'network',
  'synthesis-unavailable': 'no-voice',
  'synthesis-failed': 'voice-failed',
  'language-unavailable': 'no-voice',
  'voice-unavailable': 'no-voice',
  'text-too-long': 'voice-failed',
  'invalid-argument': 'voice-failed',
  'not-allowed': 'sound-blocked',
};

/**
 * Speaks through a `SpeechSynthesis`-shaped voice, written against what browsers really do: `end` may never
 * come, a first `speak()` after `cancel()` may be swallowed, long texts fall silent, `pause()` loses the rest
 * (so it is never used), and an utterance that nobody holds may be collected together with its events.
 */
export function createCarefulVoice<V extends VoiceLike, U extends UtteranceLike<V>>(deps: CarefulVoiceDeps<V, U>): Voice {
  const { synthesis, clock, limits } = deps;

  return {
    speak(text, settings, onChunk) {
      let cancelled = false;
      let sounding = false;
      let stopChunk: (outcome: SayOutcome) => void = () => undefined;

      const begins = (chunk: string): void => {
        sounding = true;
        onChunk({ kind: 'begins', text: chunk });
      };
      const isOver = (): void => {
        if (!sounding) return;
        sounding = false;
        onChunk({ kind: 'is-over' });
      };

      async function run(): Promise<SayOutcome> {
        await voicesReady(synthesis, clock, limits.voicesWithin);
        if (cancelled) return { kind: 'cancelled' };
        const voice = pickVoice(synthesis.getVoices(), settings.language, deps.remoteAllowed);
        if (!voice) return { kind: 'failed', fault: 'no-voice', message: `No voice for ${settings.language}.` };
        clear();
        for (const chunk of splitText(text, limits.chunkLength, limits.fineChunks)) {
          // A cancel may come between two chunks. The compiler does not see that it changes meanwhile.
          if (isCancelled()) return { kind: 'cancelled' };
          const outcome = await speakChunk(chunk.text, voice, true);
          isOver();
          if (outcome.kind !== 'ended') return outcome;
        }
        return { kind: 'ended' };
      }

      const isCancelled = (): boolean => cancelled;

      function clear(): void {
        synthesis.cancel();
        // A page that was left paused stays paused through a cancel.
        if (synthesis.paused) synthesis.resume();
      }

      function speakChunk(chunk: string, voice: V, mayRetry: boolean): Promise<SayOutcome> {
        return new Promise((resolve) => {
          const utterance = deps.makeUtterance(chunk);
          let watchdog: Cancel = () => undefined;
          const letGo = (): void => {
            watchdog();
            utterance.onstart = null;
            utterance.onboundary = null;
            utterance.onend = null;
            utterance.onerror = null;
          };
          const settle = (outcome: SayOutcome): void => {
            letGo();
            stopChunk = () => undefined;
            resolve(outcome);
          };
          stopChunk = settle;
          utterance.voice = voice;
          // Android looks at the language only.
          utterance.lang = voice.lang.replace('_', '-');
          utterance.rate = settings.rate;
          utterance.volume = settings.volume;
          utterance.onstart = () => {
            watchdog();
            watchdog = clock.after(2 * speakingTime(chunk, settings.rate) + 3_000, () => {
              settle({ kind: 'failed', fault: 'voice-stuck', message: 'The voice did not end.' });
              clear();
            });
            begins(chunk);
          };
          utterance.onboundary = ({ charIndex }) => {
            if (sounding) onChunk({ kind: 'reaches', character: charIndex });
          };
          utterance.onend = () => settle({ kind: 'ended' });
          utterance.onerror = ({ error }) => settle(outcomeOf(error));
          watchdog = clock.after(limits.startWithin, () => {
            letGo();
            clear();
            if (mayRetry) void speakChunk(chunk, voice, false).then(resolve);
            else settle({ kind: 'failed', fault: 'voice-stuck', message: 'The voice did not begin.' });
          });
          try {
            synthesis.speak(utterance);
          } catch (error) {
            settle({ kind: 'failed', fault: 'voice-failed', message: String(error) });
          }
        });
      }

      return {
        done: run(),
        cancel() {
          if (cancelled) return;
          cancelled = true;
          // Told before the caller goes on, so that it cannot be taken for the end of what is said next.
          isOver();
          stopChunk({ kind: 'cancelled' });
          synthesis.cancel();
        },
      };
    },
  };
}

/** The list of voices comes late in some browsers. Resolves when it has come, or after so many milliseconds. */
export async function voicesReady(
  synthesis: Pick<SynthesisLike, 'getVoices' | 'onvoiceschanged'>,
  clock: Clock,
  milliseconds: number,
): Promise<void> {
  if (synthesis.getVoices().length > 0 || milliseconds === 0) return;
  await new Promise<void>((resolve) => {
    const cancel = clock.after(milliseconds, resolve);
    synthesis.onvoiceschanged = () => {
      if (synthesis.getVoices().length === 0) return;
      cancel();
      resolve();
    };
  });
  synthesis.onvoiceschanged = null;
}

function outcomeOf(error: SynthesisErrorCode): SayOutcome {
  // Another tab or the system took the voice away.
  if (error === 'canceled' || error === 'interrupted') return { kind: 'failed', fault: 'voice-failed', message: error };
  return { kind: 'failed', fault: faults[error], message: error };
}
