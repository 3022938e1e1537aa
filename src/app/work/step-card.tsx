import { briefingItem, fastenerAtHand, kitItemIndex, matterAtHand, secondsLeft, stepAtHand } from '../../job/dialogue.ts';
import type { Now } from '../../job/dialogue.ts';
import type { FastenerPlace, Line } from '../../phrasing/lines.ts';
import type { PlannedCaution, PlannedPass, PlannedStep } from '../../procedure/plan-types.ts';
import { formatTorque, shownTorque } from '../../torque/units.ts';
import type { Torque, TorqueUnit } from '../../torque/quantities.ts';
import { packFor } from '../../phrasing/packs.ts';
import { useSettings } from '../settings-context.ts';
import { useWords } from '../words/words.ts';
import { WrenchRemarks } from '../kit/wrench-remarks-panel.tsx';
import { PatternPicture } from './pattern-picture.tsx';
import type { RunnerView } from './runner.ts';
import { positionName, toolWords } from './tool-words.ts';

interface CardProps {
  readonly view: RunnerView;
  readonly now: Now;
  readonly words: (line: Line) => { readonly show: string };
}

/** The one thing that is wanted now, large enough to read from the floor. */
export function StepCard({ view, now, words }: CardProps) {
  const text = useWords();
  const { tools, closeOut } = packFor(useSettings().settings.language);
  const { dialogue, state } = view;
  const { plan, job } = dialogue;
  if (state === 'confirming' || state === 'reasoning' || state === 'diagnosing' || state === 'paused') {
    return (
      <>
        <p className="sentence">{view.captions.findLast(({ isTrouble }) => !isTrouble)?.text}</p>
        <StepReminder step={stepAtHand(plan, job)} />
      </>
    );
  }
  switch (state) {
    case 'briefing': {
      const item = briefingItem(plan, job);
      if (item?.kind === 'caution') return <CautionPanel caution={item.caution} language={plan.procedure.language} />;
      return item === null ? null : <p className="sentence">{item.before.check}</p>;
    }
    case 'kit': {
      const item = plan.kit[kitItemIndex(job) ?? -1];
      if (item === undefined) return null;
      return (
        <>
          <p className="count">
            {(kitItemIndex(job) ?? 0) + 1} / {plan.kit.length}
          </p>
          <p className="sentence">{item.count > 1 ? `${item.count} × ${tools.kitName(item)}` : tools.kitName(item)}</p>
          <p className="quiet">{text.work.kitFor(item.steps.length)}</p>
          {item.owned === false ? <p className="warn">{tools.instead(item) ?? text.work.missing}</p> : null}
          {kitItemIndex(job) === 0 || item.kind === 'wrench' ? <WrenchRemarks plan={plan} /> : null}
          <a
            className="button"
            style={{ justifySelf: 'start' }}
            href={`#/kit/job/${view.events[0]?.job ?? ''}`}
            target="_blank"
            rel="noreferrer"
          >
            {text.start.kitList}
          </a>
        </>
      );
    }
    case 'closing': {
      const at = matterAtHand(plan, job);
      return at === null ? null : (
        <>
          <p className="count">
            {at.number} / {at.of}
          </p>
          <p className="sentence">{closeOut.matter(at.matter)}</p>
        </>
      );
    }
    case 'signing':
      return <p className="sentence">{words({ kind: 'sign-asked', name: job.opened?.person ?? null }).show}</p>;
    case 'closed':
      return (
        <>
          <p className="sentence good">{text.work.closedTitle}</p>
          {plan.followUps.map((followUp) => (
            <p key={followUp.id} className="count">
              {words({ kind: 'follow-up', followUp }).show}
            </p>
          ))}
        </>
      );
    default:
      return <WorkingCard view={view} now={now} />;
  }
}

function WorkingCard({ view, now }: Omit<CardProps, 'words'>) {
  const text = useWords();
  const { plan, job } = view.dialogue;
  const step = stepAtHand(plan, job);
  if (step === null) return null;
  const { cursor } = job.work;
  const part = view.state === 'visiting' ? undefined : cursor?.part;
  if (part?.kind === 'caution') {
    const caution = step.cautions[part.index];
    return caution === undefined ? null : <CautionPanel caution={caution} language={plan.procedure.language} />;
  }
  const place = fastenerAtHand(plan, job);
  const measure = part?.kind === 'measure' ? step.measures[part.index] : undefined;
  const hold = part?.kind === 'hold' ? step.holds[part.index] : undefined;
  const timer = part?.kind === 'wait' ? job.work.timers.find((one) => one.step === step.id) : undefined;
  return (
    <>
      <p className={place === null ? 'sentence' : 'sentence beside-figures'} lang={plan.procedure.language}>
        {step.say}
      </p>
      {step.helper === null ? null : <p className="warn">{`${text.work.helper}: ${step.helper}`}</p>}
      {step.optional === null ? null : <p className="quiet">{`${text.work.optional}: ${step.optional}`}</p>}
      {step.cautions.map((caution) => (
        <p key={caution.id}>
          <strong className={`signal small ${caution.signal}`}>{text.work.signals[caution.signal]}</strong>{' '}
          <span lang={plan.procedure.language}>{caution.text}</span>
        </p>
      ))}
      {place === null ? null : <FastenerFigures place={place} step={step} view={view} unit={job.spokenUnit} />}
      {measure === undefined ? null : (
        <div>
          <p className="socket">{measure.name}</p>
          <p className="torque limits">
            {text.work.limits(measure.min === null ? null : String(measure.min), measure.max === null ? null : String(measure.max))}{' '}
            <small>{measure.unit}</small>
          </p>
        </div>
      )}
      {hold === undefined ? null : (
        <p className="socket" lang={plan.procedure.language}>
          {hold.ask}
        </p>
      )}
      {timer === undefined ? null : (
        <div>
          <p className="torque">{minutes(secondsLeft(timer, now))}</p>
          <p className="socket" lang={plan.procedure.language}>
            {timer.name}
          </p>
        </div>
      )}
    </>
  );
}

function FastenerFigures({
  place,
  step,
  view,
  unit,
}: {
  readonly place: FastenerPlace;
  readonly step: PlannedStep;
  readonly view: RunnerView;
  readonly unit: TorqueUnit | null;
}) {
  const text = useWords();
  const { settings } = useSettings();
  const { group } = place;
  const pass = group.passes[place.pass];
  const progress = view.dialogue.job.work.steps.get(step.index)?.groups[step.groups.indexOf(group)];
  const position = group.positions[place.position];
  if (pass === undefined || progress === undefined) return null;
  const isLast = place.pass === group.passes.length - 1;
  const active = group.positions.length - progress.leftOut.filter((left) => left !== null).length;
  return (
    <div className="figures">
      <div className="stack">
        <PassFigure
          torque={pass.torque}
          angle={pass.angle}
          kind={pass.kind}
          hasTorque={group.torque !== null || group.angle !== null}
          unit={unit}
        />
        {isLast || group.torque === null ? null : <p className="quiet">{text.work.final(formatTorque(shownTorque(group.torque, unit)))}</p>}
        <p className="socket">{toolWords(group.tool, text.work.tool)}</p>
        <p className="count">
          {`${text.work.next}: ${positionName(group, place.position)}`}
          {position?.clock == null ? null : <span className="quiet"> {text.work.clock(String(position.clock).replace('.5', ':30'))}</span>}
        </p>
        <p className="count">
          {text.work.fastener(active - place.left, active)}
          <span className="quiet"> · {text.work.pass(place.pass + 1, group.passes.length)}</span>
        </p>
        {group.condition === null ? null : <p className="quiet">{group.condition}</p>}
        {pass.setting === null ? null : pass.setting.fits ? (
          <p>{text.work.set(pass.setting.wrench, formatTorque(pass.setting.set))}</p>
        ) : (
          <p className="warn">{pass.setting.reasons.map(packFor(settings.language).tools.note).join(' ')}</p>
        )}
      </div>
      {group.positions.length < 2 ? null : <PatternPicture group={group} progress={progress} pass={place.pass} next={place.position} />}
    </div>
  );
}

function PassFigure({
  torque,
  angle,
  kind,
  hasTorque,
  unit,
}: {
  readonly torque: Torque | null;
  readonly angle: number | null;
  readonly kind: PlannedPass['kind'];
  readonly hasTorque: boolean;
  readonly unit: TorqueUnit | null;
}) {
  const text = useWords();
  if (torque !== null) {
    const shown = shownTorque(torque, unit);
    return (
      <p className="torque">
        {shown.value} <small>{shown.unit}</small>
      </p>
    );
  }
  if (angle !== null)
    return (
      <p className="torque">
        {angle}
        <small>°</small>
      </p>
    );
  return <p className={hasTorque ? 'socket' : 'socket warn'}>{hasTorque ? text.work.passKinds[kind] : text.work.noTorque}</p>;
}

export function CautionPanel({ caution, language }: { readonly caution: PlannedCaution; readonly language: string }) {
  const text = useWords();
  return (
    <div className="caution-panel">
      <strong className={`signal ${caution.signal}`}>{text.work.signals[caution.signal]}</strong>
      <p className="sentence" lang={language}>
        {caution.text}
      </p>
    </div>
  );
}

function StepReminder({ step }: { readonly step: PlannedStep | null }) {
  return step === null ? null : <p className="quiet count">{`${step.number}. ${step.say}`}</p>;
}

/** "12:05": minutes and seconds on the screen. */
export const minutes = (seconds: number): string => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
