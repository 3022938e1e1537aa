import type { Learner, Learning } from '../../../review/questions/learning.ts';
import type { Draw, PlotLibrary } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame } from './shared.ts';

/** More small pictures than this are no picture any more. */
export const mostCurves = 48;

/** A small picture for each person: their runs, the curve with where it may lie, and the aim. A row of them is one drawing. */
export function learningCurves({ learners: all, aim }: Learning, wording: Wording): Draw {
  const learners = all.slice(0, mostCurves);
  return function* (plot, width) {
    const columns = Math.max(2, Math.min(6, Math.floor(width / 180)));
    const times = learners.flatMap(({ trials }) => trials.map(({ time }) => time / 60));
    // The intervals of a few wild curves would flatten all the others.
    const aimed = aim / 60;
    const scales = {
      width,
      columns,
      aimed,
      last: Math.max(2, ...learners.flatMap(({ trials }) => trials.map(({ run }) => run))),
      top: Math.max(aimed, ...times) * 1.18,
      bottom: Math.min(aimed, ...times) * 0.85,
    };
    for (let first = 0; first < learners.length; first += columns) {
      // Runs are told below each column's last picture.
      const isLowest = first + 2 * columns > learners.length;
      const label = first + columns >= learners.length ? wording.page.learning.axis : null;
      yield rowOfCurves(plot, learners.slice(first, first + columns), scales, isLowest ? { label } : null);
    }
  };
}

interface RowScales {
  readonly width: number;
  readonly columns: number;
  readonly aimed: number;
  readonly last: number;
  readonly top: number;
  readonly bottom: number;
}

function rowOfCurves(
  plot: PlotLibrary,
  learners: readonly Learner[],
  { width, columns, aimed, last, top, bottom }: RowScales,
  axis: { readonly label: string | null } | null,
): Element {
  const trials = learners.flatMap((learner, fx) => learner.trials.map(({ run, time }) => ({ fx, run, time: time / 60 })));
  const curves = learners.flatMap((learner, fx) => learner.drawn.map((point) => ({ fx, ...inMinutes(point) })));
  const titles = learners.map((learner, fx) => ({ fx, text: learner.called, rate: rateText(learner) }));
  const marginBottom = axis === null ? 16 : axis.label === null ? 26 : 40;
  return plot.plot(
    frame(width, {
      height: 130 + marginBottom,
      marginLeft: 48,
      marginRight: 6,
      marginBottom,
      marginTop: 6,
      x: {
        domain: [0.7, last + 0.3],
        ticks: last <= 10 ? last : 5,
        tickFormat: (run: number) => (Number.isInteger(run) ? String(run) : ''),
        grid: false,
        ...(axis === null ? { axis: null } : { label: axis.label }),
      },
      y: {
        domain: [bottom, top],
        ticks: 4,
        grid: true,
        label: null,
        clamp: true,
      },
      fx: { axis: null, domain: Array.from({ length: columns }, (_, column) => column), padding: 0.08 },
      marks: [
        plot.frame({ stroke: colours.line, strokeOpacity: 0.5 }),
        plot.areaY(curves, { fx: 'fx', x: 'run', y1: 'low', y2: 'high', fill: colours.one, fillOpacity: 0.22, clip: true }),
        plot.ruleY([aimed], { stroke: colours.other, strokeDasharray: '5 3', strokeWidth: 1.5 }),
        plot.lineY(curves, { fx: 'fx', x: 'run', y: 'time', stroke: colours.one, strokeWidth: 2 }),
        plot.dot(trials, { fx: 'fx', x: 'run', y: 'time', r: 3, fill: colours.ink }),
        plot.text(titles, {
          fx: 'fx',
          text: 'text',
          frameAnchor: 'top-left',
          dx: 6,
          dy: 4,
          fontWeight: 650,
          fill: colours.ink,
          stroke: colours.ground,
          strokeWidth: 4,
        }),
        plot.text(titles, {
          fx: 'fx',
          text: 'rate',
          frameAnchor: 'top-right',
          dx: -6,
          // Below a name that may need the whole width.
          dy: width / columns < 200 ? 20 : 4,
          fill: colours.quiet,
          stroke: colours.ground,
          strokeWidth: 4,
        }),
      ],
    }),
  );
}

function inMinutes({ run, time, low, high }: Learner['drawn'][number]): Learner['drawn'][number] {
  return { run, time: time / 60, low: low / 60, high: high / 60 };
}

function rateText({ curve }: Learner): string {
  return curve === null ? '' : `${Math.round(curve.rate * 100)} %`;
}

/** One person's curve, for their sheet. */
export function oneCurve(learner: Learner, aim: number): Draw {
  return (plot, width) => {
    const last = Math.max(2, ...learner.trials.map(({ run }) => run));
    const aimed = aim / 60;
    const trials = learner.trials.map(({ run, time }) => ({ run, time: time / 60 }));
    const drawn = learner.drawn.map(inMinutes);
    const times = [...trials.map(({ time }) => time), aimed];
    return plot.plot(
      frame(width, {
        height: 96,
        marginLeft: 46,
        marginRight: 8,
        marginTop: 6,
        marginBottom: 20,
        x: {
          domain: [0.7, last + 0.3],
          ticks: Math.min(last, 10),
          tickFormat: (run: number) => (Number.isInteger(run) ? String(run) : ''),
          label: null,
          tickSize: 3,
        },
        y: {
          domain: [Math.min(...times) * 0.88, Math.max(...times) * 1.08],
          ticks: 3,
          label: null,
          tickSize: 3,
          clamp: true,
        },
        marks: [
          plot.areaY(drawn, { x: 'run', y1: 'low', y2: 'high', fill: colours.one, fillOpacity: 0.22, clip: true }),
          plot.ruleY([aimed], { stroke: colours.other, strokeDasharray: '5 3' }),
          plot.lineY(drawn, { x: 'run', y: 'time', stroke: colours.one, strokeWidth: 2 }),
          plot.dot(trials, { x: 'run', y: 'time', r: 3, fill: colours.ink }),
        ],
      }),
    );
  };
}
