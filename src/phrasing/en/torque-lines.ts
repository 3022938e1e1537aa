import { isForeignText } from '../foreign-text.ts';
import type { PlannedGroup, PlannedPass } from '../../procedure/plan-types.ts';
import type { Torque, TorqueBand, TorqueUnit } from '../../torque/quantities.ts';
import { formatTorque, shownTorque } from '../../torque/units.ts';
import { formatNumber } from '../../torque/numbers.ts';
import { line, sentences } from '../compose.ts';
import type { Part } from '../compose.ts';
import type { FastenerPlace, Spoken } from '../lines.ts';
import { bandInUnit, hasNoTarget, reachesFinal, settingDiffers } from '../torque-facts.ts';
import { numbers, ordinal } from './numbers.ts';
import { positionWords, socket } from './tools.ts';
import { text } from './text.ts';
import { unitAfter } from './units.ts';
import { belongsToTheHand } from '../../procedure/wrench-remarks.ts';
import { wrenchNote } from './wrench-words.ts';

/** The answer to "what torque": for the pass under way, or the final value where none is under way. */
export function torqueAnswer(group: PlannedGroup, passIndex: number | null, unit: TorqueUnit | null): Spoken {
  const pass = passIndex === null ? undefined : group.passes[passIndex];
  if (pass === undefined || passIndex === null) return sentences(text(group.name), finalTarget(group, unit));
  return sentences(
    passHead(group, passIndex),
    passTarget(group, pass, unit, reachesFinal(group, pass) ? group.band : null),
    wrench(pass, true),
  );
}

/** A group begins: how many, with what, where first, and the pass's torque last. */
export function groupBegins(place: FastenerPlace, unit: TorqueUnit | null): Spoken {
  const { group, pass } = place;
  const fresh = group.singleUse ? 'new ' : '';
  return sentences(
    line`${count(group.positions.length)} ${fresh}${fastenerName(group, group.positions.length)}`,
    socket(group.tool),
    group.condition === null ? null : text(group.condition),
    startAt(place),
    ...passParts(group, pass, unit),
  );
}

export function passBegins(place: FastenerPlace, unit: TorqueUnit | null): Spoken {
  const [head, ...rest] = passParts(place.group, place.pass, unit);
  return sentences(head ?? null, startAt(place), ...rest);
}

function startAt({ group, position }: FastenerPlace): Part {
  return group.positions.length === 1 ? null : line`start: ${positionWords(group.positions[position])}`;
}

/** "Second pass of three"; nothing where there is only one. */
export function passHead(group: PlannedGroup, index: number): Part {
  const of = group.passes.length;
  if (of < 2) return null;
  if (index === of - 1) return line`last of ${count(of)} passes`;
  return { say: `${ordinal(index + 1)} pass of ${numbers.plain(of)}`, show: `pass ${index + 1} of ${of}` };
}

export function count(value: number): Spoken {
  return { say: numbers.plain(value), show: String(value) };
}

/** A group's name for that many; another language's names are left to their own plurals. */
export function fastenerName(group: PlannedGroup, howMany: number): Spoken {
  return text(isForeignText() ? group.name : plural(group.name, howMany));
}

/** English plurals of what fastens: bolts, studs, bosses, bodies. */
export function plural(name: string, howMany: number): string {
  if (howMany === 1) return name;
  if (/(?:s|x|z|ch|sh)$/u.test(name)) return `${name}es`;
  return /[^aeiou]y$/u.test(name) ? `${name.slice(0, -1)}ies` : `${name}s`;
}

function passParts(group: PlannedGroup, index: number, unit: TorqueUnit | null): readonly Part[] {
  const pass = group.passes[index];
  if (pass === undefined) return [finalTarget(group, unit)];
  return [passHead(group, index), passTarget(group, pass, unit, null), wrench(pass, false)];
}

function finalTarget(group: PlannedGroup, unit: TorqueUnit | null): Spoken {
  const angle = group.angle === null ? null : line`then ${turn(group.angle)}`;
  if (group.torque === null) return sentences(noTorque, angle);
  return sentences(torqueWords(group.torque, unit, group.band), angle);
}

function passTarget(group: PlannedGroup, pass: PlannedPass, unit: TorqueUnit | null, band: TorqueBand | null): Spoken {
  const share: Part =
    pass.share === null || pass.share === 100
      ? null
      : { say: `${numbers.digits(pass.share)} percent of the final torque`, show: `${pass.share} % of the final torque` };
  switch (pass.kind) {
    case 'seat':
      return sentences('Snug, no more', noTorqueHere(group, pass));
    case 'draw':
      return sentences('Draw on in small even turns, not past snug', noTorqueHere(group, pass));
    case 'angle':
      return sentences(pass.angle === null ? noTorque : turn(pass.angle));
    case 'torque':
      return sentences(share, pass.torque === null ? noTorque : torqueWords(pass.torque, unit, band));
    case 'check':
      return sentences(
        'Check each, one after the other',
        pass.torque === null ? finalTarget(group, unit) : torqueWords(pass.torque, unit, band),
      );
  }
}

const noTorque: Spoken = line`This procedure gives no torque. See the maker's manual`;

/** Seating has no torque of its own; where the group has none at all, that is said, so that nobody waits for one. */
function noTorqueHere(group: PlannedGroup, pass: PlannedPass): Part {
  if (!hasNoTarget(group)) return line`No torque in this pass`;
  return pass === group.passes[0] ? noTorque : line`No torque is given`;
}

function turn(degrees: number): Spoken {
  return line`turn ${{ say: `${numbers.critical(degrees)} ${unitAfter(degrees, '°')}`, show: `${formatNumber(degrees)}°` }}`;
}

/** The source's own figure; one that was converted is called so. */
function torqueWords(torque: Torque, unit: TorqueUnit | null, band: TorqueBand | null): Spoken {
  const shown = shownTorque(torque, unit);
  const converted = shown === torque ? null : 'converted, ';
  return line`${converted}${torqueFigures(shown)}${band === null ? null : bandWords(bandInUnit(band, torque, shown.unit))}`;
}

function torqueFigures(torque: Torque): Spoken {
  return { say: `${numbers.critical(torque.value)} ${unitAfter(torque.value, torque.unit)}`, show: formatTorque(torque) };
}

function bandWords(band: TorqueBand): Part {
  const side = (value: number): Spoken => ({ say: numbers.plain(value), show: formatNumber(value) });
  if (band.minus === band.plus) return band.plus === 0 ? null : line`, ${{ say: 'plus or minus ', show: '±' }}${side(band.plus)}`;
  return line`, ${{ say: 'plus ', show: '+' }}${side(band.plus)}, ${{ say: 'minus ', show: '−' }}${side(band.minus)}`;
}

/**
 * A figure worked out for one wrench is a setting, never a specification. What is doubtful about the wrench was said before the job;
 * here it comes only when asked for.
 */
function wrench(pass: PlannedPass, asked: boolean): Part {
  const { setting: advice } = pass;
  if (advice === null) return null;
  if (!advice.fits)
    return sentences('None of your wrenches fits', ...(asked ? advice.reasons.map((reason) => text(wrenchNote(reason))) : []));
  const setting = line`wrench setting${advice.corrected ? ' with the adapter' : ''}: ${torqueFigures(advice.set)}`;
  return sentences(
    line`wrench: ${text(advice.wrench)}`,
    ...advice.warnings.filter((note) => asked || belongsToTheHand(note)).map((note) => text(wrenchNote(note))),
    settingDiffers(pass) ? setting : null,
  );
}
