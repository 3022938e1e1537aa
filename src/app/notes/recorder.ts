import { recordingLimits } from '../../journal/notes.ts';
import type { FailureCode } from '../../phrasing/lines.ts';
import { pauseFinder } from './pause-finder.ts';

export interface Recorder {
  /** Resolves when the note is over: by `stop`, by a pause, at the limit of size or time. */
  readonly finished: Promise<Blob>;
  stop(): void;
}

export type OpenedRecorder =
  | { readonly ok: true; readonly recorder: Recorder }
  | { readonly ok: false; readonly code: Extract<FailureCode, 'no-microphone' | 'microphone-denied'> };

/** Speech at 32 kilobits a second stays clear and makes four kilobytes a second. */
const bitsPerSecond = 32_000;
/** Longer than anybody's note; a microphone left on in a noisy shop ends here. */
const longest = 5 * 60_000;

/** Browsers differ in what they can write; each can play its own. */
const types = ['audio/webm;codecs=opus', 'audio/mp4', 'audio/ogg;codecs=opus'] as const;

/** Records until the person has said what they wanted. `endsItself` false leaves the end to `stop`. */
export async function openRecorder({ endsItself }: { readonly endsItself: boolean }): Promise<OpenedRecorder> {
  // Absent outside a secure context, whatever the types say.
  const devices = (navigator as { readonly mediaDevices?: MediaDevices }).mediaDevices;
  if (devices === undefined || typeof MediaRecorder === 'undefined') return { ok: false, code: 'no-microphone' };
  let stream: MediaStream;
  try {
    stream = await devices.getUserMedia({ audio: { echoCancellation: true, noiseSuppression: true } });
  } catch (error) {
    return { ok: false, code: error instanceof DOMException && error.name === 'NotAllowedError' ? 'microphone-denied' : 'no-microphone' };
  }
  return { ok: true, recorder: record(stream, endsItself) };
}

function record(stream: MediaStream, endsItself: boolean): Recorder {
  const type = types.find((one) => MediaRecorder.isTypeSupported(one));
  const media = new MediaRecorder(stream, { audioBitsPerSecond: bitsPerSecond, ...(type === undefined ? {} : { mimeType: type }) });
  const parts: Blob[] = [];
  let size = 0;
  const stop = () => {
    if (media.state !== 'inactive') media.stop();
  };
  media.ondataavailable = ({ data }) => {
    // What goes over the limit is left off rather than the whole note lost.
    if (size + data.size > recordingLimits.audio) {
      stop();
      return;
    }
    parts.push(data);
    size += data.size;
  };
  const listening = endsItself ? watchForPause(stream, stop) : null;
  const cutOff = setTimeout(stop, longest);
  const finished = new Promise<Blob>((resolve) => {
    media.onstop = () => {
      clearTimeout(cutOff);
      listening?.();
      for (const track of stream.getTracks()) track.stop();
      resolve(new Blob(parts, { type: media.mimeType }));
    };
  });
  // In pieces, so that a note that is broken off keeps what came before.
  media.start(1000);
  return { finished, stop };
}

/** Ends by itself at a pause; the function that it returns ends the watching. */
function watchForPause(stream: MediaStream, ended: () => void): () => void {
  const context = new AudioContext();
  const analyser = context.createAnalyser();
  analyser.fftSize = 2048;
  context.createMediaStreamSource(stream).connect(analyser);
  const samples = new Float32Array(analyser.fftSize);
  const finder = pauseFinder();
  const tick = setInterval(() => {
    analyser.getFloatTimeDomainData(samples);
    const level = Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length);
    if (finder.hear(level, performance.now())) ended();
  }, 100);
  return () => {
    clearInterval(tick);
    void context.close();
  };
}
