import type { WrenchMisfit, WrenchNote } from '../../procedure/plan-types.ts';
import type { Torque } from '../../torque/quantities.ts';
import { spokenRounding } from '../../torque/units.ts';
import { shownNumber } from './text.ts';

/** What to mind with a wrench, or why it will not do, as a French sentence to be shown. */
export function wrenchNote(note: WrenchNote | WrenchMisfit): string {
  if (typeof note === 'string') return note;
  switch (note.code) {
    case 'calibration-overdue':
      return `L'étalonnage était à refaire le ${note.due}.`;
    case 'operations-overdue':
      return `L'étalonnage est à refaire : ${note.operations} serrages depuis le dernier, pour une limite de ${note.limit}.`;
    case 'calibration-unknown':
      return "Personne n'a noté la date de son dernier étalonnage.";
    case 'suspect':
      return 'Elle est tombée ou a été surchargée depuis son étalonnage. À faire contrôler avant usage.';
    case 'under-usable-range':
      return `Elle serait réglée à ${percent(note.percentOfMax)} de son maximum ; sous ${percent(note.usableFrom)}, aucune précision n'est garantie.`;
    case 'rounding-beyond-tolerance':
      return `Le repère le plus proche est à ${percent(note.deviation)} du couple, et la clé elle-même peut s'écarter de ${percent(note.tolerance)}.`;
    case 'spread-outside-band':
      return `Sa propre tolérance peut sortir des limites : de ${calculated(note.low)} à ${calculated(note.high)}.`;
    case 'square-overloaded':
      return `C'est plus que les ${torque(note.limit)} que les règles de votre servante admettent pour un carré de ${note.square}.`;
    case 'coarse-graduation':
      return `Ses repères sont espacés de ${torque(note.graduation)}, plus d'un dixième du couple.`;
    case 'keep-square':
      return "Tenir l'embout à fourche d'équerre avec la clé : le réglage n'a alors pas à être corrigé.";
    case 'no-wrench':
      return "Il n'y a pas de clé dynamométrique parmi les outils.";
    case 'under-range':
      return `${note.wrench} commence à ${torque(note.min)} ; il faudrait la régler à ${calculated(note.needed)}.`;
    case 'over-range':
      return `${note.wrench} s'arrête à ${torque(note.max)} ; il faudrait la régler à ${calculated(note.needed)}.`;
    case 'rounding-outside-band':
      return `${note.wrench} n'a pas de repère dans les limites ; le plus proche, ${torque(note.nearest)}, est à ${percent(note.deviation)}.`;
    case 'square-differs':
      return `${note.wrench} a un carré de ${note.has}, et la douille demande ${note.needs}.`;
    case 'lever-unknown':
      return `La longueur de ${note.wrench} n'est pas notée, et la correction pour l'adaptateur en a besoin.`;
    case 'arm-impossible':
      return `${note.wrench} est trop courte pour l'adaptateur : tirer dessus ne serrerait pas.`;
    case 'crowfoot-unknown':
      return "L'entraxe de l'embout à fourche n'est pas connu : le réglage ne peut pas être calculé.";
  }
}

function torque({ value, unit }: Torque): string {
  return `${shownNumber(value)} ${unit}`;
}

function calculated({ value, unit }: Torque): string {
  return torque({ value: spokenRounding(value), unit });
}

function percent(value: number): string {
  return `${shownNumber(Number(Math.abs(value).toPrecision(3)))} %`;
}
