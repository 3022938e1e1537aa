import { useMemo } from 'react';
import type { GroupComparison, GroupSide } from '../../../review/questions/group-comparison.ts';
import { groupSentence } from '../../../review/questions/overview.ts';
import { groupsTable } from '../../../review/tables.ts';
import { useAnswer } from '../desk.ts';
import { Picture } from '../picture.tsx';
import { groupDots } from '../pictures/groups.ts';

/** Group against group, one figure a person. */
export function GroupsView() {
  const groups = useAnswer({ view: 'groups' });
  if (groups === undefined) return <p role="status">Reckoning…</p>;
  if (groups.length === 0) return <p className="review-caution">There are no two groups with signed runs in this selection.</p>;
  return <Compared groups={groups} />;
}

function Compared({ groups }: { readonly groups: readonly GroupComparison[] }) {
  const sides = useMemo(() => {
    const seen = new Map<string | null, GroupSide>();
    for (const { first, second } of groups) for (const side of [first, second]) seen.set(side.group, side);
    return [...seen.values()];
  }, [groups]);
  const draw = useMemo(() => groupDots(sides), [sides]);
  const people = Math.min(...sides.map((side) => side.people.length));
  return (
    <div className="stack">
      <Picture
        title="Everybody’s pace, group by group"
        note="A dot is a person, the upright bar the group’s median."
        draw={draw}
        table={groupsTable(groups)}
      />
      {groups.map((comparison) => (
        <p key={`${comparison.first.group ?? ''}/${comparison.second.group ?? ''}`}>{groupSentence(comparison)}</p>
      ))}
      {people < 6 ? (
        <p className="review-caution">
          A group of {people}: only a very large difference could show, and none showing does not mean that there is none.
        </p>
      ) : null}
    </div>
  );
}
