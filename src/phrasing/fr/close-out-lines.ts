import { line, sentences } from '../compose.ts';
import type { Part } from '../compose.ts';
import type { Reason } from '../intents.ts';
import type { CloseOutWords } from '../language.ts';
import type { Matter, Spoken } from '../lines.ts';
import { duration } from './durations.ts';
import { numbers } from './numbers.ts';
import { stepNumber } from './step-numbers.ts';
import { measured, text } from './text.ts';
import { count } from './torque-lines.ts';

const reasons: Readonly<Record<Reason, string>> = {
  'no-part': 'pièce manquante',
  'no-tool': 'outil manquant',
  'not-fitted': 'non monté sur ce véhicule',
  'cannot-reach': "hors d'atteinte",
  damaged: 'abîmé',
  'told-to': 'sur consigne',
  'do-later': 'à faire plus tard',
  other: 'autre raison',
};

/** A reason as part of a sentence; the person's own words where they gave some. */
export function reasonWords(reason: Reason, said: string | null): Spoken {
  return said === null ? line`${reasons[reason]}` : line`${reason === 'other' ? null : `${reasons[reason]} : `}${text(said)}`;
}

/** What the close-out begins with: how much is open, and of what kinds. */
export function closingWords(open: readonly { readonly kind: Matter['kind']; readonly count: number }[]): Spoken {
  if (open.length === 0) return sentences("Clôture. Rien n'est ouvert");
  const all = open.reduce((sum, one) => sum + one.count, 0);
  return sentences(
    line`Clôture. Points ouverts : ${count(all)}`,
    // With one matter or one kind the matter itself says it all.
    ...(open.length < 2 ? [] : open.map((one) => line`${kinds[one.kind]} : ${count(one.count)}`)),
  );
}

const kinds: Readonly<Record<Matter['kind'], string>> = {
  before: 'non confirmés',
  kit: 'manquants au lot',
  fasteners: 'groupes de fixations',
  step: 'étapes',
  hold: 'contrôles',
  measure: 'mesures',
  timer: 'minuteurs',
  note: 'questions',
};

/** One open matter at close-out. */
export function matterWords(matter: Matter): Spoken {
  switch (matter.kind) {
    case 'fasteners':
      return sentences(
        line`étape ${stepNumber(matter.step)}, ${text(matter.group.name)}`,
        matter.untouched === 0 ? null : line`pas du tout serrées : ${count(matter.untouched)}`,
        matter.unfinished === 0 ? null : line`pas serrées à fond : ${count(matter.unfinished)}`,
        becauseOf(matter),
      );
    case 'step':
      return sentences(line`étape ${stepNumber(matter.step)} ${ways[matter.how]}`, text(matter.step.say), becauseOf(matter));
    case 'hold':
      return sentences(
        line`étape ${stepNumber(matter.step)}, contrôle ${matter.how === 'never passed' ? 'jamais réussi' : 'réussi tardivement'}`,
        text(matter.hold.ask),
        matter.failures === 0 ? null : line`échecs : ${count(matter.failures)}`,
      );
    case 'measure':
      return sentences(
        line`étape ${stepNumber(matter.step)}, ${text(matter.measure.name)}`,
        matter.value === null ? 'non mesuré' : line`hors limites : ${measured(matter.value, matter.measure.unit, numbers.critical)}`,
      );
    case 'timer':
      return sentences(line`minuteur en cours : ${text(matter.name)}, ${duration(matter.seconds)}`);
    case 'note':
      return sentences(
        matter.step === null ? 'votre question' : line`votre question à l'étape ${stepNumber(matter.step)}`,
        text(matter.text),
      );
    case 'before':
      return sentences('non confirmé avant de commencer', text(matter.before.check));
    case 'kit':
      return sentences(line`manque au lot : ${text(matter.item.name)}`);
  }
}

const ways: Readonly<Record<Extract<Matter, { kind: 'step' }>['how'], string>> = {
  open: 'ouverte',
  skipped: 'sautée',
  'passed-over': 'laissée en route',
};

function becauseOf({ reason, said }: { readonly reason: Reason | null; readonly said: string | null }): Part {
  return reason === null ? null : line`raison : ${reasonWords(reason, said)}`;
}

export const closeOut: CloseOutWords = {
  matter: (matter) => matterWords(matter).show,
  reason: (reason, said) => reasonWords(reason, said).show,
};
