import { listed } from '../compose.ts';
import type { DialogueState, IntentName, Reason } from '../intents.ts';
import { reasons } from '../intents.ts';
import { helpOrder, taughtForm } from '../lexicon.ts';
import type { Spoken } from '../lines.ts';
import { lexicon } from './lexicon.ts';

/** The wording to teach for an intent. */
export function taught(intent: IntentName, state: DialogueState | null = null): string {
  return taughtForm(lexicon, intent, state);
}

/** "that's done, what torque, or which socket": what may be said, the likeliest first. Aloud no pause sets one apart. */
export function helpWords(legal: readonly IntentName[], state: DialogueState | null, most = Number.POSITIVE_INFINITY): Spoken {
  const names = helpOrder.filter((name) => legal.includes(name)).slice(0, most);
  const wordings = names.flatMap((name) => wording(name, state));
  return { say: wordings.join(' or '), show: listed(wordings, wordings.length > 2 ? ', or' : 'or').show };
}

function wording(name: IntentName, state: DialogueState | null): readonly string[] {
  switch (name) {
    case 'number':
      return ['reading, and the value'];
    case 'sign':
      return ['sign as, and a name'];
    case 'reason':
      return reasons.map((reason: Reason) => lexicon.reasons[reason].taught);
    default:
      return [taught(name, state)];
  }
}
