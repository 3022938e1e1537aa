import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { barriers, dropProfile, launch, launchMortal, newProfile, serveBuilt } from './rig.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveBuilt>>;

beforeAll(async () => {
  [browser, served] = await Promise.all([launch(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

async function begin(page: Page, title: string): Promise<void> {
  await page.goto(`${served.address}#/author`);
  await page.getByLabel('What is the job?').fill(title);
  await page.getByLabel('Which vehicle?').fill('Brindle B4 light van');
  await page.getByLabel('Who answers for it?').fill('A tester');
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await page.getByRole('heading', { name: title, level: 1 }).waitFor();
}

/** The last piece of that in the text is put into words for the keyboard: the cursor goes behind it. */
async function typeBehind(page: Page, words: string, typed: string): Promise<void> {
  await page.locator('.cm-line', { hasText: words }).first().click();
  await page.keyboard.press('End');
  await page.keyboard.type(typed);
}

const stored = (page: Page) => page.locator('[data-saving="stored"]').waitFor();
const textOf = (page: Page) => page.locator('.cm-content').innerText();

it('goes from nothing to a rehearsed step, through an error, by text and form, and is there after a reload', async () => {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await begin(page, 'Refit the carrier');
  await page.getByText('Ready to run').waitFor();

  await typeBehind(page, 'revision: 1', 'x');
  await page.getByRole('tab', { name: /Findings\s*1/ }).click();
  await page.getByRole('tabpanel').getByText('Expected a whole number from 1 to 99999').click();
  await page.locator('.cm-focused').waitFor();
  await page.keyboard.press('End');
  await page.keyboard.press('Backspace');
  await page.getByText('Nothing to put right.').waitFor();

  await page.getByRole('tab', { name: 'Form' }).click();
  await page.getByRole('button', { name: /Say here what to do first/ }).click();
  await page.getByLabel('Sentence that is read out').fill('Hang the carrier on its pins.');
  await page.locator('.cm-line', { hasText: 'do: Hang the carrier on its pins.' }).waitFor();
  await page.getByRole('button', { name: 'Add a step', exact: true }).click();
  await page.getByLabel('Sentence that is read out').fill('Bolt it on.');
  await page.getByRole('button', { name: 'Add fasteners', exact: true }).click();
  await page.getByLabel('Name', { exact: true }).fill('carrier bolt');
  await page.getByLabel('How many').fill('2');
  await page.locator('.cm-line', { hasText: 'count: 2' }).last().waitFor();
  expect(await textOf(page)).toContain('# Stages of steps.');

  // One history for both: undo takes the form's edits back in the text.
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(async () => (await textOf(page)).match(/count: 2/g)?.length).toBe(1);
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect.poll(async () => (await textOf(page)).match(/count: 2/g)?.length).toBe(2);

  await page.getByRole('button', { name: 'Rehearse from here' }).click();
  await page.locator('.author-rehearsing[data-state="fastening"]').waitFor();
  await page.getByLabel('What you would say').fill('what torque');
  await page.keyboard.press('Enter');
  await page
    .getByRole('log')
    .getByText(/manual/)
    .last()
    .waitFor();
  await page.getByLabel('What you would say').fill('two done');
  await page.keyboard.press('Enter');
  await page.locator('.author-rehearsing:not([data-state="fastening"])').waitFor();

  await page.getByRole('button', { name: 'Keep a version' }).click();
  await page.getByRole('button', { name: 'Keep it' }).click();
  await page.getByText('Kept as version 1.').waitFor();
  await page.getByRole('tab', { name: 'Form' }).click();
  await page.getByLabel('Torque').fill('50 N·m');
  await page.getByRole('tab', { name: 'Versions' }).click();
  await page.getByText('Step 2: torque of the carrier bolts added: 50 newton metres.').waitFor();

  await stored(page);
  await page.reload();
  await page.locator('.cm-line', { hasText: 'torque: 50 N·m' }).waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(async () => (await textOf(page)).includes('torque: 50 N·m')).toBe(false);
  await stored(page);

  await page.goto(served.address);
  await page.getByRole('heading', { name: 'Refit the carrier' }).waitFor();
  expect(errors).toEqual([]);
  await page.context().close();
});

it('drafts from a transcript and will not be run before its questions are answered', async () => {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(`${served.address}#/author`);
  const talk = `WEBVTT

00:00:01.000 --> 00:00:06.000
The bracket has two 13 millimetre bolts.

00:00:07.000 --> 00:00:12.000
The pan has four 10 millimetre bolts, eight newton metres.

00:00:13.000 --> 00:00:26.000
The stay on the left, that is a 15 and I give it 40. The cover, six of them, tens. Nine newton metres. The hose, 22. Everybody nips that.

00:00:27.000 --> 00:00:38.000
The undertray is on with a few tens, nine or so. Twelve I think, or was it fourteen. The arms, one each end. 21 and 18. Ninety and seventy.
`;
  await page
    .getByLabel('Take in a transcript')
    .setInputFiles({ name: 'bracket and pan.vtt', mimeType: 'text/vtt', buffer: Buffer.from(talk) });
  await page.getByRole('tab', { name: /Questions/ }).click();
  const open = page.locator('.author-question:not(.done)');
  const before = await open.count();
  expect(before).toBeGreaterThan(2);
  await page.getByText('Heard: “The bracket has two 13 millimetre bolts.”').first().waitFor();
  await page.getByLabel('Vehicle, written in at once, 1').fill('Brindle B4 light van');
  await page.keyboard.press('Enter');
  await page.locator('.cm-line', { hasText: 'vehicle: Brindle B4 light van' }).waitFor();
  await page.getByLabel('Who answers for it, written in at once, 2').fill('A tester');
  await page.keyboard.press('Enter');
  await expect.poll(() => open.count()).toBe(before - 2);
  // What was heard but not for certain is taken in one press. Which value that is, the rules of drafting decide.
  const offered = page.locator('.author-offer').first();
  const field = /^(.+): heard, but not for certain\.$/u.exec(await offered.locator('p').innerText())?.[1] ?? 'no field';
  const value = /^Yes, (.+)$/u.exec(await offered.getByRole('button').innerText())?.[1] ?? 'no value';
  await offered.getByRole('button').click();
  await expect.poll(() => open.count()).toBe(before - 3);
  // It stands in the file: where the answer is taken back, the question has the value already.
  await page
    .locator('.author-question.done', { hasText: `Answered: ${value}` })
    .getByRole('button')
    .first()
    .click();
  await expect.poll(() => open.count()).toBe(before - 2);
  const standing = page.locator('.author-question', { has: page.locator('.author-offer') }).first();
  await expect.poll(() => standing.getByLabel(new RegExp(`^${field}, written in at once`, 'u')).inputValue()).toBe(value);
  // A count cannot be left to the manual.
  const offers = page.locator('.author-offer button');
  while ((await offers.count()) > 0) {
    const left = await open.count();
    await offers.first().click();
    await expect.poll(() => open.count()).toBe(left - 1);
  }
  while ((await open.count()) > 0) {
    const left = await open.count();
    await open
      .first()
      .getByRole('button', { name: /Look it up/ })
      .click();
    await expect.poll(() => open.count()).toBe(left - 1);
  }
  await page.getByText('Ready to run').waitFor();
  await page.context().close();
});

it('lets a second tab look on and take over', async () => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const [first, second] = [await context.newPage(), await context.newPage()];
  await begin(first, 'Two tabs');
  await second.goto(first.url());
  await second.getByText('Another tab is writing this procedure.').waitFor();
  await expect(second.getByRole('button', { name: 'Keep a version' }).isDisabled()).resolves.toBe(true);
  await typeBehind(first, 'title: Two tabs', ' at once');
  await stored(first);
  await first.close();
  await second.locator('.cm-line', { hasText: 'title: Two tabs at once' }).waitFor();
  await expect.poll(() => second.getByRole('button', { name: 'Keep a version' }).isEnabled()).toBe(true);
  await context.close();
});

it('has everything again, the cursor too, after the browser was killed outright', async () => {
  const profile = await newProfile();
  let life = await launchMortal(profile);
  await life.page.setViewportSize({ width: 1440, height: 900 });
  await begin(life.page, 'Killed');
  await typeBehind(life.page, 'title: Killed', ' in mid-sentence');
  await stored(life.page);
  const address = life.page.url();
  await life.kill();
  life = await launchMortal(profile);
  await life.page.setViewportSize({ width: 1440, height: 900 });
  await life.page.goto(address);
  await life.page.locator('.cm-line', { hasText: 'title: Killed in mid-sentence' }).waitFor();
  await life.page.locator('.cm-content').focus();
  await life.page.keyboard.type(' again');
  await life.page.locator('.cm-line', { hasText: 'title: Killed in mid-sentence again' }).waitFor();
  await life.kill();
  await dropProfile(profile);
});

it('records a talk, keeps its sound over a reload, and drafts from a transcript attached to it', async () => {
  const hearing = await launch(['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream']);
  const page = await (await hearing.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(`${served.address}#/author`);
  await page.getByText('Nothing is written down while you talk').waitFor();
  await page.getByRole('button', { name: 'Record a talk-through' }).click();
  await page.getByText('Recording: 0:03').waitFor();
  await page.getByRole('button', { name: 'Stop recording' }).click();
  await page.getByText('no transcript yet').waitFor();
  await page.reload();
  const panel = page.locator('article', { hasText: 'no transcript yet' });
  const seconds = () =>
    panel.locator('audio').evaluate((sound: HTMLAudioElement) => (sound.readyState > 0 ? (sound.error?.message ?? 'plays') : 'waits'));
  await expect.poll(seconds).toBe('plays');
  const talk = 'WEBVTT\n\n00:00:01.000 --> 00:00:03.000\nThe pan has four 10 millimetre bolts, eight newton metres.\n';
  await panel.getByLabel('Attach a transcript').setInputFiles({ name: 'talk.vtt', mimeType: 'text/vtt', buffer: Buffer.from(talk) });
  await page.getByRole('button', { name: /Draft from it/ }).click();
  await page.getByRole('button', { name: /Tighten the pan bolts/ }).click();
  // The sentence beside the value plays from where it was said.
  await page.getByRole('button', { name: 'Play from 0:01' }).first().click();
  await hearing.close();
});

it('says that a file of its own is missing where drafting wants one, keeps the transcript, and drafts once it can be had', async () => {
  // Nothing from the cache: the file was never there.
  const page = await (await browser.newContext({ viewport: { width: 390, height: 844 }, serviceWorkers: 'block' })).newPage();
  await page.route('**/assets/talks-*.net', (route) => route.abort());
  await page.goto(`${served.address}#/author`);
  const talk = 'WEBVTT\n\n00:00:01.000 --> 00:00:03.000\nThe pan has four 10 millimetre bolts, eight newton metres.\n';
  await page.getByLabel('Take in a transcript').setInputFiles({ name: 'pan.vtt', mimeType: 'text/vtt', buffer: Buffer.from(talk) });
  await page.getByText('a file of the app that reads talk could not be fetched').waitFor();
  await page.unroute('**/assets/talks-*.net');
  await page.getByRole('button', { name: /Draft from it/ }).click();
  await page.waitForURL(/#\/author\/pan/u);
});

describe.each([
  ['phone', 390, 844, 'dark'],
  ['tablet', 1024, 768, 'light'],
  ['desktop', 1440, 900, 'dark'],
] as const)('on a %s', (_, width, height, scheme) => {
  // Six panes under axe: slow by nature, and a limit only against hanging.
  it('every pane passes axe (WCAG 2.2 AA), and nothing overflows sideways', { timeout: 400_000 }, async () => {
    const page = await (await browser.newContext({ viewport: { width, height }, colorScheme: scheme })).newPage();
    const check = async (name: string) => {
      const violations = await barriers(page);
      expect(violations.map(({ id, nodes }) => `${name}: ${id} ${nodes[0]?.html ?? ''}`)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), name).toBeLessThanOrEqual(0);
    };
    await page.goto(`${served.address}#/author`);
    await page.getByRole('heading', { name: 'Talk-throughs' }).waitFor();
    await check('library');
    await page.getByLabel('Which one?').selectOption({ label: 'Eight-bolt flange exercise' });
    await page.getByRole('button', { name: 'Copy it' }).click();
    await page.getByText('Ready to run').waitFor();
    for (const pane of [...(width < 1000 ? ['Text'] : []), 'Form', 'Findings', 'Hear it', 'Rehearse', 'Versions']) {
      await page.getByRole('tab', { name: pane }).click();
      if (pane === 'Form') await page.getByRole('button', { name: /Tighten the eight flange bolts/ }).click();
      if (pane === 'Rehearse') await page.getByRole('button', { name: 'Start the rehearsal' }).click();
      await check(pane);
    }
    await page.context().close();
  });
});
