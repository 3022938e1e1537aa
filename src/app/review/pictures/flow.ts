import { stepLabel } from '../../../review/questions/asking.ts';
import type { Move, Orders } from '../../../review/questions/orders.ts';
import type { Draw } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame, isNarrow, lettersWithin } from './shared.ts';

/**
 * The written order from top to bottom; beside it, as arcs, every way that runs took otherwise: past steps on the right, back on the
 * left, into side procedures dotted. The thicker, the more often; the commonest carry their count.
 */
export function flowPicture({ steps, moves, runs }: Orders, { page }: Wording): Draw {
  const words = page.orders;
  return (plot, width) => {
    const narrow = isNarrow(width);
    const room = narrow ? 76 : 170;
    const spine = room + 8;
    const labels = spine + (narrow ? 62 : 150);
    const departures = moves.filter(({ kind }) => kind !== 'onward');
    const onward = moves.filter(({ kind }) => kind === 'onward');
    const arcs = departures.map((move) => ({ ...move, ...arc(move, spine, narrow ? 48 : 130, room, steps.length) }));
    const told = arcs.toSorted((one, other) => other.count - one.count).slice(0, narrow ? 10 : 16);
    const dots = steps.map((step, index) => ({ index, step }));
    const labelOf = ({ name, skipped, passedOver }: Orders['steps'][number]): string =>
      stepLabel(name, lettersWithin(width - labels - (skipped + passedOver > 0 ? 70 : 0), narrow));
    const left = dots.filter(({ step }) => step.skipped + step.passedOver > 0);
    return plot.plot(
      frame(width, {
        height: steps.length * 26 + 50,
        marginLeft: 0,
        marginRight: 0,
        marginTop: 34,
        marginBottom: 12,
        x: { domain: [0, width], range: [0, width], axis: null },
        y: { domain: [-0.5, steps.length - 0.5], reverse: true, axis: null },
        marks: [
          plot.text([{ text: words.back }], {
            x: () => spine - 12,
            y: () => -0.5,
            dy: -14,
            text: 'text',
            textAnchor: 'end',
            fill: colours.quiet,
          }),
          plot.text([{ text: narrow ? words.pastShort : words.past }], {
            x: () => spine + 12,
            y: () => -0.5,
            dy: -14,
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
            strokeWidth: (move: Move) => 1 + 6 * Math.min(1, move.count / Math.max(1, runs)),
          }),
          ...arcs.map((one) =>
            plot.line(one.points, {
              x: 'x',
              y: 'y',
              curve: 'basis',
              stroke: one.kind === 'aside' ? colours.quiet : one.kind === 'back' ? colours.other : colours.one,
              strokeWidth: 1.2 + 5 * Math.sqrt(Math.min(1, one.count / Math.max(1, runs))),
              ...(one.kind === 'aside' ? { strokeDasharray: '2 4' } : {}),
            }),
          ),
          plot.dot(dots, {
            x: () => spine,
            y: 'index',
            r: 5,
            fill: ({ step }: (typeof dots)[number]) => (step.isSide ? colours.ground : colours.ink),
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
            x: () => labels,
            y: 'index',
            text: ({ step }: (typeof dots)[number]) => labelOf(step),
            textAnchor: 'start',
            fill: colours.ink,
            fontSize: narrow ? 12 : 13,
          }),
          plot.text(left, {
            x: ({ step }: (typeof dots)[number]) => Math.min(width - 50, labels + labelOf(step).length * 7.4 + 14),
            y: 'index',
            text: ({ step }: (typeof dots)[number]) => words.left(step.skipped + step.passedOver),
            textAnchor: 'start',
            fill: colours.other,
            fontWeight: 650,
            fontSize: 12,
          }),
        ],
      }),
    );
  };
}

interface Arc {
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly apex: number;
  readonly middle: number;
}

/** A bow from step to step: the farther apart, the wider, within the room on its side. */
function arc({ from, to, kind }: Move, spine: number, right: number, left: number, steps: number): Arc {
  const span = Math.abs(to - from);
  const isLeft = kind === 'back' || (kind === 'aside' && to < from);
  const room = isLeft ? left : right;
  const reach = Math.min(room, room * (0.22 + 0.78 * Math.sqrt(span / Math.max(6, steps))));
  const bow = spine + (isLeft ? -reach : reach);
  // Begun again at once: a small loop.
  if (span === 0) {
    const points = [-0.3, -0.5, 0.5, 0.3].map((off, index) => ({ x: index === 0 || index === 3 ? spine : bow, y: from + off }));
    return { points, apex: bow, middle: from };
  }
  const points = [
    { x: spine, y: from },
    { x: bow, y: from + (to - from) * 0.12 },
    { x: bow, y: from + (to - from) * 0.88 },
    { x: spine, y: to },
  ];
  return { points, apex: spine + (bow - spine) * 0.86, middle: (from + to) / 2 };
}
