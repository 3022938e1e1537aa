import type { Crib } from '../torque/crib.ts';
import type { Degrees, Millimetres, Torque, TorqueBand } from '../torque/quantities.ts';
import { parseSquareDrive, servesInstead } from '../torque/sockets.ts';
import { chooseWrench, type WrenchChoice, type WrenchTask } from '../torque/wrench.ts';
import { nearestAngledExtension } from './kit-crib.ts';
import type { PlannedGroup, PlannedPass, PlannedReach, PlannedTool, WrenchAdvice, WrenchNote } from './plan-types.ts';

/** What to set for a pass, or null where nothing is known about the person's tools. */
export type Adviser = (group: Omit<PlannedGroup, 'passes'>, pass: Omit<PlannedPass, 'setting'>) => WrenchAdvice | null;

export const noAdvice: Adviser = () => null;

/**
 * Advice by the person's own wrenches. `today` is an ISO date, for calibrations.
 * Long procedures ask for the same few torques again and again, so each is worked out once.
 */
export function makeAdviser(crib: Crib, today: string): Adviser {
  const known = new Map<string, WrenchAdvice>();
  return (group, pass) => {
    if (pass.torque === null) return null;
    // A stage on the way has no tolerance of its own; the source's belongs to the final torque.
    const final = group.torque !== null && pass.torque.value === group.torque.value && pass.torque.unit === group.torque.unit;
    const key = JSON.stringify([pass.torque, final, final ? group.band : null, group.tool]);
    const advice = known.get(key) ?? advise(pass.torque, final, final ? group.band : null, group.tool, crib, today);
    known.set(key, advice);
    return advice;
  };
}

function advise(torque: Torque, final: boolean, band: TorqueBand | null, tool: PlannedTool, crib: Crib, today: string): WrenchAdvice {
  const adapter = adapterOf(tool, crib);
  if (adapter === 'unknown') {
    return { fits: false, reasons: [{ code: 'crowfoot-unknown' }] };
  }
  const task: WrenchTask = { adapter: adapter.arm, square: tool.square === null ? null : parseSquareDrive(tool.square), today };
  const choice = chooseWrench(torque, band, crib, task);
  return choice.fits
    ? {
        fits: true,
        wrench: choice.wrench.name,
        wrenchId: choice.wrench.id,
        set: choice.set,
        corrected: choice.corrected,
        warnings: [...adapter.notes, ...warningsOf(choice, final)],
      }
    : { fits: false, reasons: choice.reasons };
}

/** How near a mark comes only matters for the final torque. */
function warningsOf(choice: WrenchChoice & { fits: true }, final: boolean): readonly WrenchNote[] {
  const about = (code: string) => final || (code !== 'rounding-beyond-tolerance' && code !== 'coarse-graduation');
  return choice.warnings.filter(({ code }) => about(code));
}

interface KnownAdapter {
  readonly arm: { readonly centre: Millimetres; readonly angle: Degrees } | null;
  readonly notes: readonly WrenchNote[];
}

const squareToLever = 90 as Degrees;

/** The crowfoot as the procedure gives it, completed by the person's own; at right angles where nobody says otherwise. */
function adapterOf(tool: PlannedTool, crib: Crib): KnownAdapter | 'unknown' {
  const crowfoot = tool.reach.find((reach) => reach.kind === 'crowfoot');
  const angled = tool.reach.find((reach) => reach.kind === 'extension' && reach.angle !== undefined);
  // Two arms, one on the other: which way they lie to each other is told nowhere.
  if (crowfoot !== undefined && angled !== undefined) return 'unknown';
  if (angled?.kind === 'extension') return { arm: angledArm(angled, tool.square, crib), notes: [] };
  if (crowfoot === undefined) return { arm: null, notes: [] };
  const own = crib.adapters.find(
    (adapter) =>
      adapter.kind === 'crowfoot' &&
      (adapter.size === null ||
        (tool.size !== null &&
          servesInstead(
            { kind: 'hex', size: tool.size, sizeUnit: tool.sizeUnit },
            { kind: 'hex', size: adapter.size, sizeUnit: adapter.sizeUnit },
          ))),
  );
  const angle = crowfoot.angle ?? own?.angle ?? null;
  // The length of the crowfoot in the person's hand decides, not of the one that the author had.
  const centre = own?.centre ?? (crowfoot.centre as Millimetres | null);
  if (angle === null) {
    return {
      arm: { centre: centre ?? (0 as Millimetres), angle: squareToLever },
      notes: [{ code: 'keep-square' }],
    };
  }
  if (centre === null) return angle === squareToLever ? { arm: { centre: 0 as Millimetres, angle }, notes: [] } : 'unknown';
  return { arm: { centre, angle }, notes: [] };
}

/** The extension as the procedure gives it, with the centre distance of the person's own where they have one for that angle. */
function angledArm(
  reach: Extract<PlannedReach, { kind: 'extension' }>,
  square: string | null,
  crib: Crib,
): { readonly centre: Millimetres; readonly angle: Degrees } | null {
  const { angle, length } = reach;
  if (angle === undefined || length === null) return null;
  const own = nearestAngledExtension(crib, { centre: length, angle, square });
  return { centre: own?.centre ?? (length as Millimetres), angle };
}
