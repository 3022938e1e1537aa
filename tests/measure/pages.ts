/**
 * Lighthouse over the built app, `npm run measure` after `npm run build`: performance, accessibility and best practices of each screen, on
 * its slowed phone (a processor four times as slow, 1.6 Mbit/s) and on a desktop. A busy machine makes the performance worse than it is.
 */
import lighthouse, { desktopConfig } from 'lighthouse';
import { chromium } from 'playwright-core';
import { chromiumPath, plainFlags, serveBuilt } from '../browser/rig.ts';

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
} finally {
  await browser.close();
  await served.close();
}
