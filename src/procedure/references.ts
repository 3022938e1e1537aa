import type { Fault } from './fault.ts';
import { limits, type Procedure } from './format.ts';
import { nearest } from './nearest.ts';
import { outline, waysOut, type OutlinedStep, type Path } from './outline.ts';
import type { ProblemCode } from './problem.ts';

/** Ids used twice, and names of steps, side procedures and supplies that lead nowhere. */
export function referenceFaults(procedure: Procedure): readonly Fault[] {
  const steps = outline(procedure);
  const faults: Fault[] = [];
  if (steps.length > limits.steps) {
    faults.push({ code: 'too-many-steps', path: ['stages'], found: `${steps.length} steps`, expected: `at most ${limits.steps}` });
  }
  return [...faults, ...repeatedIds(procedure, steps), ...dangling(procedure, steps), ...circles(procedure, steps)];
}

interface NamedPlace {
  readonly id: string | undefined;
  readonly path: Path;
}

function repeatedIds(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Fault[] {
  const named = (entries: readonly { readonly id?: string | undefined }[], path: Path): NamedPlace[] =>
    entries.map(({ id }, index) => ({ id, path: [...path, index, 'id'] }));
  const families: readonly NamedPlace[][] = [
    named(procedure.stages, ['stages']),
    named(procedure.sides, ['sides']),
    named(procedure.before, ['before']),
    named(procedure.afterwards, ['afterwards']),
    [...named(procedure.parts, ['parts']), ...named(procedure.consumables, ['consumables']), ...named(procedure.supports, ['supports'])],
    steps.map(({ step, path }) => ({ id: step.id, path: [...path, 'id'] })),
    steps.flatMap(({ step, path }) => named(step.fasteners, [...path, 'fasteners'])),
    steps.flatMap(({ step, path }) => [
      ...named(step.measure, [...path, 'measure']),
      ...named(step.hold, [...path, 'hold']),
      ...named(step['stop signs'], [...path, 'stop signs']),
      { id: step.wait?.id, path: [...path, 'wait', 'id'] },
    ]),
  ];
  return families.flatMap((family) => {
    const seen = new Set<string>();
    return family.flatMap(({ id, path }): Fault[] => {
      if (id === undefined) return [];
      if (seen.has(id)) return [{ code: 'duplicate-id', path, found: `"${id}" a second time`, expected: 'an id of its own' }];
      seen.add(id);
      return [];
    });
  });
}

function dangling(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Fault[] {
  const sides = new Set(procedure.sides.map(({ id }) => id));
  const supplies = new Set([...procedure.parts, ...procedure.consumables, ...procedure.supports].map(({ id }) => id));
  const parts = new Set(procedure.parts.map(({ id }) => id));
  const lineOf = new Map(steps.map(({ step, side }) => [step.id, side]));
  const faults: Fault[] = [];
  const missing = (code: ProblemCode, id: string, known: Iterable<string>, what: string, path: Path) => {
    const meant = nearest(id, known);
    faults.push({ code, path, found: `"${id}"`, expected: meant === null ? what : `${what}; did you mean "${meant}"?` });
  };
  for (const outlined of steps) {
    const { step, path, side } = outlined;
    const line = side === null ? 'a step of the main line' : 'a step of the same side procedure';
    if (step.see !== undefined && !sides.has(step.see)) missing('dangling-side', step.see, sides, 'a side procedure', [...path, 'see']);
    for (const { way, path: wayPath } of waysOut(outlined)) {
      if (way.see !== undefined && !sides.has(way.see)) missing('dangling-side', way.see, sides, 'a side procedure', [...wayPath, 'see']);
      if (way.go === undefined) continue;
      if (!lineOf.has(way.go)) missing('dangling-step', way.go, lineOf.keys(), line, [...wayPath, 'go']);
      // A side procedure always comes back to where it was called from, so it is entered and left by "see" alone.
      else if (lineOf.get(way.go) !== side)
        faults.push({ code: 'dangling-step', path: [...wayPath, 'go'], found: `"${way.go}" elsewhere`, expected: line });
    }
    step.uses.forEach((id, index) => {
      if (!supplies.has(id))
        missing('dangling-supply', id, supplies, 'an entry of parts, consumables or supports', [...path, 'uses', index]);
    });
    step.fasteners.forEach(({ part }, index) => {
      if (part !== undefined && !parts.has(part))
        missing('dangling-supply', part, parts, 'an entry of parts', [...path, 'fasteners', index, 'part']);
    });
  }
  return faults;
}

/** Side procedures that call each other in a circle would never come back. */
function circles(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Fault[] {
  const calls = new Map<string, Set<string>>();
  for (const outlined of steps) {
    if (outlined.side === null) continue;
    const called = calls.get(outlined.side) ?? new Set<string>();
    if (outlined.step.see !== undefined) called.add(outlined.step.see);
    for (const { way } of waysOut(outlined)) if (way.see !== undefined) called.add(way.see);
    calls.set(outlined.side, called);
  }
  const reaches = (from: string, goal: string, passed: Set<string>): boolean =>
    [...(calls.get(from) ?? [])].some((next) => {
      if (next === goal) return true;
      if (passed.has(next)) return false;
      passed.add(next);
      return reaches(next, goal, passed);
    });
  return procedure.sides.flatMap(({ id }, index): Fault[] =>
    reaches(id, id, new Set())
      ? [
          {
            code: 'side-in-circles',
            path: ['sides', index, 'id'],
            found: `"${id}" called from within itself`,
            expected: 'side procedures that come back',
          },
        ]
      : [],
  );
}
