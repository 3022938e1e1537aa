import type { Degrees, Torque } from './quantities.ts';
import { parseNumber, tidy } from './numbers.ts';
import { read, unread } from './reading.ts';
import type { Problem, Reading } from './reading.ts';
import { formatTorque, longestText, parseTorque, shareOfTorque, toNewtonMetres } from './units.ts';
import type { TorqueTextCode } from './units.ts';
import { tableOf } from './table.ts';

/** One stage of tightening as an author gives it, before the order of the fasteners is known. */
export type Stage =
  /** By hand or to snug. */
  | { readonly kind: 'seat' }
  /** Drawn on in small even turns, not past snug. */
  | { readonly kind: 'draw'; readonly angle: Degrees | null }
  /** A share of the final torque, in percent. */
  | { readonly kind: 'share'; readonly percent: number }
  | { readonly kind: 'torque'; readonly torque: Torque }
  | { readonly kind: 'angle'; readonly angle: Degrees }
  /** A last round, one after the other, to see that none has lost its torque. */
  | { readonly kind: 'check' };

/** One time round the fasteners. The shape that plans are made of. */
export interface Pass {
  readonly kind: 'seat' | 'draw' | 'torque' | 'angle' | 'check';
  readonly torque: Torque | null;
  readonly angle: Degrees | null;
  /** Percent of the final torque, where the stage was given as a share. */
  readonly share: number | null;
  /** Indexes of the fasteners, in the order to take them. */
  readonly order: readonly number[];
}

export type StageTextCode = TorqueTextCode | 'not-a-stage' | 'angle-out-of-range' | 'share-out-of-range';
export type PassCode =
  'share-without-torque' | 'torque-falls' | 'torque-after-angle' | 'final-differs' | 'nothing-to-check' | 'share-out-of-range';

/**
 * The usual stages where the author wants staged passes and gives none: about 30, 60 to 70 and 100 %, then once round
 * (ASME PCC-1 practice, second-hand). A default for authors to accept or change, never to be spoken as a maker's own.
 */
export const usualStages: readonly Stage[] = [
  { kind: 'share', percent: 30 },
  { kind: 'share', percent: 65 },
  { kind: 'share', percent: 100 },
  { kind: 'check' },
];

/** How far a fastener is turned at a time when a part is drawn on evenly. Common practice; no published rule was found. */
export const drawUpTurn = 180 as Degrees;

/** The stages of an author who only gives a torque, an angle, or both, and no passes: what is given, and nothing more. */
export function plainStages(torque: Torque | null, angle: Degrees | null): readonly Stage[] {
  const stages: Stage[] = [torque ? { kind: 'torque', torque } : { kind: 'seat' }];
  if (angle !== null) stages.push({ kind: 'angle', angle });
  return stages;
}

/**
 * Makes passes of stages. `order` serves every pass but the last check, which goes round by `checkOrder`.
 * Torques must rise, the last must be the final one, and after an angle there is no torque left to aim at or check:
 * the fastener holds more than its torque by then, and a wrench would click before it moved.
 */
export function makePasses(
  stages: readonly Stage[],
  final: Torque | null,
  order: readonly number[],
  checkOrder: readonly number[],
): { readonly ok: true; readonly passes: readonly Pass[] } | { readonly ok: false; readonly problems: readonly Problem<PassCode>[] } {
  const problems: Problem<PassCode>[] = [];
  const passes: Pass[] = [];
  let reached: Torque | null = null;
  let angled = false;
  for (const [index, stage] of stages.entries()) {
    const path = `[${index}]`;
    const torque = torqueOf(stage, final);
    if (stage.kind === 'share' && !torque) {
      problems.push({ code: 'share-without-torque', path, found: `${stage.percent} %`, expected: 'a final torque to take the share of' });
    }
    if (stage.kind === 'share' && !(stage.percent > 0 && stage.percent <= 100)) {
      problems.push({ code: 'share-out-of-range', path, found: `${stage.percent} %`, expected: 'more than 0 and at most 100 %' });
    }
    if (torque && angled) {
      problems.push({ code: 'torque-after-angle', path, found: formatTorque(torque), expected: 'all torques before the first angle' });
    } else if (torque && reached && toNewtonMetres(torque) <= toNewtonMetres(reached)) {
      problems.push({ code: 'torque-falls', path, found: formatTorque(torque), expected: `more than ${formatTorque(reached)}` });
    }
    if (stage.kind === 'check' && (!reached || angled)) {
      problems.push({ code: 'nothing-to-check', path, found: 'check', expected: 'a torque before it, and no angle in between' });
    }
    reached = torque ?? reached;
    angled ||= stage.kind === 'angle';
    passes.push({
      kind: stage.kind === 'share' ? 'torque' : stage.kind,
      torque: stage.kind === 'check' ? reached : torque,
      angle: stage.kind === 'angle' || stage.kind === 'draw' ? stage.angle : null,
      share: stage.kind === 'share' ? stage.percent : null,
      order: stage.kind === 'check' ? checkOrder : order,
    });
  }
  if (final && !(reached && Math.abs(toNewtonMetres(reached) / toNewtonMetres(final) - 1) < 1e-9)) {
    const found = reached ? formatTorque(reached) : 'no torque';
    problems.push({ code: 'final-differs', path: '', found, expected: `the last torque to be ${formatTorque(final)}` });
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, passes };
}

/** The whole angle turned after the last torque: 60° and 80° make 140°. Zero where there is none. */
export function totalAngle(passes: readonly Pass[]): Degrees {
  return tidy(passes.reduce((sum, pass) => (pass.kind === 'angle' ? sum + (pass.angle ?? 0) : sum), 0)) as Degrees;
}

function torqueOf(stage: Stage, final: Torque | null): Torque | null {
  if (stage.kind === 'torque') return stage.torque;
  if (stage.kind !== 'share' || !final) return null;
  return stage.percent === 100 ? final : shareOfTorque(final, stage.percent);
}

const words: Readonly<Record<string, Stage>> = tableOf<Stage>({
  seat: { kind: 'seat' },
  snug: { kind: 'seat' },
  'by hand': { kind: 'seat' },
  'hand tight': { kind: 'seat' },
  'finger tight': { kind: 'seat' },
  draw: { kind: 'draw', angle: null },
  'draw up': { kind: 'draw', angle: null },
  check: { kind: 'check' },
  recheck: { kind: 'check' },
});

const turns: Readonly<Record<string, number>> = tableOf<number>({
  'quarter turn': 90,
  'half turn': 180,
  'half a turn': 180,
  'three quarter turn': 270,
  'three quarters of a turn': 270,
  'full turn': 360,
  'one turn': 360,
});

/** Reads one stage: "30 %", "20 N·m", "+60°", "90 degrees", "quarter turn", "snug", "draw up", "draw 180°", "check". */
export function parseStage(text: string): Reading<Stage, StageTextCode> {
  const plain = plainWords(text).replace(/\.$/u, '');
  const word = words[plain];
  if (word) return read(word);
  const percent = /^([\d.,/ ]+) ?(?:%|per ?cent)$/u.exec(plain);
  if (percent) {
    const value = parseNumber(percent[1] ?? '');
    if (!value.ok) return unread(value.problem.code, text, value.problem.expected);
    if (value.value <= 0 || value.value > 100) return unread('share-out-of-range', text, 'more than 0 and at most 100 %');
    return read({ kind: 'share', percent: value.value });
  }
  const drawn = /^draw(?: up)? (.+)/u.exec(plain);
  if (drawn || looksLikeAngle(plain)) {
    const angle = parseAngle(drawn?.[1] ?? plain);
    if (!angle.ok) return unread(angle.problem.code, text, angle.problem.expected);
    return read({ kind: drawn ? 'draw' : 'angle', angle: angle.value });
  }
  const torque = parseTorque(text);
  if (torque.ok) return read({ kind: 'torque', torque: torque.value });
  if (torque.problem.code === 'no-value')
    return unread('not-a-stage', text, 'a share ("30 %"), a torque ("20 N·m"), an angle ("90°"), "snug", "draw up" or "check"');
  return torque;
}

/** Reads stages in a row: "25 N·m + 100°", "20 N·m → 40 N·m → +60° → +80°", "30 %, 65 %, 100 %, check". */
export function parseStages(text: string): Reading<readonly Stage[], StageTextCode> {
  if (text.length > longestText * 4) return unread('too-long', `${text.slice(0, 20)}…`, `at most ${longestText * 4} characters`);
  const stages: Stage[] = [];
  for (const [index, part] of text
    .split(/\s*(?:→|->|,(?!\d)|;|\bthen\b|\+(?=\s*\d))\s*/u)
    .filter((piece) => piece.trim() !== '')
    .entries()) {
    const stage = parseStage(part);
    if (!stage.ok) return unread(stage.problem.code, part, stage.problem.expected, `[${index}]`);
    stages.push(stage.value);
  }
  return stages.length > 0 ? read(stages) : unread('not-a-stage', text, 'at least one stage');
}

/** Reads a tightening angle: "90°", "90 deg", "+60 degrees", "quarter turn". Above 0 and at most 720°. */
export function parseAngle(text: string): Reading<Degrees, 'not-a-number' | 'ambiguous-number' | 'angle-out-of-range'> {
  const plain = plainWords(text);
  const bare = plain.replace(/^(?:a|another) /u, '');
  const turn = turns[plain] ?? turns[bare];
  if (turn !== undefined) return read(turn as Degrees);
  const value = parseNumber(plain.replace(/^\+ ?/u, '').replace(/ ?(?:°|deg\.?|degrees?)$/u, ''));
  if (!value.ok) return unread(value.problem.code, text, 'an angle such as 90°');
  if (value.value <= 0 || value.value > 720) return unread('angle-out-of-range', text, 'more than 0 and at most 720°');
  return read(value.value as Degrees);
}

/** "Hand-tight" as "hand tight". A minus before a figure stays, for a turn back must not be read as a turn on. */
function plainWords(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/\s+/gu, ' ')
    .replace(/ ?- ?(?=[a-z])/gu, ' ');
}

function looksLikeAngle(plain: string): boolean {
  return /(?:°|deg\.?|degrees?)$|turn$/u.test(plain);
}
