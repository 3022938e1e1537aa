import { beforeAll, describe, expect, it } from 'vitest';
import { plansIn } from '../../../demo-data/plans.ts';
import { logLines } from '../../../demo-data/log-lines.ts';
import { verifyChain } from '../../../src/journal/chain.ts';
import { parseRecorded } from '../../../src/journal/record.ts';
import { plantedIn } from '../../../src/review/demonstration/apprentices.ts';
import { workshopRuns } from '../../../src/review/demonstration/workshop.ts';
import { everyRun } from '../../../src/review/questions/selection.ts';
import { makeReview } from '../../../src/review/review.ts';
import type { Review } from '../../../src/review/review.ts';
import { readLogs } from '../logs.ts';

// Three of the five procedures, for speed; the effects are planted by rule and so find a place in any.
const plans = plansIn('procedures').filter(({ procedure }) =>
  ['brindle-b4-front-brakes', 'brindle-b4-wheels', 'bench-flange'].includes(procedure.id),
);
const planted = plantedIn(plans)!;
const terms = { filter: everyRun, codes: false, language: 'en' } as const;

describe('a workshop', () => {
  let review: Review;
  let files: Record<string, string>;

  beforeAll(() => {
    files = Object.fromEntries([...workshopRuns(plans, { seed: 7, runs: 6 })].map((run) => [run.job, `${logLines(run).join('\n')}\n`]));
    const read = readLogs(files);
    review = makeReview(read, read.report);
  }, 60_000);

  it('has 24 people in two groups over six months, and logs without fault', () => {
    const facts = review.facts();
    expect(facts.people).toHaveLength(24);
    expect(facts.groups.toSorted()).toEqual(['Anvil', 'Bellows']);
    expect([facts.from, facts.to?.slice(0, 7)]).toEqual(['2025-01-13', '2025-07']);
    expect(facts.faults).toEqual({ lines: {}, missing: 0, marked: 0 });
    expect(facts.procedures.every(({ hasPlan }) => hasPlan)).toBe(true);
  });

  it('writes what the journal takes for whole', () => {
    const [text] = Object.values(files);
    const events = text!.trimEnd().split('\n').slice(1);
    expect(events.every((line) => parseRecorded(line).ok)).toBe(true);
    expect(verifyChain(events).ok).toBe(true);
  });

  it('gives the hard step away', () => {
    const { hard, findings } = review.ask({ view: 'overview' }, terms);
    expect(hard[0]?.measures.name).toMatchObject({ procedure: planted.hardStep.procedure, id: planted.hardStep.step });
    expect(findings.some(({ kind, place }) => kind === 'hard step' && place.view === 'steps' && place.step === planted.hardStep.step)).toBe(
      true,
    );
  });

  it('gives the slow group away, with an interval around what was planted', () => {
    const [comparison] = review.ask({ view: 'groups' }, terms);
    expect(comparison?.first.group).toBe(planted.slowGroup.group);
    expect(comparison?.ranks.method).toBe('exact');
    expect(comparison?.ranks.twoSided).toBeLessThan(0.01);
    // Twelve people with paces of their own: what was planted need not lie inside exactly.
    expect(comparison?.ratio?.low).toBeLessThan(planted.slowGroup.factor * 1.05);
    expect(comparison?.ratio?.high).toBeGreaterThan(planted.slowGroup.factor * 0.95);
  });

  it('gives the fast learner away and nobody else', () => {
    const { findings } = review.ask({ view: 'overview' }, terms);
    const fast = findings.filter(({ kind }) => kind === 'fast learner' || kind === 'slow learner');
    expect(fast.map(({ kind, text }) => [kind, text.startsWith(planted.fastLearner.name)])).toEqual([['fast learner', true]]);
    const own = review.ask({ view: 'people' }, terms).people.find(({ called }) => called === planted.fastLearner.name);
    expect(own?.rate?.interval.low).toBeLessThan(planted.fastLearner.rate + 0.02);
    expect(own?.rate?.interval.high).toBeLessThan(planted.fastLearner.usualRate);
  });

  it('gives the one away who goes by a hold point, and nobody else', () => {
    const { holds } = review.ask({ view: 'people' }, terms);
    const standing = holds.filter(({ standsOut }) => standsOut);
    expect(standing.map(({ called, name }) => [called, name.procedure, name.id])).toEqual([
      [planted.skipper.name, planted.skipper.procedure, planted.skipper.step],
    ]);
  });

  it('gives the one away who is stuck at one step', () => {
    const { stuck } = review.ask({ view: 'overview' }, terms);
    expect(stuck[0]).toMatchObject({ called: planted.stuck.name, name: { procedure: planted.stuck.procedure, id: planted.stuck.step } });
  });

  it('tells each of them on their own sheet', () => {
    const personCalled = (name: string): number => review.facts().people.find((one) => one.name === name)!.person;
    const skipper = review.ask({ view: 'sheet', person: personCalled(planted.skipper.name) }, terms)!;
    expect(skipper.toDo[0]).toContain('went by the hold point');
    const stuck = review.ask({ view: 'sheet', person: personCalled(planted.stuck.name) }, terms)!;
    expect(stuck.toDo.some((line) => line.includes('Ask to be shown it once'))).toBe(true);
    expect(skipper.spoken[0]).toContain(`Feedback for ${planted.skipper.name}`);
    const coded = review.ask({ view: 'sheet', person: personCalled(planted.skipper.name) }, { ...terms, codes: true });
    expect(coded?.spoken.join(' ')).not.toContain(planted.skipper.name);
  });
});

describe('growing a workshop', () => {
  it('gives the same logs from the same seed, and others from another', () => {
    const grown = (seed: number): string => logLines([...workshopRuns(plans.slice(0, 1), { seed, runs: 1 })][3]!).join();
    expect(grown(5)).toBe(grown(5));
    expect(grown(5)).not.toBe(grown(6));
  });
});
