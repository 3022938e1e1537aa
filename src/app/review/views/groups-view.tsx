import { useMemo } from 'react';
import type { GroupComparison, GroupSide } from '../../../review/questions/group-comparison.ts';
import { groupFinding, groupSentence } from '../../../review/questions/overview.ts';
import { groupsTable } from '../../../review/tables.ts';
import { useAnswer } from '../desk.ts';
import { Picture } from '../picture.tsx';
import { groupDots } from '../pictures/groups.ts';
import type { Wording } from '../words/words.ts';
import { useWording } from '../words/words.ts';

/** With many groups there are very many pairs; the table has them all. */
const sentencesShown = 12;

/** Group against group, one figure a person. */
export function GroupsView() {
  const groups = useAnswer({ view: 'groups' });
  const { page } = useWording();
  if (groups === undefined) return <p role="status">{page.reckoning}</p>;
  if (groups.length === 0) return <p className="review-caution">{page.groups.none}</p>;
  return <Compared groups={groups} />;
}

function Compared({ groups }: { readonly groups: readonly GroupComparison[] }) {
  const wording = useWording();
  const { own } = wording;
  const words = wording.page.groups;
  const sides = useMemo(() => {
    const seen = new Map<string | null, GroupSide>();
    for (const { first, second } of groups) for (const side of [first, second]) seen.set(side.group, side);
    return [...seen.values()];
  }, [groups]);
  const draw = useMemo(() => groupDots(sides, wording), [sides, wording]);
  const people = Math.min(...sides.map((side) => side.people.length));
  return (
    <div className="stack">
      <Picture title={titleOf(groups, wording)} note={words.note} draw={draw} table={() => groupsTable(groups, own)} />
      {groups.slice(0, sentencesShown).map((comparison) => (
        <p key={`${comparison.first.group ?? ''}/${comparison.second.group ?? ''}`}>{groupSentence(comparison, own)}</p>
      ))}
      {people < 6 ? <p className="review-caution">{words.small(people)}</p> : null}
    </div>
  );
}

function titleOf(groups: readonly GroupComparison[], { page, own }: Wording): string {
  const clear = groups.flatMap((group) => groupFinding(group, own));
  const [only] = groups;
  if (only === undefined || groups.length > 1) return page.groups.several(clear.length, groups.length);
  return clear[0]?.text ?? page.groups.noneClear(only.first.group ?? own.noGroup, only.second.group ?? own.noGroup);
}
