import { memo, useMemo, useState } from 'react';
import { aimSentence } from '../../../review/questions/feedback.ts';
import type { Learning } from '../../../review/questions/learning.ts';
import { learningTable, trialsTable } from '../../../review/tables.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { ProcedureChoice } from '../filters.tsx';
import { Folded } from '../folded.tsx';
import { Picture } from '../picture.tsx';
import { learningCurves, mostCurves } from '../pictures/learning-curves.ts';
import { useWording } from '../words/words.ts';

/** Learning curves for one procedure, a small picture for each person, against an aim. */
export function LearningView() {
  const { procedure } = useDesk();
  const { page } = useWording();
  const [aimMinutes, setAimMinutes] = useState('');
  const minutes = Number(aimMinutes.replace(',', '.'));
  const aim = aimMinutes !== '' && minutes > 0 ? minutes * 60 : null;
  const learning = useAnswer({ view: 'learning', procedure, aim, drawn: mostCurves });
  return (
    <div className="stack">
      <ProcedureChoice />
      <div className="review-choice no-print">
        <label>
          {page.learning.aim}
          <input
            inputMode="decimal"
            value={aimMinutes}
            placeholder={learning === undefined || learning === null ? '' : (learning.aim / 60).toFixed(0)}
            onChange={({ target }) => setAimMinutes(target.value)}
          />
        </label>
      </div>
      {learning === undefined || learning === null ? <p role="status">{page.reckoning}</p> : <Curves learning={learning} ownAim={aim} />}
    </div>
  );
}

const Curves = memo(function Curves({ learning, ownAim }: { readonly learning: Learning; readonly ownAim: number | null }) {
  const { client, terms } = useDesk();
  const wording = useWording();
  const { own } = wording;
  const words = wording.page.learning;
  const draw = useMemo(() => learningCurves(learning, wording), [learning, wording]);
  const { learners, shared, aim } = learning;
  const few = learners.filter(({ trials }) => trials.length < 5).length;
  const there = learners.filter((learner) => learner.aim?.kind === 'run' && learner.aim.run <= (learner.trials.at(-1)?.run ?? 0)).length;
  if (learners.length === 0) return <p className="review-caution">{words.none}</p>;
  return (
    <>
      <Picture
        title={`${words.title(there, learners.length, aim)}${learners.length > mostCurves ? words.some(mostCurves) : ''}`}
        note={words.note(ownAim !== null)}
        draw={draw}
        table={() => learningTable(learning, own)}
      />
      {shared === null ? null : <p>{words.together(shared.rate, shared.interval.low, shared.interval.high)}</p>}
      {few === 0 ? null : <p className="review-caution">{words.few(few)}</p>}
      <Folded summary={words.whenReached}>
        {() => (
          <ul>
            {learners.map((learner) => (
              <li key={learner.person}>
                {learner.called}:{' '}
                {learner.aim === null ? words.tooFew : aimSentence(learner.aim, aim, learner.trials.at(-1)?.run ?? 0, own)}
              </li>
            ))}
          </ul>
        )}
      </Folded>
      <Folded summary={words.everyRun}>
        {() => (
          <DataTable
            table={trialsTable(learning, own)}
            whole={() =>
              client
                .ask({ view: 'learning', procedure: learning.procedure, aim: ownAim, drawn: 0 }, terms)
                .then((whole) => trialsTable(whole ?? learning, own))
            }
          />
        )}
      </Folded>
    </>
  );
});
