import type { PlannedGroup, PlannedReach, PlannedTool } from '../../procedure/plan-types.ts';
import type { Words } from '../words/en.ts';

type ToolWords = Words['work']['tool'];

/** "17 mm", "T50", "9/16 in": what is on the socket. */
export function sizeWords(tool: PlannedTool, words: ToolWords): string {
  if (tool.size === null) return words.kinds[tool.kind];
  if (tool.sizeUnit === 'in') return `${tool.size} in`;
  return tool.sizeUnit === 'mm' ? `${tool.size} mm` : tool.size;
}

/** The tool in the fewest words that leave no doubt: "17 mm · 1/2 drive · extension 150". */
export function toolWords(tool: PlannedTool, words: ToolWords): string {
  const kind = tool.kind === 'hex' || tool.size === null ? null : words.kinds[tool.kind];
  const reach = tool.reach.map((one) => reachWords(one, words));
  return [sizeWords(tool, words), kind, tool.square === null ? null : words.square(tool.square), ...reach]
    .filter((part) => part !== null)
    .join(' · ');
}

function reachWords(reach: PlannedReach, words: ToolWords): string {
  switch (reach.kind) {
    case 'extension':
      return words.extension(reach.length, reach.angle ?? null);
    case 'crowfoot':
      return words.crowfoot(reach.centre);
    case 'other':
      return reach.text;
    case 'universal joint':
    case 'deep socket':
      return words[reach.kind];
  }
}

export const positionName = (group: PlannedGroup, position: number): string => group.positions[position]?.name ?? String(position + 1);
