import { makePasses, plainStages, totalAngle, type Stage } from '../torque/passes.ts';
import type { Degrees } from '../torque/quantities.ts';
import { formatTorque } from '../torque/units.ts';
import type { Adviser } from './advice.ts';
import type { Fault } from './fault.ts';
import type { FastenerGroup } from './format.ts';
import type { Path } from './outline.ts';
import type { Placer } from './places.ts';
import type { PlannedGroup, PlannedTool } from './plan-types.ts';

/** One group of fasteners with its positions and passes. What does not add up goes to `faults`, and the group is then not to be used. */
export function planGroup(
  group: FastenerGroup,
  id: string,
  path: Path,
  place: Placer,
  advise: Adviser,
  faults: Fault[],
): PlannedGroup | null {
  const found = countFaults(group, path);
  if (found.length > 0) {
    faults.push(...found);
    return null;
  }
  const { positions, order, checkOrder } = place(group);
  const torque = group.torque?.torque ?? null;
  const stages = stagesOf(group);
  const made = makePasses(stages, torque, order, checkOrder);
  if (!made.ok) {
    for (const problem of made.problems)
      faults.push({ code: 'bad-passes', path: [...path, 'passes'], found: problem.found, expected: problem.expected });
    return null;
  }
  faults.push(...passFaults(group, stages, path));
  const angle = totalAngle(made.passes);
  const planned = {
    id,
    name: group.name,
    thread: group.thread ?? null,
    propertyClass: group.class ?? null,
    condition: group.condition ?? null,
    singleUse: group['single use'],
    positions,
    tool: toolOf(group),
    torque,
    band: group.torque?.band ?? null,
    angle: angle > 0 ? angle : null,
    pattern: group.order,
  };
  return { ...planned, passes: made.passes.map((pass) => ({ ...pass, setting: advise(planned, pass) })) };
}

/** The written passes; where there are none, what the torque and angle say and nothing more. */
function stagesOf(group: FastenerGroup): readonly Stage[] {
  const torque = group.torque?.torque ?? null;
  const angle = group.angle ?? null;
  if (group.passes.length === 0) {
    const plain = plainStages(torque, angle);
    return group.order === 'draw-up' ? [{ kind: 'draw', angle: null }, ...plain.filter(({ kind }) => kind !== 'seat')] : plain;
  }
  const turned = group.passes.some(({ kind }) => kind === 'angle');
  return angle === null || turned ? group.passes : [...group.passes, { kind: 'angle', angle }];
}

export function toolOf(group: FastenerGroup): PlannedTool {
  const drive = group.drive ?? { kind: 'not given', size: null, sizeUnit: null };
  return { ...drive, square: group.square ?? null, reach: group.reach };
}

function countFaults(group: FastenerGroup, path: Path): readonly Fault[] {
  const faults: Fault[] = [];
  const { count, positions, layout } = group;
  if (positions.length > 0 && positions.length !== count) {
    faults.push({
      code: 'count-mismatch',
      path: [...path, 'positions'],
      found: `${positions.length} positions`,
      expected: `${count}, as many as the count`,
    });
  }
  const repeated = positions.findIndex((name, index) => positions.indexOf(name) !== index);
  if (repeated >= 0) {
    faults.push({
      code: 'duplicate-position',
      path: [...path, 'positions', repeated],
      found: `"${positions[repeated] ?? ''}" a second time`,
      expected: 'a name for each',
    });
  }
  const laidOut =
    layout?.kind === 'clock'
      ? layout.hours.length
      : layout?.kind === 'grid'
        ? layout.rows * layout.columns
        : layout?.kind === 'points'
          ? layout.points.length
          : count;
  if (laidOut !== count) {
    faults.push({
      code: 'layout-mismatch',
      path: [...path, 'layout'],
      found: `${laidOut} places`,
      expected: `${count}, as many as the count`,
    });
  }
  return faults;
}

function passFaults(group: FastenerGroup, stages: readonly Stage[], path: Path): readonly Fault[] {
  const faults: Fault[] = [];
  const torque = group.torque?.torque;
  if (torque !== undefined && !stages.some(({ kind }) => kind === 'torque' || kind === 'share')) {
    faults.push({
      code: 'bad-passes',
      path: [...path, 'passes'],
      found: 'no pass with a torque',
      expected: `one that reaches ${formatTorque(torque)}`,
    });
  }
  const turned = stages.reduce((sum, stage) => (stage.kind === 'angle' ? sum + stage.angle : sum), 0) as Degrees;
  if (group.angle !== undefined && Math.abs(turned - group.angle) > 1e-9) {
    faults.push({
      code: 'angle-mismatch',
      path: [...path, 'angle'],
      found: `${group.angle}°`,
      expected: `${turned}°, the sum of the passes`,
    });
  }
  return faults;
}
