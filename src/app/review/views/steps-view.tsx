import { useEffect, useMemo, useState } from 'react';
import { stepLabel } from '../../../review/questions/asking.ts';
import type { StepMeasures } from '../../../review/questions/step-measures.ts';
import type { StepsAnswer } from '../../../review/review.ts';
import { fastenersTable, stepsTable } from '../../../review/tables.ts';
import { duration, localDay, many, percent } from '../../../review/wording.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { Choice, ProcedureChoice } from '../filters.tsx';
import { Picture } from '../picture.tsx';
import { boxPlots } from '../pictures/box-plots.ts';

/** Every step of one procedure: box plots against a reference run, and one step looked into. */
export function StepsView({ step }: { readonly step: string | null }) {
  const { procedure } = useDesk();
  const [reference, setReference] = useState<string | null>(null);
  const [chosen, setChosen] = useState(step);
  useEffect(() => setChosen(step), [step]);
  const answer = useAnswer({ view: 'steps', procedure, reference });
  return (
    <div className="stack">
      <ProcedureChoice />
      {answer === undefined ? (
        <p role="status">Reckoning…</p>
      ) : (
        <>
          {chosen === null ? null : <OneStep step={chosen} answer={answer} />}
          <Steps answer={answer} chosen={chosen} onChoose={setChosen} onReference={setReference} />
        </>
      )}
    </div>
  );
}

function Steps({
  answer,
  chosen,
  onChoose,
  onReference,
}: {
  readonly answer: StepsAnswer;
  readonly chosen: string | null;
  readonly onChoose: (step: string | null) => void;
  readonly onReference: (job: string | null) => void;
}) {
  const draw = useMemo(() => boxPlots(answer), [answer]);
  const { reference } = answer;
  const times = useMemo(
    () => (reference === null ? null : new Map(reference.times.map(({ step, active }) => [step, active]))),
    [reference],
  );
  const beside = reference === null ? '' : `, beside ${reference.called}’s run ${reference.number} of ${reference.day}`;
  return (
    <Picture
      title={`How long each step takes in ${many(answer.runs, 'run')}${beside}`}
      note="Boxes hold the middle half of the times, the upright stroke is the median, the thick bar where the true median may lie (95 %); a broken outline means too few times to say. Dots are outliers, the orange diamond is the reference run. Equal distances are equal ratios."
      draw={draw}
      table={stepsTable(answer.steps, answer.procedure, times)}
    >
      <div className="review-choice no-print">
        <ReferenceChoice reference={reference} onReference={onReference} />
        <Choice
          label="Look into a step"
          all="None"
          value={chosen ?? ''}
          options={answer.steps.map(({ name }) => [name.id, stepLabel(name, 60)])}
          onChoose={(id) => onChoose(id === '' ? null : id)}
        />
      </div>
    </Picture>
  );
}

/** Any of the latest runs may be the one to set the others beside. */
function ReferenceChoice({
  reference,
  onReference,
}: {
  readonly reference: StepsAnswer['reference'];
  readonly onReference: (job: string | null) => void;
}) {
  const { procedure } = useDesk();
  const runs = useAnswer({ view: 'runs', first: 0, last: 300, procedure });
  const options = (runs?.lines ?? [])
    .filter((line) => line.ending === 'signed')
    .map(
      (line) => [line.job, `${localDay(line.begun, line.offset)} ${line.called}, run ${line.number}, ${duration(line.active)}`] as const,
    );
  const shown =
    reference === null || options.some(([job]) => job === reference.job)
      ? []
      : [[reference.job, `${reference.day} ${reference.called}, run ${reference.number}`] as const];
  return (
    <Choice
      label="Reference run"
      all="The one nearest to the median"
      value={reference?.job ?? ''}
      options={[...shown, ...options]}
      onChoose={(job) => onReference(job === '' ? null : job)}
    />
  );
}

function OneStep({ step, answer }: { readonly step: string; readonly answer: StepsAnswer }) {
  const { procedure } = useDesk();
  const fasteners = useAnswer({ view: 'fasteners', procedure, step });
  const measures = answer.steps.find(({ name }) => name.id === step);
  if (measures === undefined) return null;
  const hard = answer.hard.find((one) => one.measures.name.id === step);
  return (
    <section className="panel" aria-labelledby="review-one-step">
      <h3 id="review-one-step">{stepLabel(measures.name, 200)}</h3>
      {hard === undefined ? null : (
        <p className="review-caution">
          Makes {Number(hard.ratio.toFixed(1))} times the trouble that its amount of work leads one to expect.
        </p>
      )}
      {sentences(measures).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {fasteners === undefined || fasteners.fasteners.length === 0 ? null : (
        <details>
          <summary>Every fastener</summary>
          <DataTable table={fastenersTable(fasteners, step)} />
        </details>
      )}
    </section>
  );
}

function sentences(step: StepMeasures): readonly string[] {
  const { active } = step;
  const kinds = Object.entries(step.questionsByKind)
    .filter(([kind]) => kind !== 'repeat')
    .sort(([, one], [, other]) => other - one)
    .slice(0, 4)
    .map(([kind, count]) => `${kind.replaceAll('-', ' ')} ${count}`);
  const time =
    active === null
      ? 'Nobody has carried it out in these runs.'
      : `Median ${duration(active.median)} in ${many(active.count, 'run')}; half of all between ${duration(active.lowerQuartile)} and ${duration(active.upperQuartile)}, one in ten over ${duration(active.ninetieth)}. ${
          active.interval === null
            ? 'Too few runs to say where the true median lies.'
            : `The true median lies between ${duration(active.interval.low)} and ${duration(active.interval.high)}.`
        }`;
  return [
    time,
    `${many(step.questions, 'question')}${kinds.length === 0 ? '' : ` (${kinds.join(', ')})`}, ${many(step.repeats, 'repeat')}, ${step.misheard} misheard, ${many(step.stepBacks, 'step-back')}, ${many(step.undos, 'undo', 'undos')}, ${many(step.stops, 'stop')}, ${many(step.skips, 'skip')}, ${many(step.holdsFailed, 'failed hold')}.`,
    `It takes ${percent(step.timeShare)} of the time at work${step.spreadShare === null ? '' : ` and explains ${percent(step.spreadShare)} of the spread of the totals`}.`,
  ];
}
