import type { SpeechPlayer } from '../sound/speech-player.ts';
import type { ClipPlayer } from '../sound/clip-player.ts';
import type { ClipIndex } from './clip-plan.ts';
import { planClips } from './clip-plan.ts';
import type { FliteRenderer } from './flite-renderer.ts';
import type { FliteVoice } from './flite.ts';
import type { PreparedSound, SoundSource } from './sound-source.ts';
import { LocalSpeechSynthesisVoice } from './synthesis-voice.ts';

export interface LocalSourceDeps {
  readonly flite: FliteRenderer;
  readonly playSpeech: SpeechPlayer;
  readonly clips: { readonly index: ClipIndex; readonly player: ClipPlayer; readonly voice: string } | null;
}

const fliteVoices: readonly { readonly id: FliteVoice; readonly name: string; readonly lang: string }[] = [
  { id: 'slt', name: 'On this device, higher', lang: 'en-US' },
  { id: 'rms', name: 'On this device, deeper', lang: 'en-US' },
  { id: 'awb', name: 'On this device, Scottish', lang: 'en-GB' },
];

const uriPrefix = 'urn:flite:';
/** Clips keep their own rate; nearer than this to it nobody hears the difference. */
const sameRate = 0.02;

/** The voice on this device: clips where the bank covers the text, Flite for everything else. */
export function createLocalSource({ flite, playSpeech, clips }: LocalSourceDeps): SoundSource {
  const voices = fliteVoices.map(
    ({ id, name, lang }) =>
      new LocalSpeechSynthesisVoice({ voiceURI: `${uriPrefix}${id}`, name, lang, localService: true, default: id === 'slt' }),
  );

  function fromClips(text: string): PreparedSound | null {
    if (!clips?.player.isReady) return null;
    const planned = planClips(text, clips.index);
    if (!planned) return null;
    const { player } = clips;
    return { kind: 'prepared', play: (volume, onBegun, onOver) => player.play(planned, volume, onBegun, onOver) };
  }

  return {
    voices,
    async prepare(text, style) {
      const clip = fromClips(text);
      if (clip && fliteVoiceOf(style.voice) === clips?.voice && Math.abs(style.rate - 1) <= sameRate) return clip;
      const rendered = await flite.render(text, { voice: fliteVoiceOf(style.voice), rate: style.rate });
      // In another voice or at another rate it is still better heard than not.
      if (rendered.kind === 'refused') return clip ?? rendered;
      return { kind: 'prepared', play: (volume, onBegun, onOver) => playSpeech(rendered.speech, volume, onBegun, onOver) };
    },
  };
}

function fliteVoiceOf({ voiceURI }: LocalSpeechSynthesisVoice): FliteVoice {
  const id = voiceURI.slice(uriPrefix.length);
  return fliteVoices.find((voice) => voice.id === id)?.id ?? 'slt';
}
