import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DoubleWindow } from './doubles.ts';
import { doublesScript, pageWithDoubles, say, spoken } from './doubles.ts';
import { andStored, launch, serveBuilt, startJob, stateOf, storedLines } from './rig.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;
let doubles: string;

beforeAll(async () => {
  // The built-in ear, when it takes over, needs a microphone: the browser's own beeping one.
  [browser, served, doubles] = await Promise.all([
    launch(['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream']),
    serveBuilt(),
    doublesScript(),
  ]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

/** The app at the first fastener of the flange, with a browser's own speech as the standard describes it. */
async function atTheFlange(habits: string): Promise<Page> {
  const page = await pageWithDoubles(browser, doubles, habits);
  await page.setViewportSize({ width: 390, height: 844 });
  await startJob(page, served.address, 'Eight-bolt flange exercise', 'K', 'Alex', 'Begin');
  for (let turn = 0; turn < 60 && (await stateOf(page)) !== 'fastening'; turn += 1) {
    const name = (await stateOf(page)) === 'checking' ? 'yes' : 'done';
    await andStored(page, () => page.locator(`.actions [data-intent="${name}"]`).first().click());
  }
  return page;
}

describe('with the browser’s own recognition and voice', () => {
  it('goes forward by what is recognised, answers by its voice, and stores the events', async () => {
    const page = await atTheFlange('');
    await say(page, 'what torque');
    await page.locator('.captions', { hasText: 'Heard: “what torque”' }).waitFor();
    await page.locator('.captions', { hasText: /No torque in this pass/u }).waitFor();
    await say(page, "that's done");
    await page.locator('.count', { hasText: '1 of 8 done' }).waitFor();
    await say(page, 'two done');
    await page.locator('.count', { hasText: '3 of 8 done' }).waitFor();
    await say(page, 'undo that');
    await page.locator('.count', { hasText: '2 of 8 done' }).waitFor();
    expect(await spoken(page)).toMatch(/No torque in this pass/u);
    // Sound stays on the device: nothing was switched on that would let it go.
    expect(await page.evaluate(() => (window as unknown as DoubleWindow).doubles.recognition.made.every((one) => one.processLocally))).toBe(
      true,
    );
    const stored = await storedLines(page);
    expect(stored.some((line) => line.includes('asked') && line.includes('torque'))).toBe(true);
    expect(stored.some((line) => line.includes('undone'))).toBe(true);
    await page.context().close();
  });

  it('works in French: hears it, answers it by a French voice, and keeps it on the record', async () => {
    const page = await pageWithDoubles(
      browser,
      doubles,
      "doubles.synthesis.voices.push({ voiceURI: 'Sur place', name: 'Sur place', lang: 'fr-FR', localService: true, default: false });",
      'fr',
    );
    await page.goto(served.address);
    const exercise = page.locator('article').first();
    await exercise.getByRole('heading', { name: 'Exercice de la bride à huit boulons' }).waitFor();
    await exercise.getByRole('button', { name: 'Commencer' }).click();
    await exercise.getByLabel('Votre nom, pour le relevé').fill('Camille');
    await exercise.getByRole('button', { name: 'Commencer' }).click();
    await page.getByRole('button', { name: 'C’est parti', exact: true }).click();
    await page.locator('.work').waitFor();
    for (let turn = 0; turn < 60 && (await stateOf(page)) !== 'fastening'; turn += 1) {
      const name = (await stateOf(page)) === 'checking' ? 'yes' : 'done';
      await andStored(page, () => page.locator(`.actions [data-intent="${name}"]`).first().click());
    }
    await say(page, 'quel couple');
    await page.locator('.captions', { hasText: 'Entendu' }).waitFor();
    await page.locator('.captions', { hasText: 'Pas de couple dans cette passe' }).waitFor();
    await say(page, "c'est fait");
    await page.locator('.count', { hasText: '1 sur 8' }).waitFor();
    await andStored(page, () => say(page, 'répète ça'));
    await andStored(page, () => page.keyboard.press('u'));
    await page.locator('.count', { hasText: '0 sur 8' }).waitFor();
    const { heardIn, saidIn } = await page.evaluate(() => {
      const { recognition, synthesis } = (window as unknown as DoubleWindow).doubles;
      return { heardIn: recognition.made.map(({ lang }) => lang), saidIn: synthesis.spoken.map(({ lang }) => lang) };
    });
    expect(new Set(heardIn)).toEqual(new Set(['fr-FR']));
    expect(new Set(saidIn)).toEqual(new Set(['fr-FR']));
    expect(await spoken(page)).toMatch(/Pas de couple dans cette passe/u);
    const stored = (await storedLines(page)).join('\n');
    for (const kept of [/person\W+Camille/u, /intent\W+torque\b/u, /intent\W+repeat\b/u, /type\W+fastener-tightened/u, /type\W+undone/u])
      expect(stored).toMatch(kept);
    await page.context().close();
  });

  it('hears "stop" while it speaks, and falls silent at once', async () => {
    const page = await atTheFlange('');
    await page.evaluate(() => {
      (window as unknown as DoubleWindow).doubles.synthesis.habits.letterTakes = null;
    });
    await page.keyboard.press('r');
    await page.waitForFunction(() => {
      const { recognition, synthesis } = (window as unknown as DoubleWindow).doubles;
      return synthesis.speaking && recognition.made.at(-1)?.running === true;
    });
    await page.evaluate(() => {
      const { recognition, synthesis } = (window as unknown as DoubleWindow).doubles;
      synthesis.calls.length = 0;
      recognition.last.speechStart();
      recognition.last.final('stop stop');
    });
    await page.locator('.work[data-state="diagnosing"]').waitFor();
    expect(await page.evaluate(() => (window as unknown as DoubleWindow).doubles.synthesis.calls[0])).toBe('cancel');
    await page.context().close();
  });

  it('goes on with the built-in ear, and says so, when recognition on the device is refused and never ends', async () => {
    const page = await atTheFlange(`(() => {
      const { recognition } = window.doubles;
      window.said = [];
      new MutationObserver(() => window.said.push(document.querySelector('.captions')?.textContent ?? '')).observe(document, { subtree: true, childList: true, characterData: true });
      recognition.habits.startsAfter = null;
      recognition.habits.endsAfterError = false;
      recognition.habits.endsWhenTold = false;
      const start = recognition.Recognition.prototype.start;
      recognition.Recognition.prototype.start = function () {
        start.call(this);
        queueMicrotask(() => this.fail('language-not-supported'));
      };
    })()`);
    await page.locator('.chip', { hasText: /hears on this device$/u }).waitFor({ timeout: 100_000 });
    expect(await page.evaluate('window.said.some((line) => line.includes("Listening on the device now"))')).toBe(true);
    await andStored(page, () => page.locator('.actions [data-intent="done"]').first().click());
    await page.locator('.count', { hasText: '1 of 8 done' }).waitFor();
    await page.context().close();
  });
});

it('takes the buttons of a headset while a job is open', async () => {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  // No test machine has a headset: the page's own handlers are kept and called as the browser would.
  await page.addInitScript(`(() => {
    window.headset = {};
    window.playing = new Set();
    navigator.mediaSession.setActionHandler = (action, handler) => {
      if (handler === null) delete window.headset[action];
      else window.headset[action] = handler;
    };
    const { play, pause } = HTMLMediaElement.prototype;
    HTMLMediaElement.prototype.play = function () { window.playing.add(this); return play.call(this); };
    HTMLMediaElement.prototype.pause = function () { window.playing.delete(this); return pause.call(this); };
  })()`);
  await startJob(page, served.address, 'Eight-bolt flange exercise', 'K');
  const press = (action: string) => page.evaluate(`window.headset[${JSON.stringify(action)}]({ action: ${JSON.stringify(action)} })`);
  // Browsers tell of the buttons only while sound plays.
  await page.waitForFunction('[...window.playing].some((one) => !one.paused && one.loop)');
  await andStored(page, () => press('play'));
  await andStored(page, () => press('pause'));
  await page.locator('.work').getByRole('link', { name: 'Leave' }).click();
  await page.getByRole('heading', { name: 'Jobs under way' }).waitFor();
  expect(await page.evaluate('Object.keys(window.headset).length + window.playing.size')).toBe(0);
  await context.close();
});
