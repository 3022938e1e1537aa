import type { GroupSide } from '../../../review/questions/group-comparison.ts';
import type { Draw } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { colours, frame } from './shared.ts';

/** More people than this in one group get smaller dots: larger ones would pile up beyond their row, and finding their places takes long. */
const manyPeople = 30;

/** A dot for each person by their pace, a row for each group, a bar at the group's median. */
export function groupDots(sides: readonly GroupSide[], { page, own }: Wording): Draw {
  return (plot, width) => {
    const people = sides.flatMap((side, row) => side.people.map((person) => ({ ...person, row })));
    const radius = sides.some((side) => side.people.length > manyPeople) ? 3 : 6;
    const paces = people.map(({ pace }) => pace);
    return plot.plot(
      frame(width, {
        height: sides.length * 84 + 86,
        marginLeft: 110,
        marginRight: 18,
        marginTop: 12,
        marginBottom: 64,
        x: {
          label: page.groups.axis,
          labelOffset: 48,
          domain: [Math.min(...paces, 1) * 0.95, Math.max(...paces, 1) * 1.05],
          grid: true,
          // As many ticks as there is room for, written as the language writes them.
          ticks: Math.max(3, Math.floor((width - 110) / 90)),
          tickFormat: (pace: number) => own.trimmed(pace, 2),
        },
        fy: { domain: sides.map((_, row) => row), padding: 0.1, axis: null },
        marks: [
          plot.ruleX([1], { stroke: colours.quiet, strokeDasharray: '4 4' }),
          plot.text(sides, {
            fy: (_: GroupSide, row: number) => row,
            frameAnchor: 'left',
            dx: -102,
            text: ({ group }: GroupSide) => group ?? own.noGroup,
            fontWeight: 650,
            textAnchor: 'start',
            fill: colours.ink,
          }),
          plot.ruleX(sides, { fy: (_: GroupSide, row: number) => row, x: 'median', stroke: colours.other, strokeWidth: 4 }),
          plot.dot(
            people,
            plot.dodgeY({
              fy: 'row',
              x: 'pace',
              r: radius,
              fill: colours.one,
              stroke: colours.ground,
              anchor: 'middle',
              title: ({ called, pace }: (typeof people)[number]) => `${called}: ${own.number(pace, 2)}`,
            }),
          ),
        ],
      }),
    );
  };
}
