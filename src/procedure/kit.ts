import type { Crib } from '../torque/crib.ts';
import type { Torque } from '../torque/quantities.ts';
import { formatTorque, toNewtonMetres } from '../torque/units.ts';
import type { Procedure } from './format.ts';
import { holdingOf } from './kit-crib.ts';
import { driveSuffix, needsOfTool, type NamedNeed } from './kit-needs.ts';
import type { KitItem, KitKind, PlannedGroup, PlannedStep } from './plan-types.ts';

/**
 * Everything to lay out for the job, each thing once, with the steps that need it. Sorted by kind, then by name with sizes in
 * order. With a crib: the person's own wrenches with their settings, and what they have or could use instead.
 */
export function kitOf(procedure: Procedure, steps: readonly PlannedStep[], crib: Crib | null): readonly KitItem[] {
  const shelf = new Shelf();
  const sources = new Map([...procedure.stages, ...procedure.sides].flatMap((line) => line.steps.map((step) => [step.id, step] as const)));
  const users = new Map<string, string[]>();
  for (const step of steps) {
    const source = sources.get(step.id);
    for (const id of source?.uses ?? []) note(users, id, step.id);
    for (const [index, group] of step.groups.entries()) {
      for (const [need, count] of countAlike(needsOfTool(group.tool))) shelf.put(need, step.id, count);
      if (group.passes.some(({ kind }) => kind === 'angle')) {
        shelf.put({ kind: 'angle gauge', name: 'angle gauge', need: { what: 'angle gauge' } }, step.id, 1);
      }
      const part = source?.fasteners[index]?.part;
      if (part !== undefined) note(users, part, step.id);
      else if (group.singleUse) shelf.add(`new ${group.name}`, step.id, group.positions.length);
    }
  }
  for (const step of steps) for (const name of step.tools) shelf.putByName(name, step.id);
  putWrenches(shelf, steps, crib);
  putSupplies(shelf, procedure.supports, 'support', users);
  putSupplies(shelf, procedure.parts, 'part', users);
  putSupplies(shelf, procedure.consumables, 'consumable', users);
  return shelf.items(crib, new Map(steps.map(({ id, index }) => [id, index])));
}

interface Collected extends NamedNeed {
  count: number;
  readonly steps: Set<string>;
  readonly singleUse: boolean;
}

class Shelf {
  private readonly collected = new Map<string, Collected>();

  /** A tool is laid out once and used again, so the largest count of any step is enough. */
  put(need: NamedNeed, step: string | null, count: number, singleUse = false): void {
    const known = this.find(need, singleUse);
    known.count = Math.max(known.count, count);
    if (step !== null) known.steps.add(step);
  }

  /** New fasteners are used up, so every step's count is added. */
  add(name: string, step: string, count: number): void {
    const known = this.find({ kind: 'part', name, need: { what: 'settled', owned: null } }, true);
    known.count += count;
    known.steps.add(step);
  }

  /** A tool that a step names, which may be the very socket that other steps' fasteners take. */
  putByName(name: string, step: string): void {
    const known = kindOrder.map((kind) => this.collected.get(`${kind}\n${name}`)).find((item) => item !== undefined);
    this.put(known ?? { kind: 'tool', name, need: { what: 'by name' } }, step, 1);
  }

  private find(need: NamedNeed, singleUse: boolean): Collected {
    const key = `${need.kind}\n${need.name}`;
    const known = this.collected.get(key) ?? { ...need, count: 0, steps: new Set<string>(), singleUse };
    this.collected.set(key, known);
    return known;
  }

  items(crib: Crib | null, order: ReadonlyMap<string, number>): readonly KitItem[] {
    const byStep = (ids: ReadonlySet<string>) => [...ids].sort((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0));
    const ids = new Set<string>();
    return [...this.collected.values()]
      .sort((a, b) => kindOrder.indexOf(a.kind) - kindOrder.indexOf(b.kind) || byName.compare(a.name, b.name))
      .map((item) => {
        const id = freeId(`${item.kind} ${item.name}`, ids);
        const { owned, instead } = crib === null ? { owned: null, instead: null } : holdingOf(item, crib);
        return {
          id,
          kind: item.kind,
          name: item.name,
          count: item.count,
          steps: byStep(item.steps),
          singleUse: item.singleUse,
          owned,
          instead,
        };
      });
  }
}

const kindOrder: readonly KitKind[] = [
  'support',
  'wrench',
  'angle gauge',
  'drive',
  'socket',
  'bit',
  'extension',
  'joint',
  'adapter',
  'tool',
  'part',
  'consumable',
];
const byName = new Intl.Collator('en', { numeric: true });

function freeId(text: string, ids: Set<string>): string {
  const base = text
    .toLowerCase()
    .replace(/[^a-z0-9.]+/g, '-')
    .replace(/^-|-$/g, '');
  let id = base;
  for (let again = 2; ids.has(id); again++) id = `${base}-${again}`;
  ids.add(id);
  return id;
}

function countAlike(needs: readonly NamedNeed[]): readonly (readonly [NamedNeed, number])[] {
  const counts = new Map<string, [NamedNeed, number]>();
  for (const need of needs) {
    const known = counts.get(need.name);
    if (known === undefined) counts.set(need.name, [need, 1]);
    else known[1]++;
  }
  return [...counts.values()];
}

interface Span {
  readonly torques: Torque[];
  readonly steps: Set<string>;
}

/** The person's own wrenches with what they will be set to; for what none of them reaches, and without a crib, the ranges wanted. */
function putWrenches(shelf: Shelf, steps: readonly PlannedStep[], crib: Crib | null): void {
  const own = new Map<string, Span>();
  const wanted = new Map<string, Span>();
  const gather = (spans: Map<string, Span>, key: string, torque: Torque, step: string) => {
    const span = spans.get(key) ?? { torques: [], steps: new Set<string>() };
    if (!span.torques.some(({ value, unit }) => value === torque.value && unit === torque.unit)) span.torques.push(torque);
    span.steps.add(step);
    spans.set(key, span);
  };
  const each = (visit: (group: PlannedGroup, step: string) => void) =>
    steps.forEach(({ id, groups }) => groups.forEach((group) => visit(group, id)));
  each((group, step) => {
    for (const { torque, setting } of group.passes) {
      if (torque === null) continue;
      if (setting?.fits === true) {
        gather(own, setting.wrench, setting.set, step);
        putStepAdapter(shelf, crib, setting.wrench, group.tool.square, step);
      } else gather(wanted, group.tool.square ?? '', torque, step);
    }
  });
  for (const [name, { torques, steps: needing }] of own) {
    const need: NamedNeed = { kind: 'wrench', name: `${name}, set to ${listed(torques)}`, need: { what: 'settled', owned: true } };
    for (const step of needing) shelf.put(need, step, 1);
  }
  for (const [square, { torques, steps: needing }] of wanted) {
    const suffix = driveSuffix(square === '' ? null : square);
    const need: NamedNeed = {
      kind: 'wrench',
      name: `torque wrench for ${spanned(torques)}${suffix}`,
      need: { what: 'settled', owned: false },
    };
    for (const step of needing) shelf.put(need, step, 1);
  }
}

function putStepAdapter(shelf: Shelf, crib: Crib | null, wrenchName: string, square: string | null, step: string): void {
  const from = crib?.wrenches.find(({ name }) => name === wrenchName)?.square;
  if (from === undefined || square === null || from === square) return;
  shelf.put({ kind: 'adapter', name: `${from} to ${square} step adapter`, need: { what: 'settled', owned: true } }, step, 1);
}

function inOrder(torques: readonly Torque[]): readonly Torque[] {
  return [...torques].sort((a, b) => toNewtonMetres(a) - toNewtonMetres(b));
}

function listed(torques: readonly Torque[]): string {
  const texts = inOrder(torques).map((torque) => formatTorque(torque));
  return texts.length === 1 ? (texts[0] ?? '') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1) ?? ''}`;
}

function spanned(torques: readonly Torque[]): string {
  const sorted = inOrder(torques);
  const texts = [sorted[0], sorted.at(-1)].flatMap((torque) => (torque === undefined ? [] : [formatTorque(torque)]));
  return [...new Set(texts)].join(' to ');
}

function putSupplies(shelf: Shelf, entries: Procedure['parts'], kind: KitKind, users: ReadonlyMap<string, readonly string[]>): void {
  for (const { id, name, count, 'single use': singleUse } of entries) {
    const need: NamedNeed = { kind, name, need: { what: 'settled', owned: null } };
    shelf.put(need, null, count, singleUse);
    for (const step of users.get(id) ?? []) shelf.put(need, step, count, singleUse);
  }
}

function note(map: Map<string, string[]>, key: string, value: string): void {
  const known = map.get(key);
  if (known === undefined) map.set(key, [value]);
  else if (known.at(-1) !== value) known.push(value);
}
