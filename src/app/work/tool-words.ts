import type { PlannedGroup, PlannedReach, PlannedTool } from '../../procedure/plan-types.ts';

/** "17 mm", "T50", "9/16 in": what is on the socket. */
export function sizeWords(tool: PlannedTool): string {
  if (tool.size === null) return tool.kind;
  if (tool.sizeUnit === 'in') return `${tool.size} in`;
  return tool.sizeUnit === 'mm' ? `${tool.size} mm` : tool.size;
}

/** The tool in the fewest words that leave no doubt: "17 mm · 1/2 drive · extension 150". */
export function toolWords(tool: PlannedTool): string {
  const kind = tool.kind === 'hex' || tool.size === null ? null : tool.kind;
  return [sizeWords(tool), kind, tool.square === null ? null : `${tool.square} drive`, ...tool.reach.map(reachWords)]
    .filter((part) => part !== null)
    .join(' · ');
}

function reachWords(reach: PlannedReach): string {
  switch (reach.kind) {
    case 'extension':
      return reach.length === null ? 'extension' : `extension ${reach.length}`;
    case 'crowfoot':
      return reach.centre === null ? 'crowfoot' : `crowfoot ${reach.centre}`;
    case 'other':
      return reach.text;
    case 'universal joint':
    case 'deep socket':
      return reach.kind;
  }
}

export const positionName = (group: PlannedGroup, position: number): string => group.positions[position]?.name ?? String(position + 1);
