import { stepLabel } from '../../../review/questions/asking.ts';
import type { StepMeasures } from '../../../review/questions/step-measures.ts';
import type { MonthPace } from '../../../review/questions/trend.ts';
import type { Draw } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame, isNarrow, lettersWithin } from './shared.ts';

/** The steps that take most of the time, as bars; the ones that are hard are told by colour and by a word. */
export function timeBars(
  steps: readonly StepMeasures[],
  hard: ReadonlySet<number>,
  titles: ReadonlyMap<string, string>,
  { page, own }: Wording,
): Draw {
  return (plot, width) => {
    const narrow = isNarrow(width);
    const marginLeft = narrow ? Math.round(width * 0.42) : 290;
    const bars = steps.map((step, index) => ({
      index,
      share: step.timeShare,
      isHard: hard.has(step.name.step),
      text: own.percent(step.timeShare),
      procedure: titles.size > 1 && !narrow ? (titles.get(step.name.procedure) ?? step.name.procedure) : '',
    }));
    const told = ({ text, isHard, procedure }: (typeof bars)[number]): string =>
      [text, isHard ? page.glance.hard : '', procedure].filter((part) => part !== '').join(' · ');
    // Room for what stands behind the longest bar, were it the longest text, too.
    const letters = Math.max(0, ...bars.map((bar) => told(bar).length));
    return plot.plot(
      frame(width, {
        height: steps.length * 30 + 10,
        marginLeft,
        marginRight: Math.min(width * 0.45, letters * 8 + 12),
        marginTop: 4,
        marginBottom: 4,
        x: { axis: null },
        y: { type: 'band', domain: steps.map((_, index) => index), padding: 0.25, axis: null },
        marks: [
          plot.axisY({
            tickFormat: (index: number) => {
              const step = steps[index];
              return step === undefined ? '' : stepLabel(step.name, lettersWithin(marginLeft, narrow));
            },
            tickSize: 0,
            label: null,
          }),
          plot.barX(bars, {
            y: 'index',
            x: 'share',
            fill: (bar: (typeof bars)[number]) => (bar.isHard ? colours.other : colours.one),
            rx2: 4,
          }),
          plot.text(bars, {
            y: 'index',
            x: 'share',
            text: told,
            textAnchor: 'start',
            dx: 6,
            fill: colours.ink,
            fontWeight: 600,
          }),
        ],
      }),
    );
  };
}

/** Pace month by month with where its median may lie; 1 is the median of all. */
export function monthLine(months: readonly MonthPace[], { page, own }: Wording): Draw {
  const words = page.glance;
  return (plot, width) =>
    plot.plot(
      frame(width, {
        height: Math.min(260, Math.max(200, width * 0.35)),
        marginLeft: 48,
        marginRight: 18,
        marginTop: 26,
        marginBottom: 30,
        x: {
          type: 'point',
          domain: months.map(({ month }) => month),
          label: null,
          tickFormat: (month: string) => monthName(month, words.months, width / Math.max(1, months.length) > 70),
          tickSize: 0,
        },
        y: {
          label: words.monthsAxis,
          grid: true,
          tickFormat: (pace: number) => `${Math.round((pace - 1) * 100)} %`,
          zero: false,
          ticks: 5,
        },
        marks: [
          plot.ruleY([1], { stroke: colours.quiet, strokeDasharray: '4 4' }),
          plot.ruleX(
            months.filter(({ interval }) => interval !== null),
            {
              x: 'month',
              y1: (one: MonthPace) => one.interval?.low ?? one.pace,
              y2: (one: MonthPace) => one.interval?.high ?? one.pace,
              stroke: colours.one,
              strokeWidth: 3,
              strokeOpacity: 0.55,
            },
          ),
          plot.lineY(months, { x: 'month', y: 'pace', stroke: colours.one, strokeWidth: 2 }),
          plot.dot(months, {
            x: 'month',
            y: 'pace',
            r: 5,
            fill: (one: MonthPace) => (one.interval === null ? colours.ground : colours.one),
            stroke: colours.one,
            strokeWidth: 2,
            title: (one: MonthPace) => `${one.month}: ${own.runs(one.runs)}`,
          }),
        ],
      }),
    );
}

function monthName(month: string, names: readonly string[], withYear: boolean): string {
  const name = names[Number(month.slice(5)) - 1] ?? month;
  return withYear ? `${name} ${month.slice(0, 4)}` : name;
}
