import { formatTorque, toNewtonMetres } from '../torque/units.ts';
import type { Torque } from '../torque/quantities.ts';
import type { Procedure } from './format.ts';
import type { KitItem, KitKind, PlannedGroup, PlannedReach, PlannedStep, PlannedTool } from './plan-types.ts';

/** Everything to lay out for the job, each thing once, with the steps that need it. Sorted by kind, then by name with sizes in order. */
export function kitOf(procedure: Procedure, steps: readonly PlannedStep[]): readonly KitItem[] {
  const collected = new Map<string, Collected>();
  const add = (
    kind: KitKind,
    name: string,
    step: string | null,
    count: number,
    options: { readonly singleUse?: boolean; readonly sum?: boolean } = {},
  ) => {
    const key = `${kind}\n${name}`;
    const known = collected.get(key) ?? { kind, name, count: 0, steps: new Set<string>(), singleUse: options.singleUse ?? false };
    known.count = options.sum === true ? known.count + count : Math.max(known.count, count);
    if (step !== null) known.steps.add(step);
    collected.set(key, known);
  };
  const written = new Map(
    procedure.stages
      .flatMap((stage) => stage.steps)
      .concat(procedure.sides.flatMap((side) => side.steps))
      .map((step) => [step.id, step]),
  );
  const users = new Map<string, string[]>();
  const torques = new Map<string, { least: Torque; most: Torque; steps: string[] }>();

  for (const step of steps) {
    const source = written.get(step.id);
    for (const id of source?.uses ?? []) push(users, id, step.id);
    for (const tool of step.tools) add('tool', tool, step.id, 1);
    for (const [index, group] of step.groups.entries()) {
      for (const { kind, name, count } of toolItems(group.tool)) add(kind, name, step.id, count);
      if (group.passes.some(({ kind }) => kind === 'angle')) add('angle gauge', 'angle gauge', step.id, 1);
      noteTorques(torques, group, step.id);
      const part = source?.fasteners[index]?.part;
      if (part !== undefined) push(users, part, step.id);
      else if (group.singleUse) add('part', `new ${group.name}`, step.id, group.positions.length, { singleUse: true, sum: true });
    }
  }
  for (const [square, { least, most, steps: needing }] of torques) {
    const span = toNewtonMetres(least) === toNewtonMetres(most) ? formatTorque(most) : `${formatTorque(least)} to ${formatTorque(most)}`;
    for (const step of needing) add('wrench', `torque wrench for ${span}${driveSuffix(square === '' ? null : square)}`, step, 1);
  }
  const supplies = (entries: Procedure['parts'], kind: KitKind) => {
    for (const { id, name, count, 'single use': singleUse } of entries) {
      add(kind, name, null, count, { singleUse });
      for (const step of users.get(id) ?? []) add(kind, name, step, count);
    }
  };
  supplies(procedure.supports, 'support');
  supplies(procedure.parts, 'part');
  supplies(procedure.consumables, 'consumable');
  return toItems([...collected.values()]);
}

interface Collected {
  readonly kind: KitKind;
  readonly name: string;
  count: number;
  readonly steps: Set<string>;
  readonly singleUse: boolean;
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

function toItems(collected: readonly Collected[]): readonly KitItem[] {
  const ids = new Set<string>();
  const compare = new Intl.Collator('en', { numeric: true }).compare;
  return [...collected]
    .sort((a, b) => kindOrder.indexOf(a.kind) - kindOrder.indexOf(b.kind) || compare(a.name, b.name))
    .map(({ kind, name, count, steps, singleUse }) => {
      const base = `${kind} ${name}`
        .toLowerCase()
        .replace(/[^a-z0-9.]+/g, '-')
        .replace(/^-|-$/g, '');
      let id = base;
      for (let again = 2; ids.has(id); again++) id = `${base}-${again}`;
      ids.add(id);
      return { id, kind, name, count, steps: [...steps], singleUse, owned: null, instead: null };
    });
}

/** What turns the fastener and reaches it, from the socket outward. */
export function toolItems(tool: PlannedTool): readonly { readonly kind: KitKind; readonly name: string; readonly count: number }[] {
  const items = [endItem(tool), ...tool.reach.flatMap((reach) => reachItem(reach, tool))].flatMap((item) => (item === null ? [] : [item]));
  if (tool.square !== null) items.push({ kind: 'drive', name: `${tool.square} drive ratchet` });
  const counts = new Map<string, { kind: KitKind; name: string; count: number }>();
  for (const { kind, name } of items) {
    const known = counts.get(name);
    if (known === undefined) counts.set(name, { kind, name, count: 1 });
    else known.count++;
  }
  return [...counts.values()];
}

type NamedItem = { readonly kind: KitKind; readonly name: string };

function endItem(tool: PlannedTool): NamedItem | null {
  const size =
    tool.size === null ? '' : tool.sizeUnit === 'in' ? `${tool.size} inch ` : tool.sizeUnit === 'mm' ? `${tool.size} mm ` : `${tool.size} `;
  const suffix = driveSuffix(tool.square);
  if (tool.reach.some(({ kind }) => kind === 'crowfoot')) return { kind: 'adapter', name: `${size}crowfoot${suffix}` };
  const deep = tool.reach.some(({ kind }) => kind === 'deep socket') ? 'deep ' : '';
  switch (tool.kind) {
    case 'hex':
      return { kind: 'socket', name: `${size}${deep}socket${suffix}` };
    case 'bihex':
      return { kind: 'socket', name: `${size}${deep}bihex socket${suffix}` };
    case 'square':
      return { kind: 'socket', name: `${size}${deep}square socket${suffix}` };
    case 'socket-head hex':
      return { kind: 'bit', name: `${size}hex bit${suffix}` };
    case 'internal serration':
      return { kind: 'bit', name: `${size}internal-serration bit${suffix}` };
    case 'slotted':
    case 'cross-head':
      return { kind: 'bit', name: `${tool.kind} ${size}${tool.square === null ? 'screwdriver' : `bit${suffix}`}` };
    case 'hand':
      return null;
  }
}

function reachItem(reach: PlannedReach, tool: PlannedTool): readonly NamedItem[] {
  const suffix = driveSuffix(tool.square);
  switch (reach.kind) {
    case 'extension':
      return [{ kind: 'extension', name: `${reach.length === null ? '' : `${reach.length} mm `}extension${suffix}` }];
    case 'universal joint':
      return [{ kind: 'joint', name: `universal joint${suffix}` }];
    case 'other':
      return [{ kind: 'tool', name: reach.text }];
    case 'deep socket':
    case 'crowfoot':
      // They are the socket, not something beside it.
      return [];
  }
}

function driveSuffix(square: string | null): string {
  return square === null ? '' : `, ${square} drive`;
}

function noteTorques(torques: Map<string, { least: Torque; most: Torque; steps: string[] }>, group: PlannedGroup, step: string): void {
  const square = group.tool.square ?? '';
  for (const { torque } of group.passes) {
    if (torque === null) continue;
    const known = torques.get(square);
    if (known === undefined) torques.set(square, { least: torque, most: torque, steps: [step] });
    else {
      if (toNewtonMetres(torque) < toNewtonMetres(known.least)) known.least = torque;
      if (toNewtonMetres(torque) > toNewtonMetres(known.most)) known.most = torque;
      if (known.steps.at(-1) !== step) known.steps.push(step);
    }
  }
}

function push(map: Map<string, string[]>, key: string, value: string): void {
  const known = map.get(key);
  if (known === undefined) map.set(key, [value]);
  else if (known.at(-1) !== value) known.push(value);
}
