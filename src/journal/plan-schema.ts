import { z } from '../torque/zod.ts';
import { once } from '../torque/once.ts';
import { torqueUnits } from '../torque/quantities.ts';
import type { WrenchMisfit, WrenchNote } from '../procedure/plan-types.ts';
import type { Degrees } from '../torque/quantities.ts';
import { squareDrives } from '../torque/sockets.ts';
import { journalLimits } from './limits.ts';

/*
 * A plan that comes from elsewhere: in an imported file, in a row of QR codes. The procedure's own rules were checked when the plan was
 * made; here only its shape and size are, so that nothing which is not a plan gets to the rest of the app.
 */

const schemas = once(() => {
  const id = z.string().min(1).max(journalLimits.id);
  const name = z.string().max(journalLimits.name);
  const text = z.string().max(journalLimits.text);
  const whole = z.int().min(0).max(1_000_000);
  const number = z.number();
  const degrees = z.number().transform((value) => value as Degrees);

  function list<Entry extends z.ZodType>(entry: Entry) {
    return z.array(entry).max(journalLimits.list);
  }

  const torque = z.strictObject({ value: number, unit: z.enum(torqueUnits) });

  const caution = z.strictObject({ id, signal: z.enum(['DANGER', 'WARNING', 'CAUTION', 'NOTICE']), text });

  const reach = z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('extension'), length: number.nullable(), angle: degrees.optional() }),
    z.strictObject({ kind: z.literal('universal joint') }),
    z.strictObject({ kind: z.literal('deep socket') }),
    z.strictObject({ kind: z.literal('crowfoot'), centre: number.nullable(), angle: degrees.nullable() }),
    z.strictObject({ kind: z.literal('other'), text }),
  ]);

  const tool = z.strictObject({
    kind: z.enum(['hex', 'socket-head hex', 'internal serration', 'bihex', 'square', 'slotted', 'cross-head', 'hand', 'not given']),
    size: name.nullable(),
    sizeUnit: z.enum(['mm', 'in']).nullable(),
    square: name.nullable(),
    reach: list(reach),
  });

  const position = z.strictObject({ name, clock: number.nullable(), x: number, y: number });

  const square = z.enum(squareDrives);

  /** Plans of earlier versions have these as sentences. */
  const wrenchNote: z.ZodType<WrenchNote> = z.union([
    text,
    z.discriminatedUnion('code', [
      z.strictObject({ code: z.literal('calibration-overdue'), calibrated: name, due: name }),
      z.strictObject({ code: z.literal('operations-overdue'), operations: number, limit: number }),
      z.strictObject({ code: z.literal('calibration-unknown') }),
      z.strictObject({ code: z.literal('suspect') }),
      z.strictObject({ code: z.literal('under-usable-range'), percentOfMax: number, usableFrom: number }),
      z.strictObject({ code: z.literal('rounding-beyond-tolerance'), deviation: number, tolerance: number }),
      z.strictObject({ code: z.literal('spread-outside-band'), low: torque, high: torque }),
      z.strictObject({ code: z.literal('square-overloaded'), square, limit: torque }),
      z.strictObject({ code: z.literal('coarse-graduation'), graduation: torque }),
      z.strictObject({ code: z.literal('keep-square') }),
    ]),
  ]);

  const wrenchMisfit: z.ZodType<WrenchMisfit> = z.union([
    text,
    z.discriminatedUnion('code', [
      z.strictObject({ code: z.literal('no-wrench') }),
      z.strictObject({ code: z.literal('under-range'), wrench: name, needed: torque, min: torque }),
      z.strictObject({ code: z.literal('over-range'), wrench: name, needed: torque, max: torque }),
      z.strictObject({ code: z.literal('rounding-outside-band'), wrench: name, nearest: torque, deviation: number }),
      z.strictObject({ code: z.literal('square-differs'), wrench: name, has: square, needs: square }),
      z.strictObject({ code: z.literal('lever-unknown'), wrench: name }),
      z.strictObject({ code: z.literal('arm-impossible'), wrench: name }),
      z.strictObject({ code: z.literal('crowfoot-unknown') }),
    ]),
  ]);

  const setting = z.discriminatedUnion('fits', [
    z.strictObject({
      fits: z.literal(true),
      wrench: name,
      wrenchId: id.optional(),
      set: torque,
      corrected: z.boolean(),
      warnings: list(wrenchNote),
    }),
    z.strictObject({ fits: z.literal(false), reasons: list(wrenchMisfit) }),
  ]);

  const pass = z.strictObject({
    kind: z.enum(['seat', 'draw', 'torque', 'angle', 'check']),
    torque: torque.nullable(),
    angle: degrees.nullable(),
    share: number.nullable(),
    order: list(whole),
    setting: setting.nullable(),
  });

  const group = z
    .strictObject({
      id,
      name,
      thread: name.nullable(),
      propertyClass: name.nullable(),
      condition: text.nullable(),
      singleUse: z.boolean(),
      positions: list(position),
      tool,
      torque: torque.nullable(),
      band: z.strictObject({ minus: number, plus: number }).nullable(),
      angle: degrees.nullable(),
      pattern: z.enum(['cross', 'circular', 'spiral', 'draw-up', 'listed']),
      passes: list(pass),
    })
    .refine(({ positions, passes }) => passes.every(({ order }) => order.every((index) => index < positions.length)), {
      error: 'passes that name positions of this group',
    });

  const branch = z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('go'), step: id, advice: text.nullable() }),
    z.strictObject({ kind: z.literal('see'), side: id, advice: text.nullable() }),
    z.strictObject({ kind: z.literal('stay'), advice: text }),
  ]);

  const step = z.strictObject({
    id,
    index: whole,
    number: name,
    stage: z.strictObject({ id, title: name, number: whole }),
    side: id.nullable(),
    say: text,
    why: text.nullable(),
    where: text.nullable(),
    picture: text.nullable(),
    cautions: list(caution),
    groups: list(group),
    measures: list(z.strictObject({ id, name, unit: name, min: number.nullable(), max: number.nullable(), outside: branch })),
    holds: list(z.strictObject({ id, ask: text, fail: branch })),
    stopSigns: list(z.strictObject({ id, ask: text, branch })),
    wait: z.strictObject({ id, name, seconds: number, blocks: z.boolean() }).nullable(),
    optional: text.nullable(),
    helper: text.nullable(),
    see: id.nullable(),
    tools: list(name),
  });

  const after = z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('distance'), value: number, unit: z.enum(['km', 'mi']) }),
    z.strictObject({ kind: z.literal('time'), hours: z.number().min(0).max(1_000_000) }),
    z.strictObject({ kind: z.literal('count'), count: number, of: name }),
  ]);

  const kitItem = z.strictObject({
    id,
    kind: z.enum([
      'socket',
      'bit',
      'drive',
      'extension',
      'joint',
      'adapter',
      'wrench',
      'angle gauge',
      'part',
      'consumable',
      'support',
      'tool',
    ]),
    name,
    count: number,
    steps: list(id),
    singleUse: z.boolean(),
    owned: z.boolean().nullable(),
    instead: text.nullable(),
  });

  const followUp = z.strictObject({ id, say: text, after });

  const plan = z.strictObject({
    format: z.literal(1),
    procedure: z.strictObject({
      id,
      title: name,
      vehicle: name,
      revision: z.int(),
      language: name,
      source: text,
      author: name,
    }),
    build: z.strictObject({ id, name }),
    spokenUnit: z.enum(torqueUnits).nullable(),
    befores: list(z.strictObject({ id, kind: z.enum(['mark', 'part', 'support', 'removed', 'condition']), check: text })),
    cautions: list(caution),
    kit: list(kitItem),
    steps: list(step),
    sides: list(z.strictObject({ id, title: name, stepIds: list(id) })),
    followUps: list(followUp),
  });

  return { plan, followUp };
});

/** A plan of the present format, whole. */
export const planSchema = z.lazy(() => schemas().plan);

/** What is to be done after the job. */
export const followUpSchema = z.lazy(() => schemas().followUp);
