import type { PlayingSound, SoundRefusal } from '../synthesis/sound-source.ts';
import type { Speech } from '../synthesis/flite.ts';
import { audioOutput, wakeAudio } from './audio-output.ts';

/** Plays speech that is at hand as samples. */
export type SpeechPlayer = (
  speech: Speech,
  volume: number,
  onBegun: () => void,
  onOver: (refusal: SoundRefusal | null) => void,
) => PlayingSound;

const wakeWithin = 1_500;

/** Plays samples through the Web Audio API. */
export const playSpeech: SpeechPlayer = (speech, volume, onBegun, onOver) => {
  const { context, destination } = audioOutput();
  const gain = context.createGain();
  gain.gain.value = volume;
  gain.connect(destination);
  const buffer = bufferOf(context, speech);
  let source: AudioBufferSourceNode | null = null;
  let offset = 0;
  let since = 0;
  let paused = false;
  let over = false;

  function begin(): void {
    const node = context.createBufferSource();
    node.buffer = buffer;
    node.connect(gain);
    node.onended = () => finish(null);
    node.start(0, offset);
    since = context.currentTime;
    source = node;
  }

  function silence(): void {
    if (!source) return;
    source.onended = null;
    source.stop();
    source.disconnect();
    source = null;
  }

  function finish(refusal: SoundRefusal | null): void {
    if (over) return;
    over = true;
    silence();
    gain.disconnect();
    onOver(refusal);
  }

  void wakeAudio(wakeWithin).then((awake) => {
    if (over) return;
    if (!awake) {
      finish({ kind: 'refused', error: 'not-allowed', message: 'Sound is not allowed before the page is touched.' });
      return;
    }
    if (!paused) begin();
    onBegun();
  });

  return {
    pause() {
      if (over || paused) return;
      paused = true;
      if (source) offset += context.currentTime - since;
      silence();
    },
    resume() {
      if (over || !paused) return;
      paused = false;
      begin();
    },
    stop() {
      if (over) return;
      over = true;
      silence();
      gain.disconnect();
    },
  };
};

function bufferOf(context: AudioContext, { samples, sampleRate }: Speech): AudioBuffer {
  const buffer = context.createBuffer(1, Math.max(1, samples.length), sampleRate);
  buffer.getChannelData(0).set(samples);
  return buffer;
}
