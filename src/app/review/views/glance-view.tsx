import { useMemo } from 'react';
import { groupSentence } from '../../../review/questions/overview.ts';
import type { Finding, Overview } from '../../../review/questions/overview.ts';
import { groupsTable, monthsTable, stepsTable, stuckTable } from '../../../review/tables.ts';
import { DataTable } from '../data-table.tsx';
import type { Place } from '../desk.ts';
import { useAnswer, useDesk } from '../desk.ts';
import { Folded } from '../folded.tsx';
import { Picture } from '../picture.tsx';
import { monthLine, timeBars } from '../pictures/glance.ts';
import { useWording } from '../words/words.ts';

/** With many groups there are very many pairs of them. */
const groupsShown = 3;

/** What a trainer should know within a minute: what stands out, where time goes, who is stuck where, whether it gets better. */
export function GlanceView() {
  const overview = useAnswer({ view: 'overview' });
  const { page } = useWording();
  if (overview === undefined) return <p role="status">{page.reckoning}</p>;
  return <Glance overview={overview} />;
}

function Glance({ overview }: { readonly overview: Overview }) {
  const { go, facts, terms } = useDesk();
  const { time, hard, months } = overview;
  const wording = useWording();
  const { page, own } = wording;
  const words = page.glance;
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
  const bars = useMemo(() => timeBars(time, hardSteps, titles, wording), [time, hardSteps, titles, wording]);
  const line = useMemo(() => monthLine(months, wording), [months, wording]);
  return (
    <div className="review-glance">
      <p className="review-count">
        {words.count(overview.runs, overview.signed, overview.people, overview.from ?? '?', overview.to ?? '?')}
      </p>
      {overview.cautions.map((caution) => (
        <p key={caution} className="review-caution">
          {caution}
        </p>
      ))}
      <section className="review-findings" aria-labelledby="review-stands-out">
        <h2 id="review-stands-out">{words.standsOut}</h2>
        {overview.findings.length === 0 ? (
          <p>{own.overview.nothing}</p>
        ) : (
          <ol>
            {overview.findings.map((finding) => (
              <li key={finding.text}>
                <strong>{words.kinds[finding.kind]}</strong>
                <span>{finding.text}</span>
                <button type="button" className="no-print" onClick={() => go(placeOf(finding))}>
                  {words.look}
                  <span className="hidden-visually">{words.lookInto(finding.text)}</span>
                </button>
              </li>
            ))}
          </ol>
        )}
      </section>
      <section aria-labelledby="review-time">
        <h2 id="review-time">{words.time}</h2>
        <p>{overview.timeSentence}</p>
        <Picture title={words.timeTitle(time.length)} draw={bars} table={() => stepsTable(time, 'most-time', null, own)} />
      </section>
      <section aria-labelledby="review-stuck">
        <h2 id="review-stuck">{words.stuck}</h2>
        <p>{overview.stuckSentence}</p>
        {overview.stuck.length === 0 ? null : <DataTable table={stuckTable(overview.stuck, own)} />}
      </section>
      <section aria-labelledby="review-better">
        <h2 id="review-better">{words.better}</h2>
        <p>{overview.trendSentence}</p>
        <Picture title={words.monthsTitle} note={words.monthsNote} draw={line} table={() => monthsTable(months, own)} />
      </section>
      {overview.groups.length === 0 ? null : (
        <section aria-labelledby="review-groups">
          <h2 id="review-groups">{words.groups}</h2>
          {overview.groups.slice(0, groupsShown).map((comparison) => (
            <p key={`${comparison.first.group ?? ''}/${comparison.second.group ?? ''}`}>{groupSentence(comparison, own)}</p>
          ))}
          {overview.groups.length > groupsShown ? <p>{words.moreGroups(overview.groups.length - groupsShown)}</p> : null}
          <Folded summary={page.table.behind}>{() => <DataTable table={groupsTable(overview.groups, own)} />}</Folded>
        </section>
      )}
    </div>
  );
}

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
