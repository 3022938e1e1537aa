/** Lighthouse over the built app, `npm run measure` after `npm run build`: performance, accessibility and best practices of each screen. */
import lighthouse from 'lighthouse';
import { chromium } from 'playwright-core';
import { chromiumPath, plainFlags, serveBuilt } from '../browser/rig.ts';

const screens = ['', '#/settings', '#/tools', '#/review', '#/calculator', '#/author'];
const categories = ['performance', 'accessibility', 'best-practices'];
const port = 9333;

const served = await serveBuilt();
const browser = await chromium.launch({ executablePath: chromiumPath, args: [...plainFlags, `--remote-debugging-port=${port}`] });
try {
  for (const screen of screens) {
    const result = await lighthouse(`${served.address}${screen}`, { port, onlyCategories: categories, logLevel: 'error', output: 'json' });
    if (result === undefined) throw new Error(`no measure of ${screen}`);
    const { lhr } = result;
    const scores = categories.map((name) => `${name} ${Math.round((lhr.categories[name]?.score ?? 0) * 100)}`).join(', ');
    const shown = (audit: string) => lhr.audits[audit]?.displayValue ?? '?';
    console.log(
      `${screen === '' ? '#/' : screen}: ${scores}; first paint ${shown('first-contentful-paint')}, interactive ${shown('interactive')}`,
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
