import type { DialogueState, IntentName } from '../phrasing/intents.ts';

/** Understood wherever somebody may speak: they change nothing in the job. */
const always = ['stop', 'repeat', 'help', 'louder', 'quieter', 'slower', 'faster'] as const satisfies readonly IntentName[];

/** Questions about the step at hand; they change nothing either. */
const questions = [
  'torque',
  'socket',
  'how-many',
  'how-many-left',
  'which-next',
  'where',
  'why',
  'caution',
  'tools',
  'which-step',
  'time-left',
  'unit',
] as const satisfies readonly IntentName[];

/** What may be done at any moment of the work. */
const working = ['hold-on', 'back', 'undo', 'skip', 'note', 'photo', 'finish', 'start-timer'] as const satisfies readonly IntentName[];

/**
 * The one table of what may be said in each state. The recogniser's grammar, the buttons on the screen,
 * the answer to "help" and the property tests all come from it.
 */
export const legalIn: Readonly<Record<DialogueState, readonly IntentName[]>> = {
  briefing: ['done', 'yes', 'no', 'skip', 'undo', 'hold-on', 'finish', 'note', 'photo', ...always],
  kit: ['done', 'yes', 'missing', 'no', 'skip', 'undo', 'hold-on', 'finish', 'note', 'photo', ...always],
  stating: ['done', 'yes', ...questions, ...working, ...always],
  visiting: ['done', 'carry-on', 'back', 'do-it-now', 'note', 'photo', 'hold-on', ...questions, ...always],
  fastening: ['done', ...questions, ...working, ...always],
  checking: ['yes', 'no', ...questions, ...working, ...always],
  measuring: ['number', ...questions, ...working, ...always],
  waiting: ['done', ...questions, ...working, ...always],
  confirming: ['yes', 'no', 'number', ...always],
  reasoning: ['reason', 'no', ...always],
  diagnosing: ['yes', 'no', 'carry-on', 'hold-on', 'note', 'photo', 'why', 'where', 'caution', ...always],
  paused: ['carry-on', 'which-step', 'time-left', 'note', 'photo', 'hand-over', ...always],
  closing: ['do-it-now', 'accept', 'leave-open', 'undo', 'note', 'photo', 'hold-on', 'hand-over', 'time-left', 'which-step', ...always],
  signing: ['yes', 'sign', 'leave-open', 'undo', 'note', 'photo', 'hold-on', 'hand-over', ...always],
  closed: ['follow-up-done', ...always],
};

/** Intents that only ask: they are logged for the trainer and change nothing. */
export const isQuestion = (name: IntentName): boolean =>
  name === 'repeat' || name === 'help' || (name !== 'unit' && (questions as readonly IntentName[]).includes(name));
