/**
 * Draws the app's icons from icon.svg into src/app/public with a Chromium: `npx tsx icons/make-icons.ts`. The drawing keeps within the
 * middle 80 %, so that the same picture serves as a maskable icon (W3C Web App Manifest).
 */
import { copyFile, mkdir, readFile } from 'node:fs/promises';
import { chromium } from 'playwright-core';
import { chromiumPath, plainFlags } from '../tests/browser/rig.ts';

const into = 'src/app/public';
const drawing = await readFile('icons/icon.svg', 'utf8');
await mkdir(into, { recursive: true });
await copyFile('icons/icon.svg', `${into}/icon.svg`);
const browser = await chromium.launch({ executablePath: chromiumPath, args: plainFlags });
for (const size of [180, 192, 512]) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw;height:100vh}</style>${drawing}`);
  await page.screenshot({ path: `${into}/icon-${size}.png` });
  await page.close();
}
await browser.close();
