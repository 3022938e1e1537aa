import { type KeyPath, type Plain, plainOf } from '../../procedure/plain-tree.ts';
import type { YamlNode } from '../../procedure/yaml-tree.ts';

/** A sentence of the talk that a value or a question came from. */
export interface Heard {
  readonly said: string;
  /** Seconds from the start of the recording, or null. */
  readonly at: number | null;
}

/** An open question of a draft, as it stands in the text. */
export interface DraftQuestion {
  readonly path: KeyPath;
  readonly number: number;
  readonly ask: string;
  readonly heard: Heard | null;
  /** The value as it was heard, where the draft was too unsure of it to write it. */
  readonly offered: string | null;
  /** Null while nobody has answered. */
  readonly answer: string | null;
  /** The group of fasteners that it is about. */
  readonly group: { readonly id: string; readonly path: KeyPath } | null;
  /** The value that an answer would fill in, where the question is about one. */
  readonly field: KeyPath | null;
}

/** Where a value of a draft came from. */
export interface DraftEvidence extends Heard {
  readonly group: string;
  /** Such as "torque", or "torque on build K". */
  readonly value: string;
  readonly confidence: number;
}

/** The answer that leaves the value to the maker. It stands in the file, so it does not change with the language of the screen. */
export const lookItUp = "look it up in the maker's manual";

export function questionsIn(root: YamlNode): readonly DraftQuestion[] {
  const groups = groupPaths(root);
  return list(root, 'open questions').map((entry, index): DraftQuestion => {
    const about = text(entry['about']);
    const path = about === null ? undefined : groups.get(about);
    const group = about === null || path === undefined ? null : { id: about, path };
    const ask = text(entry['ask']) ?? '';
    const said = text(entry['said']);
    const number = entry['number'];
    return {
      path: ['open questions', index],
      number: typeof number === 'number' ? number : index + 1,
      ask,
      heard: said === null ? null : { said, at: seconds(text(entry['at'])) },
      offered: text(entry['heard']),
      answer: text(entry['answer']),
      group,
      field: about !== null && group === null ? null : fieldOf(text(entry['value']), group?.path ?? null),
    };
  });
}

export function evidenceIn(root: YamlNode): readonly DraftEvidence[] {
  return list(root, 'evidence').map((entry) => ({
    group: text(entry['of']) ?? '',
    value: text(entry['value']) ?? '',
    said: text(entry['said']) ?? '',
    at: seconds(text(entry['at'])),
    confidence: typeof entry['confidence'] === 'number' ? entry['confidence'] : 0,
  }));
}

/** "1:02:03" or "2:03" in seconds. */
export function seconds(clock: string | null): number | null {
  if (clock === null || !/^\d{1,3}(?::\d{1,2}){1,2}(?:\.\d+)?$/.test(clock)) return null;
  return clock.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);
}

/** "1:02:03", "2:03". */
export function clockText(at: number): string {
  const whole = Math.floor(at);
  const two = (value: number) => String(value).padStart(2, '0');
  const [hours, minutes] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60];
  return hours > 0 ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
}

/** The key that an answer fills in: of the group, or of the whole procedure where no group is meant. */
function fieldOf(value: string | null, group: KeyPath | null): KeyPath | null {
  const [, key, build] = /^(\S+)(?: on build (\S+))?$/.exec(value ?? '') ?? [];
  if (key === undefined) return null;
  if (group === null) return /^(?:vehicle|author)$/.test(key) ? [key] : null;
  return build === undefined ? [...group, key] : [...group, key, `build ${build}`];
}

function groupPaths(root: YamlNode): ReadonlyMap<string, KeyPath> {
  const found = new Map<string, KeyPath>();
  const visit = (node: YamlNode, path: KeyPath): void => {
    if (node.kind === 'list') node.items.forEach((item, index) => visit(item, [...path, index]));
    if (node.kind !== 'map') return;
    const id = node.entries.find(({ key }) => key === 'id')?.value;
    if (id?.kind === 'value' && path.at(-2) === 'fasteners') found.set(String(id.value), path);
    for (const { key, value } of node.entries) visit(value, [...path, key]);
  };
  visit(root, []);
  return found;
}

function list(root: YamlNode, key: string): readonly Readonly<Record<string, Plain>>[] {
  const value = root.kind === 'map' ? root.entries.find((entry) => entry.key === key)?.value : undefined;
  if (value?.kind !== 'list') return [];
  return value.items.map((item) => (item.kind === 'map' ? (plainOf(item) as Readonly<Record<string, Plain>>) : {}));
}

const text = (value: Plain | undefined): string | null =>
  (typeof value === 'string' && value.trim() !== '') || typeof value === 'number' ? String(value) : null;
