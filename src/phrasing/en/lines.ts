import type { Branch, KitItem, KitKind, PlannedFollowUp, PlannedMeasure, PlannedStep, SignalWord } from '../../procedure/plan-types.ts';
import { formatNumber } from '../../torque/numbers.ts';
import { line, sentences } from '../compose.ts';
import type { Part } from '../compose.ts';
import type { FastenerPlace, Line, Spoken, UndoneThing } from '../lines.ts';
import { closingWords, matterWords, reasonWords } from './close-out-lines.ts';
import { duration } from './durations.ts';
import { failureWords } from './failure-lines.ts';
import { helpWords, taught } from './help-lines.ts';
import { unitName } from './lexicon.ts';
import { numbers } from './numbers.ts';
import { measured, ownText, text } from './text.ts';
import { positionWords, socket, toolList, wholeTool } from './tools.ts';
import { count, fastenerName, groupBegins, passBegins, passHead, plural, torqueAnswer } from './torque-lines.ts';
import { stepNumber } from './step-numbers.ts';
import { wrenchRemarkWords } from './wrench-remark-words.ts';

/** Any line in English. No command stands alone between two pauses: the ear of another phone would obey it. */
export function say(said: Line): Spoken {
  const { say: aloud, show } = words(said);
  return { say: aloud.replace(/(?<=\b(?:say|reason)): /giu, ' '), show };
}

function words(said: Line): Spoken {
  switch (said.kind) {
    case 'welcome':
      return sentences(text(said.title), line`build: ${text(said.build)}`, text(said.source), line`steps: ${count(said.steps)}`);
    case 'welcome-back':
      return sentences('Welcome back', text(said.title));
    case 'caution':
      return sentences(
        signalWords[said.caution.signal],
        text(said.caution.text),
        said.acknowledge ? `Say: ${taught('done', 'briefing')}` : null,
      );
    case 'before':
      return sentences(
        said.of > 1 ? line`Before starting, ${count(said.number)} of ${count(said.of)}` : null,
        text(said.before.check),
        'Yes or no?',
      );
    case 'before-not-true':
      return sentences('Put that right first', text(said.before.check), 'Then say yes');
    case 'wrench-remarks':
      return wrenchRemarkWords(said.remarks);
    case 'kit-begins':
      return sentences(line`Kit list: ${some(said.items, 'item')}`, `After each, say: ${taught('done', 'kit')}, or ${taught('missing')}`);
    case 'kit-item':
      return sentences(kitItem(said.item), kitProgress(said.number, said.of), 'Have you got it or is it missing?');
    case 'kit-missing':
      return sentences(line`on the missing list: ${text(said.item.name)}`);
    case 'confirm-kit-waved':
      return sentences(line`Leave ${some(said.left, 'kit item')} unchecked?`, yesOrNo);
    case 'confirm-leave-before':
      return sentences(text(said.before.check), line`Start without it, reason: ${reasonWords(said.reason, said.text)}?`, yesOrNo);
    case 'kit-done':
      return sentences(said.missing === 0 ? 'Kit complete' : line`Kit list done. On the missing list: ${count(said.missing)}`);
    case 'step':
      return stepWords(said.step);
    case 'step-done':
      return sentences(line`step ${stepNumber(said.step)} done`);
    case 'side-begins':
      return sentences(line`Side job: ${text(said.side.title)}`);
    case 'side-ends':
      return sentences(line`${text(said.side.title)} done`, line`Back to step ${stepNumber(said.back)}`);
    case 'visiting':
      return sentences('Looking back', stepWords(said.step), `Say: ${taught('carry-on')}, or ${taught('do-it-now')} to work it again`);
    case 'visit-over':
      return sentences(line`Back at step ${stepNumber(said.step)}`);
    case 'at-the-start':
      return sentences('This is the first step');
    case 'group':
      return groupBegins(said.place, said.unit);
    case 'pass':
      return passBegins(said.place, said.unit);
    case 'next-fastener':
      return sentences(line`next: ${positionOf(said.place)}`, line`left: ${count(said.place.left)}`);
    case 'too-many':
      return sentences(
        line`you said ${count(said.said)}, but only ${count(said.left)} ${said.left === 1 ? 'is' : 'are'} left`,
        'How many are done?',
      );
    case 'torque':
      return torqueAnswer(said.group, said.pass, said.unit);
    case 'socket':
      return sentences(wholeTool(said.group.tool));
    case 'how-many':
      return sentences(line`${fastenerName(said.group, 2)}: ${count(said.group.positions.length)}`);
    case 'how-many-left':
      return sentences(
        passHead(said.place.group, said.place.pass),
        line`left: ${count(said.place.left)} of ${count(said.place.group.positions.length)}`,
      );
    case 'which-next':
      return sentences(line`next: ${positionOf(said.place)}`);
    case 'where':
      return whereWords(said.step, said.place);
    case 'why':
      return sentences(said.step.why === null ? 'The procedure gives no reason' : text(said.step.why));
    case 'tools':
      return toolsWords(said.step);
    case 'which-step':
      return sentences(
        text(said.step.stage.title),
        line`Step ${stepNumber(said.step)} of ${digits(said.mainSteps)}`,
        line`still open: ${count(said.stepsLeft)}`,
      );
    case 'no-cautions':
      return sentences('No cautions for this step');
    case 'no-fasteners-here':
      return sentences('No fasteners in this step');
    case 'time-left':
      if (said.timers.length === 0) return sentences('No timer is running');
      return sentences(...said.timers.map((timer) => line`${text(timer.name)}: ${duration(timer.seconds)}`));
    case 'no-timer-here':
      return sentences('There is no timer here');
    case 'hold':
      return sentences(text(said.hold.ask), 'Yes or no?');
    case 'hold-passed':
      return sentences('Passed');
    case 'hold-failed':
      return sentences('Not passed');
    case 'measure':
      return sentences(line`measure: ${text(said.measure.name)}`, limitsWords(said.measure), 'Say: reading, and the value');
    case 'measure-read-back':
      return sentences(line`I heard ${measured(said.value, said.measure.unit, numbers.critical)}`, 'Yes or no?');
    case 'measure-wrong-unit':
      return sentences(
        line`You said ${unitWords(said.saidUnit)}. This wants ${unitWords(said.measure.unit)}`,
        'Say: reading, and the value',
      );
    case 'measure-within':
      return sentences(line`within limits: ${measured(said.value, said.measure.unit, numbers.critical)}`);
    case 'measure-outside':
      return sentences(line`outside the limits: ${measured(said.value, said.measure.unit, numbers.critical)}`, limitsWords(said.measure));
    case 'branch':
      return branchWords(said.branch, said.target, said.reopened);
    case 'stopped':
      return sentences('Work halted');
    case 'stop-sign':
      return sentences(text(said.sign.ask), 'Yes or no?');
    case 'no-more-stop-signs':
      return sentences(
        'The procedure names no other sign to stop. Find out what stopped you',
        `When it is safe, say: ${taught('carry-on')}`,
      );
    case 'wait-started':
      return sentences(said.blocks ? 'Wait' : 'Timer started, go on meanwhile', line`${text(said.name)}: ${duration(said.seconds)}`);
    case 'wait-over':
      return sentences(line`time is up: ${text(said.name)}`);
    case 'wait-running':
      return sentences(line`${text(said.name)}, still to wait: ${duration(said.seconds)}`);
    case 'confirm-skip-step':
      return sentences(line`Skip step ${stepNumber(said.step)}, reason: ${reasonWords(said.reason, said.text)}?`, yesOrNo);
    case 'confirm-skip-fastener':
      return sentences(line`Leave out ${positionOf(said.place)}, reason: ${reasonWords(said.reason, said.text)}?`, yesOrNo);
    case 'confirm-finish':
      return sentences(said.openSteps === 0 ? null : line`steps still open: ${count(said.openSteps)}`, 'Begin the close-out?', yesOrNo);
    case 'confirm-reopen':
      return sentences(line`Work step ${stepNumber(said.step)} again? It will count as not done`, yesOrNo);
    case 'confirm-cut-wait':
      return sentences(line`${text(said.name)}: ${duration(said.seconds)} to go. Cut it short?`, yesOrNo);
    case 'confirm-sign':
      return sentences(line`Is ${text(said.name)} to sign?`, yesOrNo);
    case 'reason-asked':
      return sentences('For what reason?', line`say: ${helpWords(['reason'], 'reasoning')}`);
    case 'skipped-step':
      return sentences(line`step ${stepNumber(said.step)} skipped`);
    case 'skipped-fastener':
      return sentences('Left out');
    case 'dropped':
      return sentences('Dropped. Nothing is changed');
    case 'undone':
      return sentences(line`taken back: ${undoneThings[said.what]}`);
    case 'nothing-to-undo':
      return sentences('There is nothing to take back');
    case 'paused':
      return sentences(`Paused. To go on, say: ${taught('carry-on')}`);
    case 'resumed':
      return sentences('Going on');
    case 'note-asked':
      return sentences('Say your note', 'If it asks something, begin with: question');
    case 'photo-asked':
      return sentences('Taking a photo. Hold the device still');
    case 'noted':
      return notedWords(said);
    case 'unit-chosen':
      return sentences(said.unit === null ? 'Torques in the units of the procedure' : line`Torques in ${unitName(said.unit)}`);
    case 'help':
      return sentences(line`You can say: ${helpWords(said.legal, null)}`);
    case 'not-understood':
      if (said.times >= 3) return sentences('Still not understood. Use the buttons, or listen again');
      return sentences('Not understood', line`Say: ${helpWords(said.legal, null, said.times === 1 ? 3 : 6)}`);
    case 'not-now':
      return sentences(`Here you cannot say: ${taught(said.intent)}`, line`Say: ${helpWords(said.legal, null, 3)}`);
    case 'louder':
      return sentences('Louder');
    case 'quieter':
      return sentences('Quieter');
    case 'slower':
      return sentences('Slower');
    case 'faster':
      return sentences('Faster');
    case 'closing-begins':
      return closingWords(said.open);
    case 'matter':
      return sentences(
        line`${count(said.number)} of ${count(said.of)}`,
        matterWords(said.matter),
        line`say: ${helpWords(['do-it-now', 'accept', 'leave-open'], 'closing')}`,
      );
    case 'matter-accepted':
      return sentences('Accepted, and on the record');
    case 'left-open':
      return sentences('Left open. The job is not closed');
    case 'hand-over-begins':
      return sentences('Handing over. Choose a file or codes on the screen');
    case 'handed-over':
      return sentences('This job was handed over', `To go on with it here, say: ${taught('carry-on')}`);
    case 'sign-asked':
      if (said.name === null) return sentences('Who signs? Say: sign as, and your name');
      return sentences(line`Is ${text(said.name)} to sign? Say yes, or sign as another name`);
    case 'signed':
      return sentences(
        line`signature: ${text(said.name)}`,
        said.exceptions === 0 ? 'No exceptions' : line`exceptions: ${count(said.exceptions)}`,
      );
    case 'follow-up':
      return followUpWords(said.followUp);
    case 'confirm-follow-up':
      return sentences(followUpWords(said.followUp), 'Is that done?', yesOrNo);
    case 'follow-up-logged':
      return sentences(
        'Now on the record',
        said.left === 0 ? 'Nothing is left to follow up' : line`still to follow up: ${count(said.left)}`,
      );
    case 'closed':
      return sentences('The job is closed');
    case 'failure':
      return failureWords(said.code);
  }
}

const yesOrNo = 'Yes or no?';

const signalWords: Readonly<Record<SignalWord, string>> = {
  DANGER: 'Danger!',
  WARNING: 'Warning!',
  CAUTION: 'Caution!',
  NOTICE: 'Notice:',
};

const undoneThings: Readonly<Record<UndoneThing, string>> = {
  fastener: 'the last fastener',
  step: 'the last step',
  measure: 'the last reading',
  hold: 'the last check',
  skip: 'what was left out',
  caution: 'the last caution',
  before: 'the last answer',
  kit: 'the last kit item',
  note: 'the last note',
  timer: 'the timer',
  back: 'the look back',
  reopen: 'the reopening',
  finish: 'the close-out',
  accept: 'the last acceptance',
  'stop-sign': 'the last answer',
};

function notedWords({ text: words, media }: Extract<Line, { kind: 'noted' }>): Spoken {
  if (media === 'photo') return sentences('Photo kept');
  if (words === '') return sentences('Recording kept');
  return sentences(line`noted: ${text(words)}`);
}

function stepWords(step: PlannedStep): Spoken {
  return sentences(
    line`step ${stepNumber(step)}`,
    text(step.say),
    step.helper === null ? null : line`helper needed: ${text(uncapitalised(step.helper))}`,
    step.optional === null ? null : line`optional: ${text(uncapitalised(step.optional))}`,
  );
}

function whereWords(step: PlannedStep, place: FastenerPlace | null): Spoken {
  if (step.where === null && place === null) return sentences('The procedure does not say where');
  return sentences(place === null ? null : positionOf(place), step.where === null ? null : text(step.where));
}

function toolsWords(step: PlannedStep): Spoken {
  const tools: Spoken[] = step.groups.filter(({ tool }) => tool.kind !== 'hand').map(({ tool }) => wholeTool(tool));
  const all = [...tools, ...step.tools.map(text)];
  const once = all.filter(({ say: words }, index) => all.findIndex((one) => one.say === words) === index);
  if (once.length > 0) return sentences(toolList(once));
  return sentences(
    step.groups.length > 0 ? socket({ kind: 'hand', size: null, sizeUnit: null, square: null, reach: [] }) : 'No tools for this step',
  );
}

/** Kinds of things in the kit whose names the plan makes; the others are named by the author. */
const namedByPlan: readonly KitKind[] = ['wrench', 'angle gauge', 'drive', 'socket', 'bit', 'extension', 'joint', 'adapter'];

function kitItem(item: KitItem): Spoken {
  const name = namedByPlan.includes(item.kind) ? ownText(item.name) : text(item.name);
  return sentences(
    item.count === 1 ? name : line`${name}, ${count(item.count)} of them`,
    item.owned === false ? (item.instead === null ? 'not in your crib' : line`not in your crib, use ${text(item.instead)}`) : null,
  );
}

/** Said now and then: a number before each item would be taken for one of its own. */
function kitProgress(number: number, of: number): Part {
  if (number === of) return of > 1 ? 'The last one' : null;
  return number % 10 === 0 ? line`left: ${count(of - number)}` : null;
}

function limitsWords(measure: PlannedMeasure): Part {
  const { min, max, unit } = measure;
  if (min !== null && max !== null) return line`allowed: ${figure(min)} to ${measured(max, unit, numbers.plain)}`;
  if (max !== null) return line`at most ${measured(max, unit, numbers.plain)}`;
  return min === null ? null : line`at least ${measured(min, unit, numbers.plain)}`;
}

function branchWords(branch: Branch, target: PlannedStep | null, reopened: number): Spoken {
  return sentences(
    branch.advice === null ? null : text(branch.advice),
    branch.kind === 'go' && target !== null ? line`go to step ${stepNumber(target)}` : null,
    reopened === 0 ? null : line`steps open again: ${count(reopened)}`,
  );
}

function followUpWords({ say: what, after }: PlannedFollowUp): Spoken {
  switch (after.kind) {
    case 'distance':
      return sentences(line`after ${measured(after.value, after.unit, numbers.critical)}: ${text(what)}`);
    case 'time': {
      const days = after.hours / 24;
      return sentences(line`after ${Number.isInteger(days) && days > 1 ? some(days, 'day') : some(after.hours, 'hour')}: ${text(what)}`);
    }
    case 'count':
      return sentences(line`after ${count(after.count)} ${text(after.of)}: ${text(what)}`);
  }
}

function unitWords(unit: string): Spoken {
  return { say: measured(2, unit, () => '').say, show: unit };
}

function uncapitalised(sentence: string): string {
  return sentence.replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLowerCase());
}

function positionOf(place: FastenerPlace): Spoken {
  return positionWords(place.group.positions[place.position]);
}

function some(howMany: number, name: string): Spoken {
  return line`${count(howMany)} ${plural(name, howMany)}`;
}

function digits(value: number): Spoken {
  return { say: numbers.digits(value), show: String(value) };
}

function figure(value: number): Spoken {
  return { say: numbers.plain(value), show: formatNumber(value) };
}
