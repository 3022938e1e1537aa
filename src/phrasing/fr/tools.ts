import { line, listed } from '../compose.ts';
import type { Part } from '../compose.ts';
import type { Spoken } from '../lines.ts';
import type { PlannedPosition, PlannedReach, PlannedTool } from '../../procedure/plan-types.ts';
import { clockHour } from './durations.ts';
import { numbers } from './numbers.ts';
import { fraction, ownText, text } from './text.ts';
import { tableOf } from '../../torque/table.ts';

/** What is put on the fastener: "douille de un sept, dix-sept millimètres". */
export function socket(tool: PlannedTool): Spoken {
  const size = sizeOf(tool);
  const long = tool.reach.some(({ kind }) => kind === 'deep socket') ? ' longue' : '';
  if (tool.reach.some(({ kind }) => kind === 'crowfoot')) return line`embout à fourche${size}`;
  switch (tool.kind) {
    case 'hex':
      return line`douille${long}${size}`;
    case 'bihex':
      return line`douille douze pans${long}${size}`;
    case 'square':
      return line`douille carrée${long}${size}`;
    case 'socket-head hex':
      return line`${tool.square === null ? 'clé' : 'embout'} six pans${size}`;
    case 'internal serration':
      return line`embout six lobes${size}`;
    case 'slotted':
      return line`${driver(tool)} à fente${size}`;
    case 'cross-head':
      return line`${driver(tool)} cruciforme${tool.size === null ? '' : ' numéro'}${size}`;
    case 'hand':
      return line`à la main`;
    case 'not given':
      return line`une douille que la procédure ne nomme pas`;
  }
}

/** All that is needed to turn it, from the socket outward. */
export function wholeTool(tool: PlannedTool): Spoken {
  const reach = tool.reach.filter(({ kind }) => kind !== 'deep socket' && kind !== 'crowfoot').map(reachPart);
  const parts: Part[] = [socket(tool), tool.square === null ? null : line`carré ${squareDrive(tool.square)}`, ...reach];
  const present = parts.filter((part) => part !== null);
  return present.slice(1).reduce<Spoken>((before, part) => line`${before}, ${part}`, line`${present[0] ?? null}`);
}

export function toolList(parts: readonly Part[]): Spoken {
  return listed(parts, 'et');
}

/** Places that the plan names by itself; an author's own names are left as they are. */
const places: Readonly<Record<string, string>> = tableOf<string>({
  left: 'à gauche',
  right: 'à droite',
  middle: 'au milieu',
  top: 'en haut',
  bottom: 'en bas',
  'top left': 'en haut à gauche',
  'top middle': 'en haut au milieu',
  'top right': 'en haut à droite',
  'middle left': 'au milieu à gauche',
  'middle right': 'au milieu à droite',
  'bottom left': 'en bas à gauche',
  'bottom middle': 'en bas au milieu',
  'bottom right': 'en bas à droite',
});

/** "avant gauche, à quatre heures et demie", "numéro un, à douze heures". */
export function positionWords(position: PlannedPosition | undefined): Spoken {
  if (position === undefined) return { say: 'la suivante', show: 'la suivante' };
  const figures = /^(?:number )?(\d+)$/u.exec(position.name)?.[1];
  const own = figures === undefined ? places[position.name] : `numéro ${figures}`;
  const name = own === undefined ? text(position.name) : ownText(own);
  return position.clock === null || /\bheures?\b/u.test(name.say) ? name : line`${name}, à ${clockHour(position.clock)}`;
}

function driver(tool: PlannedTool): string {
  return tool.square === null ? 'tournevis' : 'embout';
}

function sizeOf(tool: PlannedTool): Part {
  const { size, sizeUnit } = tool;
  if (size === null) return null;
  if (sizeUnit === 'in') return { say: ` de ${inchSize(size)}`, show: ` de ${size} po` };
  if (sizeUnit === 'mm') return { say: ` de ${numbers.plain(Number(size))} millimètres`, show: ` de ${size.replace('.', ',')} mm` };
  const [, letters = '', figures = ''] = /^(\D*)(\d+)$/u.exec(size) ?? [];
  return { say: ` ${letters === '' ? '' : `${letters} `}${figures === '' ? size : numbers.digits(Number(figures))}`, show: ` ${size}` };
}

function inchSize(size: string): string {
  const [, whole = '0', top, bottom] = /^(?:(\d+)(?:[ -]|$))?(?:(\d+)\/(\d+))?$/u.exec(size.trim()) ?? [];
  if (top === undefined || bottom === undefined) return `${numbers.plain(Number(whole))} pouce${Number(whole) > 1 ? 's' : ''}`;
  return `${fraction(Number(whole), Number(top), Number(bottom))} de pouce`;
}

function squareDrive(square: string): Spoken {
  return { say: inchSize(square).replace(/ de pouce$/u, ''), show: square };
}

function aside(angle: number | undefined): Part {
  return angle === undefined ? null : { say: ` à ${numbers.plain(angle)} degrés`, show: ` à ${String(angle).replace('.', ',')}°` };
}

function reachPart(reach: PlannedReach): Part {
  switch (reach.kind) {
    case 'extension':
      return reach.length === null
        ? 'rallonge'
        : line`rallonge de ${{ say: `${numbers.digits(reach.length)} millimètres`, show: `${reach.length} mm` }}${aside(reach.angle)}`;
    case 'universal joint':
      return 'cardan';
    case 'other':
      return line`avec ${text(reach.text)}`;
    case 'deep socket':
    case 'crowfoot':
      return null;
  }
}
