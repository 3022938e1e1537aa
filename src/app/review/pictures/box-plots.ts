import { stepLabel } from '../../../review/questions/asking.ts';
import type { StepsAnswer } from '../../../review/review.ts';
import type { Draw } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame, isNarrow, lettersWithin, tickText, ticksWithin } from './shared.ts';

/** A box a step on a logarithmic scale: quartiles, median with its interval, whiskers, outliers, and the reference run's own time. */
export function boxPlots({ steps, reference }: StepsAnswer, { page, own: words }: Wording): Draw {
  return (plot, width) => {
    const narrow = isNarrow(width);
    const marginLeft = narrow ? 152 : 280;
    const label = (index: number): string => {
      const step = steps[index];
      return step === undefined ? '' : stepLabel(step.name, lettersWithin(marginLeft, narrow));
    };
    const times = new Map((reference?.times ?? []).map(({ step, active }) => [step, active]));
    const boxes = steps.flatMap((step, index) => {
      const { active, whiskers } = step;
      if (active === null || whiskers === null) return [];
      const told = `${stepLabel(step.name, 80)}\n${page.steps.tip(words.clock(active.median), active.count, words.clock(active.lowerQuartile), words.clock(active.upperQuartile))}`;
      const low = Math.max(1, whiskers.low);
      return [{ index, active, low, high: whiskers.high, outlying: step.outlying, own: times.get(step.name.step), told }];
    });
    const outlying = boxes.flatMap(({ index, outlying: list }) => list.map((time) => ({ index, time: Math.max(1, time) })));
    const most = Math.max(2, ...boxes.map(({ high }) => high), ...outlying.map(({ time }) => time));
    const least = Math.max(1, Math.min(...boxes.map(({ low }) => low), ...outlying.map(({ time }) => time)));
    const ticks = ticksWithin(least, most, width - marginLeft);
    const row = narrow ? 24 : 22;
    const svg = plot.plot(
      frame(width, {
        height: steps.length * row + 60,
        marginLeft,
        marginRight: 16,
        marginTop: 34,
        marginBottom: 6,
        x: { type: 'log', domain: [least * 0.9, most * 1.1], axis: null },
        y: { type: 'band', domain: steps.map((_, index) => index), padding: 0.25, axis: null },
        marks: [
          // Not an axis mark: on a logarithmic scale its labels leave out what does not begin with a small digit.
          plot.text([...ticks], { x: (tick: number) => tick, text: tickText, frameAnchor: 'top', dy: -16, fill: colours.ink }),
          plot.gridX({ ticks: [...ticks], stroke: colours.line, strokeOpacity: 0.5 }),
          plot.axisY({ tickFormat: (index: number) => label(index), tickSize: 0, label: null, fontSize: narrow ? 12 : 13 }),
          plot.ruleY(boxes, { y: 'index', x1: 'low', x2: 'high', stroke: colours.quiet }),
          plot.barX(boxes, {
            y: 'index',
            x1: (box: (typeof boxes)[number]) => Math.max(1, box.active.lowerQuartile),
            x2: (box: (typeof boxes)[number]) => Math.max(1, box.active.upperQuartile),
            fill: colours.faint,
            stroke: colours.one,
            title: 'told',
          }),
          // Too few times for an interval: the outline is broken, since the box itself is hardly more than a guess.
          plot.barX(
            boxes.filter(({ active }) => active.interval === null),
            {
              y: 'index',
              x1: (box: (typeof boxes)[number]) => Math.max(1, box.active.lowerQuartile),
              x2: (box: (typeof boxes)[number]) => Math.max(1, box.active.upperQuartile),
              fill: colours.ground,
              stroke: colours.one,
              strokeDasharray: '3 3',
            },
          ),
          plot.ruleY(
            boxes.filter(({ active }) => active.interval !== null),
            {
              y: 'index',
              x1: (box: (typeof boxes)[number]) => Math.max(1, box.active.interval?.low ?? 1),
              x2: (box: (typeof boxes)[number]) => Math.max(1, box.active.interval?.high ?? 1),
              stroke: colours.one,
              strokeWidth: 6,
            },
          ),
          plot.tickX(boxes, {
            y: 'index',
            x: (box: (typeof boxes)[number]) => Math.max(1, box.active.median),
            stroke: colours.ink,
            strokeWidth: 2.5,
          }),
          plot.dot(outlying, { y: 'index', x: 'time', r: 2, stroke: colours.quiet, strokeWidth: 1 }),
          plot.dot(
            boxes.filter(({ own }) => own !== undefined),
            {
              y: 'index',
              x: (box: (typeof boxes)[number]) => Math.max(1, box.own ?? 1),
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
    return svg;
  };
}
