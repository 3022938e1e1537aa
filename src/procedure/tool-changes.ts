import type { Procedure } from './format.ts';
import type { Plan, PlannedStep, PlannedTool } from './plan-types.ts';

/** How often the person has to reach for another tool, and an order of the free steps that spares them some of it. */
export interface ToolChanges {
  /** In the written order, along the main line. The first tool counts as a change. */
  readonly count: number;
  /** Null where no move of the free steps saves any. */
  readonly suggestion: {
    /** The main line's step ids in the suggested order. */
    readonly order: readonly string[];
    /** The steps that moved. */
    readonly moved: readonly string[];
    readonly count: number;
  } | null;
}

/**
 * Counts changes of socket, reach and wrench setting, and tries each free step at every place within its own stage, keeping the move
 * that saves most until none saves any. Steps marked `free` are the only ones that move, so what the author ordered stays ordered.
 */
export function toolChanges(plan: Plan, free: ReadonlySet<string>): ToolChanges {
  const main = plan.steps.filter(({ side }) => side === null);
  const setups = new Map(main.map((step) => [step.id, setupsOf(step)]));
  const setupsIn = (order: readonly PlannedStep[]) => order.flatMap((step) => setups.get(step.id) ?? []);
  const count = changesIn(setupsIn(main));
  const moved = new Set<string>();
  const order = stagesOf(main).flatMap((stage) => improve(stage, free, setupsIn, moved));
  const better = changesIn(setupsIn(order));
  if (better >= count) return { count, suggestion: null };
  return { count, suggestion: { order: order.map(({ id }) => id), moved: [...moved], count: better } };
}

/** The ids of the steps that the author marked as free to move within their stage. */
export function freeSteps(procedure: Procedure): ReadonlySet<string> {
  return new Set(procedure.stages.flatMap(({ steps }) => steps.filter((step) => step.free).map(({ id }) => id)));
}

/** What the hand must take up, in order: one text for each socket with its reach, one for each wrench setting. */
function setupsOf(step: PlannedStep): readonly string[] {
  const setups = step.groups.flatMap((group) => {
    if (group.tool.kind === 'hand') return [];
    const end = toolKey(group.tool);
    return group.passes.map(({ torque }) => (torque === null ? end : `${end} ${torque.value} ${torque.unit}`));
  });
  return setups.filter((setup, index) => index === 0 || setup !== setups[index - 1]);
}

function toolKey(tool: PlannedTool): string {
  return JSON.stringify([tool.kind, tool.size, tool.sizeUnit, tool.square, tool.reach]);
}

function changesIn(setups: readonly string[]): number {
  return setups.filter((setup, index) => index === 0 || setup !== setups[index - 1]).length;
}

function stagesOf(steps: readonly PlannedStep[]): readonly (readonly PlannedStep[])[] {
  const stages: PlannedStep[][] = [];
  for (const step of steps) {
    const last = stages.at(-1);
    if (last?.[0]?.stage.id === step.stage.id) last.push(step);
    else stages.push([step]);
  }
  return stages;
}

/** Above this many steps in a stage, trying every move would take too long for what it saves. */
const mostTried = 60;

function improve(
  stage: readonly PlannedStep[],
  free: ReadonlySet<string>,
  setupsIn: (order: readonly PlannedStep[]) => readonly string[],
  moved: Set<string>,
): readonly PlannedStep[] {
  if (stage.length > mostTried) return stage;
  let best = stage;
  let count = changesIn(setupsIn(best));
  for (let better = true; better;) {
    better = false;
    for (const step of stage.filter(({ id }) => free.has(id))) {
      const others = best.filter((other) => other !== step);
      for (let place = 0; place <= others.length; place++) {
        const tried = [...others.slice(0, place), step, ...others.slice(place)];
        const changes = changesIn(setupsIn(tried));
        if (changes >= count) continue;
        best = tried;
        count = changes;
        better = true;
        moved.add(step.id);
      }
    }
  }
  return best;
}
