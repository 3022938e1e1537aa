import { stateOf } from '../../job/dialogue.ts';
import { stepAt } from '../../job/state.ts';
import type { Intent, PlainIntentName } from '../../phrasing/intents.ts';
import type { Plan, PlannedStep } from '../../procedure/plan-types.ts';
import type { Apprentice, Planted } from './apprentices.ts';
import { apprentices, plantedIn } from './apprentices.ts';
import type { Chance } from './chance.ts';
import { makeChance } from './chance.ts';
import type { Sitting, Worker } from './sitting.ts';
import { makeWorker, mayBeSaid } from './sitting.ts';

/** A job of the invented workshop, as the app would have recorded it but not yet chained. */
export interface WorkshopRun {
  readonly job: string;
  readonly plan: Plan;
  readonly person: string;
  readonly sittings: readonly Sitting[];
}

interface WorkshopOptions {
  readonly seed: number;
  /** Runs of each procedure by each apprentice. */
  readonly runs: number;
}

/** Monday 13 January 2025, 08:00 in a workshop one hour ahead of UTC. */
const firstMorning = Date.UTC(2025, 0, 13, 7);
const days = 26 * 7;
const day = 86_400_000;
const summerTime = Date.UTC(2025, 2, 30, 1);

/**
 * Six months of an invented training workshop: 24 apprentices in two groups at every procedure given, one plan a build.
 * Nothing in it was measured anywhere. The same plans and options give the same runs.
 */
export function* workshopRuns(plans: readonly Plan[], { seed, runs }: WorkshopOptions): Generator<WorkshopRun> {
  const people = apprentices(makeChance(seed));
  const planted = plantedIn(plans);
  const procedures = [...new Set(plans.map((plan) => plan.procedure.id))];
  for (const [index, apprentice] of people.entries()) {
    const chance = makeChance(seed * 1009 + index * 7919 + 1);
    for (const [turn, { procedure, number }] of order(procedures, runs).entries()) {
      const plan = chance.pick(plans.filter((one) => one.procedure.id === procedure));
      const wall = morning(turn / (procedures.length * runs), chance);
      const offset = wall < summerTime ? 60 : 120;
      const session = chance.hex(16);
      const worker = makeWorker({ plan, person: apprentice.name, group: apprentice.group, session, wall, offset });
      const hardness = (planted?.hardStep.factor ?? 1) * Math.exp(0.35 * chance.normal());
      work(worker, { apprentice, number, planted, hardness, chance });
      yield { job: `demo-${chance.hex(20)}`, plan, person: apprentice.name, sittings: worker.sittings() };
    }
  }
}

/** The procedures in turn, so that everybody's runs of each are spread over the months. */
function order(procedures: readonly string[], runs: number): readonly { readonly procedure: string; readonly number: number }[] {
  return Array.from({ length: runs }, (_, run) => procedures.map((procedure) => ({ procedure, number: run + 1 }))).flat();
}

/** A weekday's working hour, this share of the way through the months. */
function morning(share: number, chance: Chance): number {
  const date = Math.floor(share * days);
  const weekday = date % 7 >= 5 ? date - (date % 7) + 4 : date;
  const wall = firstMorning + weekday * day + chance.between(0, 6.5) * 3_600_000;
  return wall < summerTime ? wall : wall - 3_600_000;
}

interface Circumstances {
  readonly apprentice: Apprentice;
  /** Which run of the procedure it is for this person. */
  readonly number: number;
  readonly planted: Planted | null;
  /** How hard the hard step is this time. */
  readonly hardness: number;
  readonly chance: Chance;
}

const questions: readonly PlainIntentName[] = [
  'torque',
  'torque',
  'socket',
  'how-many-left',
  'where',
  'why',
  'which-next',
  'caution',
  'tools',
];
const mumbles = ['uh the next one', 'is it that', 'hand me the rag', 'did that', 'torch please', 'no the other one'];
/** Far beyond any real run: a loop that cannot end would be a bug. */
const mostTurns = 20_000;

function work(worker: Worker, circumstances: Circumstances): void {
  const { chance } = circumstances;
  const abandonsAfter = chance.happens(0.025) ? Math.floor(chance.between(20, 60)) : mostTurns;
  const restartsAfter = chance.happens(0.06) ? Math.floor(chance.between(15, 80)) : mostTurns;
  for (let turn = 0; !worker.isClosed(); turn++) {
    if (turn === abandonsAfter) return;
    if (turn === restartsAfter) worker.restart(chance.hex(16), chance.between(60, 5400));
    if (turn >= mostTurns) throw new RangeError(`a run that does not end: ${stateOf(worker.dialogue())}`);
    takeTurn(worker, circumstances);
  }
  if (chance.happens(0.1)) worker.say({ type: 'help' });
}

function takeTurn(worker: Worker, circumstances: Circumstances): void {
  const { chance, planted, apprentice } = circumstances;
  const dialogue = worker.dialogue();
  const { cursor } = dialogue.job.work;
  const step = cursor === null ? null : stepAt(dialogue.plan, cursor.step);
  const take = (seconds: number): void => worker.pass(seconds * Math.exp(0.25 * chance.normal()));
  const say = (intent: Intent): void => worker.say(intent);
  switch (stateOf(dialogue)) {
    case 'briefing':
      take(5);
      say({ type: 'yes' });
      break;
    case 'kit':
      take(4);
      say(chance.happens(0.02) ? { type: 'missing' } : { type: 'done', count: 1 });
      break;
    case 'stating':
      hesitate(worker, circumstances, step);
      worker.pass(secondsFor(circumstances, dialogue.plan, step, cursor?.part.kind === 'caution' ? 4 : actSeconds(step)));
      say(cursor?.part.kind === 'caution' ? { type: 'yes' } : { type: 'done', count: 1 });
      break;
    case 'fastening': {
      hesitate(worker, circumstances, step);
      worker.pass(secondsFor(circumstances, dialogue.plan, step, 9));
      say({ type: 'done', count: 1 });
      if (chance.happens(0.006) && mayBeSaid(worker, 'undo')) {
        take(3);
        say({ type: 'undo' });
      }
      break;
    }
    case 'measuring': {
      hesitate(worker, circumstances, step);
      worker.pass(secondsFor(circumstances, dialogue.plan, step, 25));
      const measure = cursor?.part.kind === 'measure' ? step?.measures[cursor.part.index] : undefined;
      say({ type: 'number', value: measured(measure?.min ?? null, measure?.max ?? null, chance), unit: null });
      break;
    }
    case 'checking': {
      hesitate(worker, circumstances, step);
      worker.pass(secondsFor(circumstances, dialogue.plan, step, 12));
      const leavesOut =
        planted?.skipper.name === apprentice.name &&
        planted.skipper.procedure === dialogue.plan.procedure.id &&
        planted.skipper.step === step?.id &&
        chance.happens(planted.skipper.share);
      say(leavesOut ? { type: 'skip', scope: 'step', reason: 'do-later' } : { type: chance.happens(0.96) ? 'yes' : 'no' });
      break;
    }
    case 'waiting':
      worker.pass(20);
      break;
    case 'confirming':
      take(2);
      say({ type: 'yes' });
      break;
    case 'reasoning':
      take(3);
      say({ type: 'reason', reason: chance.pick(['do-later', 'no-part', 'told-to']), text: null });
      break;
    case 'visiting':
      take(8);
      say({ type: 'carry-on' });
      break;
    case 'diagnosing':
      take(20);
      say({ type: 'carry-on' });
      break;
    case 'paused':
      worker.pass(60 * Math.exp(1 + 0.8 * chance.normal()));
      say({ type: 'carry-on' });
      break;
    case 'closing':
      take(4);
      say({ type: 'accept' });
      break;
    case 'signing':
      take(4);
      say({ type: 'yes' });
      break;
    case 'closed':
      break;
  }
}

/** Questions, misunderstandings, second looks and pauses, before a piece of work. */
function hesitate(worker: Worker, circumstances: Circumstances, step: PlannedStep | null): void {
  const { apprentice, chance, number, planted } = circumstances;
  const isHard = isAt(planted?.hardStep, worker.dialogue().plan, step);
  const isStuck = planted?.stuck.name === apprentice.name && isAt(planted.stuck, worker.dialogue().plan, step);
  const unsure = apprentice.unsure * number ** -0.35 * (isHard ? 4 : isStuck ? 3 : 1);
  if (chance.happens(0.09 * unsure)) {
    const question = chance.pick(questions);
    if (mayBeSaid(worker, question)) {
      worker.pass(chance.between(1, 4));
      worker.say({ type: question });
      worker.pass(chance.between(3, 7));
    }
  }
  if (chance.happens(0.04 * unsure)) {
    worker.say({ type: 'repeat' });
    worker.pass(chance.between(3, 6));
  }
  if (chance.happens(0.025)) {
    worker.mumble(chance.pick(mumbles));
    worker.pass(chance.between(2, 4));
  }
  if (chance.happens(0.006)) worker.say({ type: 'do-it-now' });
  if (chance.happens(0.008 * unsure) && mayBeSaid(worker, 'back')) {
    worker.say({ type: 'back' });
    if (stateOf(worker.dialogue()) === 'visiting') {
      worker.pass(chance.between(4, 15));
      worker.say({ type: 'carry-on' });
    }
  }
  if (chance.happens(0.004)) {
    worker.say({ type: 'hold-on' });
    worker.pass(60 * Math.exp(1 + 0.8 * chance.normal()));
    worker.say({ type: 'carry-on' });
  }
  if (chance.happens(0.002) && stateOf(worker.dialogue()) !== 'paused') {
    worker.say({ type: 'stop' });
    worker.pass(chance.between(10, 40));
    worker.say({ type: 'carry-on' });
  }
}

/** What a step's own work takes at the usual pace: invented, the same for a step's name everywhere. */
function actSeconds(step: PlannedStep | null): number {
  let sum = 0;
  for (const letter of step?.id ?? '') sum = (sum * 31 + letter.charCodeAt(0)) % 997;
  return 25 + (sum / 997) * 70;
}

function secondsFor(
  { apprentice, number, planted, hardness, chance }: Circumstances,
  plan: Plan,
  step: PlannedStep | null,
  usual: number,
): number {
  const isHard = isAt(planted?.hardStep, plan, step);
  const isStuck = planted?.stuck.name === apprentice.name && isAt(planted.stuck, plan, step);
  const slower = (isHard ? hardness : 1) * (isStuck ? planted.stuck.factor : 1);
  return usual * apprentice.pace * number ** apprentice.exponent * slower * Math.exp(0.22 * chance.normal());
}

function isAt(planted: { readonly procedure: string; readonly step: string } | undefined, plan: Plan, step: PlannedStep | null): boolean {
  return planted !== undefined && planted.procedure === plan.procedure.id && planted.step === step?.id;
}

/** Mostly within the limits; now and then just outside. */
function measured(min: number | null, max: number | null, chance: Chance): number {
  const low = min ?? (max === null ? 0 : max / 2);
  const high = max ?? low * 1.5 + 1;
  const share = chance.happens(0.03) ? 1.15 : chance.between(0.1, 0.9);
  return Number((low + (high - low) * share).toPrecision(3));
}
