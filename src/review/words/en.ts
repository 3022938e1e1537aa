import { figuresWith, partsOfDuration } from '../wording.ts';

const { whole, number, trimmed, duration, clock, percent } = figuresWith('.', ',', 'unknown');

const many = (count: number, one: string, several = `${one}s`): string => `${whole(count)} ${count === 1 ? one : several}`;

/** "a", "a and b", "a, b and c". */
const listed = (items: readonly string[]): string =>
  items.length <= 1 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1) ?? ''}`;

/** "18 % longer", "6 % shorter", from a ratio. */
const longerOrShorter = (ratio: number): string => (ratio >= 1 ? `${percent(ratio - 1)} longer` : `${percent(1 - ratio)} shorter`);

/** How often chance does it, as it is fit to be told: never more exact than it is. */
function chance(p: number): string {
  if (p < 0.001) return 'less than once in 1,000 times';
  if (p < 0.01) return `about once in ${whole(Math.round(1 / p / 10) * 10)} times`;
  if (p < 0.2) return `about once in ${Math.round(1 / p)} times`;
  return `about ${Math.round(p * 100)} times in 100`;
}

function spokenDuration(seconds: number): string {
  const parts = partsOfDuration(seconds);
  const said = [many(parts.hours, 'hour'), many(parts.minutes, 'minute'), many(parts.seconds, 'second')].filter(
    (part) => !part.startsWith('0 '),
  );
  return said.length === 0 ? 'no time' : said.join(' ');
}

const questions: Readonly<Record<string, string>> = {
  torque: 'torque',
  socket: 'socket',
  'how-many': 'how many',
  'how-many-left': 'how many left',
  where: 'where',
  why: 'why',
  caution: 'cautions',
  tools: 'tools',
  'which-step': 'which step',
  'which-next': 'which next',
  'time-left': 'time left',
  help: 'help',
};

const reasons: Readonly<Record<string, string>> = {
  'no-part': 'no part',
  'no-tool': 'no tool',
  'not-fitted': 'not fitted',
  'cannot-reach': 'cannot reach',
  damaged: 'damaged',
  'told-to': 'told to',
  'do-later': 'do later',
  other: 'other',
};

/** What the review itself says in English: its findings, its sheet for one person, its tables. */
export const en = {
  whole,
  number,
  trimmed,
  duration,
  clock,
  percent,
  listed,
  longerOrShorter,
  runs: (n: number) => many(n, 'run'),
  people: (n: number) => many(n, 'person', 'people'),
  times: (n: number) => many(n, 'time'),
  quoted: (text: string) => `“${text}”`,
  nobody: 'nobody named',
  noGroup: 'no group',
  /** A kind of question, by its intent. */
  question: (intent: string) => questions[intent] ?? intent.replaceAll('-', ' '),
  reason: (reason: string) => reasons[reason] ?? reason,
  ending: { signed: 'signed', 'left open': 'left open', 'not finished': 'not finished' },
  how: { done: 'done', skipped: 'skipped', 'passed over': 'passed over', 'not finished': 'not finished' },
  mark: {
    asked: 'question',
    repeat: 'asked to repeat',
    misheard: 'misheard',
    refused: 'refused',
    note: 'note',
    undone: 'undone',
    back: 'looked back',
    stopped: 'stop',
    'hold failed': 'hold point failed',
    'hold passed': 'hold point passed',
    fastener: 'fastener',
    'left out': 'left out',
    skipped: 'skipped',
    restart: 'the app was started anew',
  },
  lineFault: {
    'not-json': 'not readable, left out',
    'too-long': 'too long for an event, left out',
    'wrong-shape': 'not an event, left out',
    'other-version': 'in another version of the format, left out',
    'unknown-event': 'of a kind this version does not know; only the time is used',
    duplicate: 'already read, left out',
    forked: 'another event under the same number; the first is used',
    changed: 'changed after writing (the hash does not fit); used, and the run is marked',
    'too-many-names': 'one name too many, left out',
  },
  lineFaultSentence: (n: number, fault: string) => `${many(n, 'line')}: ${fault}.`,
  lines: (n: number) => many(n, 'line'),
  eventsMissing: (n: number) => `${many(n, 'event is', 'events are')} missing from the middle or the beginning of runs.`,
  runsMarked: (n: number) => `${many(n, 'run is', 'runs are')} marked for it in the list of runs; they are used as far as they go.`,
  runFault: {
    missing: 'lines are missing',
    unlinked: 'a line does not follow on the one before',
    forked: 'two lines claim one number',
    clock: 'a clock ran backward',
    changed: 'a line was changed',
  },
  outlierRule:
    'A time is an outlier when its logarithm lies more than one and a half interquartile ranges outside the quartiles, judged only from eight times on.',

  overview: {
    noRun: 'No run fits these filters.',
    fewSigned: (signed: number) =>
      `Only ${many(signed, 'signed run')}: too few for an interval around a median. Take everything here as a first impression.`,
    someSigned: (signed: number) => `${signed} signed runs: the intervals are wide. A difference has to be large to show.`,
    fewEach: (people: number, few: number) =>
      `${many(people, 'person has', 'people have')} fewer than ${few} signed runs: nothing firm can be said of them one by one.`,
    leftOut: (runs: number) => `${many(runs, 'run')} left out by you.`,
    noTime: 'No time on steps yet.',
    time: (share: number, steps: readonly string[]) =>
      `${percent(share)} of all time at work goes into ${many(steps.length, 'step')}: ${listed(steps)}.`,
    nobodyStuck: 'Nobody stands out at any step beyond their own pace.',
    stuck: (people: number, steps: number) =>
      `${many(people, 'person is', 'people are')} slow at ${many(steps, 'step')} beyond their own pace and the step’s length, in their latest runs.`,
    oneMonth: 'One month or less: too short to say whether it gets better.',
    trend: (last: string, first: string, ratio: number) =>
      `A run in ${last} was ${longerOrShorter(ratio)} than one in ${first}, at equal procedure and build.`,
    even: (last: string, first: string) => `A run in ${last} took as long as one in ${first}, at equal procedure and build.`,
    tooFewInMonth: 'One of the two months has too few runs to say more.',
    mayBeChance: 'The intervals of the two months overlap, so this may be chance.',
    rate: (rate: number, people: number) =>
      `At each doubling of somebody’s runs the time comes down to ${percent(rate)} (middle of ${many(people, 'person', 'people')}).`,
    nothing: 'Nothing beyond what chance would do.',
  },

  finding: {
    hold: (who: string, step: string, left: number, of: number, othersLeft: number, othersOf: number) =>
      `${who} went by the hold point of ${step} in ${whole(left)} of ${many(of, 'run')}.${
        othersOf === 0 ? '' : ` Of the others’ ${othersOf} runs it was ${othersLeft === 0 ? 'never' : `${othersLeft} times`} left out.`
      }`,
    hard: (step: string, trouble: number, ratio: number, spread: number | null) =>
      `${step} is hard: ${trimmed(trouble, 1)} questions, repeats and second looks a run, ${trimmed(ratio, 1)} times what its amount of work leads one to expect.${
        spread === null ? '' : ` It explains ${percent(spread)} of the spread of the totals.`
      }`,
    stuck: (who: string, step: string, median: number, runs: number, expected: number) =>
      `${who} is stuck at ${step}: ${duration(median)} in the latest ${many(runs, 'run')}, where their own pace would give ${duration(expected)}.`,
    group: (slow: string | null, quick: string | null, ratio: { readonly ratio: number; readonly low: number; readonly high: number }) =>
      `${slow ?? 'No group'} takes ${longerOrShorter(ratio.ratio)} (${percent(ratio.low - 1)} to ${percent(ratio.high - 1)}) than ${quick ?? 'no group'}, person by person. That does not say why.`,
    learner: (who: string, isFast: boolean, rate: { readonly rate: number; readonly low: number; readonly high: number }, middle: number) =>
      `${who} learns far ${isFast ? 'faster' : 'more slowly'} than the others: each doubling of runs brings the time to ${percent(rate.rate)} (${percent(rate.low)} to ${percent(rate.high)}), against ${percent(middle)} in the middle.`,
  },

  groupSentence: (
    one: string | null,
    other: string | null,
    people: readonly [number, number],
    ratio: { readonly ratio: number; readonly low: number; readonly high: number } | null,
    superiority: number,
    p: number,
    isExact: boolean,
  ) => {
    const size =
      ratio === null
        ? ''
        : `, typically ${longerOrShorter(ratio.ratio)} (the data fit anything from ${longerOrShorter(ratio.low)} to ${longerOrShorter(ratio.high)})`;
    const pairs = `of two people picked from each, the one from ${one ?? 'no group'} takes longer ${Math.round(superiority * 100)} times in 100`;
    const test = `Were the groups alike, chance alone would give a difference this large ${chance(p)} (${isExact ? 'exact' : 'normal approximation to the'} rank-sum test on one figure a person)`;
    return `${one ?? 'No group'} against ${other ?? 'no group'}: ${many(people[0], 'person', 'people')} and ${people[1]}${size}; ${pairs}. ${test}. That does not say why.`;
  },

  aim: {
    notInSight: (aim: number) => `On this curve the aim of ${duration(aim)} is not in sight.`,
    farOff: (aim: number) => `On this curve the aim of ${duration(aim)} is too far off to say when it comes.`,
    reached: (aim: number) => `The aim of ${duration(aim)} is reached.`,
    comes: (aim: number, run: number, earliest: number, latest: number | null) =>
      `On this curve the aim of ${duration(aim)} comes at run ${run} (at the earliest ${earliest}, ${latest === null ? 'or much later' : `at the latest run ${latest}`}).`,
  },

  feedback: {
    fewRuns: (signed: number) => `${many(signed, 'signed run')} so far: too few to be sure of anything here.`,
    quicker: (ratio: number) => `Your latest runs were ${longerOrShorter(ratio)} than your first ones.`,
    holdsFailed: (count: number) =>
      `${many(count, 'time')} you answered no at a hold point and put it right. That is what hold points are for.`,
    sure: (step: string, median: number, expected: number) =>
      `You are sure at ${step}: ${duration(median)}, where your pace elsewhere would give ${duration(expected)}.`,
    asks: (perRun: number) => `You asked ${trimmed(perRun, 1)} questions a run. Keep asking when you are not sure.`,
    hold: (step: string, left: number, of: number) =>
      `You went by the hold point of ${step} in ${whole(left)} of ${many(of, 'run')}. It is there for safety: answer it every time, or say why it cannot be answered.`,
    stuck: (step: string, median: number, expected: number) =>
      `${step} takes you ${duration(median)}; your pace elsewhere would give ${duration(expected)}. Ask to be shown it once.`,
    nothing: 'Nothing stands out. Go on as you do.',
    tooFewForCurve: (runs: number) => `${many(runs, 'run')} so far: too few for a learning curve.`,
    curve: (run: number, time: number, rate: number, low: number, high: number) =>
      `Run ${run} took ${duration(time)}. Each doubling of runs brings the time to ${percent(rate)} (${percent(low)} to ${percent(high)}).${high >= 1 ? ' This may still be chance.' : ''}`,
    spokenHead: (who: string, runs: number) => `Feedback for ${who}, from ${many(runs, 'run')}.`,
    goodHead: 'What goes well.',
    toDoHead: 'What to work on.',
    latestTimes: 'Your latest times.',
    spokenTime: (title: string, time: number, run: number) => `${title}: ${spokenDuration(time)} in run ${run}.`,
    /** A line as a voice reads it well. */
    aloud: (line: string) =>
      line
        .replace(/[“”]/g, '')
        .replace(/(\d)\ss\b/g, '$1 seconds')
        .replace(/(\d)\smin\b/g, '$1 minutes')
        .replace(/(\d)\sh\b/g, '$1 hours')
        .replace(/\s%/g, ' percent'),
  },

  table: {
    seconds: (label: string) => `${label} (s)`,
    /** What spreadsheets in this language take apart when they open a file. */
    csv: { separator: ',', point: '.' },
    yes: 'yes',
    no: 'no',
    step: 'Step',
    what: 'What',
    runs: 'Runs',
    median: 'Median',
    from: 'From',
    to: 'To',
    lowerQuartile: 'Lower quartile',
    upperQuartile: 'Upper quartile',
    ninetieth: '90th centile',
    deviation: 'Standard deviation',
    person: 'Person',
    group: 'Group',
    procedure: 'Procedure',
    build: 'Build',
    run: 'Run',
    day: 'Day',
    job: 'Job',
    ended: 'Ended',
    pace: 'Pace',
    rate: 'Rate',
    aim: 'Aim',
    ratio: 'Ratio',
    timeAtWork: 'Time at work',
    atWork: 'At work',
    pauses: 'Pauses',
    waits: 'Waits',
    questions: 'Questions',
    repeats: 'Repeats',
    misheard: 'Misheard',
    refused: 'Refused',
    stepBacks: 'Step-backs',
    undos: 'Undos',
    stops: 'Stops',
    skips: 'Skips',
    failedHolds: 'Failed holds',
    leftOut: 'Fasteners left out',
    outliers: 'Outliers',
    interval: 'Between “from” and “to” the true median lies with at least 95 % confidence (order statistics). Empty: fewer than six times.',
    steps: {
      title: 'Every step: how long it takes and what happens at it',
      reference: 'Reference run',
      pausesMean: 'Pauses (mean)',
      waitsMedian: 'Waits (median)',
      askedFor: 'Asked for',
      timeShare: 'Share of time',
      spreadShare: 'Share of spread',
      note: 'Active time of runs that carried the step out; pauses and waits are apart.',
      negative: 'A negative share of the spread belongs to a step that is short where the whole run is long.',
    },
    fasteners: {
      title: 'Every fastener: how long it takes in each pass, and whether it was in its turn',
      pass: 'Pass',
      position: 'Position',
      tightened: 'Tightened',
      outOfOrder: 'Out of order',
      note: (isWritten: boolean) =>
        `The time runs from the last piece of work before it. Order is judged by the ${isWritten ? 'written' : 'usual'} one.`,
    },
    people: {
      title: 'Every person: pace, learning, questions',
      signed: 'Signed',
      firstPace: 'Pace at first',
      latestPace: 'Pace of late',
      learningRate: 'Learning rate',
      rateFrom: 'Rate from',
      rateTo: 'Rate to',
      questionsPerRun: 'Questions a run',
      repeatsPerRun: 'Repeats a run',
      misheardPerRun: 'Misheard a run',
      note: 'Pace: a run’s time against the median of all selected runs of the same procedure and build; 1.2 is a fifth longer. Learning rate: what each doubling of runs brings the time to (unit model, 95 % interval).',
    },
    learning: {
      title: 'Every person’s learning curve',
      first: 'First run on the curve',
      aimAtRun: 'Aim at run',
      earliest: 'Earliest',
      latest: 'Latest',
      note: 'Unit model: the time of run x is a·x^b, fitted to the logarithms; the rate 2^b is what each doubling of runs brings the time to. Empty: too few runs, or the aim is not in sight within a thousand.',
    },
    trials: { title: 'Every run behind the learning curves', curve: 'Curve' },
    heat: {
      title: 'Person against step: the time taken against the time to be expected',
      note: (latest: number) =>
        `Medians of each person’s latest ${latest} runs. 1 is what this person’s pace and this step’s length lead one to expect (median polish of the logarithms); 2 is twice that. Empty: fewer than three runs.`,
    },
    stuck: {
      title: 'Who is slow where, beyond their own pace',
      expected: 'Expected',
      questions: 'Questions and repeats',
      note: (latest: number) =>
        `In each person’s latest ${latest} runs. Shown when at least 1.4 times what is to be expected and 20 s more, and clearer than so many comparisons would throw up by chance (rank-sum, false discoveries held to 5 %).`,
    },
    groups: {
      title: 'Group against group, by one figure a person',
      people: 'People',
      medianPace: 'Median pace',
      against: 'Against',
      peopleThere: 'People there',
      paceThere: 'Median pace there',
      p: 'p, two-sided',
      test: 'Test',
      longer: 'Takes longer in pairs',
      exact: 'rank sum, exact',
      normal: 'rank sum, normal approximation',
      note: 'The figure of a person is the median pace of their runs: runs of one person are not independent of each other. A difference does not say why it is there.',
    },
    holds: {
      title: 'Hold points that were gone by without a yes',
      left: 'Left out',
      of: 'Of runs',
      othersLeft: 'Others left out',
      othersOf: 'Of others’ runs',
      standsOut: 'Stands out',
      note: 'p is the chance of so many, were the person like the others (Fisher’s exact test, one-sided). “Stands out” allows for the number of comparisons (false discoveries held to 5 %).',
    },
    fair: {
      title: 'A fair time for every step, and how far it can be trusted',
      observed: 'Observed',
      rated: 'Rated',
      mean: 'Mean',
      normal: 'Normal time',
      fair: 'Fair time',
      needed: 'Needed',
      missing: 'Still missing',
      withoutOutliers: 'Outliers left out',
      note: 'Observed × rating × allowance. Runs that nobody rated count as normal pace. The number needed is (z·s / (h·mean))², rounded up.',
    },
    orders: {
      title: 'Moves from step to step',
      fromWhat: 'From what',
      toWhat: 'To what',
      times: 'Times',
      kind: 'Kind',
      kinds: { onward: 'onward', ahead: 'ahead, past a step', back: 'back', aside: 'aside' },
      note: 'Onward: as written. Aside: into a side procedure or back from one.',
    },
    runList: { title: 'Every run', outlier: 'Outlier', log: 'Log' },
    months: {
      title: 'Pace month by month',
      month: 'Month',
      note: 'Pace: against the median of all selected runs of the same procedure and build; below 1 is quicker.',
    },
    timeline: {
      title: (who: string, run: number, procedure: string, when: string) => `${who}, run ${run} of ${procedure}, ${when}: step by step`,
      waiting: 'Waiting',
      paused: 'Paused',
    },
    marks: { title: 'What was said and done, in turn', after: 'After', words: 'Words' },
    pair: {
      title: (one: string, other: string) => `${one} beside ${other}, step by step`,
      difference: 'Difference',
    },
  },
  personRun: (who: string, run: number) => `${who}, run ${run}`,
};

export type ReviewWords = typeof en;
