import { reviewWords } from '../../../review/words/words.ts';

const { whole, percent, duration } = reviewWords('en');

const many = (count: number, one: string, several = `${one}s`): string => `${whole(count)} ${count === 1 ? one : several}`;

/** What the review's screens say in English. What the review finds is worded in `src/review/words`. */
export const en = {
  views: {
    label: 'Views of the review',
    glance: 'At a glance',
    steps: 'Steps',
    people: 'People',
    learning: 'Learning',
    orders: 'Order',
    runs: 'Runs',
    fair: 'Fair time',
    groups: 'Groups',
    sheet: 'Feedback',
    logs: 'Logs',
  },
  reckoning: 'Reckoning…',
  print: 'Print',
  none: 'None',
  all: 'All',
  logs: {
    label: 'Logs',
    empty: 'No logs yet.',
    about:
      'Finished and open jobs of this device show here by themselves. Add the logs of your people: files that the app has exported as JSON Lines, as many as you like, or a whole folder. They stay on this device.',
    failed: (message: string) => `The logs could not be read: ${message}`,
    readingThem: 'Reading the logs…',
    growing: (lines: number) => `Growing the workshop: ${many(lines, 'line')} so far…`,
    reading: (lines: number, share: number) => `Reading: ${many(lines, 'line')}, ${Math.round(share * 100)} %`,
    add: 'Add logs',
    addFolder: 'Add a folder',
    demonstrate: 'Look at an invented workshop',
    invented: 'Invented for demonstration: nobody in this workshop exists, and nothing in it was measured.',
    back: 'Back to my logs',
    noRun: 'No run could be read from these logs.',
    summary: (logs: number, lines: number, events: number, runs: number) =>
      `${many(logs, 'log')}, ${many(lines, 'line')}, ${many(events, 'event')} of ${many(runs, 'run')}.`,
    computed: 'Every event’s hash was computed anew and compared.',
    compared:
      'Each event’s hash was compared with the one that the next event names; they were not computed anew, since the logs are large.',
    whole: 'Nothing was wrong with them.',
    faulty: 'Something was wrong with some lines; the rest is used.',
    look: 'Look',
    everyFile: 'Every file',
    examplesTitle: 'Lines that something was wrong with, the first of them',
    filesTitle: 'Files read',
    file: 'File',
    line: 'Line',
    fault: 'What',
    lines: 'Lines',
    used: 'Events used',
  },
  notes: {
    title: 'Your notes',
    about: (runs: number) =>
      `Notes, ratings and exclusions of ${many(runs, 'run')}, and the code names, are kept on this device, apart from the logs.`,
    save: 'Save my notes as a file',
    take: 'Take in notes from a file',
    taken: 'The notes were taken in. Where both had one of the same run, the file’s stands.',
    notNotes: (file: string) => `${file} holds no notes of the review. Expected: a file that “Save my notes as a file” has made.`,
    notRead: 'Your notes on runs could not be read. What you write now may replace them.',
    notStored: 'Your notes could not be stored. They are kept only until this page is closed.',
  },
  filters: {
    label: 'Filters',
    open: 'Filters',
    close: 'Close the filters',
    allRuns: 'All runs',
    codes: 'Code names',
    procedure: 'Procedure',
    allProcedures: 'All procedures',
    build: 'Build',
    allBuilds: 'All builds',
    group: 'Group',
    allGroups: 'All groups',
    person: 'Person',
    everybody: 'Everybody',
    from: 'From day',
    to: 'To day',
    skipFirst: 'Leave out everybody’s first runs',
    inBuild: (build: string) => `build ${build}`,
    inGroup: (group: string) => `group ${group}`,
    since: (day: string) => `from ${day}`,
    until: (day: string) => `to ${day}`,
    without: (runs: number) => `without everybody’s first ${runs}`,
    shown: 'Procedure shown',
    withRuns: (title: string, runs: number) => `${title} (${many(runs, 'run')})`,
  },
  table: {
    behind: 'The figures behind it',
    more: (rows: number) => `Show more of ${whole(rows)} rows`,
    csv: 'Save as CSV',
  },
  glance: {
    count: (runs: number, signed: number, people: number, from: string, to: string) =>
      `${many(runs, 'run')}, ${whole(signed)} signed off, by ${many(people, 'person', 'people')}, from ${from} to ${to}.`,
    standsOut: 'What stands out',
    kinds: {
      'hold point': 'Hold point left out',
      'hard step': 'Hard step',
      stuck: 'Stuck',
      group: 'Groups differ',
      'fast learner': 'Learns fast',
      'slow learner': 'Learns slowly',
    },
    look: 'Look',
    lookInto: (finding: string) => ` into it: ${finding}`,
    time: 'Where does the time go?',
    timeTitle: (steps: number) => `The ${many(steps, 'step')} that take the most time, as shares of all time at work`,
    hard: 'hard',
    stuck: 'Who is stuck where?',
    better: 'Is it getting better?',
    monthsTitle: 'How long runs took, month by month, at equal procedure and build',
    monthsNote: 'Bars show where the month’s median may lie (95 %). Hollow: too few runs to say.',
    monthsAxis: '↑ longer than the median of all',
    months: ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
    groups: 'Group against group',
    moreGroups: (count: number) => `${whole(count)} more comparisons stand under Groups.`,
  },
  steps: {
    title: (runs: number, longest: string, median: number, beside: string) =>
      `How long each step takes in ${many(runs, 'run')}: ${longest} longest, with a median of ${duration(median)}${beside}`,
    titleWithout: (runs: number) => `No step was carried out in ${many(runs, 'run')}`,
    beside: (who: string, run: number, day: string) => `; beside ${who}’s run ${run} of ${day}`,
    note: 'Boxes hold the middle half of the times, the upright stroke is the median, the thick bar where the true median may lie (95 %); a broken outline means too few times to say. Dots are outliers, the orange diamond is the reference run. Equal distances are equal ratios.',
    reference: 'Reference run',
    nearest: 'The one nearest to the median',
    lookInto: 'Look into a step',
    hard: (ratio: string) => `Makes ${ratio} times the trouble that its amount of work leads one to expect.`,
    everyFastener: 'Every fastener',
    nobody: 'Nobody has carried it out in these runs.',
    time: (median: number, count: number, lower: number, upper: number, ninetieth: number) =>
      `Median ${duration(median)} in ${many(count, 'run')}; half of all between ${duration(lower)} and ${duration(upper)}, one in ten over ${duration(ninetieth)}.`,
    tooFew: 'Too few runs to say where the true median lies.',
    interval: (low: number, high: number) => `The true median lies between ${duration(low)} and ${duration(high)} (95 %).`,
    counts: (counted: {
      readonly questions: number;
      readonly kinds: string;
      readonly repeats: number;
      readonly misheard: number;
      readonly stepBacks: number;
      readonly undos: number;
      readonly stops: number;
      readonly skips: number;
      readonly holdsFailed: number;
    }) =>
      `${many(counted.questions, 'question')}${counted.kinds === '' ? '' : ` (${counted.kinds})`}, ${many(counted.repeats, 'repeat')}, ${counted.misheard} misheard, ${many(counted.stepBacks, 'step-back')}, ${many(counted.undos, 'undo', 'undos')}, ${many(counted.stops, 'stop')}, ${many(counted.skips, 'skip')}, ${many(counted.holdsFailed, 'failed hold')}.`,
    share: (time: number, spread: number | null) =>
      `It takes ${percent(time)} of the time at work${spread === null ? '' : ` and explains ${percent(spread)} of the spread of the totals`}.`,
    tip: (median: string, count: number, lower: string, upper: string) =>
      `median ${median} (${many(count, 'time')})\nquartiles ${lower} and ${upper}`,
  },
  people: {
    tooFew: 'Nobody has three runs of it yet: too few to set a person against a step.',
    nobodyStuck: (people: number) => `Of ${many(people, 'person', 'people')} nobody is slow at a step beyond their own pace`,
    stuck: (who: readonly (readonly [who: string, step: string])[], more: number, people: number) =>
      `Clearly slower than to be expected among ${many(people, 'person', 'people')}: ${who.map(([name, step]) => `${name} at step ${step}`).join(', ')}${more > 0 ? ` and ${more} more` : ''}`,
    some: (shown: number) => ` (the ${shown} who are furthest from what is expected are drawn; the table has everybody)`,
    note: 'Each field sets a person’s latest runs of a step against what their own pace and the step’s length lead one to expect. Orange with a figure of 1.4 or more: slower than that. Blue: quicker. Empty: fewer than three runs.',
    stuckHead: 'Slow beyond their own pace, and clearer than chance',
    stuckLabel: 'Stuck',
    everybody: 'Everybody’s figures',
    everybodyLabel: 'Everybody',
    holds: 'Hold points gone by without a yes',
    noHolds: 'None in these runs.',
    feedback: 'Feedback for one person',
    legend: { half: 'half', expected: 'as expected', twice: 'twice' },
    axis: 'step →',
    tip: (median: string, expected: string, runs: number) => `${median}, expected ${expected} (${many(runs, 'run')})`,
  },
  learning: {
    aim: 'Aim for a whole run, in minutes',
    none: 'No signed run of it in this selection.',
    title: (there: number, people: number, aim: number) =>
      `${whole(there)} of ${many(people, 'person', 'people')} have come to the aim of ${duration(aim)} on their curve`,
    some: (shown: number) => ` (the first ${shown} are drawn; the table has everybody)`,
    note: (hasOwnAim: boolean) =>
      `Minutes at work against the number of the run. Points are runs, the line is the fitted curve, the band where it may lie (95 %), the broken line the aim${hasOwnAim ? '' : ' (what the quickest quarter of all runs kept)'}. The percentage is what each doubling of runs brings the time to.`,
    together: (rate: number, low: number, high: number) =>
      `Together: each doubling of runs brings the time to ${percent(rate)} (between ${percent(low)} and ${percent(high)}), each person at a level of their own. Unit model, fitted to the logarithms.`,
    few: (people: number) => `${many(people, 'person has', 'people have')} fewer than five runs: such a curve can still turn anywhere.`,
    whenReached: 'When the aim is reached, person by person',
    tooFew: 'too few runs for a curve.',
    everyRun: 'Every run behind the curves',
    axis: 'run',
  },
  orders: {
    none: 'No run of it in this selection.',
    title: (straight: number, runs: number, isWritten: boolean) =>
      `${whole(straight)} of ${many(runs, 'run')} went straight through ${isWritten ? 'the written order' : 'the usual order (no plan came with these logs)'}`,
    note: 'Steps from top to bottom in that order. Blue arcs on the right go past steps, orange ones on the left go back, dotted ones go into a side procedure or return from it. Thicker is more often; the commonest carry their number. Open dots are steps of side procedures.',
    back: '← back',
    past: 'past steps →',
    pastShort: 'past →',
    left: (times: number) => `left ${whole(times)}×`,
  },
  runs: {
    label: 'Runs',
    pick: 'Pick a run to see it laid out in time, or two to set them side by side.',
    away: (runs: number): string => (runs === 2 ? 'Put both away' : 'Put it away'),
    head: (runs: number) => `${many(runs, 'run')}, the newest first`,
    newer: 'Newer',
    older: 'Older',
    part: (first: number, last: number, of: number) => `${whole(first)} to ${whole(last)} of ${whole(of)}`,
    figures: 'The figures of these runs',
    show: 'Show',
    shown: 'Shown',
    showRun: (run: number, who: string) => ` run ${run} of ${who}`,
    remarks: 'Remarks',
    excluded: (reason: string) => `left out: ${reason}`,
    outlier: 'outlier',
    rated: (rating: string) => `rated ${rating}`,
    gone: 'This run is not in the logs any more.',
    bothGone: 'These runs are not in the logs any more.',
    one: 'One run',
    two: 'Two runs',
    notWhole: (faults: string) => `The log of this run is not whole: ${faults}.`,
    oneTitle: (who: string, run: number, procedure: string, build: string, active: number, paused: number) =>
      `${who}, run ${run} of “${procedure}”, build ${build}: ${duration(active)} at work, ${duration(paused)} paused`,
    oneNote: (when: string, ending: string) => `${when}, ${ending}. Bars are work on a step, broken outlines waits, the grey bands pauses.`,
    said: 'What was said and done, in turn',
    differ: 'These are runs of two procedures: only steps of the same procedure can be set beside each other.',
    twoTitle: (one: string, other: string, difference: number) =>
      `${other} took ${duration(Math.abs(difference))} ${difference >= 0 ? 'longer' : 'less'} at work than ${one}`,
    twoNote: (one: string, other: string) =>
      `Blue dots are ${one}, orange squares ${other}, minutes at work on each step. Above, both as strips of time on one scale: shades are steps, gaps pauses, the fine strokes what was asked or misheard.`,
    strips: (one: string, other: string) => `Both runs as strips of time: ${one} and ${other}`,
    minutes: 'minutes from the start →',
    minutesAtWork: 'minutes at work →',
    pause: 'pause',
    skipped: 'skipped',
    around: 'before and after',
    notes: 'Your notes on this run',
    note: 'Note',
    rating: 'Pace, as you judged it',
    notRated: 'Not rated',
    ratingText: (rating: number) =>
      `${Math.round(rating * 100)} %${rating === 1 ? ', normal' : rating < 1 ? ', slower than normal' : ', quicker than normal'}`,
    reason: 'Reason to leave it out',
    exclude: 'Leave this run out',
    include: 'Let it count again',
  },
  fair: {
    allowance: 'Allowance for rest and small delays, %',
    basis: 'The allowance is a share of',
    job: 'the job',
    day: 'the working day',
    precision: 'Wanted to within, %',
    confidence: 'With a confidence of',
    withoutOutliers: 'Leave outliers out',
    none: 'No step of it was carried out in this selection.',
    total: (total: number) => `A fair time for the whole job: ${duration(total)}.`,
    unsure: 'Some steps were seen only once: nothing can be said of how far to trust it.',
    enough: 'Every step has been seen often enough for that precision.',
    missing: (count: number) =>
      `For that precision at every step, ${many(count, 'more observation')} of the most unsteady step would be needed.`,
    firstRuns:
      'These times include everybody’s first runs. For a time that is fair to those who can do the job, leave the first ones out with the filters, and rate runs where the pace was plainly not normal.',
  },
  groups: {
    none: 'There are no two groups with signed runs in this selection.',
    noneClear: (one: string, other: string) => `Between ${one} and ${other} no difference shows that would be clearer than chance`,
    several: (clear: number, pairs: number) =>
      `${whole(clear)} of ${many(pairs, 'pair')} of groups differ more clearly than chance would have them`,
    note: 'Everybody’s pace, group by group: a dot is a person, the upright bar the group’s median.',
    small: (people: number) =>
      `A group of ${people}: only a very large difference could show, and none showing does not mean that there is none.`,
    axis: 'pace: 1 is everybody’s median, right is longer →',
  },
  sheet: {
    for: 'Feedback for',
    noRun: 'No run of this person fits the filters.',
    title: (who: string) => `Feedback for ${who}`,
    span: (runs: number, from: string, to: string) => `${many(runs, 'run')} from ${from} to ${to}`,
    read: 'Read aloud',
    stop: 'Stop reading',
    noVoice: 'There is no voice here just now. The sheet says the same in writing.',
    good: 'What goes well',
    tooLittle: 'Too little to say yet.',
    toDo: 'What to work on',
    curves: 'How it has gone',
    curvesNote: 'Minutes at work against the number of the run. The broken line is the aim: what the quickest quarter of all runs kept.',
    curve: (title: string, sentence: string) => `${title}: minutes at work by run. ${sentence}`,
    agreed: 'What we agreed',
    signed: 'Date and names',
  },
};

export type PageWords = typeof en;
