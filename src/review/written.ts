/** What the review needs of a plan: the written order, and what to call things. */
export interface Written {
  readonly procedure: string;
  readonly title: string;
  readonly build: string;
  readonly revision: number;
  readonly steps: readonly WrittenStep[];
}

interface WrittenStep {
  readonly id: string;
  readonly number: string;
  readonly say: string;
  readonly side: boolean;
  readonly optional: boolean;
  readonly holds: readonly string[];
  readonly groups: readonly WrittenGroup[];
}

export interface WrittenGroup {
  readonly id: string;
  readonly name: string;
  readonly positions: readonly string[];
  /** For each pass, the places in `positions` in the order to take them. */
  readonly passes: readonly (readonly number[])[];
}

/**
 * Reads a plan from anywhere: a file may carry one that this build did not make. Null when it is not one;
 * what is odd inside it is left out, since a label less does no harm here.
 */
export function writtenFrom(plan: unknown): Written | null {
  const procedure = member(plan, 'procedure');
  const id = text(member(procedure, 'id'));
  const build = text(member(member(plan, 'build'), 'id'));
  if (id === null || build === null) return null;
  const revision = member(procedure, 'revision');
  return {
    procedure: id,
    title: text(member(procedure, 'title')) ?? id,
    build,
    revision: typeof revision === 'number' ? revision : 0,
    steps: list(member(plan, 'steps')).flatMap(writtenStep),
  };
}

function writtenStep(step: unknown): WrittenStep[] {
  const id = text(member(step, 'id'));
  if (id === null) return [];
  return [
    {
      id,
      number: text(member(step, 'number')) ?? '',
      say: text(member(step, 'say')) ?? id,
      side: typeof member(step, 'side') === 'string',
      optional: typeof member(step, 'optional') === 'string',
      holds: list(member(step, 'holds')).flatMap((hold) => text(member(hold, 'id')) ?? []),
      groups: list(member(step, 'groups')).flatMap(writtenGroup),
    },
  ];
}

function writtenGroup(group: unknown): WrittenGroup[] {
  const id = text(member(group, 'id'));
  if (id === null) return [];
  const positions = list(member(group, 'positions')).map((position, index) => text(member(position, 'name')) ?? String(index + 1));
  const passes = list(member(group, 'passes')).map((pass) =>
    list(member(pass, 'order')).filter((place): place is number => typeof place === 'number'),
  );
  return [{ id, name: text(member(group, 'name')) ?? id, positions, passes }];
}

function member(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
}

function text(value: unknown): string | null {
  return typeof value === 'string' && value !== '' ? value : null;
}

function list(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? (value as readonly unknown[]) : [];
}
