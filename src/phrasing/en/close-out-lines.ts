import { line, sentences } from '../compose.ts';
import type { Part } from '../compose.ts';
import type { Reason } from '../intents.ts';
import type { CloseOutWords } from '../language.ts';
import type { Matter, Spoken } from '../lines.ts';
import { duration } from './durations.ts';
import { numbers } from './numbers.ts';
import { stepNumber } from './step-numbers.ts';
import { measured, text } from './text.ts';
import { count, fastenerName } from './torque-lines.ts';

const reasons: Readonly<Record<Reason, string>> = {
  'no-part': 'part missing',
  'no-tool': 'tool missing',
  'not-fitted': 'not fitted to this vehicle',
  'cannot-reach': 'cannot be reached',
  damaged: 'damaged',
  'told-to': 'told to leave it',
  'do-later': 'to be done later',
  other: 'another reason',
};

/** A reason as part of a sentence; the person's own words where they gave some. */
export function reasonWords(reason: Reason, said: string | null): Spoken {
  return said === null ? line`${reasons[reason]}` : line`${reason === 'other' ? null : `${reasons[reason]}: `}${text(said)}`;
}

/** What the close-out begins with: how much is open, and of what kinds. */
export function closingWords(open: readonly { readonly kind: Matter['kind']; readonly count: number }[]): Spoken {
  if (open.length === 0) return sentences('Close-out. Nothing is open');
  const all = open.reduce((sum, one) => sum + one.count, 0);
  return sentences(
    line`Close-out. Open: ${count(all)}`,
    // With one matter or one kind the matter itself says it all.
    ...(open.length < 2 ? [] : open.map((one) => line`${kinds[one.kind]}: ${count(one.count)}`)),
  );
}

const kinds: Readonly<Record<Matter['kind'], string>> = {
  before: 'not confirmed',
  kit: 'missing from the kit',
  fasteners: 'groups of fasteners',
  step: 'steps',
  hold: 'checks',
  measure: 'measures',
  timer: 'timers',
  note: 'questions',
};

/** One open matter at close-out. */
export function matterWords(matter: Matter): Spoken {
  switch (matter.kind) {
    case 'fasteners':
      return sentences(
        line`step ${stepNumber(matter.step)}, ${fastenerName(matter.group, 2)}`,
        matter.untouched === 0 ? null : line`not tightened at all: ${count(matter.untouched)}`,
        matter.unfinished === 0 ? null : line`not fully tightened: ${count(matter.unfinished)}`,
        becauseOf(matter),
      );
    case 'step':
      return sentences(line`step ${stepNumber(matter.step)} ${ways[matter.how]}`, text(matter.step.say), becauseOf(matter));
    case 'hold':
      return sentences(
        line`step ${stepNumber(matter.step)}, check ${matter.how === 'never passed' ? 'never passed' : 'passed late'}`,
        text(matter.hold.ask),
        matter.failures === 0 ? null : line`failed: ${count(matter.failures)}`,
      );
    case 'measure':
      return sentences(
        line`step ${stepNumber(matter.step)}, ${text(matter.measure.name)}`,
        matter.value === null ? 'not measured' : line`outside the limits: ${measured(matter.value, matter.measure.unit, numbers.critical)}`,
      );
    case 'timer':
      return sentences(line`timer still running: ${text(matter.name)}, ${duration(matter.seconds)}`);
    case 'note':
      return sentences(matter.step === null ? 'your question' : line`your question at step ${stepNumber(matter.step)}`, text(matter.text));
    case 'before':
      return sentences('not confirmed before starting', text(matter.before.check));
    case 'kit':
      return sentences(line`missing from the kit: ${text(matter.item.name)}`);
  }
}

const ways: Readonly<Record<Extract<Matter, { kind: 'step' }>['how'], string>> = {
  open: 'is open',
  skipped: 'was skipped',
  'passed-over': 'was passed over',
};

function becauseOf({ reason, said }: { readonly reason: Reason | null; readonly said: string | null }): Part {
  return reason === null ? null : line`reason: ${reasonWords(reason, said)}`;
}

export const closeOut: CloseOutWords = {
  matter: (matter) => matterWords(matter).show,
  reason: (reason, said) => reasonWords(reason, said).show,
};
