import { useEffect } from 'react';
import { recordingLimits } from '../../journal/notes.ts';
import { browserRoom, roomLeft } from '../../journal/storage-room.ts';
import type { Runner } from './runner.ts';
import { clockWatch, lowWatch } from './watches.ts';

interface Battery extends EventTarget {
  readonly level: number;
  readonly charging: boolean;
}

const lowestCharge = 0.15;
/** Storage fills slowly, and asking costs the browser some work. */
const roomAskedEvery = 60_000;

/** What can happen around a job, told in the job's own voice: little charge or room left, a device that slept, a clock that was set. */
export function useSurroundings(runner: Runner, begun: boolean): void {
  useEffect(() => {
    if (!begun) return;
    const clocks = () => ({ wall: Date.now(), mono: performance.now() });
    const watch = clockWatch(clocks());
    const tick = setInterval(() => {
      const news = watch(clocks());
      if (news === null) return;
      void runner.clockChanged(news.kind, Math.round(news.jumped));
      if (news.kind === 'slept') void runner.clock();
    }, 1000);
    return () => clearInterval(tick);
  }, [runner, begun]);
  useEffect(() => {
    if (!begun) return;
    let over = false;
    const isNewlyLow = lowWatch(recordingLimits.reserve);
    const look = async () => {
      const left = await roomLeft(browserRoom());
      if (!over && isNewlyLow(left)) await runner.trouble('storage-low');
    };
    void look();
    const tick = setInterval(() => void look(), roomAskedEvery);
    return () => {
      over = true;
      clearInterval(tick);
    };
  }, [runner, begun]);
  useEffect(() => {
    if (!begun) return;
    const getBattery = (navigator as { readonly getBattery?: () => Promise<Battery> }).getBattery;
    let over = false;
    let off: () => void = () => undefined;
    const isNewlyLow = lowWatch(lowestCharge);
    void getBattery?.call(navigator).then((battery) => {
      if (over) return;
      const look = () => {
        if (isNewlyLow(battery.charging ? 1 : battery.level)) void runner.trouble('battery-low');
      };
      look();
      battery.addEventListener('levelchange', look);
      battery.addEventListener('chargingchange', look);
      off = () => {
        battery.removeEventListener('levelchange', look);
        battery.removeEventListener('chargingchange', look);
      };
    });
    return () => {
      over = true;
      off();
    };
  }, [runner, begun]);
}
