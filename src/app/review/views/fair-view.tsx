import { useState } from 'react';
import { fairTable } from '../../../review/tables.ts';
import { duration, many } from '../../../review/wording.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { Choice, ProcedureChoice } from '../filters.tsx';

const confidences = [
  ['1.645', '90 %'],
  ['1.96', '95 %'],
  ['2.58', '99 %'],
] as const;

/** A fair time for every step: observed × rating × allowance, and how many observations it takes to trust it. */
export function FairView() {
  const { procedure, terms } = useDesk();
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
          Allowance for rest and small delays, %
          <input inputMode="decimal" value={allowance} onChange={({ target }) => setAllowance(target.value)} />
        </label>
        <Choice
          label="The allowance is a share of"
          all={null}
          value={basis}
          options={[
            ['job', 'the job'],
            ['day', 'the working day'],
          ]}
          onChoose={(value) => setBasis(value === 'day' ? 'day' : 'job')}
        />
        <label>
          Wanted to within, %
          <input inputMode="decimal" value={share} onChange={({ target }) => setShare(target.value)} />
        </label>
        <Choice label="With a confidence of" all={null} value={z} options={confidences} onChoose={setZ} />
        <label className="check">
          <input type="checkbox" checked={withoutOutliers} onChange={({ target }) => setWithoutOutliers(target.checked)} />
          Leave outliers out
        </label>
      </div>
      {fair === undefined || fair === null ? (
        <p role="status">Reckoning…</p>
      ) : fair.steps.length === 0 ? (
        <p className="review-caution">No step of it was carried out in this selection.</p>
      ) : (
        <>
          <p className="review-count">
            A fair time for the whole job: {duration(fair.total)}.{' '}
            {fair.missing === null
              ? 'Some steps were seen only once: nothing can be said of how far to trust it.'
              : fair.missing === 0
                ? 'Every step has been seen often enough for that precision.'
                : `For that precision at every step, ${many(fair.missing, 'more observation')} of the most unsteady step would be needed.`}
          </p>
          {terms.filter.skipFirst === 0 ? (
            <p className="review-caution">
              These times include everybody’s first runs. For a time that is fair to those who can do the job, leave the first ones out with
              the filters, and rate runs where the pace was plainly not normal.
            </p>
          ) : null}
          <DataTable table={fairTable(fair)} />
        </>
      )}
    </div>
  );
}

function within(text: string, low: number, high: number): number {
  const value = Number(text.replace(',', '.'));
  return Number.isFinite(value) ? Math.max(low, Math.min(high, value)) : low;
}
