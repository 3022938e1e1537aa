import { stepLabel } from '../../../review/questions/asking.ts';
import type { Move, Orders } from '../../../review/questions/orders.ts';
import type { Draw } from '../picture.tsx';
import { colours, frame, isNarrow } from './shared.ts';

/**
 * The written order from top to bottom; beside it, as arcs, every way that runs took otherwise: past steps on the right, back on the
 * left, into side procedures dotted. The thicker, the more often; the commonest carry their count.
 */
export function flowPicture({ steps, moves, runs }: Orders): Draw {
  return (plot, width) => {
    const narrow = isNarrow(width);
    const row = 26;
    const departures = moves.filter(({ kind }) => kind !== 'onward');
    const onward = moves.filter(({ kind }) => kind === 'onward');
    const most = Math.max(1, ...departures.map(({ count }) => count));
    const thick = (move: Move): number => 1.2 + 5 * Math.sqrt(move.count / Math.max(most, runs));
    const spine = narrow ? 0.32 : 0.36;
    const arcs = departures.map((move) => ({ ...move, ...arc(move, spine, steps.length) }));
    const told = arcs.toSorted((one, other) => other.count - one.count).slice(0, 14);
    const dots = steps.map((step, index) => ({ index, x: spine, step }));
    return plot.plot(
      frame(width, {
        height: steps.length * row + 50,
        marginLeft: 12,
        marginRight: 12,
        marginTop: 34,
        marginBottom: 12,
        x: { domain: [0, 1], axis: null },
        y: { domain: [-0.5, steps.length - 0.5], reverse: true, axis: null },
        marks: [
          plot.text([{ x: spine - 0.03, text: '← back' }], {
            x: 'x',
            y: () => -0.5,
            dy: -16,
            text: 'text',
            textAnchor: 'end',
            fill: colours.quiet,
          }),
          plot.text([{ x: spine + 0.03, text: narrow ? 'past →' : 'past steps →' }], {
            x: 'x',
            y: () => -0.5,
            dy: -16,
            text: 'text',
            textAnchor: 'start',
            fill: colours.quiet,
          }),
          plot.link(onward, {
            x1: () => spine,
            x2: () => spine,
            y1: 'from',
            y2: 'to',
            stroke: colours.line,
            strokeWidth: (move: Move) => 1 + 6 * (move.count / Math.max(1, runs)),
            strokeOpacity: 0.8,
          }),
          ...arcs.map((one) =>
            plot.line(one.points, {
              x: 'x',
              y: 'y',
              curve: 'basis',
              stroke: one.kind === 'aside' ? colours.quiet : one.kind === 'back' ? colours.other : colours.one,
              strokeWidth: thick(one),
              strokeOpacity: 0.85,
              ...(one.kind === 'aside' ? { strokeDasharray: '2 4' } : {}),
              markerEnd: 'arrow',
            }),
          ),
          plot.dot(dots, {
            x: 'x',
            y: 'index',
            r: 5,
            fill: (dot: (typeof dots)[number]) => (dot.step.isSide ? colours.ground : colours.ink),
            stroke: colours.ink,
            strokeWidth: 1.5,
          }),
          plot.text(told, {
            x: 'apex',
            y: 'middle',
            text: (one: (typeof told)[number]) => `${one.count}×`,
            fill: colours.ink,
            stroke: colours.ground,
            strokeWidth: 4,
            fontWeight: 650,
          }),
          plot.text(dots, {
            x: () => (narrow ? 0.6 : 0.62),
            y: 'index',
            text: ({ step }: (typeof dots)[number]) => stepLabel(step.name, narrow ? 18 : Math.floor(width / 26)),
            textAnchor: 'start',
            fill: colours.ink,
            fontSize: narrow ? 12 : 13,
          }),
          plot.text(
            dots.filter(({ step }) => step.skipped + step.passedOver > 0),
            {
              x: () => 1,
              y: 'index',
              text: ({ step }: (typeof dots)[number]) => `left ${step.skipped + step.passedOver}×`,
              textAnchor: 'end',
              fill: colours.other,
              fontWeight: 650,
              fontSize: 12,
              stroke: colours.ground,
              strokeWidth: 4,
            },
          ),
        ],
      }),
    );
  };
}

/** A bow from step to step: the farther apart, the wider, within its side of the picture. */
function arc(
  { from, to, kind }: Move,
  spine: number,
  steps: number,
): { readonly points: readonly { readonly x: number; readonly y: number }[]; readonly apex: number; readonly middle: number } {
  const span = Math.abs(to - from);
  const reach = 0.05 + 0.2 * Math.sqrt(span / Math.max(1, steps));
  const isLeft = kind === 'back' || (kind === 'aside' && to < from);
  const bow = spine + (isLeft ? -reach : reach);
  if (span === 0)
    return {
      points: [
        { x: spine, y: from - 0.25 },
        { x: spine - 0.07, y: from - 0.45 },
        { x: spine - 0.07, y: from + 0.45 },
        { x: spine, y: from + 0.25 },
      ],
      apex: spine - 0.06,
      middle: from,
    };
  const middle = (from + to) / 2;
  return {
    points: [
      { x: spine, y: from },
      { x: bow, y: from + (to - from) * 0.2 },
      { x: bow, y: from + (to - from) * 0.8 },
      { x: spine, y: to },
    ],
    apex: spine + (bow - spine) * 0.92,
    middle,
  };
}
