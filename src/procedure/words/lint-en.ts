import { formatTorque } from '../../torque/units.ts';
import type { ProblemCode } from '../problem.ts';
import type { LintWords, Prompt } from '../told.ts';

/** What the lint tells, in English. */
export const lintInEnglish: LintWords = (told) => {
  switch (told.code) {
    case 'no-torque':
      return {
        message: `The ${told.fastener} has no torque, so a question for it is answered with the maker's manual.`,
        advice: 'Give the torque from the source, "passes: [snug]" where none belongs here, or "drive: hand".',
      };
    case 'no-drive':
      return {
        message: `The ${told.fastener} has a torque, but nothing says which socket turns it.`,
        advice: 'Add "drive:", such as "drive: hex 13".',
      };
    case 'thread-unreadable':
      return { message: `The thread "${told.found}" is none that can be checked.`, advice: `Write ${told.expected}.` };
    case 'torque-too-low':
    case 'torque-too-high': {
      const kind = `${told.thread} class ${told.strength}${told.assumed ? ' (no class is given)' : ''}`;
      const share = `${told.percent} % of its proof load by calculation`;
      const range = `${formatTorque(told.plausible.low)} to ${formatTorque(told.plausible.high)}`;
      return told.code === 'torque-too-low'
        ? {
            message: `${formatTorque(told.torque)} leaves ${kind} as good as loose: ${share}.`,
            advice: `Look the value up again; about ${range} would be plausible.`,
          }
        : {
            message: `${formatTorque(told.torque)} is ${told.impossible ? `more than ${kind} can take` : `much for ${kind}`}: ${share}.`,
            advice: `Look up the value, the thread and the class again; about ${range} would be plausible.`,
          };
    }
    case 'socket-misfit':
      return {
        message: `${told.drive} ${told.size} goes with no standard for ${told.thread}.`,
        advice: `Measure it, or look up the thread again: the standards have ${told.usual.join(', ')}.`,
      };
    case 'drive-overloaded':
      return {
        message: `${formatTorque(told.torque)} is more than a ${told.square} drive is commonly thought to bear.`,
        advice: 'Ask for the next larger square drive.',
      };
    case 'tolerance-too-tight':
      return {
        message: `The tolerance of the ${told.fastener} is ±${told.percent} %, tighter than the ±${told.held} % of an ordinary torque wrench.`,
        advice: 'Widen it if the source allows, or name the special wrench under "tools".',
      };
    case 'no-passes':
      return {
        message: `The ${told.count} × ${told.fastener} go ${told.order === 'cross' ? 'crosswise' : 'from the middle out'}, but straight to full torque.`,
        advice: 'If the source stages them, say so: "passes: [30%, 65%, 100%, check]".',
      };
    case 'build-forgotten':
      return {
        message: `Nothing is said here for build ${told.builds.join(', ')}.`,
        advice: `Add "build ${told.builds[0] ?? ''}: …", leave that empty if there is meant to be nothing, or use "other builds: …".`,
      };
    case 'unreachable-side':
      return {
        message: `Nothing leads to the side procedure "${told.side}", so its steps can never be reached.`,
        advice: `Call it with "see: ${told.side}" where it belongs, or take it out.`,
      };
    case 'sounds-alike':
      return {
        message: `Step ${told.number} ${told.same ? 'has the same sentence as' : 'sounds like'} step ${told.first}, "${told.sentence}"`,
        advice: 'Say what sets them apart: the side, the place or the occasion.',
      };
    case 'too-long-to-hear':
      return {
        message: `The ${prompts[told.what]} has ${told.words} words; more than ${told.allowed} are hard to keep in mind by ear.`,
        advice: 'Shorten it, split the step, or move the reasons to "why".',
      };
    case 'single-use-part-missing':
      return {
        message: `The ${told.fastener} is single-use, but no entry of the parts list provides a new one.`,
        advice: `Add it to parts with a count of at least ${told.count}, and name it here with "part:".`,
      };
    case 'too-few-parts':
      return {
        message: `The parts list has ${told.count} × ${told.part}, but the fasteners take ${told.needed}.`,
        advice: `Make the count ${told.needed}, or correct the fasteners' counts.`,
      };
    case 'supply-unused':
      return {
        message: `No step says that it uses "${told.name}".`,
        advice: `Name it under "uses: [${told.id}]" in the step that needs it, so that the kit list can say when.`,
      };
    case 'hold-without-way-out':
      return {
        message: `The hold point "${told.ask}" does not say what happens on a "no".`,
        advice: 'Add "if no:" with advice, a step to go to, or a side procedure to see.',
      };
    case 'measure-without-limits':
      return {
        message: `The measure "${told.name}" has neither min nor max, so no value can be judged.`,
        advice: 'Give the limits, or ask for a note instead.',
      };
    case 'measure-without-way-out':
      return {
        message: `The measure "${told.name}" does not say what happens outside its limits.`,
        advice: 'Add "if outside:" with advice, a step to go to, or a side procedure to see.',
      };
    case 'jack-without-support':
      return {
        message: 'A jack is named, but nothing that holds the load once it is up.',
        advice: 'Add the stands or blocks to supports, and a step that sets them before anybody goes under.',
      };
    default:
      return {
        message: `Found ${told.found}, expected ${told.expected}.`,
        advice: remedies[told.code] ?? 'Put it right: no job can be planned as it stands.',
      };
  }
};

const prompts: Readonly<Record<Prompt, string>> = {
  caution: 'caution',
  check: 'check',
  sentence: 'sentence',
  why: '"why"',
  where: '"where"',
  question: 'question',
};

const remedies: Partial<Record<ProblemCode, string>> = {
  'duplicate-id': 'Give one of them another id. Logs are compared by it.',
  'dangling-step': 'Correct the name, or add the step. A side procedure is called with "see".',
  'dangling-side': 'Correct the name, or add the side procedure under "sides".',
  'dangling-supply': 'Correct the name, or add it to parts, consumables or supports.',
  'side-in-circles': 'Let one of them give advice instead of calling the other.',
  'count-mismatch': 'Correct the count, or name every position.',
  'duplicate-position': 'Name each position so that it can be told from the others by ear.',
  'layout-mismatch': 'Correct the count or the layout.',
  'bad-passes': 'Let the torques rise to the final one, with angles and the last check after it.',
  'angle-mismatch': 'Leave "angle" out where the passes give the angles.',
};
