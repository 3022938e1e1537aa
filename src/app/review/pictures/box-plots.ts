import { stepLabel } from '../../../review/questions/asking.ts';
import type { StepMeasures } from '../../../review/questions/step-measures.ts';
import type { StepsAnswer } from '../../../review/review.ts';
import type { Draw, PlotLibrary } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame, isNarrow, lettersWithin, tickText, ticksWithin } from './shared.ts';

/** So many steps are one drawing: all of a long procedure's at once would hold the page up. */
const stepsAtOnce = 12;

/** A box a step on a logarithmic scale: quartiles, median with its interval, whiskers, outliers, and the reference run's own time. */
export function boxPlots(answer: StepsAnswer, wording: Wording): Draw {
  return function* (plot, width) {
    const boxes = boxesOf(answer, wording);
    const highs = boxes.flatMap(({ high, outlying }) => [high, ...outlying]);
    const lows = boxes.flatMap(({ low, outlying }) => [low, ...outlying]);
    const range = { least: boxes.length === 0 ? 1 : Math.min(...lows), most: Math.max(2, ...highs) };
    for (let first = 0; first < answer.steps.length; first += stepsAtOnce)
      yield partOfBoxes(plot, answer.steps.slice(first, first + stepsAtOnce), boxes, { width, ...range, isFirst: first === 0 });
  };
}

interface Box {
  readonly step: number;
  readonly active: NonNullable<StepMeasures['active']>;
  readonly low: number;
  readonly high: number;
  readonly outlying: readonly number[];
  /** What the reference run took. */
  readonly own: number | undefined;
  readonly told: string;
}

function boxesOf({ steps, reference }: StepsAnswer, { page, own: words }: Wording): readonly Box[] {
  const times = new Map((reference?.times ?? []).map(({ step, active }) => [step, active]));
  return steps.flatMap(({ name, active, whiskers, outlying }) => {
    if (active === null || whiskers === null) return [];
    const told = `${stepLabel(name, 80)}\n${page.steps.tip(words.clock(active.median), active.count, words.clock(active.lowerQuartile), words.clock(active.upperQuartile))}`;
    const low = Math.max(1, whiskers.low);
    const own = times.get(name.step);
    return [{ step: name.step, active, low, high: whiskers.high, outlying: outlying.map((time) => Math.max(1, time)), own, told }];
  });
}

interface Part {
  readonly width: number;
  readonly least: number;
  readonly most: number;
  /** The times are told above the first one only. */
  readonly isFirst: boolean;
}

function partOfBoxes(
  plot: PlotLibrary,
  steps: readonly StepMeasures[],
  all: readonly Box[],
  { width, least, most, isFirst }: Part,
): Element {
  const narrow = isNarrow(width);
  const marginLeft = narrow ? 152 : 280;
  const marginTop = isFirst ? 34 : 0;
  const names = new Map(steps.map(({ name }) => [name.step, name]));
  const label = (step: number): string => {
    const name = names.get(step);
    return name === undefined ? '' : stepLabel(name, lettersWithin(marginLeft, narrow));
  };
  const boxes = all.filter(({ step }) => names.has(step));
  const outlying = boxes.flatMap(({ step, outlying: list }) => list.map((time) => ({ step, time })));
  const ticks = ticksWithin(least, most, width - marginLeft);
  const quartiles = {
    y: 'step',
    x1: (box: Box) => Math.max(1, box.active.lowerQuartile),
    x2: (box: Box) => Math.max(1, box.active.upperQuartile),
  };
  return plot.plot(
    frame(width, {
      height: steps.length * (narrow ? 24 : 22) + marginTop,
      marginLeft,
      marginRight: 16,
      marginTop,
      marginBottom: 0,
      x: { type: 'log', domain: [least * 0.9, most * 1.1], axis: null },
      y: { type: 'band', domain: [...names.keys()], paddingInner: 0.25, paddingOuter: 0.125, axis: null },
      marks: [
        // Not an axis mark: on a logarithmic scale its labels leave out what does not begin with a small digit.
        isFirst
          ? plot.text([...ticks], { x: (tick: number) => tick, text: tickText, frameAnchor: 'top', dy: -16, fill: colours.ink })
          : null,
        plot.gridX({ ticks: [...ticks], stroke: colours.line, strokeOpacity: 0.5 }),
        plot.axisY({ tickFormat: label, tickSize: 0, label: null, fontSize: narrow ? 12 : 13 }),
        plot.ruleY(boxes, { y: 'step', x1: 'low', x2: 'high', stroke: colours.quiet }),
        plot.barX(boxes, { ...quartiles, fill: colours.faint, stroke: colours.one, title: 'told' }),
        // Too few times for an interval: the outline is broken, since the box itself is hardly more than a guess.
        plot.barX(
          boxes.filter(({ active }) => active.interval === null),
          {
            ...quartiles,
            fill: colours.ground,
            stroke: colours.one,
            strokeDasharray: '3 3',
          },
        ),
        plot.ruleY(
          boxes.filter(({ active }) => active.interval !== null),
          {
            y: 'step',
            x1: (box: Box) => Math.max(1, box.active.interval?.low ?? 1),
            x2: (box: Box) => Math.max(1, box.active.interval?.high ?? 1),
            stroke: colours.one,
            strokeWidth: 6,
          },
        ),
        plot.tickX(boxes, {
          y: 'step',
          x: (box: Box) => Math.max(1, box.active.median),
          stroke: colours.ink,
          strokeWidth: 2.5,
        }),
        plot.dot(outlying, { y: 'step', x: 'time', r: 2, stroke: colours.quiet, strokeWidth: 1 }),
        plot.dot(
          boxes.filter(({ own }) => own !== undefined),
          {
            y: 'step',
            x: (box: Box) => Math.max(1, box.own ?? 1),
            symbol: 'diamond2',
            r: 4.5,
            fill: colours.other,
            stroke: colours.ground,
            strokeWidth: 1,
          },
        ),
      ],
    }),
  );
}
