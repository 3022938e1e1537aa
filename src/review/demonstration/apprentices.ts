import type { Plan } from '../../procedure/plan-types.ts';
import type { Chance } from './chance.ts';

/** One person of the invented workshop. */
export interface Apprentice {
  readonly name: string;
  readonly group: string;
  /** Multiplies every time: 1 is the workshop's usual pace. */
  readonly pace: number;
  /** Exponent of the unit learning curve. */
  readonly exponent: number;
  /** How often they ask, mishear and look back: 1 is usual. */
  readonly unsure: number;
}

/** What the demonstration hides in its logs, for the review to find. */
export interface Planted {
  /** Takes everybody far longer than its work would, and makes them ask. */
  readonly hardStep: PlantedStep;
  readonly slowGroup: { readonly group: string; readonly factor: number };
  readonly fastLearner: { readonly name: string; readonly rate: number; readonly usualRate: number };
  /** Leaves a step's hold point out, most of the time. */
  readonly skipper: PlantedStep & { readonly name: string; readonly share: number };
  /** Is stuck at one step that others find ordinary. */
  readonly stuck: PlantedStep & { readonly name: string };
}

interface PlantedStep {
  readonly procedure: string;
  readonly step: string;
  readonly factor: number;
}

const names = {
  Anvil: [
    'Abel Tarn',
    'Bryony Ash',
    'Corin Fell',
    'Dilys Marsh',
    'Edda Brook',
    'Fenn Alder',
    'Greta Lowe',
    'Hale Ridge',
    'Imre Stone',
    'Juna Heath',
    'Kester Vale',
    'Lark Sedge',
  ],
  Bellows: [
    'Mirren Cove',
    'Nye Thorne',
    'Orla Finch',
    'Perrin Dale',
    'Quill Hazel',
    'Rowan Pike',
    'Sorrel Byrne',
    'Tobin Wray',
    'Una Birch',
    'Vesper Loam',
    'Wilf Garth',
    'Yarrow Penn',
  ],
} as const;

const usualRate = 0.92;
const fastRate = 0.76;
const slowFactor = 1.25;
const fastLearner: string = names.Anvil[4];
const skipper: string = names.Anvil[6];
const stuck: string = names.Bellows[2];

export function apprentices(chance: Chance): readonly Apprentice[] {
  return Object.entries(names).flatMap(([group, people]) =>
    people.map((name): Apprentice => {
      const rate = name === fastLearner ? fastRate : usualRate + chance.between(-0.02, 0.02);
      const own = Math.exp(0.07 * chance.normal());
      // The fast learner starts as slow as anybody, so that only the learning sets them apart.
      const pace = (name === fastLearner ? 1.1 : own) * (group === 'Bellows' ? slowFactor : 1);
      return { name, group, pace, exponent: Math.log2(rate), unsure: Math.exp(0.3 * chance.normal()) };
    }),
  );
}

/** Where the effects are put: the same places for the same plans. Null when the plans offer none. */
export function plantedIn(plans: readonly Plan[]): Planted | null {
  const byWork = plans.toSorted((one, other) => other.steps.length - one.steps.length);
  const hard = byWork.flatMap((plan) => ordinary(plan).map((step) => ({ plan, step })));
  const held = byWork.flatMap((plan) =>
    plan.steps.filter((step) => step.side === null && step.holds.length > 0).map((step) => ({ plan, step })),
  );
  const hardStep = hard[Math.floor(hard.length * 0.12)];
  const stuckStep = hard.filter(({ plan, step }) => plan !== hardStep?.plan || step !== hardStep.step)[Math.floor(hard.length * 0.3)];
  const holdStep = held[0];
  if (hardStep === undefined || stuckStep === undefined || holdStep === undefined) return null;
  const place = ({ plan, step }: (typeof hard)[number], factor: number): PlantedStep => ({
    procedure: plan.procedure.id,
    step: step.id,
    factor,
  });
  return {
    hardStep: place(hardStep, 3),
    slowGroup: { group: 'Bellows', factor: slowFactor },
    fastLearner: { name: fastLearner, rate: fastRate, usualRate },
    skipper: { ...place(holdStep, 1), name: skipper, share: 0.75 },
    stuck: { ...place(stuckStep, 2.6), name: stuck },
  };
}

/** Steps of the main line with work that takes a while: at least four fasteners to tighten. */
function ordinary(plan: Plan): Plan['steps'] {
  const tightenings = (step: Plan['steps'][number]): number =>
    step.groups.reduce((sum, { positions, passes }) => sum + positions.length * passes.length, 0);
  return plan.steps.filter((step) => step.side === null && tightenings(step) >= 4);
}
