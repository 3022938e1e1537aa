import type { Plan } from '../../procedure/plan-types.ts';

/** Plans of jobs that are chosen but not begun: nothing is stored until the work screen opens the record. */
const held = new Map<string, Plan>();

export function holdNewJob(job: string, plan: Plan): void {
  held.set(job, plan);
}

export const newJobPlan = (job: string): Plan | null => held.get(job) ?? null;

export function releaseNewJob(job: string): void {
  held.delete(job);
}
