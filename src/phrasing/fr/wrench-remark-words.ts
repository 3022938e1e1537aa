import type { WrenchRemark } from '../../procedure/wrench-remarks.ts';

import { line, sentences } from '../compose.ts';
import type { Spoken } from '../lines.ts';
import { shownNumber, text } from './text.ts';
import { count } from './torque-lines.ts';
import { wrenchNote } from './wrench-words.ts';

/** More than this nobody keeps in mind by ear; the screen has them all. */
const mostSaid = 3;

export function wrenchRemarkWords(remarks: readonly WrenchRemark[]): Spoken {
  const more = remarks.length - mostSaid;
  return sentences(
    'Avant de commencer, à propos de vos clés',
    ...remarks.slice(0, mostSaid).map((remark): Spoken => ({ say: text(briefly(remark)).say, show: wrenchRemark(remark) })),
    more > 0 ? line`et encore ${count(more)}, à l’écran` : null,
  );
}

/** All of it: which wrench or torque, which steps, and why. */
export function wrenchRemark(remark: WrenchRemark): string {
  const reasons = remark.kind === 'mind' ? '' : ` ${remark.reasons.map(wrenchNote).join(' ')}`;
  return `${briefly(remark)}${reasons} (étape${remark.steps.length === 1 ? '' : 's'} ${remark.steps.join(', ')})`;
}

function briefly(remark: WrenchRemark): string {
  if (remark.kind === 'mind') return `${remark.wrench} : ${wrenchNote(remark.note)}`;
  const [first] = remark.reasons;
  if (typeof first === 'object' && first.code === 'no-wrench') return "Vous n'avez pas de clé dynamométrique.";
  return `Aucune de vos clés ne convient pour ${shownNumber(remark.torque.value)} ${remark.torque.unit} (${remark.fastener}).`;
}
