import { useEffect, useState } from 'react';
import { packFor } from '../../phrasing/packs.ts';
import type { KitItem, Plan } from '../../procedure/plan-types.ts';
import type { ToolChanges } from '../../procedure/tool-changes.ts';
import { freeSteps, toolChanges } from '../../procedure/tool-changes.ts';
import { planFor, shelvedFile } from '../library.ts';
import { PageTop } from '../pages/page-top.tsx';
import { today } from '../platform/clock.ts';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import './kit.css';
import { kitSections } from './kit-sections.ts';
import { WrenchRemarks } from './wrench-remarks-panel.tsx';
import { useKitWords } from './words/words.ts';

interface Listed {
  readonly plan: Plan;
  /** Null where only the plan of a job is known, and not which steps its author left free. */
  readonly changes: ToolChanges | null;
}

/** The kit of a procedure for one build, with the person's own tools. `file` and `build` are as they stand on the shelf. */
export function ProcedureKitPage({ file, build }: { readonly file: string; readonly build: string }) {
  const { settings } = useSettings();
  const [listed, setListed] = useState<Listed | 'loading' | 'none'>('loading');
  useEffect(() => {
    let current = true;
    const find = async (): Promise<Listed | 'none'> => {
      const shelved = await shelvedFile(file);
      const planned = shelved === null ? null : await planFor(shelved, build, { unit: settings.unit }, today());
      if (shelved === null || planned?.ok !== true) return 'none';
      const procedure = shelved.variants.get(build);
      return { plan: planned.plan, changes: toolChanges(planned.plan, procedure === undefined ? new Set() : freeSteps(procedure)) };
    };
    void find().then((found) => {
      if (current) setListed(found);
    });
    return () => {
      current = false;
    };
  }, [file, build, settings.unit]);
  return <KitPage listed={listed} />;
}

/** The kit of a job that is under way or done, as it was planned. */
export function JobKitPage({ job }: { readonly job: string }) {
  const { journal } = useServices();
  const [listed, setListed] = useState<Listed | 'loading' | 'none'>('loading');
  useEffect(() => {
    let current = true;
    void journal.read(job).then((read) => {
      if (current) setListed(read.ok ? { plan: read.stored.plan, changes: null } : 'none');
    });
    return () => {
      current = false;
    };
  }, [journal, job]);
  return <KitPage listed={listed} />;
}

function KitPage({ listed }: { readonly listed: Listed | 'loading' | 'none' }) {
  const words = useKitWords();
  return (
    <main className="page">
      <PageTop title={words.title} />
      {listed === 'loading' ? (
        <p className="quiet">{words.loading}</p>
      ) : listed === 'none' ? (
        <p className="trouble" role="alert">
          {words.none}
        </p>
      ) : (
        <KitSheet {...listed} />
      )}
    </main>
  );
}

function KitSheet({ plan, changes }: Listed) {
  const words = useKitWords();
  const numbers = new Map(plan.steps.map(({ id, number }) => [id, number]));
  const numbersOf = (ids: readonly string[]) => ids.map((id) => numbers.get(id) ?? '?').join(', ');
  const lacking = plan.kit.filter(({ owned }) => owned === false).length;
  const hasCrib = plan.kit.some(({ owned, kind }) => owned === true || (owned === false && kind !== 'wrench'));
  return (
    <article className="stack kit-sheet">
      <h2>{plan.procedure.title}</h2>
      <p className="quiet">{[plan.procedure.vehicle, words.build(plan.build.id, plan.build.name)].join(' · ')}</p>
      <p className="quiet small">{plan.procedure.source}</p>
      <button type="button" className="no-print" style={{ justifySelf: 'start' }} onClick={() => print()}>
        {words.print}
      </button>
      <p className={hasCrib && lacking > 0 ? 'warn' : ''}>
        {!hasCrib ? words.noCrib : lacking === 0 ? words.complete : words.lacks(lacking)}
      </p>
      <WrenchRemarks plan={plan} />
      {kitSections(plan).map(({ when, items }) => (
        <section key={items[0]?.id} className="stack">
          <h3>
            {when.kind === 'whole job' ? words.wholeJob : when.kind === 'side' ? words.side(when.title) : words.from(when.title, when.step)}
          </h3>
          <ul className="kit-items">
            {items.map((item) => (
              <Item
                key={item.id}
                item={item}
                steps={item.steps.length === 0 ? null : words.steps(numbersOf(item.steps), item.steps.length)}
                told={hasCrib}
              />
            ))}
          </ul>
        </section>
      ))}
      {changes === null ? null : (
        <section className="stack">
          <p>{words.changes(changes.count)}</p>
          {changes.suggestion === null ? null : (
            <>
              <p>{words.fewer(changes.count - changes.suggestion.count, numbersOf(changes.suggestion.moved))}</p>
              <p className="quiet small">{words.order(numbersOf(changes.suggestion.order))}</p>
            </>
          )}
        </section>
      )}
    </article>
  );
}

function Item({ item, steps, told }: { readonly item: KitItem; readonly steps: string | null; readonly told: boolean }) {
  const words = useKitWords();
  const { tools } = packFor(useSettings().settings.language);
  const instead = tools.instead(item);
  return (
    <li>
      <span className="kit-box" aria-hidden="true" />
      <span>
        <strong>{`${item.count} × ${tools.kitName(item)}`}</strong>
        {item.singleUse ? ` (${words.single})` : ''}
        <span className="quiet small">{steps === null ? '' : ` · ${steps}`}</span>
        {!told || item.owned === null ? null : item.owned ? (
          <span className="good small">{` · ${words.owned}`}</span>
        ) : (
          <span className="warn small">{` · ${instead === null ? words.lacking : words.instead(instead)}`}</span>
        )}
      </span>
    </li>
  );
}
