import { execFileSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { andStored, launch, microphoneFlags, sayIntoWav, serveBuilt, startJob, stateOf } from '../../browser/rig.ts';
import { audible, levelStep, recordSoundLevels, soundLevels, type SoundLevels } from '../../browser/sound-levels.ts';

export interface AnswerTimes {
  readonly asked: number;
  /** From the end of the question to the first sound of the answer, in seconds, measured on the sound itself; in order of size. */
  readonly delays: readonly number[];
}

/** Seconds from one question to the next: room for the whole answer, since only an interruption is listened to while it speaks. */
const pause = 8;

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
    await recordSoundLevels(page);
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
    const clear = (await soundLevels(page)).microphone.length;
    await page.waitForTimeout(1000 * (length / 3) * (questions + 0.5));
    return { asked: questions, delays: delaysIn(await soundLevels(page), clear) };
  } finally {
    await browser.close();
    await served.close();
    await rm(folder, { recursive: true });
  }
}

/** The fake microphone's noise lies well under this, and speech well over it. */
const spoken = 0.02;

/** Between the end of each question and the first sound from the loudspeaker after it. */
function delaysIn({ microphone, loudspeaker }: SoundLevels, from: number): number[] {
  const delays: number[] = [];
  let last = -Infinity;
  for (let at = from; at < microphone.length; at++) {
    if ((microphone[at] ?? 0) >= spoken) last = at;
    else if (at - last === Math.round(1 / levelStep)) {
      // A second of quiet: a question was over at 'last'.
      const answer = loudspeaker.findIndex((level, index) => index > last && level >= audible);
      if (answer >= 0 && (answer - last) * levelStep < 4) delays.push((answer - last) * levelStep);
    }
  }
  return delays.sort((a, b) => a - b);
}
