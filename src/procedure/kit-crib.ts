import type { Adapter, Crib } from '../torque/crib.ts';
import { parseSquareDrive, servesInstead } from '../torque/sockets.ts';
import { angledExtensionName, driveSuffix, endName, extensionName, type EndTool, type NamedNeed } from './kit-needs.ts';

/** Whether the person has it, and otherwise what of theirs would serve. `owned` is null where a crib says nothing about such things. */
export interface Holding {
  readonly owned: boolean | null;
  readonly instead: string | null;
}

/** Looks for a need in the person's tools. */
export function holdingOf({ name, need }: NamedNeed, crib: Crib): Holding {
  switch (need.what) {
    case 'end':
      return need.tool.reach.some(({ kind }) => kind === 'crowfoot') ? crowfootIn(crib, need.tool) : endIn(crib, need.tool);
    case 'drive':
      return driveIn(crib, need.square);
    case 'extension':
      return extensionIn(crib, need.length, need.square);
    case 'angled extension':
      return angledExtensionIn(crib, need);
    case 'joint':
      return { owned: crib.joints.some(({ square }) => need.square === null || square === need.square), instead: null };
    case 'angle gauge':
      return { owned: crib.angleGauges.length > 0, instead: null };
    case 'by name':
      return { owned: crib.others.some((other) => other.name.toLowerCase() === name.toLowerCase()), instead: null };
    case 'settled':
      return { owned: need.owned, instead: null };
  }
}

function endIn(crib: Crib, tool: EndTool): Holding {
  const wantsDeep = tool.reach.some(({ kind }) => kind === 'deep socket');
  const ends = [...crib.sockets, ...crib.bits.map((bit) => ({ ...bit, deep: false }))];
  const fits = (end: (typeof ends)[number]) => (tool.square === null || end.square === tool.square) && (end.deep || !wantsDeep);
  const sameSize = ends.filter(
    (end) => end.kind === tool.kind && (tool.size === null || (end.size === tool.size && end.sizeUnit === tool.sizeUnit)),
  );
  if (sameSize.some((end) => fits(end) && end.deep === wantsDeep)) return { owned: true, instead: null };
  const serving = ends.filter((end) => tool.size !== null && servesInstead({ ...tool, size: tool.size }, end));
  const best = serving.find(fits) ?? serving.find((end) => (end.deep || !wantsDeep) && end.square !== null && isDriven(crib, end.square));
  return { owned: false, instead: best === undefined ? null : endName({ ...best, size: best.size }) };
}

/** Whether the person has anything to turn that square with. */
function isDriven(crib: Crib, square: string): boolean {
  return crib.wrenches.some((wrench) => wrench.square === square) || crib.stepAdapters.some(({ to }) => to === square);
}

function crowfootIn(crib: Crib, tool: EndTool): Holding {
  const feet = crib.adapters.filter(({ kind }) => kind === 'crowfoot');
  const squareFits = (square: string) => tool.square === null || square === tool.square;
  if (feet.some((foot) => foot.size === tool.size && foot.sizeUnit === tool.sizeUnit && squareFits(foot.square)))
    return { owned: true, instead: null };
  const wanted = { kind: 'hex' as const, size: tool.size ?? '', sizeUnit: tool.sizeUnit };
  const other = feet.find((foot) => foot.size !== null && servesInstead(wanted, { kind: 'hex', size: foot.size, sizeUnit: foot.sizeUnit }));
  if (other === undefined) return { owned: false, instead: null };
  return { owned: false, instead: `${other.size ?? ''} ${other.sizeUnit === 'in' ? 'inch' : 'mm'} crowfoot${driveSuffix(other.square)}` };
}

function driveIn(crib: Crib, square: string): Holding {
  const turning = crib.drives.filter((drive) => drive.square === square);
  if (turning.some(({ kind }) => kind === 'ratchet')) return { owned: true, instead: null };
  if (turning.length > 0) return { owned: false, instead: `${square} drive bar` };
  const step = crib.stepAdapters.find(({ from, to }) => to === square && crib.drives.some((drive) => drive.square === from));
  return { owned: false, instead: step === undefined ? null : `${step.from} drive ratchet with a ${step.from} to ${step.to} step adapter` };
}

type AngledExtension = Omit<Extract<NamedNeed['need'], { readonly what: 'angled extension' }>, 'what'>;

/** Of the person's extensions that lead aside at that angle, the one nearest in length. */
export function nearestAngledExtension(crib: Crib, { centre, angle, square }: AngledExtension): Adapter | undefined {
  return crib.adapters
    .filter((one) => one.kind === 'extension' && (square === null || one.square === square) && (one.angle === null || one.angle === angle))
    .sort((a, b) => Math.abs(a.centre - centre) - Math.abs(b.centre - centre))[0];
}

/** Only its own length will do; another serves instead, since its setting is worked out for it. */
function angledExtensionIn(crib: Crib, need: AngledExtension): Holding {
  const nearest = nearestAngledExtension(crib, need);
  if (nearest === undefined) return { owned: false, instead: null };
  if (nearest.centre === need.centre) return { owned: true, instead: null };
  return { owned: false, instead: angledExtensionName(nearest.centre, nearest.angle, nearest.square) };
}

/** Up to this much longer, an extension still finds room; two that add up to nearly the length do as well. Our own choice. */
const roomForLonger = 2;
const nearlyTheLength = 0.15;

function extensionIn(crib: Crib, length: number | null, square: string | null): Holding {
  const wanted = square === null ? null : parseSquareDrive(square);
  const own = crib.extensions.filter((extension) => wanted === null || extension.square === wanted);
  if (own.some((extension) => length === null || extension.length === length)) return { owned: true, instead: null };
  if (length === null) return { owned: false, instead: null };
  const longer = own
    .filter((extension) => extension.length > length && extension.length <= length * roomForLonger)
    .sort((a, b) => a.length - b.length)[0];
  if (longer !== undefined) return { owned: false, instead: extensionName(longer.length, longer.square) };
  for (const [index, one] of own.entries()) {
    const other = own.slice(index + 1).find((candidate) => Math.abs(one.length + candidate.length - length) <= length * nearlyTheLength);
    if (other !== undefined)
      return { owned: false, instead: `${one.length} mm and ${other.length} mm extensions together${driveSuffix(one.square)}` };
  }
  return { owned: false, instead: null };
}
