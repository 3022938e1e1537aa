import { line, listed } from '../compose.ts';
import type { Part } from '../compose.ts';
import type { Spoken } from '../lines.ts';
import type { PlannedPosition, PlannedReach, PlannedTool } from '../../procedure/plan-types.ts';
import { clockHour } from './durations.ts';
import { numbers } from './numbers.ts';
import { fraction, inches, ownText, text } from './text.ts';

/** What is put on the fastener: "one seven, seventeen millimetre socket". */
export function socket(tool: PlannedTool): Spoken {
  const size = sizeOf(tool);
  const deep = tool.reach.some(({ kind }) => kind === 'deep socket') ? 'deep ' : '';
  if (tool.reach.some(({ kind }) => kind === 'crowfoot')) return line`${size}crowfoot`;
  switch (tool.kind) {
    case 'hex':
      return line`${size}${deep}socket`;
    case 'bihex':
      return line`${size}${deep}double-hex socket`;
    case 'square':
      return line`${size}${deep}square socket`;
    case 'socket-head hex':
      return line`${size}hex ${tool.square === null ? 'key' : 'bit'}`;
    case 'internal serration':
      return line`${size}serrated bit`;
    case 'slotted':
      return line`${size}slotted ${driver(tool)}`;
    case 'cross-head':
      return line`${tool.size === null ? '' : 'number '}${size}cross-head ${driver(tool)}`;
    case 'hand':
      return line`by hand`;
    case 'not given':
      return line`a socket that the procedure does not name`;
  }
}

/** All that is needed to turn it, from the socket outward. */
export function wholeTool(tool: PlannedTool): Spoken {
  const reach = tool.reach.filter(({ kind }) => kind !== 'deep socket' && kind !== 'crowfoot').map(reachPart);
  const parts: Part[] = [socket(tool), tool.square === null ? null : line`${squareDrive(tool.square)} drive`, ...reach];
  const present = parts.filter((part) => part !== null);
  return present.slice(1).reduce<Spoken>((before, part) => line`${before}, ${part}`, line`${present[0] ?? null}`);
}

export function toolList(parts: readonly Part[]): Spoken {
  return listed(parts, 'and');
}

/** Places that the plan names by itself. */
const namedByPlan = /^(?:left|right|middle|top|bottom)(?: (?:left|middle|right))?$/u;

/** "front left, at half past four", "number one, at twelve o'clock". */
export function positionWords(position: PlannedPosition | undefined): Spoken {
  if (position === undefined) return { say: 'the next one', show: 'the next one' };
  const isNumber = /^\d+$/u.test(position.name);
  const name = isNumber
    ? ownText(`number ${position.name}`)
    : namedByPlan.test(position.name)
      ? ownText(position.name)
      : text(position.name);
  if (position.clock === null || /o'clock|half past/iu.test(name.say)) return name;
  return line`${name}, at ${clockHour(position.clock)}`;
}

function driver(tool: PlannedTool): string {
  return tool.square === null ? 'screwdriver' : 'bit';
}

function sizeOf(tool: PlannedTool): Part {
  const { size, sizeUnit } = tool;
  if (size === null) return null;
  if (sizeUnit === 'in') return { say: `${inchSize(size)} `, show: `${size} in ` };
  if (sizeUnit === 'mm') return { say: `${numbers.plain(Number(size))} millimetre `, show: `${size} mm ` };
  const [, letters = '', figures = ''] = /^(\D*)(\d+)$/u.exec(size) ?? [];
  return { say: `${letters === '' ? '' : `${letters} `}${figures === '' ? size : numbers.digits(Number(figures))} `, show: `${size} ` };
}

function inchSize(size: string): string {
  const [, whole = '0', top, bottom] = /^(?:(\d+)(?:[ -]|$))?(?:(\d+)\/(\d+))?$/u.exec(size.trim()) ?? [];
  if (top === undefined || bottom === undefined) return `${numbers.plain(Number(whole))} inch`;
  return Number(bottom) <= 8 ? inches(Number(whole), Number(top), Number(bottom)) : fraction(Number(whole), Number(top), Number(bottom));
}

function squareDrive(square: string): Spoken {
  return { say: inchSize(square), show: square };
}

function aside(angle: number | undefined): Part {
  return angle === undefined ? null : { say: ` at ${numbers.plain(angle)} degrees`, show: ` at ${angle}°` };
}

function reachPart(reach: PlannedReach): Part {
  switch (reach.kind) {
    case 'extension':
      return reach.length === null
        ? 'extension'
        : line`${{ say: `${numbers.digits(reach.length)} millimetre`, show: `${reach.length} mm` }} extension${aside(reach.angle)}`;
    case 'universal joint':
      return 'universal joint';
    case 'other':
      return line`with ${text(reach.text)}`;
    case 'deep socket':
    case 'crowfoot':
      return null;
  }
}
