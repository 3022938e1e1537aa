import { useEffect } from 'react';
import type { Runner } from './runner.ts';

interface Battery extends EventTarget {
  readonly level: number;
  readonly charging: boolean;
}

/** A second that took longer than this was sleep, not work. */
const asleepAfter = 90_000;
/** A wall clock that strays from the monotonic one by more than this was set. */
const jumpedBy = 30_000;

/** What can happen around a job, told in the job's own voice: low battery, a device that slept, a clock that was set. */
export function useSurroundings(runner: Runner, begun: boolean): void {
  useEffect(() => {
    if (!begun) return;
    let wall = Date.now();
    let mono = performance.now();
    const tick = setInterval(() => {
      const wallPassed = Date.now() - wall;
      const monoPassed = performance.now() - mono;
      wall += wallPassed;
      mono += monoPassed;
      // Some systems stop the monotonic clock in sleep: then only the wall has moved, and forward.
      if (monoPassed > asleepAfter || wallPassed > asleepAfter) {
        void runner.trouble('slept');
        void runner.clock();
      } else if (Math.abs(wallPassed - monoPassed) > jumpedBy) void runner.trouble('clock-changed');
    }, 1000);
    return () => clearInterval(tick);
  }, [runner, begun]);
  useEffect(() => {
    if (!begun) return;
    const getBattery = (navigator as { readonly getBattery?: () => Promise<Battery> }).getBattery;
    let over = false;
    let off: () => void = () => undefined;
    void getBattery?.call(navigator).then((battery) => {
      if (over) return;
      let told = false;
      const look = () => {
        const low = battery.level <= 0.15 && !battery.charging;
        if (low && !told) void runner.trouble('battery-low');
        told = low;
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
