import { readDrive, readTorque } from '../procedure/notation.ts';
import type { DraftGroup } from './draft.ts';

/** A group of fasteners as the procedure file writes it; what differs by build stands by build. */
export function fastenersOf(first: DraftGroup, rows: readonly DraftGroup[]): object {
  const drive = byBuild(rows, driveText);
  const square = byBuild(rows, (row) => row.square);
  const torque = byBuild(rows, torqueText);
  const count = byBuild(rows, (row) => (row.count === null ? null : row.count <= 200 ? row.count : null));
  const angle = byBuild(rows, (row) => (row.angle !== null && row.angle > 0 && row.angle <= 720 ? row.angle : null));
  return {
    id: idOf(first.group),
    ...(first.only === null ? {} : { only: [first.only] }),
    name: first.name.slice(0, 120),
    ...(count === null ? {} : { count }),
    ...(first.thread === null ? {} : { thread: first.thread }),
    ...(drive === null ? {} : { drive }),
    ...(square === null ? {} : { square }),
    ...(first.reach.length === 0 ? {} : { reach: first.reach }),
    ...(torque === null ? {} : { torque }),
    ...(angle === null ? {} : { angle }),
    ...(first.order === null ? {} : { order: first.order }),
    ...(first.condition === null ? {} : { condition: first.condition }),
    ...(first.singleUse ? { 'single use': true } : {}),
  };
}

/** The id by which the file calls a group. */
export const idOf = (group: string): string => `group-${group}`;

type ByBuild<Value> = Value | Readonly<Record<string, Value>>;

function byBuild<Value extends string | number>(
  rows: readonly DraftGroup[],
  valueOf: (row: DraftGroup) => Value | null,
): ByBuild<Value> | null {
  const told = rows.flatMap((row): (readonly [DraftGroup, Value])[] => {
    const found = valueOf(row);
    return found === null ? [] : [[row, found]];
  });
  const [first] = told;
  if (first === undefined) return null;
  if (first[0].only !== null || (told.length === rows.length && told.every(([, found]) => found === first[1]))) return first[1];
  return Object.fromEntries(told.map(([{ build }, found]) => [build === null ? 'other builds' : `build ${build}`, found]));
}

/** Null too where the format has no such drive: better no value than one that says something else. */
export function driveText({ drive, size, sizeUnit }: DraftGroup): string | null {
  if (drive === null) return null;
  const text = [drive, size, sizeUnit === 'in' ? 'in' : null].filter((part) => part !== null).join(' ');
  return readDrive(text) === null ? null : text;
}

/** A torque without a unit is none. "5 to 7" is written as 6 ±1. */
export function torqueText({ torque, torqueRange, unit }: DraftGroup): string | null {
  if (torque === null || unit === null) return null;
  const round = (value: number) => Number(value.toFixed(4));
  const [low, high] = torqueRange ?? [torque, torque];
  const text = low === high ? `${torque} ${unit}` : `${round((low + high) / 2)} ${unit} ±${round((high - low) / 2)}`;
  return readTorque(text) === null ? null : text;
}
