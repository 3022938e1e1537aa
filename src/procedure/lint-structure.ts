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
            code: 'unreachable-side',
            severity: 'error',
            path: ['sides', index, 'id'],
            message: `Nothing leads to the side procedure "${id}", so its steps can never be reached.`,
            advice: `Call it with "see: ${id}" where it belongs, or take it out.`,
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
              code: 'hold-without-way-out',
              severity: 'error',
              path: [...path, 'hold', index],
              message: `The hold point "${hold.ask}" does not say what happens on a "no".`,
              advice: 'Add "if no:" with advice, a step to go to, or a side procedure to see.',
            },
          ],
    ),
    ...step.measure.flatMap((measure, index): Remark[] => {
      if (measure.min === undefined && measure.max === undefined) {
        return [
          {
            code: 'measure-without-limits',
            severity: 'warning',
            path: [...path, 'measure', index],
            message: `The measure "${measure.name}" has neither min nor max, so no value can be judged.`,
            advice: 'Give the limits, or ask for a note instead.',
          },
        ];
      }
      if (measure['if outside'] !== undefined) return [];
      return [
        {
          code: 'measure-without-way-out',
          severity: 'warning',
          path: [...path, 'measure', index],
          message: `The measure "${measure.name}" does not say what happens outside its limits.`,
          advice: 'Add "if outside:" with advice, a step to go to, or a side procedure to see.',
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
        code: 'single-use-part-missing',
        severity: 'error',
        path: [...path, 'fasteners', index, 'single use'],
        message: `The ${group.name} is single-use, but no entry of the parts list provides a new one.`,
        advice: `Add it to parts with a count of at least ${group.count}, and name it here with "part:".`,
      });
    }
  }
  for (const [index, part] of procedure.parts.entries()) {
    const needed = taken.get(part.id) ?? 0;
    if (needed <= part.count) continue;
    remarks.push({
      code: 'too-few-parts',
      severity: 'error',
      path: ['parts', index, 'count'],
      message: `The parts list has ${part.count} × ${part.name}, but the fasteners take ${needed}.`,
      advice: `Make the count ${needed}, or correct the fasteners' counts.`,
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
              code: 'supply-unused',
              severity: 'hint',
              path: [list, index],
              message: `No step says that it uses "${name}".`,
              advice: `Name it under "uses: [${id}]" in the step that needs it, so that the kit list can say when.`,
            },
          ],
    ),
  );
}

const holdsLoads = /\b(?:stand|stands|prop|props|block|blocks|blocked|crib|cribbed|hoist|lift|ramp|ramps)\b/i;

/**
 * A raised load is at once secured, and nobody works under a load on jacks alone (WAC 296-307-22509(3), 29 CFR 1926.305(c)).
 */
function jacks(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Remark[] {
  const supported =
    procedure.supports.some(({ name }) => holdsLoads.test(name)) ||
    procedure.before.some(({ kind, check }) => kind === 'support' && holdsLoads.test(check));
  if (supported) return [];
  const first = steps.find(({ step }) => /\bjack(?:s|ed)?\b/i.test(step.do));
  const listed = procedure.supports.findIndex(({ name }) => /\bjack/i.test(name));
  if (first === undefined && listed < 0) return [];
  return [
    {
      code: 'jack-without-support',
      severity: 'error',
      path: first === undefined ? ['supports', listed] : [...first.path, 'do'],
      message: 'A jack is named, but nothing that holds the load once it is up.',
      advice: 'Add the stands or blocks to supports, and a step that sets them before anybody goes under.',
    },
  ];
}
