import type { DriveKind, KitKind, PlannedReach, PlannedTool } from './plan-types.ts';

/** A tool that can be named and laid out. */
export type EndTool = PlannedTool & { readonly kind: Exclude<DriveKind, 'hand' | 'not given'> };

/** One thing to lay out, named as it is said, with what it takes to know it again in a tool crib. */
export type Need =
  | { readonly what: 'end'; readonly tool: EndTool }
  | { readonly what: 'drive'; readonly square: string }
  | { readonly what: 'extension'; readonly length: number | null; readonly square: string | null }
  | { readonly what: 'angled extension'; readonly centre: number; readonly angle: number; readonly square: string | null }
  | { readonly what: 'joint'; readonly square: string | null }
  | { readonly what: 'angle gauge' }
  | { readonly what: 'by name' }
  /** A wrench is settled by the advice, and supplies are not in a crib. */
  | { readonly what: 'settled'; readonly owned: boolean | null };

export interface NamedNeed {
  readonly kind: KitKind;
  readonly name: string;
  readonly need: Need;
}

/** What turns the fastener and reaches it, from the socket outward. */
export function needsOfTool(tool: PlannedTool): readonly NamedNeed[] {
  const end = endOf(tool);
  const reach = tool.reach.flatMap((one) => reachOf(one, tool.square));
  const drive: readonly NamedNeed[] =
    tool.square === null ? [] : [{ kind: 'drive', name: `${tool.square} drive ratchet`, need: { what: 'drive', square: tool.square } }];
  return [...(end === null ? [] : [end]), ...reach, ...drive];
}

function endOf(tool: PlannedTool): NamedNeed | null {
  const { kind: drive } = tool;
  if (drive === 'hand' || drive === 'not given') return null;
  const crowfoot = tool.reach.some(({ kind }) => kind === 'crowfoot');
  const deep = tool.reach.some(({ kind }) => kind === 'deep socket');
  const kind = crowfoot ? 'adapter' : drive === 'hex' || drive === 'bihex' || drive === 'square' ? 'socket' : 'bit';
  return {
    kind,
    name: crowfoot ? `${sizeText(tool)}crowfoot${driveSuffix(tool.square)}` : endName({ ...tool, kind: drive, deep }),
    need: { what: 'end', tool: { ...tool, kind: drive } },
  };
}

/** What a socket or bit is called, whoever owns it. */
export function endName(tool: Pick<EndTool, 'kind' | 'size' | 'sizeUnit' | 'square'> & { readonly deep: boolean }): string {
  const deep = tool.deep ? 'deep ' : '';
  const suffix = driveSuffix(tool.square);
  switch (tool.kind) {
    case 'hex':
      return `${sizeText(tool)}${deep}socket${suffix}`;
    case 'bihex':
      return `${sizeText(tool)}${deep}bihex socket${suffix}`;
    case 'square':
      return `${sizeText(tool)}${deep}square socket${suffix}`;
    case 'socket-head hex':
      return `${sizeText(tool)}hex bit${suffix}`;
    case 'internal serration':
      return `${sizeText(tool)}internal-serration bit${suffix}`;
    case 'slotted':
    case 'cross-head':
      return `${tool.kind} ${sizeText(tool)}${tool.square === null ? 'screwdriver' : `bit${suffix}`}`;
  }
}

function reachOf(reach: PlannedReach, square: string | null): readonly NamedNeed[] {
  switch (reach.kind) {
    case 'extension':
      if (reach.angle !== undefined && reach.length !== null) {
        const { length: centre, angle } = reach;
        return [
          { kind: 'adapter', name: angledExtensionName(centre, angle, square), need: { what: 'angled extension', centre, angle, square } },
        ];
      }
      return [{ kind: 'extension', name: extensionName(reach.length, square), need: { what: 'extension', length: reach.length, square } }];
    case 'universal joint':
      return [{ kind: 'joint', name: `universal joint${driveSuffix(square)}`, need: { what: 'joint', square } }];
    case 'other':
      return [{ kind: 'tool', name: reach.text, need: { what: 'by name' } }];
    case 'deep socket':
    case 'crowfoot':
      // They are the socket, not something beside it.
      return [];
  }
}

export function extensionName(length: number | null, square: string | null): string {
  return `${length === null ? '' : `${length} mm `}extension${driveSuffix(square)}`;
}

/** One that leads the socket aside, by its centre distance; without an angle it can be set at any. */
export function angledExtensionName(centre: number, angle: number | null, square: string | null): string {
  return `${centre} mm extension${angle === null ? ' for any angle' : ` at ${angle}°`}${driveSuffix(square)}`;
}

export function driveSuffix(square: string | null): string {
  return square === null ? '' : `, ${square} drive`;
}

function sizeText({ size, sizeUnit }: Pick<PlannedTool, 'size' | 'sizeUnit'>): string {
  if (size === null) return '';
  return sizeUnit === null ? `${size} ` : `${size} ${sizeUnit === 'in' ? 'inch' : 'mm'} `;
}
