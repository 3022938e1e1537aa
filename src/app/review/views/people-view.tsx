import { useMemo } from 'react';
import { heatTable, holdsTable, peopleTable, stuckTable } from '../../../review/tables.ts';
import type { Stuck } from '../../../review/questions/stuck.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { ProcedureChoice } from '../filters.tsx';
import { Picture } from '../picture.tsx';
import { heatFill, heatPicture, mostRows } from '../pictures/heat.ts';
import type { Wording } from '../words/words.ts';
import { useWording } from '../words/words.ts';

/** Person against step for one procedure, and everybody's figures. */
export function PeopleView() {
  const { procedure, facts, go } = useDesk();
  const wording = useWording();
  const { page, own } = wording;
  const words = page.people;
  const heat = useAnswer({ view: 'heat', procedure });
  const people = useAnswer({ view: 'people' });
  const map = heat?.map ?? null;
  const draw = useMemo(() => (map === null ? null : heatPicture(map, wording)), [map, wording]);
  return (
    <div className="stack">
      <ProcedureChoice />
      {map === null || draw === null ? (
        <p role="status">{page.reckoning}</p>
      ) : map.cells.length === 0 ? (
        <p className="review-caution">{words.tooFew}</p>
      ) : (
        <Picture title={heatTitle(heat?.stuck ?? [], map.people.length, wording)} note={words.note} draw={draw} table={heatTable(map, own)}>
          <HeatLegend />
        </Picture>
      )}
      {heat === undefined || heat === null || heat.stuck.length === 0 ? null : (
        <section className="stack" aria-label={words.stuckLabel}>
          <h3>{words.stuckHead}</h3>
          <DataTable table={stuckTable(heat.stuck, own)} />
        </section>
      )}
      {people === undefined ? null : (
        <section className="stack" aria-label={words.everybodyLabel}>
          <h3>{words.everybody}</h3>
          <DataTable table={peopleTable(people.people, own)} />
          <h3>{words.holds}</h3>
          {people.holds.length === 0 ? <p>{words.noHolds}</p> : <DataTable table={holdsTable(people.holds, own)} />}
          <div className="row no-print">
            {facts.people.length === 0 ? null : (
              <button type="button" onClick={() => go({ view: 'sheet' })}>
                {words.feedback}
              </button>
            )}
          </div>
        </section>
      )}
    </div>
  );
}

function heatTitle(stuck: readonly Stuck[], people: number, { page }: Wording): string {
  const words = page.people;
  const some = people > mostRows ? words.some(mostRows) : '';
  if (stuck.length === 0) return `${words.nobodyStuck(people)}${some}`;
  const named = stuck.slice(0, 3).map(({ called, name }) => [called, name.number === '' ? name.id : name.number] as const);
  return `${words.stuck(named, stuck.length - named.length, people)}${some}`;
}

function HeatLegend() {
  const { page, own } = useWording();
  const words = page.people.legend;
  return (
    <div className="review-legend" aria-hidden="true">
      {[0.5, 0.7, 1, 1.4, 2].map((ratio) => (
        <span key={ratio}>
          <i style={{ background: heatFill(ratio) }} />
          {ratio === 0.5 ? words.half : ratio === 1 ? words.expected : ratio === 2 ? words.twice : own.trimmed(ratio, 1)}
        </span>
      ))}
    </div>
  );
}
