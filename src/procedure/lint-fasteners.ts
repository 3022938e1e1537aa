import { plausibleTorque } from '../torque/plausibility.ts';
import { parseSquareDrive, socketFits, squareBears } from '../torque/sockets.ts';
import { parseThread, type Thread } from '../torque/threads.ts';
import { fromNewtonMetres, spokenRounding, toNewtonMetres } from '../torque/units.ts';
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
      severity: 'warning',
      path: [...path, 'thread'],
      told: { code: 'thread-unreadable', found: thread.problem.found, expected: thread.problem.expected },
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
      severity: 'warning',
      path,
      told: { code: 'no-torque', fastener: group.name },
    });
  }
  if (group.torque !== undefined && group.drive === undefined) {
    remarks.push({
      severity: 'warning',
      path,
      told: { code: 'no-drive', fastener: group.name },
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
  const { share, range, verdict } = judged;
  return [
    {
      severity: verdict === 'impossible' ? 'error' : 'warning',
      path: [...path, 'torque'],
      told: {
        code: verdict === 'too-low' ? 'torque-too-low' : 'torque-too-high',
        torque,
        thread: thread.designation,
        strength: judged.judgedBy.name,
        assumed: judged.classAssumed,
        percent: Math.round(share * 100),
        impossible: verdict === 'impossible',
        plausible: { low: rounded(range.low, torque), high: rounded(range.high, torque) },
      },
    },
  ];
}

function rounded(value: NewtonMetres, like: Torque): Torque {
  const torque = fromNewtonMetres(value, like.unit);
  return { value: spokenRounding(torque.value), unit: torque.unit };
}

function socketForThread(group: FastenerGroup, thread: Thread, path: Path): readonly Remark[] {
  const { drive } = group;
  if (drive === undefined || drive.size === null) return [];
  const fit = socketFits(thread, drive.kind, drive.size, drive.sizeUnit);
  if (!fit.known || fit.standards.length > 0) return [];
  const usual = [...new Set(fit.expected.map(({ size, sizeUnit }) => (sizeUnit === null ? size : `${size} ${sizeUnit}`)))];
  return [
    {
      severity: 'warning',
      path: [...path, 'drive'],
      told: { code: 'socket-misfit', drive: drive.kind, size: drive.size, thread: thread.designation, usual },
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
      severity: 'warning',
      path: [...path, 'torque'],
      told: { code: 'tolerance-too-tight', fastener: group.name, percent: spokenRounding(percent), held },
    },
  ];
}

function stages(group: FastenerGroup, path: Path): readonly Remark[] {
  if (group.passes.length > 0 || group.count < 6 || group.torque === undefined || (group.order !== 'cross' && group.order !== 'spiral'))
    return [];
  return [
    {
      severity: 'hint',
      path,
      told: { code: 'no-passes', fastener: group.name, count: group.count, order: group.order },
    },
  ];
}

function squareDrive(group: FastenerGroup, path: Path): readonly Remark[] {
  const square = group.square === undefined ? null : parseSquareDrive(group.square);
  if (square === null || group.torque === undefined || squareBears(square, group.torque.torque) !== false) return [];
  return [
    {
      severity: 'hint',
      path: [...path, 'square'],
      told: { code: 'drive-overloaded', torque: group.torque.torque, square },
    },
  ];
}
