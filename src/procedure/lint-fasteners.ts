import { plausibleTorque } from '../torque/plausibility.ts';
import { parseSquareDrive, socketFits, squareBears } from '../torque/sockets.ts';
import { parseThread, type Thread } from '../torque/threads.ts';
import { formatTorque, fromNewtonMetres, spokenRounding, toNewtonMetres } from '../torque/units.ts';
import type { NewtonMetres, Torque } from '../torque/quantities.ts';
import type { Remark } from './finding.ts';
import type { FastenerGroup } from './format.ts';
import type { OutlinedStep, Path } from './outline.ts';

/** Rules about torques, threads, sockets and passes. */
export function fastenerRemarks(steps: readonly OutlinedStep[]): readonly Remark[] {
  return steps.flatMap(({ step, path }) => step.fasteners.flatMap((group, index) => groupRemarks(group, [...path, 'fasteners', index])));
}

function groupRemarks(group: FastenerGroup, path: Path): readonly Remark[] {
  const thread = group.thread === undefined ? null : parseThread(group.thread);
  const remarks: Remark[] = [...unsaid(group, path), ...tolerance(group, path), ...stages(group, path), ...squareDrive(group, path)];
  if (thread === null) return remarks;
  if (!thread.ok) {
    remarks.push({
      code: 'thread-unreadable',
      severity: 'warning',
      path: [...path, 'thread'],
      message: `The thread "${thread.problem.found}" is none that can be checked.`,
      advice: `Write ${thread.problem.expected}.`,
    });
    return remarks;
  }
  return [...remarks, ...torqueForThread(group, thread.value, path), ...socketForThread(group, thread.value, path)];
}

/** Whether every pass only brings the part on, so that no torque belongs here. */
function onlySeats(group: FastenerGroup): boolean {
  return group.passes.length > 0 && group.passes.every(({ kind }) => kind === 'seat' || kind === 'draw');
}

function unsaid(group: FastenerGroup, path: Path): readonly Remark[] {
  const remarks: Remark[] = [];
  if (group.torque === undefined && group.drive?.kind !== 'hand' && !onlySeats(group)) {
    remarks.push({
      code: 'no-torque',
      severity: 'warning',
      path,
      message: `The ${group.name} has no torque, so a question for it is answered with the maker's manual.`,
      advice: 'Give the torque from the source, "passes: [snug]" where none belongs here, or "drive: hand".',
    });
  }
  if (group.torque !== undefined && group.drive === undefined) {
    remarks.push({
      code: 'no-drive',
      severity: 'warning',
      path,
      message: `The ${group.name} has a torque, but nothing says which socket turns it.`,
      advice: 'Add "drive:", such as "drive: hex 13".',
    });
  }
  return remarks;
}

function torqueForThread(group: FastenerGroup, thread: Thread, path: Path): readonly Remark[] {
  if (group.torque === undefined) return [];
  const { torque } = group.torque;
  const angled = group.angle !== undefined || group.passes.some(({ kind }) => kind === 'angle');
  const judged = plausibleTorque(thread, group.class ?? null, torque, angled);
  if (judged === null || judged.verdict === 'plausible') return [];
  const at = [...path, 'torque'];
  const kind = `${thread.designation} class ${judged.judgedBy.name}${judged.classAssumed ? ' (no class is given)' : ''}`;
  const share = `${Math.round(judged.share * 100)} % of its proof load by calculation`;
  const range = `${rounded(judged.range.low, torque)} to ${rounded(judged.range.high, torque)}`;
  if (judged.verdict === 'too-low') {
    return [
      {
        code: 'torque-too-low',
        severity: 'warning',
        path: at,
        message: `${formatTorque(torque)} leaves ${kind} as good as loose: ${share}.`,
        advice: `Look the value up again; about ${range} would be plausible.`,
      },
    ];
  }
  return [
    {
      code: 'torque-too-high',
      severity: judged.verdict === 'impossible' ? 'error' : 'warning',
      path: at,
      message: `${formatTorque(torque)} is ${judged.verdict === 'impossible' ? 'more than' : 'much for'} ${kind}${judged.verdict === 'impossible' ? ' can take' : ''}: ${share}.`,
      advice: `Look up the value, the thread and the class again; about ${range} would be plausible.`,
    },
  ];
}

function rounded(value: NewtonMetres, like: Torque): string {
  const torque = fromNewtonMetres(value, like.unit);
  return formatTorque({ value: spokenRounding(torque.value), unit: torque.unit });
}

function socketForThread(group: FastenerGroup, thread: Thread, path: Path): readonly Remark[] {
  const { drive } = group;
  if (drive === undefined || drive.size === null) return [];
  const fit = socketFits(thread, drive.kind, drive.size, drive.sizeUnit);
  if (!fit.known || fit.standards.length > 0) return [];
  const usual = [...new Set(fit.expected.map(({ size, sizeUnit }) => (sizeUnit === null ? size : `${size} ${sizeUnit}`)))].join(', ');
  return [
    {
      code: 'socket-misfit',
      severity: 'warning',
      path: [...path, 'drive'],
      message: `${drive.kind} ${drive.size} goes with no standard for ${thread.designation}.`,
      advice: `Measure it, or look up the thread again: the standards have ${usual}.`,
    },
  ];
}

/** What an ordinary click wrench holds: ±4 % above 10 N·m, ±6 % up to there (ISO 6789:2003, type II class A, second-hand). */
function tolerance(group: FastenerGroup, path: Path): readonly Remark[] {
  if (group.torque === undefined || group.torque.band === null) return [];
  const { torque, band } = group.torque;
  const held = toNewtonMetres(torque) > 10 ? 4 : 6;
  const half = (band.minus + band.plus) / 2;
  const percent = (half / (torque.value + band.plus - half)) * 100;
  if (percent >= held - 1e-9) return [];
  return [
    {
      code: 'tolerance-too-tight',
      severity: 'warning',
      path: [...path, 'torque'],
      message: `The tolerance of the ${group.name} is ±${spokenRounding(percent)} %, tighter than the ±${held} % of an ordinary torque wrench.`,
      advice: 'Widen it if the source allows, or name the special wrench under "tools".',
    },
  ];
}

function stages(group: FastenerGroup, path: Path): readonly Remark[] {
  if (group.passes.length > 0 || group.count < 6 || group.torque === undefined || (group.order !== 'cross' && group.order !== 'spiral'))
    return [];
  return [
    {
      code: 'no-passes',
      severity: 'hint',
      path,
      message: `The ${group.count} × ${group.name} go ${group.order === 'cross' ? 'crosswise' : 'from the middle out'}, but straight to full torque.`,
      advice: 'If the source stages them, say so: "passes: [30%, 65%, 100%, check]".',
    },
  ];
}

function squareDrive(group: FastenerGroup, path: Path): readonly Remark[] {
  const square = group.square === undefined ? null : parseSquareDrive(group.square);
  if (square === null || group.torque === undefined || squareBears(square, group.torque.torque) !== false) return [];
  return [
    {
      code: 'drive-overloaded',
      severity: 'hint',
      path: [...path, 'square'],
      message: `${formatTorque(group.torque.torque)} is more than a ${square} drive is commonly thought to bear.`,
      advice: 'Ask for the next larger square drive.',
    },
  ];
}
