import { assignCodeNames } from './code-names.ts';
import type { Language } from '../phrasing/language.ts';
import type { IntakeReport, LineFault } from './intake/intake-report.ts';
import type { Settled } from './intake/settle.ts';
import type { Logbook } from './logbook.ts';
import type { TrainerNotes } from './notes.ts';
import { noNotes } from './notes.ts';
import type { Asking, StepName } from './questions/asking.ts';
import { stepName } from './questions/asking.ts';
import type { FairTimes, FairTimeTerms } from './questions/fair-times.ts';
import { fairTimes } from './questions/fair-times.ts';
import type { Fasteners } from './questions/fasteners.ts';
import { fasteners } from './questions/fasteners.ts';
import type { FeedbackSheet } from './questions/feedback.ts';
import { feedbackSheet } from './questions/feedback.ts';
import type { GroupComparison } from './questions/group-comparison.ts';
import { compareGroups } from './questions/group-comparison.ts';
import type { HardStep } from './questions/hard-steps.ts';
import { hardSteps } from './questions/hard-steps.ts';
import type { HoldLeftOut } from './questions/holds.ts';
import { holdsLeftOut } from './questions/holds.ts';
import type { Learning } from './questions/learning.ts';
import { learning } from './questions/learning.ts';
import type { Orders } from './questions/orders.ts';
import { orders } from './questions/orders.ts';
import type { Overview } from './questions/overview.ts';
import { overview } from './questions/overview.ts';
import { paceOfRuns } from './questions/pace.ts';
import type { PersonMeasures } from './questions/people.ts';
import { groupOf, peopleMeasures } from './questions/people.ts';
import type { RunLine } from './questions/run-list.ts';
import { runList } from './questions/run-list.ts';
import type { Filter } from './questions/selection.ts';
import { selectRuns } from './questions/selection.ts';
import type { StepMeasures } from './questions/step-measures.ts';
import { stepMeasures } from './questions/step-measures.ts';
import type { HeatMap, Stuck } from './questions/stuck.ts';
import { heatMap, heatOf, stuckPeople } from './questions/stuck.ts';
import type { Timeline } from './questions/timeline.ts';
import { runOfJob, timeline } from './questions/timeline.ts';
import type { MonthPace } from './questions/trend.ts';
import { paceByMonth } from './questions/trend.ts';
import { localDay } from './wording.ts';
import type { ReviewWords } from './words/en.ts';
import { reviewWords } from './words/words.ts';

/** What is in the logs at all: what filters can choose from, and how the import went. */
export interface Facts {
  readonly runs: number;
  readonly events: number;
  readonly procedures: readonly {
    readonly id: string;
    readonly title: string;
    readonly runs: number;
    readonly steps: readonly StepName[];
    readonly hasPlan: boolean;
  }[];
  readonly builds: readonly string[];
  readonly people: readonly {
    readonly person: number;
    readonly name: string | null;
    readonly code: string;
    readonly group: string | null;
    readonly runs: number;
  }[];
  readonly groups: readonly (string | null)[];
  readonly from: string | null;
  readonly to: string | null;
  readonly report: IntakeReport;
  readonly faults: LogFaults;
}

/** What was wrong with the logs. */
interface LogFaults {
  readonly lines: Readonly<Partial<Record<LineFault, number>>>;
  /** Events with numbers that the logs skip. */
  readonly missing: number;
  /** Runs that are marked for any of it in the list of runs. */
  readonly marked: number;
}

/** What belongs to every question. */
export interface Terms {
  readonly filter: Filter;
  /** People by code instead of by name. */
  readonly codes: boolean;
  readonly language: Language;
}

interface Questions {
  readonly overview: object;
  readonly steps: { readonly procedure: string; readonly reference: string | null };
  readonly fasteners: { readonly procedure: string; readonly step: string };
  readonly people: object;
  /** `drawn`: for how many people the curve is laid out point by point; 0 is all of them. */
  readonly learning: { readonly procedure: string; readonly aim: number | null; readonly drawn: number };
  /** Only so many people, those with the cells farthest from what is expected; 0 asks for all. */
  readonly heat: { readonly procedure: string; readonly most: number };
  readonly groups: object;
  readonly fair: { readonly procedure: string; readonly terms: FairTimeTerms };
  readonly orders: { readonly procedure: string };
  /** `last` 0 asks for all. */
  readonly runs: {
    readonly first: number;
    readonly last: number;
    /** Only those of one procedure, or null. */ readonly procedure: string | null;
  };
  readonly run: { readonly job: string };
  readonly pair: { readonly jobs: readonly [string, string] };
  readonly sheet: { readonly person: number };
}

export interface Answers {
  readonly overview: Overview;
  readonly steps: StepsAnswer;
  readonly fasteners: Fasteners & { readonly name: StepName | null };
  readonly people: {
    readonly people: readonly PersonMeasures[];
    readonly holds: readonly HoldLeftOut[];
    readonly months: readonly MonthPace[];
  };
  readonly learning: Learning | null;
  readonly heat: { readonly map: HeatMap; readonly stuck: readonly Stuck[]; readonly of: number } | null;
  readonly groups: readonly GroupComparison[];
  readonly fair: FairTimes | null;
  readonly orders: Orders | null;
  readonly runs: { readonly lines: readonly RunLine[]; readonly of: number };
  readonly run: { readonly run: Timeline; readonly called: string } | null;
  readonly pair: { readonly first: Timeline; readonly second: Timeline; readonly called: readonly [string, string] } | null;
  readonly sheet: FeedbackSheet | null;
}

export interface StepsAnswer {
  readonly procedure: string;
  readonly title: string;
  readonly runs: number;
  readonly steps: readonly StepMeasures[];
  readonly hard: readonly HardStep[];
  /** The run that the others are set beside: the one asked for, or the signed one nearest to the median. */
  readonly reference: {
    readonly job: string;
    readonly called: string;
    readonly number: number;
    readonly day: string;
    readonly times: readonly { readonly step: number; readonly active: number }[];
  } | null;
}

export type View = keyof Answers;
export type Question<Asked extends View = View> = { readonly [Name in Asked]: { readonly view: Name } & Questions[Name] }[Asked];

/**
 * The review of one set of logs. Answers are computed from the columns; the latest are kept, with what they rest on, until the trainer's notes
 * change: people go to and fro between a filter and all runs, and between views of one filter.
 */
export interface Review {
  readonly facts: () => Facts;
  readonly takeNotes: (notes: TrainerNotes) => void;
  ask<Asked extends View>(question: Question<Asked>, terms: Terms): Answers[Asked];
}

export function makeReview({ logbook, duplicates, forked, missing }: Settled, report: IntakeReport): Review {
  let excluded: ReadonlySet<string> = new Set();
  let ratings: ReadonlyMap<string, number> = new Map();
  let codes: ReadonlyMap<string, string> = new Map();
  const seen = peopleSeen(logbook);
  const askings = new Map<string, Asking>();
  const known = new Map<string, Answers[View]>();
  takeNotes(noNotes);

  function takeNotes(notes: TrainerNotes): void {
    askings.clear();
    known.clear();
    const runs = Object.entries(notes.runs);
    excluded = new Set(runs.filter(([, note]) => note.excluded !== null).map(([job]) => job));
    ratings = new Map(runs.flatMap(([job, { rating }]) => (rating === null ? [] : [[job, rating] as const])));
    codes = assignCodeNames(
      seen.flatMap(({ name, group }) => (name === null ? [] : [{ name, group }])),
      notes.codeNames,
    );
  }

  const codeOf = (name: string): string => codes.get(name) ?? name;

  /** The same one for the same terms, so that what was worked out of it is not worked out again. */
  function asking(terms: Terms): Asking {
    return kept(askings, JSON.stringify(terms), mostAskings, () => newAsking(terms));
  }

  function newAsking({ filter, codes: byCode, language }: Terms): Asking {
    const words = reviewWords(language);
    const nameOf = (person: number): string => {
      const name = logbook.people[person] ?? null;
      return name === null ? words.nobody : byCode ? codeOf(name) : name;
    };
    return { logbook, selection: selectRuns(logbook, filter, excluded), ratings, nameOf, words };
  }

  function procedureOf(id: string): number | null {
    const index = logbook.procedures.findIndex((procedure) => procedure.id === id);
    return index < 0 ? null : index;
  }

  /** Restricted to one procedure, for what can only be told of one. */
  const within = (terms: Terms, procedure: string): Terms => ({ ...terms, filter: { ...terms.filter, procedures: [procedure] } });

  const letsThrough = ({ filter: { procedures } }: Terms, procedure: string): boolean =>
    procedures.length === 0 || procedures.includes(procedure);

  const answers: { readonly [Name in View]: (question: Question<Name>, terms: Terms) => Answers[Name] } = {
    overview: (_, terms) => overview(asking(terms)),
    steps: ({ procedure, reference }, terms) => stepsAnswer(asking(within(terms, procedure)), procedure, reference),
    fasteners({ procedure, step }, terms) {
      const place = logbook.steps.findIndex((one) => one.id === step && logbook.procedures[one.procedure]?.id === procedure);
      if (place < 0) return { fasteners: [], order: 'usual', name: null };
      return { ...fasteners(asking(within(terms, procedure)), place), name: stepName(logbook, place) };
    },
    people(_, terms) {
      const asked = asking(terms);
      return { people: peopleMeasures(asked), holds: holdsLeftOut(asked), months: paceByMonth(asked) };
    },
    learning({ procedure, aim, drawn }, terms) {
      const index = procedureOf(procedure);
      if (index === null) return null;
      return learning(asking(within(terms, procedure)), index, aim, { drawn: drawn === 0 ? Infinity : drawn });
    },
    heat({ procedure, most }, terms) {
      const index = procedureOf(procedure);
      if (index === null) return null;
      const asked = asking(letsThrough(terms, procedure) ? terms : within(terms, procedure));
      const heat = heatOf(asked, index);
      return { map: heatMap(asked, heat, most), stuck: stuckPeople(asked, heat), of: heat.people.length };
    },
    groups: (_, terms) => compareGroups(peopleMeasures(asking(terms))),
    fair({ procedure, terms: fair }, terms) {
      const index = procedureOf(procedure);
      return index === null ? null : fairTimes(asking(within(terms, procedure)), index, fair);
    },
    orders({ procedure }, terms) {
      const index = procedureOf(procedure);
      return index === null ? null : orders(asking(within(terms, procedure)), index);
    },
    runs({ first, last, procedure }, terms) {
      const own = procedure === null ? terms : within(terms, procedure);
      const everyOne = selectRuns(logbook, own.filter, new Set());
      return runList(asking(own), everyOne, first, last === 0 ? Infinity : last);
    },
    run({ job }, terms) {
      const run = runOfJob(logbook, job);
      if (run === null) return null;
      const laid = timeline(logbook, run);
      return { run: laid, called: asking(terms).nameOf(laid.person) };
    },
    pair({ jobs }, terms) {
      const [one, other] = jobs.map((job) => runOfJob(logbook, job));
      if (one === null || one === undefined || other === null || other === undefined) return null;
      const first = timeline(logbook, one);
      const second = timeline(logbook, other);
      const { nameOf, words } = asking(terms);
      const called = (run: Timeline): string => words.personRun(nameOf(run.person), run.number);
      return { first, second, called: [called(first), called(second)] };
    },
    sheet: ({ person }, terms) => feedbackSheet(asking({ ...terms, filter: { ...terms.filter, people: [] } }), person),
  };

  return {
    facts: () => factsOf(logbook, seen, codeOf, report, { duplicates, forked, missing }),
    takeNotes,
    ask<Asked extends View>(question: Question<Asked>, terms: Terms): Answers[Asked] {
      // The question's view picks the one that answers it; the compiler cannot follow a union through a lookup.
      const answer = answers[question.view] as (question: Question<Asked>, terms: Terms) => Answers[Asked];
      return kept(known, JSON.stringify([question, terms]), mostAnswers, () => answer(question, terms)) as Answers[Asked];
    },
  };
}

/** How many filters are remembered with what was worked out under them, and how many answers: megabytes each with millions of events. */
const mostAskings = 3;
const mostAnswers = 8;

/** What is kept under the key, or made and kept: the one that was asked for longest ago goes first. */
function kept<Value>(values: Map<string, Value>, key: string, most: number, make: () => Value): Value {
  const value = values.get(key) ?? make();
  values.delete(key);
  values.set(key, value);
  for (const oldest of values.keys()) {
    if (values.size <= most) break;
    values.delete(oldest);
  }
  return value;
}

function stepsAnswer(asking: Asking, procedure: string, wanted: string | null): StepsAnswer {
  const { logbook, selection } = asking;
  const { runs, cells } = logbook;
  const steps = stepMeasures(asking);
  const reference = (wanted === null ? null : runOfJob(logbook, wanted)) ?? nearestToMedian(asking);
  const times: { step: number; active: number }[] = [];
  if (reference !== null) {
    for (let cell = runs.firstCell[reference] ?? 0; cell < (runs.firstCell[reference + 1] ?? 0); cell++)
      if (cells.ended[cell] === 1) times.push({ step: cells.step[cell] ?? 0, active: (cells.active[cell] ?? 0) / 1000 });
  }
  return {
    procedure,
    title: logbook.procedures.find(({ id }) => id === procedure)?.title ?? procedure,
    runs: selection.count,
    steps,
    hard: hardSteps(steps),
    reference:
      reference === null
        ? null
        : {
            job: runs.job[reference] ?? '',
            called: asking.nameOf(runs.person[reference] ?? 0),
            number: runs.number[reference] ?? 0,
            day: localDay(runs.begun[reference] ?? 0, runs.offset[reference] ?? 0),
            times,
          },
  };
}

function nearestToMedian(asking: Asking): number | null {
  let nearest: number | null = null;
  let distance = Infinity;
  for (const [run, pace] of paceOfRuns(asking).entries()) {
    const off = Math.abs(Math.log(pace));
    if (off < distance) {
      distance = off;
      nearest = run;
    }
  }
  return nearest;
}

interface Seen {
  readonly person: number;
  readonly name: string | null;
  readonly group: string | null;
  readonly runs: number;
}

function peopleSeen(logbook: Logbook): readonly Seen[] {
  const own = logbook.people.map((): number[] => []);
  for (let run = 0; run < logbook.runs.count; run++) own[logbook.runs.person[run] ?? 0]?.push(run);
  return logbook.people.flatMap((name, person) => {
    const list = own[person] ?? [];
    return list.length === 0 ? [] : [{ person, name, group: groupOf(logbook, list), runs: list.length }];
  });
}

function factsOf(
  logbook: Logbook,
  seen: readonly Seen[],
  codeOf: (name: string) => string,
  report: IntakeReport,
  settled: Omit<Settled, 'logbook'>,
): Facts {
  const { runs } = logbook;
  let first = Infinity;
  let last = -Infinity;
  const perProcedure = logbook.procedures.map(() => 0);
  for (let run = 0; run < runs.count; run++) {
    const local = (runs.begun[run] ?? 0) + (runs.offset[run] ?? 0) * 60_000;
    first = Math.min(first, local);
    last = Math.max(last, local);
    perProcedure[runs.procedure[run] ?? 0] = (perProcedure[runs.procedure[run] ?? 0] ?? 0) + 1;
  }
  return {
    runs: runs.count,
    events: logbook.events.count,
    procedures: logbook.procedures.map(({ id, title, steps, written }, index) => ({
      id,
      title,
      runs: perProcedure[index] ?? 0,
      steps: steps.map((step) => stepName(logbook, step)),
      hasPlan: written.length > 0,
    })),
    builds: [...logbook.builds].sort(),
    people: seen
      .map((one) => ({ ...one, code: one.name === null ? '' : codeOf(one.name) }))
      .sort((one, other) => (one.code < other.code ? -1 : 1)),
    groups: logbook.groups.filter((group, index) => group !== null || runs.group.includes(index)),
    from: runs.count === 0 ? null : localDay(first, 0),
    to: runs.count === 0 ? null : localDay(last, 0),
    report,
    faults: faultsIn(logbook, report, settled),
  };
}

function faultsIn(logbook: Logbook, report: IntakeReport, { duplicates, forked, missing }: Omit<Settled, 'logbook'>): LogFaults {
  const lines = { ...report.faults };
  if (duplicates > 0) lines.duplicate = (lines.duplicate ?? 0) + duplicates;
  if (forked > 0) lines.forked = (lines.forked ?? 0) + forked;
  return { lines, missing, marked: logbook.runs.faults.reduce((sum, bits) => sum + (bits === 0 ? 0 : 1), 0) };
}

/** What was wrong with the logs, in sentences; none when nothing was. */
export function faultSentences({ lines, missing, marked }: LogFaults, words: ReviewWords): readonly string[] {
  const sentences = (Object.keys(words.lineFault) as LineFault[]).flatMap((fault) => {
    const count = lines[fault] ?? 0;
    return count === 0 ? [] : [words.lineFaultSentence(count, words.lineFault[fault])];
  });
  if (missing > 0) sentences.push(words.eventsMissing(missing));
  if (marked > 0) sentences.push(words.runsMarked(marked));
  return sentences;
}
