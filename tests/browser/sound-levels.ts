import type { Page } from 'playwright-core';

/** Root mean squares of stretches of 5 ms, from the moment at which the page's script began; both stand on one clock. */
export interface SoundLevels {
  readonly microphone: readonly number[];
  readonly loudspeaker: readonly number[];
}

/** Seconds that one level stands for. */
export const levelStep = 0.005;
/** What can be heard from the loudspeaker lies over this. */
export const audible = 0.004;

/**
 * Records what the microphone gives and what goes to the loudspeaker in one audio context. What goes to the loudspeaker comes through
 * a media stream, a few milliseconds late, which counts against the app.
 */
const recorder = `(() => {
  const connect = AudioNode.prototype.connect;
  const context = new AudioContext();
  const merger = context.createChannelMerger(2);
  const node = context.createScriptProcessor(4096, 2, 1);
  const hop = Math.round(context.sampleRate / 200);
  const levels = { microphone: [], loudspeaker: [] };
  const rest = { microphone: [], loudspeaker: [] };
  window.recordedLevels = levels;
  node.onaudioprocess = ({ inputBuffer }) => {
    ['microphone', 'loudspeaker'].forEach((name, channel) => {
      rest[name].push(...inputBuffer.getChannelData(channel));
      while (rest[name].length >= hop) {
        const part = rest[name].splice(0, hop);
        levels[name].push(Math.sqrt(part.reduce((sum, sample) => sum + sample * sample, 0) / hop));
      }
    });
  };
  connect.call(merger, node);
  connect.call(node, context.destination);
  const take = (stream, channel) => connect.call(context.createMediaStreamSource(stream), merger, 0, channel);
  const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
  navigator.mediaDevices.getUserMedia = async (wish) => {
    const stream = await ask(wish);
    take(stream.clone(), 0);
    await context.resume();
    return stream;
  };
  AudioNode.prototype.connect = function (to, ...others) {
    if (to instanceof AudioDestinationNode && this.context !== context) {
      const tap = this.context.createMediaStreamDestination();
      connect.call(this, tap);
      take(tap.stream, 1);
    }
    return connect.call(this, to, ...others);
  };
})()`;

/** Records in every document that the page opens from now on, beginning with the first use of the microphone. */
export async function recordSoundLevels(page: Page): Promise<void> {
  await page.addInitScript(recorder);
}

/** What was recorded in the document so far. */
export function soundLevels(page: Page): Promise<SoundLevels> {
  return page.evaluate(() => (window as unknown as { recordedLevels: SoundLevels }).recordedLevels);
}

/** Waits until something louder than `level` goes to the loudspeaker, later than the `after` levels that were there before. */
export async function untilHeard(page: Page, level: number, after: number): Promise<void> {
  await page.waitForFunction(
    ([least, from]) =>
      (window as unknown as { recordedLevels: SoundLevels }).recordedLevels.loudspeaker.some((one, at) => at >= from && one > least),
    [level, after] as const,
  );
}
