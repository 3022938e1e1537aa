import { stringify } from 'yaml';
import type { Draft, DraftGroup } from './draft.ts';
import { readDrive, readTorque } from '../procedure/notation.ts';

/** A draft as a procedure file in YAML. What is unknown is left out, and the questions stand in it without their answers. */
export function draftFile(draft: Draft): string {
  const lots = [...new Set(draft.groups.map(({ group }) => group))].map((id) => draft.groups.filter(({ group }) => group === id));
  const builds =
    draft.builds.length === 0
      ? { all: 'every vehicle that the talk is about' }
      : Object.fromEntries(draft.builds.map(({ id, name }) => [id, name]));
  const file = {
    undertray: 1,
    id: slug(draft.name),
    title: draft.name.replace(/[-_]+/g, ' ').slice(0, 120),
    builds,
    source: `Drafted from the talk-through ${draft.name.slice(0, 120)}. Every value is to be checked against the maker's manual.`,
    revision: 1,
    'open questions': draft.questions.map(({ number, about, ask, said, at }) => ({
      number,
      ...(about === null ? {} : { about: idOf(about) }),
      ask: cut(ask),
      ...(said === null ? {} : { said: cut(said) }),
      ...(at === null ? {} : { at: clock(at) }),
    })),
    evidence: draft.groups.flatMap(({ group, build, evidence }) =>
      evidence.map(({ field, said, at, confidence }) => ({
        of: idOf(group),
        value: build === null ? field : `${field} on build ${build}`,
        said: cut(said),
        ...(at === null ? {} : { at: clock(at) }),
        confidence: Math.round(confidence * 100) / 100,
      })),
    ),
    stages: [{ id: 'talk', title: 'As talked through', steps: stepsOf(lots) }],
  };
  return stringify(file, { lineWidth: 0 });
}

/** One step for each sentence that first names fasteners. */
function stepsOf(lots: readonly (readonly DraftGroup[])[]) {
  const steps: { id: string; do: string; fasteners: object[] }[] = [];
  for (const rows of lots) {
    const [first] = rows;
    if (first === undefined) continue;
    const known = steps.find((step) => step.do === cut(first.firstSaid));
    if (known !== undefined) known.fasteners.push(fastenersOf(first, rows));
    else steps.push({ id: `step-${steps.length + 1}`, do: cut(first.firstSaid), fasteners: [fastenersOf(first, rows)] });
  }
  return steps;
}

function fastenersOf(first: DraftGroup, rows: readonly DraftGroup[]): object {
  const drive = byBuild(rows, driveText);
  const square = byBuild(rows, (row) => row.square);
  const torque = byBuild(rows, torqueText);
  return {
    id: idOf(first.group),
    ...(first.only === null ? {} : { only: [first.only] }),
    name: first.name.slice(0, 120),
    ...(first.count === null ? {} : { count: first.count }),
    ...(drive === null ? {} : { drive }),
    ...(square === null ? {} : { square }),
    ...(torque === null ? {} : { torque }),
  };
}

type ByBuild = string | Readonly<Record<string, string>>;

function byBuild(rows: readonly DraftGroup[], text: (row: DraftGroup) => string | null): ByBuild | null {
  const texts = rows.flatMap((row): (readonly [DraftGroup, string])[] => {
    const found = text(row);
    return found === null ? [] : [[row, found]];
  });
  const [first] = texts;
  if (first === undefined) return null;
  if (first[0].only !== null || (texts.length === rows.length && texts.every(([, found]) => found === first[1]))) return first[1];
  return Object.fromEntries(texts.map(([{ build }, found]) => [build === null ? 'other builds' : `build ${build}`, found]));
}

/** Null too where the format has no such drive: better no value than one that says something else. */
function driveText({ drive, size, sizeUnit }: DraftGroup): string | null {
  if (drive === null) return null;
  const text = [drive, size, sizeUnit === 'in' ? 'in' : null].filter((part) => part !== null).join(' ');
  return readDrive(text) === null ? null : text;
}

/** A torque without a unit is none. "5 to 7" is written as 6 ±1. */
function torqueText({ torque, torqueRange, unit }: DraftGroup): string | null {
  if (torque === null || unit === null) return null;
  const round = (value: number) => Number(value.toFixed(4));
  const [low, high] = torqueRange ?? [torque, torque];
  const text = low === high ? `${torque} ${unit}` : `${round((low + high) / 2)} ${unit} ±${round((high - low) / 2)}`;
  return readTorque(text) === null ? null : text;
}

const idOf = (group: string) => `group-${group}`;
const cut = (text: string) => (text.length <= 400 ? text : `${text.slice(0, 399)}…`);

function slug(name: string): string {
  const words = name.toLowerCase().match(/[a-z0-9]+/g) ?? ['draft'];
  return words.join('-').slice(0, 60).replace(/-$/, '');
}

/** "1:02:03" from the start of the recording. */
function clock(milliseconds: number): string {
  const seconds = Math.floor(milliseconds / 1000);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}
