import type { IntentName } from '../phrasing/intents.ts';
import type { Line } from '../phrasing/lines.ts';
import { restate } from './announce.ts';
import type { Dialogue, Now } from './dialogue.ts';
import { fastenerAtHand, legalNow, mainSteps, secondsLeft, stepAtHand } from './dialogue.ts';

/** The answer to a question. It changes nothing; questions without an answer here get one that says so. */
export function answer(dialogue: Dialogue, question: IntentName, now: Now): readonly Line[] {
  const { plan, job } = dialogue;
  if (question === 'repeat') return restate(dialogue, now);
  if (question === 'help') return [{ kind: 'help', legal: legalNow(dialogue) }];
  if (question === 'time-left')
    return [{ kind: 'time-left', timers: job.work.timers.map((timer) => ({ name: timer.name, seconds: secondsLeft(timer, now) })) }];
  const step = stepAtHand(plan, job);
  if (step === null) return restate(dialogue, now);
  const place = fastenerAtHand(plan, job);
  const groups = place === null ? step.groups : [place.group];
  const ofGroups = (line: (group: (typeof groups)[number]) => Line): readonly Line[] =>
    groups.length === 0 ? [{ kind: 'no-fasteners-here' }] : groups.map(line);
  switch (question) {
    case 'torque':
      return ofGroups((group) => ({ kind: 'torque', group, pass: place?.pass ?? null, unit: job.spokenUnit }));
    case 'socket':
      return ofGroups((group) => ({ kind: 'socket', group }));
    case 'how-many':
      return ofGroups((group) => ({ kind: 'how-many', group }));
    case 'how-many-left':
      return place === null ? ofGroups((group) => ({ kind: 'how-many', group })) : [{ kind: 'how-many-left', place }];
    case 'which-next':
      return place === null ? ofGroups((group) => ({ kind: 'how-many', group })) : [{ kind: 'which-next', place }];
    case 'where':
      return [{ kind: 'where', step, place }];
    case 'why':
      return [{ kind: 'why', step }];
    case 'tools':
      return [{ kind: 'tools', step }];
    case 'caution': {
      // What the job as a whole warns of holds at every step of it.
      const cautions = [...step.cautions, ...(step.cautions.length === 0 ? plan.cautions : [])];
      return cautions.length === 0
        ? [{ kind: 'no-cautions' }]
        : cautions.map((caution): Line => ({ kind: 'caution', caution, acknowledge: false }));
    }
    case 'which-step': {
      const steps = mainSteps(plan);
      return [
        {
          kind: 'which-step',
          step,
          mainSteps: steps.length,
          stepsLeft: steps.filter((one) => job.work.steps.get(one.index)?.status === 'open').length,
        },
      ];
    }
    default:
      return restate(dialogue, now);
  }
}
