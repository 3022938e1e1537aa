import type { PlannedGroup, PlannedPass } from '../../procedure/plan-types.ts';
import type { Torque, TorqueBand, TorqueUnit } from '../../torque/quantities.ts';
import { shownTorque } from '../../torque/units.ts';
import { line, sentences } from '../compose.ts';
import type { Part } from '../compose.ts';
import type { FastenerPlace, Spoken } from '../lines.ts';
import { bandInUnit, hasNoTarget, reachesFinal, settingDiffers } from '../torque-facts.ts';
import { numbers, ordinal } from './numbers.ts';
import { shownNumber, text } from './text.ts';
import { positionWords, socket } from './tools.ts';
import { unitAfter } from './units.ts';
import { belongsToTheHand } from '../../procedure/wrench-remarks.ts';
import { wrenchNote } from './wrench-words.ts';

/** The answer to "quel couple": for the pass under way, or the final value where none is under way. */
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
  return sentences(
    line`${text(group.name)} : ${count(group.positions.length)}${group.singleUse ? (group.positions.length > 1 ? ' pièces neuves' : ' pièce neuve') : ''}`,
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
  return group.positions.length === 1 ? null : line`début : ${positionWords(group.positions[position])}`;
}

/** "Deuxième passe sur trois"; nothing where there is only one. */
export function passHead(group: PlannedGroup, index: number): Part {
  const of = group.passes.length;
  if (of < 2) return null;
  if (index === of - 1) return line`dernière passe sur ${count(of)}`;
  return { say: `${ordinal(index + 1)} passe sur ${numbers.plain(of)}`, show: `passe ${index + 1} sur ${of}` };
}

export function count(value: number): Spoken {
  return { say: numbers.plain(value), show: String(value) };
}

function passParts(group: PlannedGroup, index: number, unit: TorqueUnit | null): readonly Part[] {
  const pass = group.passes[index];
  if (pass === undefined) return [finalTarget(group, unit)];
  return [passHead(group, index), passTarget(group, pass, unit, null), wrench(pass, false)];
}

function finalTarget(group: PlannedGroup, unit: TorqueUnit | null): Spoken {
  const angle = group.angle === null ? null : line`puis ${turn(group.angle)}`;
  if (group.torque === null) return sentences(noTorque, angle);
  return sentences(torqueWords(group.torque, unit, group.band), angle);
}

function passTarget(group: PlannedGroup, pass: PlannedPass, unit: TorqueUnit | null, band: TorqueBand | null): Spoken {
  const share: Part =
    pass.share === null || pass.share === 100
      ? null
      : { say: `${numbers.digits(pass.share)} pour cent du couple final`, show: `${shownNumber(pass.share)} % du couple final` };
  switch (pass.kind) {
    case 'seat':
      return sentences('Approcher, sans serrer plus', noTorqueHere(group, pass));
    case 'draw':
      return sentences("Tirer par petits tours égaux, sans dépasser l'approche", noTorqueHere(group, pass));
    case 'angle':
      return sentences(pass.angle === null ? noTorque : turn(pass.angle));
    case 'torque':
      return sentences(share, pass.torque === null ? noTorque : torqueWords(pass.torque, unit, band));
    case 'check':
      return sentences(
        "Contrôler l'une après l'autre",
        pass.torque === null ? finalTarget(group, unit) : torqueWords(pass.torque, unit, band),
      );
  }
}

const noTorque: Spoken = line`La procédure ne donne pas de couple. Voir le manuel du constructeur`;

/** Seating has no torque of its own; where the group has none at all, that is said, so that nobody waits for one. */
function noTorqueHere(group: PlannedGroup, pass: PlannedPass): Part {
  if (!hasNoTarget(group)) return line`Pas de couple dans cette passe`;
  return pass === group.passes[0] ? noTorque : line`Aucun couple donné`;
}

function turn(degrees: number): Spoken {
  return line`tourner de ${{ say: `${numbers.critical(degrees)} ${unitAfter(degrees, '°')}`, show: `${shownNumber(degrees)}°` }}`;
}

/** The source's own figure; one that was converted is called so. */
function torqueWords(torque: Torque, unit: TorqueUnit | null, band: TorqueBand | null): Spoken {
  const shown = shownTorque(torque, unit);
  const converted = shown === torque ? null : 'converti, ';
  return line`${converted}${torqueFigures(shown)}${band === null ? null : bandWords(bandInUnit(band, torque, shown.unit))}`;
}

function torqueFigures(torque: Torque): Spoken {
  return {
    say: `${numbers.critical(torque.value)} ${unitAfter(torque.value, torque.unit)}`,
    show: `${shownNumber(torque.value)} ${torque.unit}`,
  };
}

function bandWords(band: TorqueBand): Part {
  const side = (value: number): Spoken => ({ say: numbers.plain(value), show: shownNumber(value) });
  if (band.minus === band.plus) return band.plus === 0 ? null : line`, ${{ say: 'plus ou moins ', show: '±' }}${side(band.plus)}`;
  return line`, ${{ say: 'plus ', show: '+' }}${side(band.plus)}, ${{ say: 'moins ', show: '−' }}${side(band.minus)}`;
}

/** A figure worked out for one wrench is a setting, never a specification. */
function wrench(pass: PlannedPass, asked: boolean): Part {
  const { setting: advice } = pass;
  if (advice === null) return null;
  if (!advice.fits)
    return sentences('Aucune de vos clés ne convient', ...(asked ? advice.reasons.map((reason) => text(wrenchNote(reason))) : []));
  const setting = line`réglage de la clé${advice.corrected ? " avec l'adaptateur" : ''} : ${torqueFigures(advice.set)}`;
  return sentences(
    line`clé : ${text(advice.wrench)}`,
    ...advice.warnings.filter((note) => asked || belongsToTheHand(note)).map((note) => text(wrenchNote(note))),
    settingDiffers(pass) ? setting : null,
  );
}
