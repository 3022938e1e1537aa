import { useEffect } from 'react';
import { clicksOf } from '../../job/clicks.ts';
import type { JobEvent } from '../../job/events.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import { keepClicks } from '../crib-store.ts';
import type { Runner } from './runner.ts';

/** Events after which the count is brought up to date. A tab that dies between two of them counts again when the job is next opened. */
const counting: readonly JobEvent['type'][] = ['step-finished', 'undone', 'paused', 'stopped', 'left-open', 'signed'];

/** Keeps count, from the job's own record, of how often each wrench of the crib has clicked. */
export function useClicks(runner: Runner, job: string, plan: Plan): void {
  useEffect(() => {
    let counted = 0;
    const count = () => {
      const { events } = runner.view();
      const { byWrench, newest } = clicksOf(plan, events);
      if (newest !== null) void keepClicks(job, { date: newest, byWrench });
    };
    const stop = runner.subscribe(() => {
      const { events } = runner.view();
      if (events.slice(counted).some(({ event }) => counting.includes(event.type))) count();
      counted = events.length;
    });
    count();
    return () => {
      stop();
      count();
    };
  }, [runner, job, plan]);
}
