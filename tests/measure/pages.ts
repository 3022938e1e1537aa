/**
 * Lighthouse over the built app, `npm run measure` after `npm run build`: performance, accessibility and best practices of each screen, on
 * its slowed phone (a processor four times as slow, 1.6 Mbit/s) and on a desktop; then how soon a button answers when the page comes from
 * the device's own cache. A busy machine makes all of it worse than it is.
 */
import lighthouse, { desktopConfig } from 'lighthouse';
import { chromium } from 'playwright-core';
import { chromiumPath, launch, plainFlags, serveBuilt } from '../browser/rig.ts';

const screens = ['', '#/settings', '#/tools', '#/review', '#/calculator', '#/author'];
const categories = ['performance', 'accessibility', 'best-practices'];
const port = 9333;

const served = await serveBuilt();
const browser = await chromium.launch({ executablePath: chromiumPath, args: [...plainFlags, `--remote-debugging-port=${port}`] });
try {
  for (const [screen, device] of screens.flatMap((one) => [[one, 'phone'] as const, [one, 'desktop'] as const])) {
    const flags = { port, onlyCategories: categories, logLevel: 'error', output: 'json' } as const;
    const result = await lighthouse(`${served.address}${screen}`, flags, device === 'desktop' ? desktopConfig : undefined);
    if (result === undefined) throw new Error(`no measure of ${screen}`);
    const { lhr } = result;
    const scores = categories.map((name) => `${name} ${Math.round((lhr.categories[name]?.score ?? 0) * 100)}`).join(', ');
    const shown = (audit: string) => lhr.audits[audit]?.displayValue ?? '?';
    console.log(
      `${screen === '' ? '#/' : screen}, ${device}: ${scores}; first paint ${shown('first-contentful-paint')}, interactive ${shown('interactive')}`,
    );
    const failing = Object.values(lhr.audits).filter(
      ({ score, scoreDisplayMode }) => score !== null && score < 0.9 && scoreDisplayMode === 'binary',
    );
    for (const { id, title } of failing) console.log(`  ${id}: ${title}`);
  }
  for (const slowness of [1, 4]) console.log(`from cache, processor ${slowness}× slower: ${await fromCache(slowness)}`);
} finally {
  await browser.close();
  await served.close();
}

/** From the start of loading until a press on the first procedure's button opened its form, the server gone: median and worst of nine, in ms. */
async function fromCache(slowness: number): Promise<string> {
  const own = await serveBuilt();
  const device = await launch();
  try {
    const context = await device.newContext({ viewport: { width: 412, height: 823 } });
    const page = await context.newPage();
    await page.goto(own.address);
    await page.getByText('Ready for work without a network').waitFor({ timeout: 120_000 });
    await own.close();
    await (await context.newCDPSession(page)).send('Emulation.setCPUThrottlingRate', { rate: slowness });
    // Presses as soon as there is something to press, and notes when the page has answered.
    // Presses as soon as there is something to press, and notes when the page has answered. As text: tsx adds a helper to functions that
    // the page does not have.
    await page.addInitScript(`{
      const look = () => {
        if (document.querySelector('article form') !== null) return void (window.answered = performance.now());
        document.querySelector('article button.primary')?.click();
        requestAnimationFrame(look);
      };
      requestAnimationFrame(look);
    }`);
    const times: number[] = [];
    while (times.length < 9) {
      await page.reload();
      await page.waitForFunction(() => 'answered' in window);
      times.push(await page.evaluate(() => (window as unknown as { answered: number }).answered));
    }
    times.sort((a, b) => a - b);
    return `answers a press after ${Math.round(times[4] ?? 0)} ms (median of nine), ${Math.round(times[8] ?? 0)} ms at worst`;
  } finally {
    await device.close();
  }
}
