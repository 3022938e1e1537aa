import { useMemo, useState } from 'react';
import { aimSentence } from '../../../review/questions/feedback.ts';
import type { Learning } from '../../../review/questions/learning.ts';
import { learningTable, trialsTable } from '../../../review/tables.ts';
import { duration, many, percent } from '../../../review/wording.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { ProcedureChoice } from '../filters.tsx';
import { Picture } from '../picture.tsx';
import { learningCurves } from '../pictures/learning-curves.ts';

/** Learning curves for one procedure, a small picture for each person, against an aim. */
export function LearningView() {
  const { procedure } = useDesk();
  const [aimMinutes, setAimMinutes] = useState('');
  const minutes = Number(aimMinutes.replace(',', '.'));
  const aim = aimMinutes !== '' && minutes > 0 ? minutes * 60 : null;
  const learning = useAnswer({ view: 'learning', procedure, aim });
  return (
    <div className="stack">
      <ProcedureChoice />
      <div className="review-choice no-print">
        <label>
          Aim for a whole run, in minutes
          <input
            inputMode="decimal"
            value={aimMinutes}
            placeholder={learning === undefined || learning === null ? '' : (learning.aim / 60).toFixed(0)}
            onChange={({ target }) => setAimMinutes(target.value)}
          />
        </label>
      </div>
      {learning === undefined || learning === null ? (
        <p role="status">Reckoning…</p>
      ) : (
        <Curves learning={learning} hasOwnAim={aim !== null} />
      )}
    </div>
  );
}

function Curves({ learning, hasOwnAim }: { readonly learning: Learning; readonly hasOwnAim: boolean }) {
  const draw = useMemo(() => learningCurves(learning), [learning]);
  const { learners, shared, aim } = learning;
  const few = learners.filter(({ trials }) => trials.length < 5).length;
  const there = learners.filter((learner) => learner.aim?.kind === 'run' && learner.aim.run <= (learner.trials.at(-1)?.run ?? 0)).length;
  if (learners.length === 0) return <p className="review-caution">No signed run of it in this selection.</p>;
  return (
    <>
      <Picture
        title={`${there} of ${many(learners.length, 'person', 'people')} have come to the aim of ${duration(aim)} on their curve`}
        note={`Minutes at work against the number of the run. Points are runs, the line is the fitted curve, the band where it may lie (95 %), the broken line the aim${hasOwnAim ? '' : ' (what the quickest quarter of all runs kept)'}. The percentage is what each doubling of runs brings the time to.`}
        draw={draw}
        table={learningTable(learning)}
      />
      {shared === null ? null : (
        <p>
          Together: each doubling of runs brings the time to {percent(shared.rate)} (between {percent(shared.interval.low)} and{' '}
          {percent(shared.interval.high)}), each person at a level of their own. Unit model, fitted to the logarithms.
        </p>
      )}
      {few === 0 ? null : (
        <p className="review-caution">
          {many(few, 'person has', 'people have')} fewer than five runs: such a curve can still turn anywhere.
        </p>
      )}
      <details>
        <summary>When the aim is reached, person by person</summary>
        <ul>
          {learners.map((learner) => (
            <li key={learner.person}>
              {learner.called}:{' '}
              {learner.aim === null ? 'too few runs for a curve.' : aimSentence(learner.aim, aim, learner.trials.at(-1)?.run ?? 0)}
            </li>
          ))}
        </ul>
      </details>
      <details>
        <summary>Every run behind the curves</summary>
        <DataTable table={trialsTable(learning)} />
      </details>
    </>
  );
}
