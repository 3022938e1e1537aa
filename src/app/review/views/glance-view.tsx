import { useMemo } from 'react';
import { groupSentence } from '../../../review/questions/overview.ts';
import type { Finding, Overview } from '../../../review/questions/overview.ts';
import { groupsTable, monthsTable, stepsTable, stuckTable } from '../../../review/tables.ts';
import { many } from '../../../review/wording.ts';
import { DataTable } from '../data-table.tsx';
import type { Place } from '../desk.ts';
import { useAnswer, useDesk } from '../desk.ts';
import { Picture } from '../picture.tsx';
import { monthLine, timeBars } from '../pictures/glance.ts';

/** What a trainer should know within a minute: what stands out, where time goes, who is stuck where, whether it gets better. */
export function GlanceView() {
  const overview = useAnswer({ view: 'overview' });
  if (overview === undefined) return <p role="status">Reckoning…</p>;
  return <Glance overview={overview} />;
}

function Glance({ overview }: { readonly overview: Overview }) {
  const { go, facts, terms } = useDesk();
  const { time, hard, months } = overview;
  const hardSteps = useMemo(() => new Set(hard.map(({ measures }) => measures.name.step)), [hard]);
  const titles = useMemo(
    () =>
      new Map(
        facts.procedures
          .filter(({ id }) => terms.filter.procedures.length === 0 || terms.filter.procedures.includes(id))
          .map(({ id, title }) => [id, title]),
      ),
    [facts, terms],
  );
  const bars = useMemo(() => timeBars(time, hardSteps, titles), [time, hardSteps, titles]);
  const line = useMemo(() => monthLine(months), [months]);
  return (
    <div className="review-glance">
      <p className="review-count">
        {many(overview.runs, 'run')}, {overview.signed} signed off, by {many(overview.people, 'person', 'people')}, from{' '}
        {overview.from ?? '?'} to {overview.to ?? '?'}.
      </p>
      {overview.cautions.map((caution) => (
        <p key={caution} className="review-caution">
          {caution}
        </p>
      ))}
      <section className="review-findings" aria-labelledby="review-stands-out">
        <h2 id="review-stands-out">What stands out</h2>
        {overview.findings.length === 0 ? (
          <p>Nothing beyond what chance would do.</p>
        ) : (
          <ol>
            {overview.findings.map((finding) => (
              <li key={finding.text}>
                <strong>{kindTexts[finding.kind]}</strong>
                <span>{finding.text}</span>
                <button type="button" className="no-print" onClick={() => go(placeOf(finding))}>
                  Look
                  <span className="hidden-visually"> into it: {finding.text}</span>
                </button>
              </li>
            ))}
          </ol>
        )}
      </section>
      <section aria-labelledby="review-time">
        <h2 id="review-time">Where does the time go?</h2>
        <p>{overview.timeSentence}</p>
        <Picture
          title={`The ${many(time.length, 'step')} that take the most time, as shares of all time at work`}
          draw={bars}
          table={stepsTable(time, 'most-time', null)}
        />
      </section>
      <section aria-labelledby="review-stuck">
        <h2 id="review-stuck">Who is stuck where?</h2>
        <p>{overview.stuckSentence}</p>
        {overview.stuck.length === 0 ? null : <DataTable table={stuckTable(overview.stuck)} />}
      </section>
      <section aria-labelledby="review-better">
        <h2 id="review-better">Is it getting better?</h2>
        <p>{overview.trendSentence}</p>
        <Picture
          title="How long runs took, month by month, at equal procedure and build"
          note="Bars show where the month’s median may lie (95 %). Hollow: too few runs to say."
          draw={line}
          table={monthsTable(months)}
        />
      </section>
      {overview.groups.length === 0 ? null : (
        <section aria-labelledby="review-groups">
          <h2 id="review-groups">Group against group</h2>
          {overview.groups.map((comparison) => (
            <p key={`${comparison.first.group ?? ''}/${comparison.second.group ?? ''}`}>{groupSentence(comparison)}</p>
          ))}
          <details>
            <summary>The figures behind it</summary>
            <DataTable table={groupsTable(overview.groups)} />
          </details>
        </section>
      )}
    </div>
  );
}

const kindTexts: Readonly<Record<Finding['kind'], string>> = {
  'hold point': 'Hold point left out',
  'hard step': 'Hard step',
  stuck: 'Stuck',
  group: 'Groups differ',
  'fast learner': 'Learns fast',
  'slow learner': 'Learns slowly',
};

function placeOf({ place }: Finding): Place {
  switch (place.view) {
    case 'steps':
      return { view: 'steps', procedure: place.procedure, step: place.step };
    case 'sheet':
      return { view: 'sheet', person: place.person };
    case 'groups':
      return { view: 'groups' };
    case 'people':
    case 'learning':
      return place.procedure === null ? { view: place.view } : { view: place.view, procedure: place.procedure };
  }
}
