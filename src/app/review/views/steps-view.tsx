import { useEffect, useMemo, useState } from 'react';
import { stepLabel } from '../../../review/questions/asking.ts';
import type { StepMeasures } from '../../../review/questions/step-measures.ts';
import type { StepsAnswer } from '../../../review/review.ts';
import { fastenersTable, stepsTable } from '../../../review/tables.ts';
import { localDay } from '../../../review/wording.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { Choice, ProcedureChoice } from '../filters.tsx';
import { Folded } from '../folded.tsx';
import { Picture } from '../picture.tsx';
import { boxPlots } from '../pictures/box-plots.ts';
import type { Wording } from '../words/words.ts';
import { useWording } from '../words/words.ts';

/** Every step of one procedure: box plots against a reference run, and one step looked into. */
export function StepsView({ step }: { readonly step: string | null }) {
  const { procedure } = useDesk();
  const { page } = useWording();
  const [reference, setReference] = useState<string | null>(null);
  const [chosen, setChosen] = useState(step);
  useEffect(() => setChosen(step), [step]);
  const answer = useAnswer({ view: 'steps', procedure, reference });
  return (
    <div className="stack">
      <ProcedureChoice />
      {answer === undefined ? (
        <p role="status">{page.reckoning}</p>
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
  const wording = useWording();
  const { own } = wording;
  const words = wording.page.steps;
  const draw = useMemo(() => boxPlots(answer, wording), [answer, wording]);
  const { reference } = answer;
  const times = useMemo(
    () => (reference === null ? null : new Map(reference.times.map(({ step, active }) => [step, active]))),
    [reference],
  );
  const longest = answer.steps.reduce<StepMeasures | null>(
    (most, step) => ((step.active?.median ?? 0) > (most?.active?.median ?? 0) ? step : most),
    null,
  );
  const beside = reference === null ? '' : words.beside(reference.called, reference.number, reference.day);
  const title =
    longest === null
      ? words.titleWithout(answer.runs)
      : words.title(answer.runs, own.quoted(stepLabel(longest.name, 40)), longest.active?.median ?? 0, beside);
  return (
    <Picture title={title} note={words.note} draw={draw} table={() => stepsTable(answer.steps, answer.procedure, times, own)}>
      <div className="review-choice no-print">
        <ReferenceChoice reference={reference} onReference={onReference} />
        <Choice
          label={words.lookInto}
          all={wording.page.none}
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
  const { page, own } = useWording();
  const words = page.steps;
  const runs = useAnswer({ view: 'runs', first: 0, last: 300, procedure });
  const options = (runs?.lines ?? [])
    .filter((line) => line.ending === 'signed')
    .map(
      (line) =>
        [
          line.job,
          `${localDay(line.begun, line.offset)} ${own.personRun(line.called, line.number)}, ${own.duration(line.active)}`,
        ] as const,
    );
  const shown =
    reference === null || options.some(([job]) => job === reference.job)
      ? []
      : [[reference.job, `${reference.day} ${own.personRun(reference.called, reference.number)}`] as const];
  return (
    <Choice
      label={words.reference}
      all={words.nearest}
      value={reference?.job ?? ''}
      options={[...shown, ...options]}
      onChoose={(job) => onReference(job === '' ? null : job)}
    />
  );
}

function OneStep({ step, answer }: { readonly step: string; readonly answer: StepsAnswer }) {
  const { procedure } = useDesk();
  const wording = useWording();
  const { own } = wording;
  const words = wording.page.steps;
  const fasteners = useAnswer({ view: 'fasteners', procedure, step });
  const measures = answer.steps.find(({ name }) => name.id === step);
  if (measures === undefined) return null;
  const hard = answer.hard.find((one) => one.measures.name.id === step);
  return (
    <section className="panel" aria-labelledby="review-one-step">
      <h3 id="review-one-step">{stepLabel(measures.name, 200)}</h3>
      {hard === undefined ? null : <p className="review-caution">{words.hard(own.trimmed(hard.ratio, 1))}</p>}
      {sentences(measures, wording).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {fasteners === undefined || fasteners.fasteners.length === 0 ? null : (
        <Folded summary={words.everyFastener}>{() => <DataTable table={fastenersTable(fasteners, step, own)} />}</Folded>
      )}
    </section>
  );
}

function sentences(step: StepMeasures, { page, own }: Wording): readonly string[] {
  const words = page.steps;
  const { active } = step;
  const kinds = Object.entries(step.questionsByKind)
    .filter(([kind]) => kind !== 'repeat')
    .sort(([, one], [, other]) => other - one)
    .slice(0, 4)
    .map(([kind, count]) => `${own.question(kind)} ${count}`)
    .join(', ');
  const time =
    active === null
      ? words.nobody
      : `${words.time(active.median, active.count, active.lowerQuartile, active.upperQuartile, active.ninetieth)} ${
          active.interval === null ? words.tooFew : words.interval(active.interval.low, active.interval.high)
        }`;
  return [time, words.counts({ ...step, kinds }), words.share(step.timeShare, step.spreadShare)];
}
