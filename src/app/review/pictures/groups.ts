import type { GroupSide } from '../../../review/questions/group-comparison.ts';
import type { Draw, PlotLibrary } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame } from './shared.ts';

/** More people than this in one group get smaller dots: larger ones would pile up beyond their row, and finding their places takes long. */
const manyPeople = 30;

/** A dot for each person by their pace, a row for each group, a bar at the group's median. A row is one drawing: finding the dots' places takes long. */
export function groupDots(sides: readonly GroupSide[], wording: Wording): Draw {
  return function* (plot, width) {
    const radius = sides.some((side) => side.people.length > manyPeople) ? 3 : 6;
    const paces = sides.flatMap((side) => side.people.map(({ pace }) => pace));
    const domain = [Math.min(...paces, 1) * 0.95, Math.max(...paces, 1) * 1.05];
    for (const side of sides) yield rowOfDots(plot, side, { width, radius, domain }, wording, side === sides.at(-1));
  };
}

function rowOfDots(
  plot: PlotLibrary,
  side: GroupSide,
  { width, radius, domain }: { readonly width: number; readonly radius: number; readonly domain: readonly number[] },
  { page, own }: Wording,
  isLowest: boolean,
): Element {
  const marginBottom = isLowest ? 64 : 0;
  // As many ticks as there is room for, written as the language writes them.
  const ticks = Math.max(3, Math.floor((width - 110) / 90));
  return plot.plot(
    frame(width, {
      height: 84 + marginBottom,
      marginLeft: 110,
      marginRight: 18,
      marginTop: 0,
      marginBottom,
      x: {
        label: page.groups.axis,
        labelOffset: 48,
        domain,
        ticks,
        tickFormat: (pace: number) => own.trimmed(pace, 2),
        ...(isLowest ? {} : { axis: null }),
      },
      marks: [
        plot.gridX({ ticks }),
        plot.ruleX([1], { stroke: colours.quiet, strokeDasharray: '4 4' }),
        plot.text([side], {
          frameAnchor: 'left',
          dx: -102,
          text: ({ group }: GroupSide) => group ?? own.noGroup,
          fontWeight: 650,
          textAnchor: 'start',
          fill: colours.ink,
        }),
        plot.ruleX([side], { x: 'median', stroke: colours.other, strokeWidth: 4, insetTop: 4, insetBottom: 4 }),
        plot.dot(
          side.people,
          plot.dodgeY({
            x: 'pace',
            r: radius,
            fill: colours.one,
            stroke: colours.ground,
            anchor: 'middle',
            title: ({ called, pace }: GroupSide['people'][number]) => `${called}: ${own.number(pace, 2)}`,
          }),
        ),
      ],
    }),
  );
}
