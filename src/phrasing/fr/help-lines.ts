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

/** "c'est fait, quel couple, ou quelle douille": what may be said, the likeliest first. Aloud no pause sets one apart. */
export function helpWords(legal: readonly IntentName[], state: DialogueState | null, most = Number.POSITIVE_INFINITY): Spoken {
  const names = helpOrder.filter((name) => legal.includes(name)).slice(0, most);
  const wordings = names.flatMap((name) => wording(name, state));
  return { say: wordings.join(' ou '), show: listed(wordings, wordings.length > 2 ? ', ou' : 'ou').show };
}

function wording(name: IntentName, state: DialogueState | null): readonly string[] {
  switch (name) {
    case 'number':
      return ['je lis, et la valeur'];
    case 'sign':
      return ['signer comme, et un nom'];
    case 'reason':
      return reasons.map((reason: Reason) => lexicon.reasons[reason].taught);
    default:
      return [taught(name, state)];
  }
}
