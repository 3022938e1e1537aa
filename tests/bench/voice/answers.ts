import { execFileSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { andStored, launch, microphoneFlags, sayIntoWav, serveBuilt, startJob, stateOf } from '../../browser/rig.ts';

export interface AnswerTimes {
  readonly asked: number;
  /** From the end of the question to the first sound of the answer, in seconds, measured on the sound itself; in order of size. */
  readonly delays: readonly number[];
}

/** Seconds from one question to the next: room for the whole answer, since only an interruption is listened to while it speaks. */
const pause = 8;

/**
 * Records what the microphone gives and what goes to the loudspeaker in one audio context, as levels of 5 ms, so that both
 * stand on one clock. What goes to the loudspeaker comes through a media stream, a few milliseconds late, which counts against the app.
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

interface Levels {
  readonly microphone: readonly number[];
  readonly loudspeaker: readonly number[];
}

/** Asks the built app for the torque so many times through a fake microphone, in a real browser. `npm run build` must have run. */
export async function measureAnswers(questions: number): Promise<AnswerTimes> {
  const folder = await mkdtemp(join(tmpdir(), 'undertray-answers-'));
  const wav = join(folder, 'microphone.wav');
  sayIntoWav(wav, ['what torque', 'which socket', 'how many left'], pause);
  const length = Number(execFileSync('soxi', ['-D', wav]).toString());
  const [browser, served] = await Promise.all([launch(microphoneFlags(wav, true)), serveBuilt()]);
  try {
    const context = await browser.newContext({ permissions: ['microphone'] });
    const page = await context.newPage();
    await page.addInitScript(recorder);
    await page.addInitScript(() => {
      localStorage.setItem('undertray.settings', JSON.stringify({ v: 1, ear: 'local', voice: 'local', language: 'en' }));
    });
    await startJob(page, served.address, 'Eight-bolt flange exercise', 'K', 'Alex', 'Begin');
    for (let turn = 0; turn < 60 && (await stateOf(page)) !== 'fastening'; turn += 1) {
      const name = (await stateOf(page)) === 'checking' ? 'yes' : 'done';
      await andStored(page, () => page.locator(`.actions [data-intent="${name}"]`).first().click());
    }
    // The first answer shows that everything is loaded; from there on it counts.
    await page.locator('.captions', { hasText: 'Heard: “' }).first().waitFor({ timeout: 150_000 });
    const clear = await page.evaluate(() => (window as unknown as { recordedLevels: Levels }).recordedLevels.microphone.length);
    await page.waitForTimeout(1000 * (length / 3) * (questions + 0.5));
    const levels = await page.evaluate(() => (window as unknown as { recordedLevels: Levels }).recordedLevels);
    return { asked: questions, delays: delaysIn(levels, clear) };
  } finally {
    await browser.close();
    await served.close();
    await rm(folder, { recursive: true });
  }
}

const step = 0.005;
/** The fake microphone's noise lies well under this, and speech well over it. */
const spoken = 0.02;
const audible = 0.004;

/** Between the end of each question and the first sound from the loudspeaker after it. */
function delaysIn({ microphone, loudspeaker }: Levels, from: number): number[] {
  const delays: number[] = [];
  let last = -Infinity;
  for (let at = from; at < microphone.length; at++) {
    if ((microphone[at] ?? 0) >= spoken) last = at;
    else if (at - last === Math.round(1 / step)) {
      // A second of quiet: a question was over at 'last'.
      const answer = loudspeaker.findIndex((level, index) => index > last && level >= audible);
      if (answer >= 0 && (answer - last) * step < 4) delays.push((answer - last) * step);
    }
  }
  return delays.sort((a, b) => a - b);
}
