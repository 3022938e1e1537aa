import type { FailureCode, Line } from '../src/phrasing/lines.ts';
import { failureCodes } from '../src/phrasing/lines.ts';
import { say } from '../src/phrasing/say.ts';
import { packFor } from '../src/phrasing/packs.ts';
import type { ClipPlace } from '../src/speech/synthesis/clip-plan.ts';
import { normalClipText } from '../src/speech/synthesis/clip-plan.ts';
import { splitText } from '../src/speech/voice/text-chunks.ts';

export interface ClipText {
  /** What Flite is given. */
  readonly text: string;
  readonly places: readonly ClipPlace[];
}

const { numbers, units } = packFor('en');

const digits = Array.from({ length: 10 }, (_, figure) => numbers.word(figure));
const belowHundred = Array.from({ length: 90 }, (_, value) => numbers.word(value + 10));
const hundreds = digits.slice(1).flatMap((figure) => [`${figure} hundred`, `${figure} hundred and`]);

/** The units that torques, sizes, angles and measures of the shipped procedures come in; the others are spoken by Flite. */
const spokenUnits = ['N·m', 'lbf·ft', 'lbf·in', 'kgf·m', '°', 'mm', 'kg', 'bar', 'percent', 's', 'min', '°C'] as const;
const unitNames = spokenUnits.flatMap((unit) => (unit === 'percent' ? ['percent'] : [units.after(1, unit), units.after(2, unit)]));

/** Beginnings and joints of lines whose rest differs from job to job. */
const joints = [
  ...['next', 'left', 'of', 'start', 'step', 'done', 'turn', 'then', 'then turn', 'plus', 'minus', 'plus or minus', 'converted'],
  ...['number', 'first', 'second', 'third', 'fourth', 'last', 'pass of', 'passes', 'items', 'socket', 'deep socket', 'hex key', 'hex bit'],
  ...['millimetre socket', 'millimetre deep socket', 'millimetre hex bit', 'millimetre hex key', 'wrench setting', 'wrench'],
  ...['percent of the final torque', 'within limits', 'outside the limits', 'i heard', 'you said', 'taken back', 'back to step'],
  ...['step done', 'left front', 'right front', 'left rear', 'right rear', 'front', 'rear', 'left', 'right', 'upper', 'lower', 'left out'],
  ...[
    'danger',
    'warning',
    'caution',
    'notice',
    'snug, no more',
    'passed',
    'not passed',
    'dry',
    'oiled',
    'half an inch',
    'drive',
    'extension',
  ],
];

/** Lines that are the same in every job. */
const plainLines: readonly Line[] = [
  { kind: 'at-the-start' },
  { kind: 'no-cautions' },
  { kind: 'no-fasteners-here' },
  { kind: 'no-timer-here' },
  { kind: 'hold-passed' },
  { kind: 'stopped' },
  { kind: 'no-more-stop-signs' },
  { kind: 'skipped-fastener' },
  { kind: 'dropped' },
  { kind: 'nothing-to-undo' },
  { kind: 'paused' },
  { kind: 'resumed' },
  { kind: 'note-asked' },
  { kind: 'louder' },
  { kind: 'quieter' },
  { kind: 'slower' },
  { kind: 'faster' },
  { kind: 'matter-accepted' },
  { kind: 'left-open' },
  { kind: 'closed' },
  { kind: 'kit-done', missing: 0 },
  { kind: 'confirm-finish', openSteps: 0 },
  { kind: 'unit-chosen', unit: null },
  { kind: 'not-understood', legal: [], times: 3 },
  ...failureCodes.map((code: FailureCode): Line => ({ kind: 'failure', code })),
];

const sentences = plainLines.flatMap((line) => splitText(say(line, 'en').say, 80, true)).map(({ text }) => text);
const questions = [
  'Yes or no?',
  'How many are done?',
  'Have you got it or is it missing?',
  'Say reading, and the value.',
  'Not understood.',
  'On the missing list:',
];

/** Everything that the bank holds, each text once. A text that stands inside and at the end is the same clip, but for digits. */
export function clipTexts(): readonly ClipText[] {
  const texts = new Map<string, ClipText>();
  const add = (text: string, places: readonly ClipPlace[]): void => {
    const key = normalClipText(text);
    if (!texts.has(key)) texts.set(key, { text, places });
  };
  // Digits one by one come quicker than a number at the end of a sentence.
  for (const text of [...digits, 'point']) add(text, ['inside', 'end']);
  for (const text of [...belowHundred, ...hundreds, 'thousand', 'and', ...unitNames, ...joints]) add(text, ['end']);
  for (const text of [...questions, ...sentences]) add(text, ['end']);
  return [...texts.values()];
}

/** How much quicker a clip is that something follows. */
export const insideRate = 1.2;
