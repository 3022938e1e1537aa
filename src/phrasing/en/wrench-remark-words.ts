import type { WrenchRemark } from '../../procedure/wrench-remarks.ts';
import { formatTorque } from '../../torque/units.ts';
import { line, sentences } from '../compose.ts';
import type { Spoken } from '../lines.ts';
import { text } from './text.ts';
import { count } from './torque-lines.ts';
import { wrenchNote } from './wrench-words.ts';

/** More than this nobody keeps in mind by ear; the screen has them all. */
const mostSaid = 3;

export function wrenchRemarkWords(remarks: readonly WrenchRemark[]): Spoken {
  const more = remarks.length - mostSaid;
  return sentences(
    'Before you start, about your wrenches',
    ...remarks.slice(0, mostSaid).map((remark): Spoken => ({ say: text(briefly(remark)).say, show: wrenchRemark(remark) })),
    more > 0 ? line`and ${count(more)} more, on the screen` : null,
  );
}

/** All of it: which wrench or torque, which steps, and why. */
export function wrenchRemark(remark: WrenchRemark): string {
  const reasons = remark.kind === 'mind' ? '' : ` ${remark.reasons.map(wrenchNote).join(' ')}`;
  return `${briefly(remark)}${reasons} (step${remark.steps.length === 1 ? '' : 's'} ${remark.steps.join(', ')})`;
}

function briefly(remark: WrenchRemark): string {
  if (remark.kind === 'mind') return `${remark.wrench}: ${wrenchNote(remark.note)}`;
  const [first] = remark.reasons;
  if (typeof first === 'object' && first.code === 'no-wrench') return 'You have no torque wrench.';
  return `None of your wrenches fits ${formatTorque(remark.torque)} for the ${remark.fastener}.`;
}
