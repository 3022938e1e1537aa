import { memo, useMemo } from 'react';
import { heatTable, holdsTable, peopleTable, stuckTable } from '../../../review/tables.ts';
import type { Stuck } from '../../../review/questions/stuck.ts';
import type { Answers } from '../../../review/review.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { ProcedureChoice } from '../filters.tsx';
import { Picture } from '../picture.tsx';
import { heatFill, heatPicture, mostRows } from '../pictures/heat.ts';
import type { Wording } from '../words/words.ts';
import { useWording } from '../words/words.ts';

/** Person against step for one procedure, and everybody's figures. */
export function PeopleView() {
  const { procedure } = useDesk();
  const words = useWording().page;
  const heat = useAnswer({ view: 'heat', procedure, most: mostRows });
  const people = useAnswer({ view: 'people' });
  return (
    <div className="stack">
      <ProcedureChoice />
      {heat === undefined || heat === null ? <p role="status">{words.reckoning}</p> : <Heat heat={heat} />}
      {people === undefined ? null : <Everybody people={people} />}
    </div>
  );
}

const Heat = memo(function Heat({ heat }: { readonly heat: NonNullable<Answers['heat']> }) {
  const { client, terms } = useDesk();
  const wording = useWording();
  const { page, own } = wording;
  const words = page.people;
  const { map, stuck, of } = heat;
  const draw = useMemo(() => heatPicture(map, wording), [map, wording]);
  if (map.cells.length === 0) return <p className="review-caution">{words.tooFew}</p>;
  return (
    <>
      <Picture
        title={heatTitle(stuck, of, wording)}
        note={words.note}
        draw={draw}
        table={() => heatTable(map, own)}
        whole={() =>
          client.ask({ view: 'heat', procedure: map.procedure, most: 0 }, terms).then((whole) => heatTable(whole?.map ?? map, own))
        }
      >
        <HeatLegend />
      </Picture>
      {stuck.length === 0 ? null : (
        <section className="stack" aria-label={words.stuckLabel}>
          <h3>{words.stuckHead}</h3>
          <DataTable table={stuckTable(stuck, own)} />
        </section>
      )}
    </>
  );
});

const Everybody = memo(function Everybody({ people: { people, holds } }: { readonly people: Answers['people'] }) {
  const { go } = useDesk();
  const { page, own } = useWording();
  const words = page.people;
  return (
    <section className="stack" aria-label={words.everybodyLabel}>
      <h3>{words.everybody}</h3>
      <DataTable table={peopleTable(people, own)} />
      <h3>{words.holds}</h3>
      {holds.length === 0 ? <p>{words.noHolds}</p> : <DataTable table={holdsTable(holds, own)} />}
      <div className="row no-print">
        <button type="button" onClick={() => go({ view: 'sheet' })}>
          {words.feedback}
        </button>
      </div>
    </section>
  );
});

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
