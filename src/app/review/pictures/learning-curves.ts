import type { Learner, Learning } from '../../../review/questions/learning.ts';
import type { Draw } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame } from './shared.ts';

/** More small pictures than this are no picture any more. */
export const mostCurves = 48;

/** A small picture for each person: their runs, the curve with where it may lie, and the aim. */
export function learningCurves({ learners: all, aim }: Learning, { page }: Wording): Draw {
  const learners = all.slice(0, mostCurves);
  return (plot, width) => {
    const columns = Math.max(2, Math.min(6, Math.floor(width / 180)));
    const place = (index: number): { readonly fx: number; readonly fy: number } => ({
      fx: index % columns,
      fy: Math.floor(index / columns),
    });
    const trials = learners.flatMap((learner, index) => learner.trials.map(({ run, time }) => ({ ...place(index), run, time: time / 60 })));
    const curves = learners.flatMap((learner, index) => learner.drawn.map((point) => ({ ...place(index), ...inMinutes(point) })));
    const titles = learners.map((learner, index) => ({ ...place(index), text: learner.called, rate: rateText(learner) }));
    const last = Math.max(2, ...trials.map(({ run }) => run));
    const times = trials.map(({ time }) => time);
    // The intervals of a few wild curves would flatten all the others.
    const aimed = aim / 60;
    const top = Math.max(aimed, ...times) * 1.18;
    const bottom = Math.min(aimed, ...times) * 0.85;
    const rows = Math.ceil(learners.length / columns);
    return plot.plot(
      frame(width, {
        height: rows * 150 + 40,
        marginLeft: 48,
        marginRight: 6,
        marginBottom: 30,
        marginTop: 6,
        x: {
          domain: [0.7, last + 0.3],
          ticks: last <= 10 ? last : 5,
          tickFormat: (run: number) => (Number.isInteger(run) ? String(run) : ''),
          label: page.learning.axis,
          grid: false,
        },
        y: {
          domain: [bottom, top],
          ticks: 4,
          grid: true,
          label: null,
          clamp: true,
        },
        fx: { axis: null, domain: Array.from({ length: columns }, (_, column) => column), padding: 0.08 },
        fy: { axis: null, domain: Array.from({ length: rows }, (_, row) => row), padding: 0.2 },
        marks: [
          plot.frame({ stroke: colours.line, strokeOpacity: 0.5 }),
          plot.areaY(curves, { fx: 'fx', fy: 'fy', x: 'run', y1: 'low', y2: 'high', fill: colours.one, fillOpacity: 0.22, clip: true }),
          plot.ruleY([aimed], { stroke: colours.other, strokeDasharray: '5 3', strokeWidth: 1.5 }),
          plot.lineY(curves, { fx: 'fx', fy: 'fy', x: 'run', y: 'time', stroke: colours.one, strokeWidth: 2 }),
          plot.dot(trials, { fx: 'fx', fy: 'fy', x: 'run', y: 'time', r: 3, fill: colours.ink }),
          plot.text(titles, {
            fx: 'fx',
            fy: 'fy',
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
            fy: 'fy',
            text: 'rate',
            frameAnchor: 'top-right',
            dx: -6,
            dy: 4,
            fill: colours.quiet,
            stroke: colours.ground,
            strokeWidth: 4,
          }),
        ],
      }),
    );
  };
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
