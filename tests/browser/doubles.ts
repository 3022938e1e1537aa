import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import type { Language } from '../../src/phrasing/language.ts';
import type { Clock } from '../../src/speech/clock.ts';
import { echoTail } from '../../src/speech/echo-guard.ts';
import { earconLengths } from '../../src/speech/sound/earcon.ts';
import type { strictRecognition } from '../speech/doubles/strict-recognition.ts';
import type { StrictSynthesis } from '../speech/doubles/strict-synthesis.ts';

/** A page with strict doubles of the Web Speech API in it. */
export interface DoubleWindow {
  readonly doubles: {
    readonly recognition: ReturnType<typeof strictRecognition>;
    readonly synthesis: StrictSynthesis;
    readonly clock: Clock;
  };
}

/** The script that puts the doubles into a page, for `addInitScript`. */
export async function doublesScript(): Promise<string> {
  const bundle = await build({ entryPoints: ['tests/browser/pages/web-speech-doubles.ts'], bundle: true, write: false, format: 'iife' });
  return bundle.outputFiles[0]?.text ?? '';
}

/** A page, alone in its context, that hears and speaks by the browser's own means, which are the doubles; with habits of theirs as a script. */
export async function pageWithDoubles(browser: Browser, doubles: string, habits = '', language: Language = 'en'): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.addInitScript(doubles + habits);
  await page.addInitScript(
    (kept) => {
      localStorage.setItem('undertray.settings', kept);
    },
    JSON.stringify({ v: 1, ear: 'browser', voice: 'browser', language }),
  );
  return page;
}

/** Milliseconds of speech, as a person's is. */
const spokenFor = 500;
/**
 * The double of a voice is through within a few milliseconds, and what begins and ends within the earcon of a done step and its echo is
 * rightly taken for the earcon: so what is said ends after it, with something to spare.
 */
const pastTheEarcon = earconLengths['step-complete'] + echoTail - spokenFor + 100;

/** Says something to the browser's recognition once the app has finished speaking and the room has been quiet for a moment, in milliseconds. */
export async function say(page: Page, text: string, quiet = pastTheEarcon): Promise<void> {
  for (let isSaid = false; !isSaid;) {
    await page.waitForFunction(() => {
      const { recognition, synthesis } = (window as unknown as DoubleWindow).doubles;
      return !synthesis.speaking && recognition.made.at(-1)?.running === true;
    });
    await page.locator('.chip', { hasText: /^(?:Listening|Écoute)/u }).waitFor();
    isSaid = await page.evaluate(
      async ([words, moment, length]) => {
        const { recognition, synthesis, clock } = (window as unknown as DoubleWindow).doubles;
        await new Promise<void>((resolve) => clock.after(moment, resolve));
        // The app may just have begun its answer: a person waits for its end.
        if (synthesis.speaking) return false;
        const { last } = recognition;
        last.speechStart();
        last.interim(words);
        await new Promise<void>((resolve) => clock.after(length, resolve));
        last.final(words);
        return true;
      },
      [text, quiet, spokenFor] as const,
    );
  }
}

export const spoken = (page: Page): Promise<string> =>
  page.evaluate(() => (window as unknown as DoubleWindow).doubles.synthesis.spoken.map(({ text }) => text).join('\n'));
