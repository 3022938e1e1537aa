import type { Clock } from '../clock.ts';
import type { SynthesisLike, UtteranceLike, VoiceLike } from '../ports.ts';
import type { VoiceLimits } from './careful-voice.ts';
import { browserVoiceLimits, createCarefulVoice, localVoiceLimits, voicesReady } from './careful-voice.ts';
import { pickVoice } from './pick-voice.ts';
import type { VoiceCandidate } from './voice-desk.ts';

export interface SynthesisDeps<V extends VoiceLike, U extends UtteranceLike<V>> {
  readonly synthesis: SynthesisLike<V, U>;
  readonly makeUtterance: (text: string) => U;
  readonly clock: Clock;
}

/** The browser's voices: those of the device, or the remote ones too. */
export function browserVoice<V extends VoiceLike, U extends UtteranceLike<V>>(deps: SynthesisDeps<V, U>, remote: boolean): VoiceCandidate {
  return candidate(deps, remote, browserVoiceLimits, () => undefined);
}

/** The voice of this app. `prepare` begins to fetch it. */
export function localVoice<V extends VoiceLike, U extends UtteranceLike<V>>(
  deps: SynthesisDeps<V, U>,
  prepare: () => void,
): VoiceCandidate {
  return candidate(deps, false, localVoiceLimits, prepare);
}

function candidate<V extends VoiceLike, U extends UtteranceLike<V>>(
  deps: SynthesisDeps<V, U>,
  remote: boolean,
  limits: VoiceLimits,
  prepare: () => void,
): VoiceCandidate {
  return {
    async isUsable(language) {
      await voicesReady(deps.synthesis, deps.clock, limits.voicesWithin);
      return pickVoice(deps.synthesis.getVoices(), language, remote) !== null;
    },
    prepare,
    voice: createCarefulVoice({ ...deps, remoteAllowed: remote, limits }),
  };
}
