/**
 * A job of four simulated hours and 5,000 events in the built app, `npm run soak` after `npm run build`: prints the heap after collection
 * as it goes, and ends with 1 when the second half grows by more than the events themselves take.
 */
import { onwardByTouch } from '../browser/onward.ts';
import { eventsOf, launch, serveBuilt, startJob, stateOf } from '../browser/rig.ts';

const events = Number(process.argv[2] ?? 5000);
const hours = 4;
/** Bytes of one event as it is held: the record line, its parsed form and the fold's own trace of it. A guess on the safe side. */
const bytesAnEvent = 4_000;

const served = await serveBuilt();
const browser = await launch();
const context = await browser.newContext({ viewport: { width: 390, height: 844 }, serviceWorkers: 'block' });
const page = await context.newPage();
const devtools = await context.newCDPSession(page);
await page.clock.install();
await startJob(page, served.address, 'Eight-bolt flange exercise', 'K');
for (let turn = 0; turn < 60 && (await stateOf(page)) !== 'fastening'; turn += 1) await onwardByTouch(page);

async function heap(): Promise<number> {
  await devtools.send('HeapProfiler.collectGarbage');
  const { usedSize } = await devtools.send('Runtime.getHeapUsage');
  return usedSize;
}

const step = (hours * 3_600_000) / events;
const taken: { readonly events: number; readonly heap: number }[] = [];
let next = 0;
for (let isDone = true; ; isDone = !isDone) {
  const before = await eventsOf(page);
  if (before >= next) {
    taken.push({ events: before, heap: await heap() });
    console.log(`${String(before).padStart(5)} events  ${((taken.at(-1)?.heap ?? 0) / 1e6).toFixed(2)} MB`);
    next += events / 10;
  }
  if (before >= events) break;
  await page.clock.fastForward(step);
  // A fastener counted, a fastener taken back: the longest job is one that goes to and fro.
  await page.keyboard.press(isDone ? 'PageDown' : 'u');
  await page.waitForFunction((count) => Number(document.querySelector('.work')?.getAttribute('data-events')) > count, before, {
    polling: 5,
  });
}
await browser.close();
await served.close();

const middle = taken[Math.floor(taken.length / 2)];
const last = taken.at(-1);
if (middle === undefined || last === undefined) throw new Error('nothing was measured');
const perEvent = (last.heap - middle.heap) / (last.events - middle.events);
console.log(`second half: ${perEvent.toFixed(0)} bytes an event (at most ${bytesAnEvent})`);
if (perEvent > bytesAnEvent) process.exitCode = 1;
