import type { CribRules, TorqueWrench } from '../../torque/crib.ts';
import { addMonths } from '../../torque/calendar.ts';
import { calibrationWarnings } from '../../torque/wrench.ts';
import { packFor } from '../../phrasing/packs.ts';
import { today } from '../platform/clock.ts';
import { useSettings } from '../settings-context.ts';
import { useToolsWords } from './words/words.ts';

/** How a wrench stands: its clicks with the ones that jobs here have added, when it is due, and what speaks against it. */
export function WrenchState({
  counted,
  own,
  rules,
  onCalibrated,
}: {
  /** The wrench with the clicks of the jobs, and as it was filled in. */
  readonly counted: TorqueWrench;
  readonly own: TorqueWrench;
  readonly rules: CribRules;
  readonly onCalibrated: () => void;
}) {
  const words = useToolsWords();
  const { note } = packFor(useSettings().settings.language).tools;
  const added = counted.operations - own.operations;
  const due = own.calibrated === null ? null : addMonths(own.calibrated, rules.calibrationMonths);
  return (
    <div className="stack small">
      <p className="quiet">{words.clicks(added, counted.operations, rules.calibrationOperations)}</p>
      {due === null || due < today() ? null : <p className="quiet">{words.due(due)}</p>}
      {calibrationWarnings(counted, rules, today()).map((warning) => (
        <p key={warning.code} className="warn">
          {note(warning)}
        </p>
      ))}
      <button type="button" style={{ justifySelf: 'start' }} onClick={onCalibrated}>
        {words.calibratedToday}
      </button>
    </div>
  );
}
