import type { TorqueUnit } from '../torque/quantities.ts';
import { hearTalk } from './extract.ts';
import type { Group, Told } from './groups.ts';
import type { Transcript } from './transcripts.ts';

/** A group of like fasteners as drafted, for one build or for all (null); a group that differs by build has several. */
export interface DraftGroup {
  readonly group: string;
  readonly name: string;
  readonly build: string | null;
  readonly count: number | null;
  readonly size: string | null;
  readonly sizeUnit: 'mm' | 'in' | null;
  readonly drive: string | null;
  readonly square: string | null;
  readonly torque: number | null;
  readonly torqueRange: readonly [number, number] | null;
  readonly unit: TorqueUnit | null;
  readonly step: string;
  readonly evidence: readonly { readonly field: string; readonly said: string; readonly at: number | null; readonly confidence: number }[];
}

export function draftFrom(transcript: Transcript, _options: { readonly name: string }): { readonly groups: readonly DraftGroup[] } {
  const heard = hearTalk(transcript);
  const rows = heard.groups.flatMap((group): DraftGroup[] => {
    const builds = new Set<string | null>(["size", "torque", "drive"].flatMap((f) => (group.told[f as 'size'] as readonly Told<unknown>[]).map(({ build }) => build)));
    const keys: (string | null)[] = group.only !== null ? [group.only] : builds.size === 0 || (builds.size === 1 && builds.has(null)) ? [null] : (heard.builds.length > 1 ? heard.builds.map(({ id }) => id) : [null, ...heard.builds.map(({ id }) => id)]);
    return keys.map((build) => row(group, build));
  });
  function pick<V>(list: readonly Told<V>[], build: string | null): Told<V> | null {
    return list.findLast((t) => t.build === build) ?? list.findLast((t) => t.build === null) ?? null;
  }
  function row(group: Group, build: string | null): DraftGroup {
    const told = { count: group.told.count.at(-1) ?? null, size: pick(group.told.size, build), drive: pick(group.told.drive, build), square: pick(group.told.square, build), torque: pick(group.told.torque, build) };
    return {
      group: String(group.id),
      name: [...new Set([...group.topic, ...group.names, group.head ?? '', ...group.places])].join(' '),
      build,
      count: told.count?.value ?? null,
      size: told.size?.value.text ?? null,
      sizeUnit: told.size?.value.unit ?? null,
      drive: told.drive?.value ?? (told.size?.value.text.startsWith('T') === true ? 'internal serration' : told.size !== null ? 'hex' : null),
      square: told.square?.value ?? null,
      torque: told.torque?.value.value ?? null,
      torqueRange: told.torque?.value.range ?? null,
      unit: told.torque?.value.unit ?? null,
      step: group.sentences.map((s) => heard.sentences[s]?.text ?? '').join(' '),
      evidence: Object.entries(told).flatMap(([field, t]) => (t === null ? [] : [{ field, said: heard.sentences[t.evidence.sentence]?.text ?? '', at: null, confidence: t.evidence.confidence }])),
    };
  }
  return { groups: rows };
}
