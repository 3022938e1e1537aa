import { beforeAll, describe, expect, it } from 'vitest';
import { noNotes } from '../../src/review/notes.ts';
import { everyRun } from '../../src/review/questions/selection.ts';
import type { Question, Review, Terms } from '../../src/review/review.ts';
import { makeReview } from '../../src/review/review.ts';
import { carriedOut, readLogs, runOf, signedOff, start, textOf } from './logs.ts';

const terms: Terms = { filter: everyRun, codes: false, language: 'en' };
const day = 86_400_000;

/** Eight signed runs, one a day; those of odd days are Bo's, in the South. */
const logs = Object.fromEntries(
  Array.from({ length: 8 }, (_, index) => {
    const job = `job-${index}`;
    const who = index % 2 === 0 ? { person: 'Ada', group: 'North' } : { person: 'Bo', group: 'South' };
    const beats = [...carriedOut('one', 60 + index), ...carriedOut('two', 90), ...signedOff];
    return [job, textOf(runOf(beats, { job, wall: start + index * day, ...who }))];
  }),
);

describe('a review', () => {
  let review: Review;
  const fresh = (): Review => {
    const { report, ...settled } = readLogs(logs);
    return makeReview(settled, report);
  };
  beforeAll(() => {
    review = fresh();
  });

  const questions: readonly Question[] = [
    { view: 'overview' },
    { view: 'steps', procedure: 'bench', reference: null },
    { view: 'people' },
    { view: 'heat', procedure: 'bench', most: 0 },
    { view: 'learning', procedure: 'bench', aim: null, drawn: 0 },
    { view: 'runs', first: 0, last: 0, procedure: null },
    { view: 'sheet', person: 1 },
    { view: 'groups' },
  ];

  it('answers the same whatever was asked before', () => {
    const filters = [
      everyRun,
      { ...everyRun, groups: ['South'] },
      { ...everyRun, skipFirst: 1 },
      { ...everyRun, to: '2025-02-05' },
      everyRun,
    ];
    for (const filter of filters)
      for (const codes of [false, true])
        for (const question of questions) {
          const asked = { ...terms, filter, codes };
          expect(review.ask(question, asked)).toEqual(fresh().ask(question, asked));
        }
  });

  it('forgets what it knew when a run is excluded', () => {
    const own = fresh();
    expect(own.ask({ view: 'overview' }, terms).runs).toBe(8);
    const excluded = { text: '', excluded: 'the wrong lift', rating: null };
    own.takeNotes({ ...noNotes, runs: { 'job-3': excluded } });
    expect(own.ask({ view: 'overview' }, terms).runs).toBe(7);
    const { lines, of } = own.ask({ view: 'runs', first: 0, last: 0, procedure: null }, terms);
    expect(of).toBe(8);
    expect(lines.find(({ job }) => job === 'job-3')?.pace).toBeNull();
    own.takeNotes(noNotes);
    expect(own.ask({ view: 'overview' }, terms).runs).toBe(8);
  });

  it('lists runs from the newest on, a page at a time', () => {
    const page = (first: number, last: number): readonly string[] =>
      review.ask({ view: 'runs', first, last, procedure: null }, terms).lines.map(({ job }) => job);
    expect(page(0, 3)).toEqual(['job-7', 'job-6', 'job-5']);
    expect(page(6, 9)).toEqual(['job-1', 'job-0']);
  });

  it('lays out only so many curves, and says when the others reach the aim all the same', () => {
    const whole = review.ask({ view: 'learning', procedure: 'bench', aim: 1000, drawn: 0 }, terms)!;
    const few = review.ask({ view: 'learning', procedure: 'bench', aim: 1000, drawn: 1 }, terms)!;
    expect(whole.learners.map(({ drawn }) => drawn.length > 0)).toEqual([true, true]);
    expect(few.learners.map(({ drawn }) => drawn.length > 0)).toEqual([true, false]);
    expect(few.learners.map(({ aim }) => aim)).toEqual(whole.learners.map(({ aim }) => aim));
  });
});
