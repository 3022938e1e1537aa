import { useState } from 'react';
import { fairTable } from '../../../review/tables.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { Choice, ProcedureChoice } from '../filters.tsx';
import { useWording } from '../words/words.ts';

const confidences = [
  ['1.645', '90 %'],
  ['1.96', '95 %'],
  ['2.58', '99 %'],
] as const;

/** A fair time for every step: observed × rating × allowance, and how many observations it takes to trust it. */
export function FairView() {
  const { procedure, terms } = useDesk();
  const { page, own } = useWording();
  const words = page.fair;
  const [allowance, setAllowance] = useState('15');
  const [basis, setBasis] = useState<'job' | 'day'>('job');
  const [share, setShare] = useState('5');
  const [z, setZ] = useState('1.96');
  const [withoutOutliers, setWithoutOutliers] = useState(true);
  const fair = useAnswer({
    view: 'fair',
    procedure,
    terms: {
      allowance: within(allowance, 0, 90) / 100,
      basis,
      precision: { share: within(share, 0.5, 50) / 100, z: Number(z) },
      withoutOutliers,
    },
  });
  return (
    <div className="stack">
      <ProcedureChoice />
      <div className="review-choice no-print">
        <label>
          {words.allowance}
          <input inputMode="decimal" value={allowance} onChange={({ target }) => setAllowance(target.value)} />
        </label>
        <Choice
          label={words.basis}
          all={null}
          value={basis}
          options={[
            ['job', words.job],
            ['day', words.day],
          ]}
          onChoose={(value) => setBasis(value === 'day' ? 'day' : 'job')}
        />
        <label>
          {words.precision}
          <input inputMode="decimal" value={share} onChange={({ target }) => setShare(target.value)} />
        </label>
        <Choice label={words.confidence} all={null} value={z} options={confidences} onChoose={setZ} />
        <label className="check">
          <input type="checkbox" checked={withoutOutliers} onChange={({ target }) => setWithoutOutliers(target.checked)} />
          {words.withoutOutliers}
        </label>
      </div>
      {fair === undefined || fair === null ? (
        <p role="status">{page.reckoning}</p>
      ) : fair.steps.length === 0 ? (
        <p className="review-caution">{words.none}</p>
      ) : (
        <>
          <p className="review-count">
            {words.total(fair.total)}{' '}
            {fair.missing === null ? words.unsure : fair.missing === 0 ? words.enough : words.missing(fair.missing)}
          </p>
          {terms.filter.skipFirst === 0 ? <p className="review-caution">{words.firstRuns}</p> : null}
          <DataTable table={fairTable(fair, own)} />
        </>
      )}
    </div>
  );
}

function within(text: string, low: number, high: number): number {
  const value = Number(text.replace(',', '.'));
  return Number.isFinite(value) ? Math.max(low, Math.min(high, value)) : low;
}
