import type { Remark } from './finding.ts';
import type { Procedure } from './format.ts';
import { waysOut, type OutlinedStep } from './outline.ts';

/** Rules about what leads where, what is listed, and what holds the vehicle up. */
export function structureRemarks(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Remark[] {
  return [
    ...unreachableSides(procedure, steps),
    ...judgements(steps),
    ...parts(procedure, steps),
    ...unusedSupplies(procedure, steps),
    ...jacks(procedure, steps),
  ];
}

/** A side procedure that no reachable step calls. */
function unreachableSides(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Remark[] {
  const calls = new Map<string | null, Set<string>>();
  for (const outlined of steps) {
    const called = calls.get(outlined.side) ?? new Set<string>();
    if (outlined.step.see !== undefined) called.add(outlined.step.see);
    for (const { way } of waysOut(outlined)) if (way.see !== undefined) called.add(way.see);
    calls.set(outlined.side, called);
  }
  const reached = new Set<string>();
  const queue = [...(calls.get(null) ?? [])];
  for (let side = queue.pop(); side !== undefined; side = queue.pop()) {
    if (reached.has(side)) continue;
    reached.add(side);
    queue.push(...(calls.get(side) ?? []));
  }
  return procedure.sides.flatMap(({ id }, index): Remark[] =>
    reached.has(id)
      ? []
      : [
          {
            severity: 'error',
            path: ['sides', index, 'id'],
            told: { code: 'unreachable-side', side: id },
          },
        ],
  );
}

/** Holds and measures that leave the person standing. */
function judgements(steps: readonly OutlinedStep[]): readonly Remark[] {
  return steps.flatMap(({ step, path }) => [
    ...step.hold.flatMap((hold, index): Remark[] =>
      hold['if no'] !== undefined
        ? []
        : [
            {
              severity: 'error',
              path: [...path, 'hold', index],
              told: { code: 'hold-without-way-out', ask: hold.ask },
            },
          ],
    ),
    ...step.measure.flatMap((measure, index): Remark[] => {
      if (measure.min === undefined && measure.max === undefined) {
        return [
          {
            severity: 'warning',
            path: [...path, 'measure', index],
            told: { code: 'measure-without-limits', name: measure.name },
          },
        ];
      }
      if (measure['if outside'] !== undefined) return [];
      return [
        {
          severity: 'warning',
          path: [...path, 'measure', index],
          told: { code: 'measure-without-way-out', name: measure.name },
        },
      ];
    }),
  ]);
}

function parts(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Remark[] {
  const remarks: Remark[] = [];
  const taken = new Map<string, number>();
  for (const { step, path } of steps) {
    for (const [index, group] of step.fasteners.entries()) {
      if (group.part !== undefined) taken.set(group.part, (taken.get(group.part) ?? 0) + group.count);
      if (!group['single use'] || group.part !== undefined) continue;
      remarks.push({
        severity: 'error',
        path: [...path, 'fasteners', index, 'single use'],
        told: { code: 'single-use-part-missing', fastener: group.name, count: group.count },
      });
    }
  }
  for (const [index, part] of procedure.parts.entries()) {
    const needed = taken.get(part.id) ?? 0;
    if (needed <= part.count) continue;
    remarks.push({
      severity: 'error',
      path: ['parts', index, 'count'],
      told: { code: 'too-few-parts', part: part.name, count: part.count, needed },
    });
  }
  return remarks;
}

function unusedSupplies(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Remark[] {
  const used = new Set(
    steps.flatMap(({ step }) => [...step.uses, ...step.fasteners.flatMap(({ part }) => (part === undefined ? [] : [part]))]),
  );
  return (['parts', 'consumables'] as const).flatMap((list) =>
    procedure[list].flatMap(({ id, name }, index): Remark[] =>
      used.has(id)
        ? []
        : [
            {
              severity: 'hint',
              path: [list, index],
              told: { code: 'supply-unused', name, id },
            },
          ],
    ),
  );
}

/** English and French words for what holds a load up, and for what only lifts it. */
const holdsLoads =
  /(?<!\p{L})(?:stands?|props?|blocks?|blocked|crib|cribbed|hoist|lift|ramps?|chandelles?|cales?|calée?s?|pont|élévateur|béquilles?|rampes?)(?!\p{L})/iu;
const lifts = /(?<!\p{L})(?:jack(?:s|ed)?|crics?|vérins?)(?!\p{L})/iu;

/**
 * A raised load is at once secured, and nobody works under a load on jacks alone (WAC 296-307-22509(3), 29 CFR 1926.305(c)).
 */
function jacks(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Remark[] {
  const supported =
    procedure.supports.some(({ name }) => holdsLoads.test(name)) ||
    procedure.before.some(({ kind, check }) => kind === 'support' && holdsLoads.test(check));
  if (supported) return [];
  const first = steps.find(({ step }) => lifts.test(step.do));
  const listed = procedure.supports.findIndex(({ name }) => lifts.test(name));
  if (first === undefined && listed < 0) return [];
  return [
    {
      severity: 'error',
      path: first === undefined ? ['supports', listed] : [...first.path, 'do'],
      told: { code: 'jack-without-support' },
    },
  ];
}
