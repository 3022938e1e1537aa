import { z } from '../torque/zod.ts';
import { parseSquareDrive } from '../torque/sockets.ts';
import {
  forms,
  orderPatterns,
  readAfter,
  readAngle,
  readDrive,
  readDuration,
  readLayout,
  readPass,
  readReach,
  readTorque,
  type WrittenLayout,
} from './notation.ts';

/**
 * The procedure file, version 1, as it stands for one build: `parse.ts` has already chosen between "build K" and "build M"
 * and dropped list entries that are `only` for other builds. Every message here says what was expected, and nothing else:
 * the place and what was found are added by `parse.ts`.
 */

export const limits = {
  /** Characters in a file. */
  fileLength: 4_000_000,
  depth: 24,
  /** Told at once. */
  problems: 200,
  builds: 12,
  stages: 5_000,
  stepsInAStage: 5_000,
  steps: 20_000,
  /** Fasteners in one group. */
  count: 200,
  listed: 500,
  sentence: 400,
  paragraph: 1_500,
  name: 120,
} as const;

/** An object with only these keys; the message lists them. */
function entry<Shape extends z.core.$ZodLooseShape>(shape: Shape) {
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys' ? Object.keys(shape).join(', ') : `an entry with ${Object.keys(shape).join(', ')}`,
  });
}

/** Control characters and direction overrides can make a text read otherwise than it is. */
const invisible = /[\p{Cc}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069\uFFF9-\uFFFB]/u;

function text(length: number, meaning: string) {
  const expected = `text of 1 to ${length} characters`;
  return z
    .string({ error: () => expected })
    .trim()
    .min(1, expected)
    .max(length, expected)
    .refine((value) => !invisible.test(value.replace(/\n/g, ' ')), 'text without control characters')
    .transform((value) => value.replace(/\s+/g, ' '))
    .meta({ description: meaning });
}

/** A name that may look like a number: "8.8", "3". */
function label(meaning: string) {
  return z
    .union([z.string(), z.number()], { error: () => 'a name' })
    .transform(String)
    .pipe(text(limits.name, meaning))
    .meta({ description: meaning });
}

/** A text in one of the small written forms. */
function written<Meaning>(read: (text: string) => Meaning | null, form: string, meaning: string) {
  return z
    .union([z.string(), z.number()], { error: () => form })
    .transform((value, context): Meaning => {
      const found = String(value).length <= 200 ? read(String(value)) : null;
      if (found !== null) return found;
      context.addIssue({ code: 'custom', message: form });
      return z.NEVER;
    })
    .meta({ description: `${meaning}: ${form}` });
}

const idForm = 'an id of lower-case letters, digits and single hyphens, such as "fit-carrier-bolts"';
function id(meaning: string) {
  return z
    .string({ error: () => idForm })
    .max(60, idForm)
    .regex(/^[a-z0-9]+(?:-[a-z0-9]+)*$/, idForm)
    .meta({ description: meaning });
}

function list<Item extends z.ZodType>(item: Item, meaning: string, length: number = limits.listed) {
  return z
    .array(item, { error: () => 'a list' })
    .max(length, `at most ${length} entries`)
    .default([])
    .meta({ description: meaning });
}

function wholeNumber(from: number, to: number, meaning: string) {
  const expected = `a whole number from ${from} to ${to}`;
  return z
    .int({ error: () => expected })
    .min(from, expected)
    .max(to, expected)
    .meta({ description: meaning });
}

const finite = z.number({ error: () => 'a number' });
const coordinate = z
  .number({ error: () => forms.layout })
  .min(0, forms.layout)
  .max(1, forms.layout);
const share = z
  .number({ error: () => 'a number from 0 to 1' })
  .min(0, 'a number from 0 to 1')
  .max(1, 'a number from 0 to 1');
const flag = (meaning: string) =>
  z
    .boolean({ error: () => 'true or false' })
    .default(false)
    .meta({ description: meaning });

export const signalWords = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'] as const;

const caution = entry({
  signal: z.enum(signalWords, { error: () => 'DANGER, WARNING, CAUTION or NOTICE' }).meta({
    description: 'DANGER will, WARNING could kill or badly hurt; CAUTION minor or moderate injury; NOTICE no injury (ANSI Z535.6).',
  }),
  text: text(limits.sentence, 'What may happen and what to do, short enough to hear.'),
});

const wayOutForm = 'advice as a text, or an entry with go (a step) or see (a side procedure), and advice';
const wayOut = z
  .union(
    [
      text(limits.sentence, 'Advice; the person stays at this step.'),
      entry({
        go: id('The step to go to.').optional(),
        see: id('The side procedure to run and come back from.').optional(),
        advice: text(limits.sentence, 'What to do about it.').optional(),
      })
        .refine((branch) => branch.go === undefined || branch.see === undefined, 'go or see, not both')
        .refine((branch) => Object.keys(branch).length > 0, wayOutForm),
    ],
    { error: () => wayOutForm },
  )
  .transform((branch) => (typeof branch === 'string' ? { advice: branch } : branch));

const passList = list(written(readPass, forms.pass, 'One round over all fasteners of the group'), 'The rounds, in order.', 12);

const layout = z
  .union(
    [
      z.string().transform((value, context): WrittenLayout => {
        const found = value.length <= 2_000 ? readLayout(value) : null;
        if (found !== null) return found;
        context.addIssue({ code: 'custom', message: forms.layout });
        return z.NEVER;
      }),
      z
        .array(z.tuple([coordinate, coordinate], { error: () => forms.layout }))
        .min(1, forms.layout)
        .max(limits.count, forms.layout)
        .transform((points): WrittenLayout => ({ kind: 'points', points })),
    ],
    { error: () => forms.layout },
  )
  .meta({ description: `Where the fasteners are, seen by the person who tightens: ${forms.layout}` });

const fastenerGroup = entry({
  id: id('Stays the same when the text is reworded; logs are compared by it.').optional(),
  name: text(limits.name, 'One of them, as said aloud: "carrier bolt".'),
  count: wholeNumber(1, limits.count, 'How many there are.'),
  positions: list(
    label('What to call this one: "front left".'),
    'The name of each fastener, clockwise or row by row; numbers where left out.',
    limits.count,
  ),
  layout: layout.optional(),
  thread: text(24, 'Such as M12x1.75.').optional(),
  class: label('Property class, such as 8.8 or 10.9.').optional(),
  drive: written(readDrive, forms.drive, 'What turns it').optional(),
  square: written(parseSquareDrive, forms.square, 'The square drive of the socket or bit').optional(),
  reach: list(written(readReach, forms.reach, 'What is needed to get there'), 'From the socket outward.', 6),
  torque: written(readTorque, forms.torque, 'The final torque as the source gives it').optional(),
  angle: written(readAngle, forms.angle, 'Further turn after the torque').optional(),
  order: z
    .enum(orderPatterns, { error: () => forms.order })
    .default('listed')
    .meta({
      description:
        'cross: across and across; circular: round and round; spiral: from the middle out; draw-up: evenly in small opposite turns.',
    }),
  passes: passList,
  condition: text(limits.name, 'State of the thread: dry, oiled, thread-lock and so on.').optional(),
  'single use': flag('A new one every time.'),
  part: id('The entry of the parts list that it is taken from.').optional(),
});

const measure = entry({
  id: id('Stays the same when the text is reworded.').optional(),
  name: text(limits.name, 'What is measured: "backlash".'),
  unit: text(24, 'The unit of the limits.'),
  min: finite.meta({ description: 'The least that will do.' }).optional(),
  max: finite.meta({ description: 'The most that will do.' }).optional(),
  'if outside': wayOut.optional(),
}).refine(({ min, max }) => min === undefined || max === undefined || min <= max, 'a min not above the max');

const hold = entry({
  id: id('Stays the same when the text is reworded.').optional(),
  ask: text(limits.sentence, 'A question that "yes" passes.'),
  'if no': wayOut.optional(),
});

const stopSign = entry({
  id: id('Stays the same when the text is reworded.').optional(),
  ask: text(limits.sentence, 'What the hand would feel, as a question that "yes" confirms.'),
  'if yes': wayOut,
});

const wait = entry({
  id: id('Stays the same when the text is reworded.').optional(),
  name: text(limits.name, 'What is waited for.'),
  for: written(readDuration, forms.duration, 'How long'),
  blocks: flag('The next step may not begin before it is over.'),
});

const step = entry({
  id: id('Stays the same when the text is reworded; logs are compared by it.'),
  do: text(limits.sentence, 'The sentence that is read out.'),
  why: text(limits.paragraph, 'Read out when somebody asks why.').optional(),
  where: text(limits.paragraph, 'Read out when somebody asks where.').optional(),
  picture: z
    .string({ error: () => 'a picture file' })
    .max(200, 'a picture file')
    .regex(/^[a-z0-9][a-z0-9_/-]*\.(?:svg|png|jpg|webp)$/, 'a picture file beside the procedure, such as "pictures/carrier.svg"')
    .optional(),
  cautions: list(caution, 'Read out before the step.', 12),
  tools: list(text(limits.name, 'A tool, as said aloud.'), 'Tools beyond what the fasteners need.', 40),
  uses: list(id('An entry of parts, consumables or supports.'), 'Parts, consumables and supports that this step takes.', 60),
  optional: text(limits.sentence, 'Why it may be left out.').optional(),
  helper: text(limits.sentence, 'What the second person does.').optional(),
  see: id('A side procedure to run first and come back from.').optional(),
  free: flag('May be done at any time within its stage, so that tools need changing less often.'),
  fasteners: list(fastenerGroup, 'Groups of like fasteners, worked in this order.', 40),
  measure: list(measure, 'Quantities with limits.', 20),
  hold: list(hold, 'Checks that must pass.', 20),
  'stop signs': list(stopSign, 'What the hand would feel that means stop.', 12),
  wait: wait.optional(),
});

const steps = z
  .array(step, { error: () => 'a list of steps' })
  .min(1, 'at least one step')
  .max(limits.stepsInAStage, `at most ${limits.stepsInAStage} steps`);

const supply = entry({
  id: id('What steps call it by.'),
  name: text(limits.name, 'As said aloud.'),
  count: wholeNumber(1, 9_999, 'How many.').default(1),
  'single use': flag('Not to be used again.'),
});

const before = entry({
  id: id('Stays the same when the text is reworded.').optional(),
  kind: z.enum(['mark', 'part', 'support', 'removed', 'condition'], { error: () => 'mark, part, support, removed or condition' }).meta({
    description: 'Marked earlier, a part at hand, a support in place, something removed, or any other condition.',
  }),
  check: text(limits.sentence, 'A sentence that must be true.'),
});

const answerForm = 'an answer, which may be "look it up in the maker\'s manual"';
const openQuestion = entry({
  number: wholeNumber(1, 99_999, 'Counted from one through the draft.'),
  about: id('The group of fasteners that it is about.').optional(),
  value: text(limits.name, 'Which value an answer would fill in, such as "torque" or "torque on build K".').optional(),
  ask: text(limits.sentence, 'What is missing, doubtful or contradictory.'),
  heard: text(limits.name, 'The value as the draft heard it, too unsure to be written: "4", "47 lbf·ft".').optional(),
  said: text(limits.sentence, 'The sentence of the talk that raised it.').optional(),
  at: text(24, 'When it was said, from the start of the recording.').optional(),
  // Required, so that a draft cannot be run before everything in it is answered.
  answer: z
    .string({ error: () => answerForm })
    .trim()
    .min(1, answerForm)
    .max(limits.sentence, answerForm)
    .meta({ description: `What the author found: ${answerForm}` }),
});

const evidence = entry({
  of: id('The group of fasteners.'),
  value: text(limits.name, 'Which of its values.'),
  said: text(limits.sentence, 'The sentence that it came from.'),
  at: text(24, 'When it was said, from the start of the recording.').optional(),
  confidence: share.meta({ description: 'From 0 to 1, how sure the draft was of it.' }),
});

export const buildIdForm = 'a build name of letters, digits, dots and hyphens, such as "K"';
export const buildIdPattern = /^[A-Za-z0-9][A-Za-z0-9.-]{0,15}$/;

export const procedureSchema = entry({
  undertray: z.literal(1, { error: () => '1, the version of the format' }).meta({ description: 'The version of the format.' }),
  id: id('Stays the same over all revisions.'),
  title: text(limits.name, 'As said aloud.'),
  vehicle: text(limits.name, 'What it is for.'),
  builds: z
    .record(z.string().regex(buildIdPattern, buildIdForm), text(limits.name, 'How to tell this build.'), {
      error: () => 'builds by name, such as "K: short wheelbase"',
    })
    .refine((builds) => Object.keys(builds).length > 0 && Object.keys(builds).length <= limits.builds, `1 to ${limits.builds} builds`)
    .meta({
      description: 'The variants of the vehicle. Anything may differ between them by "build K:" keys, and list entries may be "only: [K]".',
    }),
  source: text(limits.sentence, 'Where the values come from.'),
  invented: flag('The values are invented for training and belong to no real vehicle.'),
  language: z
    .string({ error: () => 'a language such as "en"' })
    .regex(/^[a-z]{2,3}(?:-[A-Z]{2})?$/, 'a language such as "en" or "en-GB"')
    .default('en'),
  author: text(limits.name, 'Who answers for it.'),
  revision: wholeNumber(1, 99_999, 'Goes up with every change.'),
  'open questions': list(openQuestion, 'What a draft left open. Each needs its answer before the procedure can be run.', limits.steps),
  evidence: list(evidence, 'Where the values of a draft came from.', limits.steps),
  before: list(before, 'What must be true before the job starts.', 60),
  cautions: list(caution, 'Read out and acknowledged before the job starts.', 20),
  parts: list(supply, 'New parts and those laid by.'),
  consumables: list(supply, 'What is used up: cleaner, grease, thread-lock.'),
  supports: list(supply, 'Stands, chocks, props, hoists.'),
  stages: z
    .array(
      entry({
        id: id('Stays the same when the title is reworded.'),
        title: text(limits.name, 'As said aloud.'),
        steps,
      }),
      { error: () => 'a list of stages' },
    )
    .min(1, 'at least one stage')
    .max(limits.stages, `at most ${limits.stages} stages`),
  sides: list(
    entry({
      id: id('What "see" calls it by.'),
      title: text(limits.name, 'As said aloud.'),
      steps,
    }),
    'Side procedures: run when a step or a failed check says so, then back.',
    50,
  ),
  afterwards: list(
    entry({
      id: id('Stays the same when the text is reworded.').optional(),
      say: text(limits.sentence, 'What to do then.'),
      after: written(readAfter, forms.after, 'When'),
    }),
    'What to do after some distance, time or count.',
    40,
  ),
});

/** A procedure as it stands for one build, with its small written forms read. */
export type Procedure = z.output<typeof procedureSchema>;
/** The same as an author writes it, but for the differences by build. */
export type WrittenProcedure = z.input<typeof procedureSchema>;

export type ProcedureStep = Procedure['stages'][number]['steps'][number];
export type FastenerGroup = ProcedureStep['fasteners'][number];
export type WayOut = ProcedureStep['stop signs'][number]['if yes'];
