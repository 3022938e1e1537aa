import { readFile } from 'node:fs/promises';
import type { Folded } from '../../src/job/state.ts';
import { applyEvent, foldJob, newJob } from '../../src/job/fold.ts';
import { nextFastener } from '../../src/job/progress.ts';
import { lintProcedure } from '../../src/procedure/lint.ts';
import { parseProcedure } from '../../src/procedure/parse.ts';
import { planJob } from '../../src/procedure/plan.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { parse as parseYaml } from 'yaml';
import type { Figure } from './main.ts';

/** Planning and linting, beside what merely reading the YAML costs; and the fold of a very long job beside that of an ordinary one. */
export async function* planFigures(): AsyncGenerator<Figure> {
  const axle = await readFile('procedures/brindle-b4-final-drive.yaml', 'utf8');
  const large = largeProcedure(5000, 10);
  const perEvent: { readonly name: string; readonly plan: Plan; readonly events: readonly Folded[] }[] = [];
  for (const [name, text, build] of [
    ['the axle procedure', axle, 'K'],
    ['5,000 steps with 50,000 fasteners', large, 'A'],
  ] as const) {
    const yaml = timed(() => parseYaml(text) as unknown);
    const parsed = timed(() => parseProcedure(text, name));
    if (!parsed.result.ok) throw new Error(`${name}: ${JSON.stringify(parsed.result.problems.slice(0, 3))}`);
    const { file } = parsed.result;
    const planned = timed(() => planJob(file, { build, spokenUnit: null, crib: null, today: '2026-01-01' }));
    if (!planned.result.ok) throw new Error(`${name}: ${JSON.stringify(planned.result.problems.slice(0, 3))}`);
    const linted = timed(() => lintProcedure(file));
    const versus = 'reading the YAML alone';
    yield { name: `parse and check ${name}`, value: parsed.ms, unit: 'ms', versus, ratio: ratio(parsed.ms, yaml.ms) };
    yield { name: `plan ${name}`, value: planned.ms, unit: 'ms', versus, ratio: ratio(planned.ms, yaml.ms) };
    yield { name: `lint ${name}`, value: linted.ms, unit: 'ms', versus, ratio: ratio(linted.ms, yaml.ms) };
    yield {
      name: `memory after ${name}`,
      value: Math.round(process.memoryUsage().heapUsed / 1e5) / 10,
      unit: 'MB',
      versus: 'the text itself',
      ratio: ratio(process.memoryUsage().heapUsed, text.length),
    };
    perEvent.push({ name, plan: planned.result.plan, events: everyFastener(planned.result.plan) });
  }
  yield* foldFigures(perEvent);
}

/** What one event costs in a long job, beside what it costs in a short one. */
function* foldFigures(
  jobs: readonly { readonly name: string; readonly plan: Plan; readonly events: readonly Folded[] }[],
): Generator<Figure> {
  const [short, long] = jobs.map(({ name, plan, events }) => {
    // The first fold of a plan also makes its index, and warms the code.
    foldJob(plan, events.slice(0, 300));
    const { ms } = timed(() => foldJob(plan, events));
    return { name, count: events.length, ms, each: (ms * 1000) / Math.max(1, events.length) };
  });
  if (short === undefined || long === undefined) return;
  const whole = Math.round(long.ms);
  yield {
    name: `fold ${long.count} events of ${long.name}`,
    value: whole,
    unit: 'ms',
    versus: `${short.count} events of ${short.name}`,
    ratio: ratio(long.ms, short.ms),
  };
  yield {
    name: `fold one event of ${long.name}`,
    value: Math.round(long.each * 10) / 10,
    unit: 'µs',
    versus: `one event of ${short.name}`,
    ratio: ratio(long.each, short.each),
  };
}

/** The events of a job in which every fastener of the main line is tightened. */
function everyFastener(plan: Plan): Folded[] {
  const events: Folded[] = [];
  let state = newJob(plan);
  const add = (event: Folded['event']) => {
    const folded: Folded = { seq: events.length, session: 'bench', moment: { wall: events.length, offset: 0, mono: events.length }, event };
    events.push(folded);
    state = applyEvent(plan, state, folded);
  };
  add({ type: 'opened', procedure: plan.procedure.id, title: '', revision: 1, build: plan.build.id, person: null, group: null });
  for (const caution of plan.cautions) add({ type: 'caution-acknowledged', caution: caution.id });
  for (const before of plan.befores) add({ type: 'before-answered', before: before.id, isTrue: true });
  add({ type: 'kit-waved-through' });
  // A bound, so that a plan that cannot be finished shows as a short fold and not as a hang.
  for (let turn = 0; turn < 400_000 && state.work.phase === 'working'; turn += 1) {
    const { cursor } = state.work;
    const step = plan.steps[cursor?.step ?? -1];
    if (cursor === null || step === undefined) break;
    const { part } = cursor;
    switch (part.kind) {
      case 'caution':
        add({ type: 'caution-acknowledged', caution: step.cautions[part.index]?.id ?? '' });
        break;
      case 'act':
        add({ type: 'step-carried-out', step: step.id });
        break;
      case 'fastener': {
        const group = step.groups[part.group];
        const progress = state.work.steps.get(cursor.step)?.groups[part.group];
        const next = group === undefined || progress === undefined ? null : nextFastener(group, progress);
        if (group === undefined || next === null) return events;
        add({ type: 'fastener-tightened', step: step.id, group: group.id, ...next });
        break;
      }
      case 'measure': {
        const measure = step.measures[part.index];
        if (measure === undefined) return events;
        add({
          type: 'measured',
          step: step.id,
          measure: measure.id,
          value: measure.min ?? measure.max ?? 1,
          unit: measure.unit,
          within: true,
        });
        break;
      }
      case 'hold':
        add({ type: 'hold-answered', step: step.id, hold: step.holds[part.index]?.id ?? '', passed: true });
        break;
      case 'wait':
        add({ type: 'timer-ended', step: step.id });
        break;
    }
  }
  return events;
}

function largeProcedure(steps: number, fasteners: number): string {
  const head = [
    'undertray: 1',
    'id: large',
    'title: A large invented procedure',
    'vehicle: invented',
    'builds: { A: the only one }',
    'source: Invented.',
    'invented: true',
    'language: en',
    'author: the bench',
    'revision: 1',
    'stages:',
  ];
  const perStage = 50;
  const body: string[] = [];
  for (let step = 0; step < steps; step += 1) {
    if (step % perStage === 0) body.push(`  - id: stage-${step / perStage}`, `    title: Stage ${step / perStage + 1}`, '    steps:');
    body.push(
      `      - id: step-${step}`,
      `        do: Tighten the bolts of cover number ${step}.`,
      '        fasteners:',
      `          - id: bolts-${step}`,
      `            name: cover bolt`,
      `            count: ${fasteners}`,
      '            thread: M8x1.25',
      '            class: 8.8',
      '            drive: hex 13',
      '            square: 3/8',
      '            torque: 22 N·m ±2',
      '            order: cross',
    );
  }
  return [...head, ...body, ''].join('\n');
}

function timed<Result>(act: () => Result): { readonly result: Result; readonly ms: number } {
  const begun = performance.now();
  const result = act();
  return { result, ms: Math.round((performance.now() - begun) * 100) / 100 };
}

const ratio = (value: number, versus: number): number => Math.round((value / Math.max(versus, 1e-9)) * 1000) / 1000;
