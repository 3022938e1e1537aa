import type { GroupProgress } from '../../job/state.ts';
import type { PlannedGroup } from '../../procedure/plan-types.ts';
import { useWords } from '../words/words.ts';
import { positionName } from './tool-words.ts';

/**
 * Where the fasteners sit, as the person sees them: the next one lit, the ones done in this pass ticked, the ones left out dashed.
 * Each is told apart by shape as well as by colour.
 */
export function PatternPicture({
  group,
  progress,
  pass,
  next,
}: {
  readonly group: PlannedGroup;
  readonly progress: GroupProgress;
  readonly pass: number;
  readonly next: number;
}) {
  const words = useWords();
  const many = group.positions.length > 24;
  const radius = many ? 5 : group.positions.length > 12 ? 10 : 16;
  const place = (value: number) => 18 + value * 164;
  return (
    <svg
      className="pattern"
      viewBox="0 0 200 200"
      role="img"
      aria-label={words.work.pictureOf(group.name, group.positions.length, positionName(group, next))}
    >
      {group.positions.map((position, index) => {
        const x = place(position.x);
        const y = place(position.y);
        const isNext = index === next;
        const isDone = (progress.passesDone[index] ?? 0) > pass;
        const isLeftOut = progress.leftOut[index] != null;
        const look = isNext ? 'next' : isLeftOut ? 'left-out' : isDone ? 'done' : 'seat';
        return (
          <g key={position.name}>
            <circle cx={x} cy={y} r={isNext ? radius + 5 : radius} className={look} />
            {isDone && !isNext && !isLeftOut ? (
              <path
                className="tick"
                fill="none"
                d={`M${x - radius * 0.5} ${y} l${radius * 0.35} ${radius * 0.4} l${radius * 0.65} ${-radius * 0.85}`}
              />
            ) : null}
            {(!isDone || isNext) && !many ? (
              <text x={x} y={y} className={isNext ? 'next-text' : ''}>
                {index + 1}
              </text>
            ) : null}
          </g>
        );
      })}
    </svg>
  );
}
