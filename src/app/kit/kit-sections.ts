import type { KitItem, Plan } from '../../procedure/plan-types.ts';

/** The kit items that are first needed at one place of the job. */
export interface KitSection {
  readonly when:
    | { readonly kind: 'whole job' }
    | { readonly kind: 'stage'; readonly title: string; readonly step: string }
    | { readonly kind: 'side'; readonly title: string };
  readonly items: readonly KitItem[];
}

/** The kit in the order in which the job first asks for it: what is needed throughout, then stage by stage, then the side procedures. */
export function kitSections(plan: Plan): readonly KitSection[] {
  const steps = new Map(plan.steps.map((step) => [step.id, step]));
  const sections = new Map<string, { readonly place: number; readonly when: KitSection['when']; readonly items: KitItem[] }>();
  for (const item of plan.kit) {
    const first = steps.get(item.steps[0] ?? '');
    const key = first === undefined ? '' : `${first.side ?? ''}/${first.stage.id}`;
    const known = sections.get(key);
    if (known !== undefined) {
      known.items.push(item);
      continue;
    }
    const when: KitSection['when'] =
      first === undefined
        ? { kind: 'whole job' }
        : first.side === null
          ? { kind: 'stage', title: first.stage.title, step: first.number }
          : { kind: 'side', title: first.stage.title };
    sections.set(key, { place: first?.index ?? -1, when, items: [item] });
  }
  return [...sections.values()]
    .sort((a, b) => a.place - b.place)
    .map(({ when, items }) => ({ when: when.kind === 'stage' ? { ...when, step: firstStep(items, steps) ?? when.step } : when, items }));
}

/** The earliest step that any of them is needed for. */
function firstStep(items: readonly KitItem[], steps: ReadonlyMap<string, Plan['steps'][number]>): string | undefined {
  const users = items.flatMap((item) => steps.get(item.steps[0] ?? '') ?? []);
  return users.reduce<Plan['steps'][number] | undefined>(
    (best, one) => (best === undefined || one.index < best.index ? one : best),
    undefined,
  )?.number;
}
