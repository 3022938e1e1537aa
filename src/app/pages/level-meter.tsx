import { useEffect, useRef, useState } from 'react';

/** From silence to as loud as it gets, in dB full scale. */
const lowest = -70;
/** Above this the microphone clips. */
const tooLoud = -3;
const everyMilliseconds = 100;

/** How loud the microphone is now. Opens the microphone for as long as it is shown; shows nothing where there is none. */
export function LevelMeter({ label }: { readonly label: string }) {
  const meter = useRef<HTMLMeterElement>(null);
  const [works, setWorks] = useState(false);
  useEffect(() => {
    let over = false;
    let close = (): void => undefined;
    void openLevel()
      .then((level) => {
        if (over) {
          level.close();
          return;
        }
        setWorks(true);
        const timer = setInterval(() => {
          if (meter.current !== null) meter.current.value = Math.max(lowest, level.now());
        }, everyMilliseconds);
        close = () => {
          clearInterval(timer);
          level.close();
        };
      })
      // Who has no microphone, or does not allow it, is told by the check itself.
      .catch(() => undefined);
    return () => {
      over = true;
      close();
    };
  }, []);
  return (
    <label hidden={!works}>
      {label}
      <meter ref={meter} min={lowest} max={0} low={-50} high={tooLoud} optimum={-25} style={{ width: '100%' }} />
    </label>
  );
}

/** Loudness over the last 50 ms or so, in dB full scale, as the recogniser's own microphone has it. */
async function openLevel(): Promise<{ now(): number; close(): void }> {
  const stream = await navigator.mediaDevices.getUserMedia({
    audio: { channelCount: 1, echoCancellation: true, autoGainControl: false, noiseSuppression: false },
  });
  const context = new AudioContext();
  const analyser = context.createAnalyser();
  analyser.fftSize = 2048;
  context.createMediaStreamSource(stream).connect(analyser);
  const samples = new Float32Array(analyser.fftSize);
  return {
    now() {
      analyser.getFloatTimeDomainData(samples);
      return 10 * Math.log10(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length + 1e-12);
    },
    close() {
      for (const track of stream.getTracks()) track.stop();
      void context.close();
    },
  };
}
