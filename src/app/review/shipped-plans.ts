import type { Plan } from '../../procedure/plan-types.ts';
import { planJob } from '../../procedure/plan.ts';
import { shippedShelf } from '../library.ts';

/** The invented workshop works at the procedures that ship, at every build of each; a translation would be the same job twice. */
export async function shippedPlans(): Promise<readonly Plan[]> {
  return (await shippedShelf())
    .filter(({ language }) => language === 'en')
    .flatMap((file) =>
      [...file.builds.keys()].flatMap((build) => {
        const planned = planJob(file, { build, spokenUnit: null, crib: null, today: '' });
        return planned.ok ? [planned.plan] : [];
      }),
    );
}
