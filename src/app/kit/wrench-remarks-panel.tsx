import { packFor } from '../../phrasing/packs.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import { wrenchRemarks } from '../../procedure/wrench-remarks.ts';
import { useSettings } from '../settings-context.ts';
import { useWords } from '../words/words.ts';

/** What to know about the wrenches before the job starts: overdue calibrations, settings out of their range, torques that none fits. */
export function WrenchRemarks({ plan }: { readonly plan: Plan }) {
  const words = useWords();
  const { tools } = packFor(useSettings().settings.language);
  const remarks = wrenchRemarks(plan);
  if (remarks.length === 0) return null;
  return (
    <section className="wrench-remarks" aria-label={words.start.beforeYouStart}>
      <h3>{words.start.beforeYouStart}</h3>
      <ul>
        {remarks.map((remark) => {
          const text = tools.remark(remark);
          return (
            <li key={text} className="warn">
              {text}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
