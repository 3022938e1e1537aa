import type { Clock } from '../clock.ts';
import workletUrl from './capture.worklet.ts?worker&url';
import type { Refusal } from './engine.ts';
import type { Microphone, OpenMicrophone } from './microphone.ts';

/**
 * What is asked of the microphone. Echo cancellation keeps the app's own voice out. The browser's gain control is off:
 * measured here it drove the first word into clipping and then turned down too far, and it hides how loud the place is.
 * Noise suppression is left to the recogniser, which measured better with its own.
 */
const constraints: MediaTrackConstraints = { channelCount: 1, echoCancellation: true, autoGainControl: false, noiseSuppression: false };

/** The browser's microphone through an audio worklet. */
export function createBrowserMicrophone(clock: Clock): Microphone {
  let context: AudioContext | null = null;
  let ready: Promise<AudioContext> | null = null;
  let device: MediaStreamTrack | null = null;
  let kept = false;
  let users = 0;

  async function audio(): Promise<AudioContext> {
    ready ??= (async () => {
      context = new AudioContext({ latencyHint: 'interactive' });
      await context.audioWorklet.addModule(workletUrl);
      return context;
    })();
    try {
      const opened = await ready;
      if (opened.state !== 'running') await opened.resume();
      return opened;
    } catch (error) {
      ready = null;
      throw error;
    }
  }

  async function openDevice(): Promise<MediaStreamTrack> {
    if (device?.readyState === 'live') return device;
    // Absent outside secure contexts, whatever the types say.
    const devices = navigator.mediaDevices as MediaDevices | undefined;
    if (!devices) throw new DOMException('No media devices in this context.', 'NotAllowedError');
    const stream = await devices.getUserMedia({ audio: constraints });
    const [track] = stream.getAudioTracks();
    if (!track) throw new DOMException('The stream has no audio.', 'NotFoundError');
    device = track;
    return track;
  }

  function releaseDevice(): void {
    if (kept || users > 0) return;
    device?.stop();
    device = null;
    void context?.suspend();
  }

  return {
    async open(given, onLost) {
      users++;
      try {
        const track = given ?? (await openDevice());
        const opened = await audio();
        return connect(opened, clock, track, onLost, () => {
          users--;
          releaseDevice();
        });
      } catch (error) {
        users--;
        releaseDevice();
        return refusalFrom(error);
      }
    },
    keep(value) {
      kept = value;
      releaseDevice();
    },
  };
}

function connect(context: AudioContext, clock: Clock, track: MediaStreamTrack, onLost: () => void, onClosed: () => void): OpenMicrophone {
  const source = context.createMediaStreamSource(new MediaStream([track]));
  const capture = new AudioWorkletNode(context, 'capture', { numberOfOutputs: 0 });
  const { port1, port2 } = new MessageChannel();
  capture.port.postMessage(null, [port1]);
  // Marks keep the two clocks together, and put right what a glitch of the audio thread has cost. A late mark does no harm:
  // the context's own time has gone on as well.
  let mark = { seconds: 0, at: clock.now() };
  capture.port.onmessage = ({ data }: MessageEvent<{ readonly samples: number; readonly time: number }>) => {
    mark = { seconds: data.samples / context.sampleRate, at: clock.now() - (context.currentTime - data.time) * 1000 };
  };
  source.connect(capture);
  track.addEventListener('ended', onLost, { once: true });
  let closed = false;
  return {
    kind: 'open',
    sampleRate: context.sampleRate,
    port: port2,
    timeOf: (seconds) => mark.at + (seconds - mark.seconds) * 1000,
    close() {
      if (closed) return;
      closed = true;
      track.removeEventListener('ended', onLost);
      source.disconnect();
      capture.port.postMessage(null);
      onClosed();
    },
  };
}

/** Names of exceptions from getUserMedia (Media Capture and Streams, 10.2) in the terms of the Web Speech API. */
function refusalFrom(error: unknown): Refusal {
  const name = error instanceof DOMException ? error.name : '';
  const denied = name === 'NotAllowedError' || name === 'SecurityError';
  return { kind: 'refused', error: denied ? 'not-allowed' : 'audio-capture', message: String(error) };
}
