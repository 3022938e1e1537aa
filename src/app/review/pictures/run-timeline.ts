import { stepLabel } from '../../../review/questions/asking.ts';
import type { Mark, Timeline } from '../../../review/questions/timeline.ts';
import { markText } from '../../../review/tables.ts';
import type { Draw } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame, isNarrow, lettersWithin } from './shared.ts';

/** How each thing said or done is drawn. Shape tells it, colour only helps. */
export const markShapes = {
  asked: 'circle',
  repeat: 'times',
  misheard: 'asterisk',
  refused: 'square',
  note: 'star',
  back: 'triangle',
  undone: 'wye',
  stopped: 'hexagon',
  'hold failed': 'diamond',
} as const;

type Shaped = keyof typeof markShapes;
const isShaped = (mark: Mark): mark is Mark & { readonly kind: Shaped } => Object.hasOwn(markShapes, mark.kind);

/** A row a step, in the order begun, against the minutes: work, waits, pauses, and what was said. */
export function runTimeline(run: Timeline, { page, own }: Wording): Draw {
  const words = page.runs;
  return (plot, width) => {
    const narrow = isNarrow(width);
    const rows = run.steps.length;
    const marginLeft = narrow ? 152 : 280;
    const minutes = (seconds: number): number => seconds / 60;
    const bars = run.stretches.filter(({ step, kind }) => step >= 0 && kind === 'step');
    const waits = run.stretches.filter(({ step, kind }) => step >= 0 && kind === 'wait');
    const pauses = run.stretches.filter(({ kind, from, to }) => kind === 'pause' && to - from > 1);
    const around = run.stretches.filter(({ kind }) => kind === 'around');
    const said = run.marks.filter(isShaped);
    const skipped = run.steps.flatMap(({ how }, index) => (how === 'skipped' ? [{ index }] : []));
    return plot.plot(
      frame(width, {
        height: (rows + 1) * 20 + 60,
        marginLeft,
        marginRight: 14,
        marginTop: 34,
        marginBottom: 8,
        x: {
          domain: [0, Math.max(1, minutes(run.length))],
          axis: 'top',
          label: words.minutes,
          ticks: narrow ? 4 : 10,
          tickFormat: (at: number) => own.trimmed(at, 2),
        },
        y: { type: 'band', domain: Array.from({ length: rows + 1 }, (_, index) => index - 1), padding: 0.2, axis: null },
        marks: [
          plot.rectX(pauses, {
            x1: ({ from }: (typeof pauses)[number]) => minutes(from),
            x2: ({ to }: (typeof pauses)[number]) => minutes(to),
            fill: colours.quiet,
            fillOpacity: 0.22,
          }),
          plot.text(
            pauses.filter(({ from, to }) => to - from > run.length * 0.06),
            {
              x: ({ from, to }: (typeof pauses)[number]) => minutes((from + to) / 2),
              frameAnchor: 'bottom',
              dy: -4,
              text: () => words.pause,
              fill: colours.quiet,
            },
          ),
          plot.gridX({ stroke: colours.line, strokeOpacity: 0.4 }),
          plot.axisY({
            tickFormat: (index: number) => {
              const step = run.steps[index];
              return step === undefined ? words.around : stepLabel(step.name, lettersWithin(marginLeft, narrow));
            },
            tickSize: 0,
            label: null,
            fontSize: narrow ? 12 : 13,
          }),
          plot.barX(around, {
            y: () => -1,
            x1: ({ from }: (typeof around)[number]) => minutes(from),
            x2: ({ to }: (typeof around)[number]) => minutes(to),
            fill: colours.line,
          }),
          plot.barX(bars, {
            y: 'step',
            x1: ({ from }: (typeof bars)[number]) => minutes(from),
            x2: ({ to }: (typeof bars)[number]) => minutes(to),
            fill: colours.one,
          }),
          plot.barX(waits, {
            y: 'step',
            x1: ({ from }: (typeof waits)[number]) => minutes(from),
            x2: ({ to }: (typeof waits)[number]) => minutes(to),
            fill: colours.ground,
            stroke: colours.one,
            strokeDasharray: '3 2',
          }),
          plot.text(skipped, {
            y: 'index',
            x: () => 0,
            dx: 4,
            text: () => words.skipped,
            textAnchor: 'start',
            fill: colours.other,
            fontWeight: 650,
          }),
          plot.dot(said, {
            x: ({ at }: (typeof said)[number]) => minutes(at),
            y: ({ step }: (typeof said)[number]) => step,
            symbol: ({ kind }: (typeof said)[number]) => markShapes[kind],
            r: 4.5,
            stroke: colours.ink,
            fill: colours.ground,
            strokeWidth: 1.8,
            title: (mark: (typeof said)[number]) =>
              mark.text === '' ? own.mark[mark.kind] : `${own.mark[mark.kind]}: ${markText(mark, own)}`,
          }),
        ],
        symbol: { type: 'identity' } as never,
      }),
    );
  };
}

/** Two runs on one scale: a strip each, then the time at each step of both. */
export function pairPicture(first: Timeline, second: Timeline, called: readonly [string, string], { page, own }: Wording): Draw {
  return (plot, width) => {
    const narrow = isNarrow(width);
    const names = [...first.steps, ...second.steps.filter(({ name }) => !first.steps.some((one) => one.name.step === name.step))].map(
      ({ name }) => name,
    );
    const at = (run: Timeline, step: number): number | null => run.steps.find(({ name }) => name.step === step)?.active ?? null;
    const rows = names.flatMap((name, index) => {
      const one = at(first, name.step);
      const other = at(second, name.step);
      return [{ index, one: one === null ? null : one / 60, other: other === null ? null : other / 60 }];
    });
    const both = rows.filter((row): row is { index: number; one: number; other: number } => row.one !== null && row.other !== null);
    const marginLeft = narrow ? 152 : 280;
    return plot.plot(
      frame(width, {
        height: names.length * 22 + 60,
        marginLeft,
        marginRight: 14,
        marginTop: 34,
        marginBottom: 8,
        x: {
          axis: 'top',
          label: page.runs.minutesAtWork,
          nice: true,
          zero: true,
          ticks: narrow ? 4 : 10,
          tickFormat: (at: number) => own.trimmed(at, 2),
        },
        y: { type: 'band', domain: names.map((_, index) => index), padding: 0.2, axis: null },
        marks: [
          plot.gridX({ stroke: colours.line, strokeOpacity: 0.4 }),
          plot.axisY({
            tickFormat: (index: number) => {
              const name = names[index];
              return name === undefined ? '' : stepLabel(name, lettersWithin(marginLeft, narrow));
            },
            tickSize: 0,
            label: null,
            fontSize: narrow ? 12 : 13,
          }),
          plot.link(both, { x1: 'one', x2: 'other', y1: 'index', y2: 'index', stroke: colours.quiet, strokeWidth: 2 }),
          plot.dot(
            rows.filter(({ one }) => one !== null),
            { x: 'one', y: 'index', r: 4.5, fill: colours.one, title: () => called[0] },
          ),
          plot.dot(
            rows.filter(({ other }) => other !== null),
            {
              x: 'other',
              y: 'index',
              r: 4.5,
              symbol: 'square',
              fill: colours.ground,
              stroke: colours.other,
              strokeWidth: 2.5,
              title: () => called[1],
            },
          ),
        ],
      }),
    );
  };
}

/** The same two runs as strips of time, one under the other. */
export function pairStrips(first: Timeline, second: Timeline, called: readonly [string, string], { page, own: words }: Wording): Draw {
  return (plot, width) => {
    const strips = [first, second].flatMap((run, row) =>
      run.stretches.map((stretch) => ({
        row,
        from: stretch.from / 60,
        to: stretch.to / 60,
        kind: stretch.kind,
        isEven: stretch.step % 2 === 0,
      })),
    );
    const said = [first, second].flatMap((run, row) =>
      run.marks.filter(isShaped).map((mark) => ({ row, at: mark.at / 60, kind: mark.kind })),
    );
    const fill = ({ kind, row, isEven }: (typeof strips)[number]): string => {
      if (kind === 'pause') return 'transparent';
      if (kind === 'around') return colours.line;
      const own = row === 0 ? colours.one : colours.other;
      if (kind === 'wait') return `color-mix(in oklab, ${own} 25%, ${colours.ground})`;
      return isEven ? own : `color-mix(in oklab, ${own} 70%, ${colours.ground})`;
    };
    return plot.plot(
      frame(width, {
        height: 172,
        marginLeft: 12,
        marginRight: 12,
        marginTop: 40,
        marginBottom: 8,
        x: { axis: 'top', label: page.runs.minutes, ticks: isNarrow(width) ? 4 : 10, tickFormat: (at: number) => words.trimmed(at, 2) },
        y: { type: 'band', domain: [0, 1], padding: 0.55, axis: null },
        marks: [
          plot.barX(strips, {
            y: 'row',
            x1: 'from',
            x2: 'to',
            fill,
            stroke: ({ kind }: (typeof strips)[number]) => (kind === 'pause' ? colours.quiet : 'none'),
            strokeDasharray: '2 2',
            inset: 0,
          }),
          plot.tickX(said, { y: 'row', x: 'at', stroke: colours.ink, strokeWidth: 1, insetTop: -7, insetBottom: 24 }),
          plot.text(called, {
            y: (_: string, index: number) => index,
            frameAnchor: 'left',
            dy: -27,
            text: (name: string) => name,
            fontWeight: 650,
            fill: colours.ink,
          }),
        ],
      }),
    );
  };
}
