import { useMemo } from 'react';
import { heatTable, holdsTable, peopleTable, stuckTable } from '../../../review/tables.ts';
import { many } from '../../../review/wording.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { ProcedureChoice } from '../filters.tsx';
import { Picture } from '../picture.tsx';
import { heatFill, heatPicture } from '../pictures/heat.ts';

/** Person against step for one procedure, and everybody's figures. */
export function PeopleView() {
  const { procedure, facts, go } = useDesk();
  const heat = useAnswer({ view: 'heat', procedure });
  const people = useAnswer({ view: 'people' });
  const map = heat?.map ?? null;
  const draw = useMemo(() => (map === null ? null : heatPicture(map)), [map]);
  return (
    <div className="stack">
      <ProcedureChoice />
      {map === null || draw === null ? (
        <p role="status">Reckoning…</p>
      ) : map.cells.length === 0 ? (
        <p className="review-caution">Nobody has three runs of it yet: too few to set a person against a step.</p>
      ) : (
        <Picture
          title={heatTitle(heat?.stuck.length ?? 0, map.people.length)}
          note="Each field sets a person’s latest runs of a step against what their own pace and the step’s length lead one to expect. Orange with a figure of 1.4 or more: slower than that. Blue: quicker. Empty: fewer than three runs."
          draw={draw}
          table={heatTable(map)}
        >
          <HeatLegend />
        </Picture>
      )}
      {heat === undefined || heat === null || heat.stuck.length === 0 ? null : (
        <section className="stack" aria-label="Stuck">
          <h3>Slow beyond their own pace, and clearer than chance</h3>
          <DataTable table={stuckTable(heat.stuck)} />
        </section>
      )}
      {people === undefined ? null : (
        <section className="stack" aria-label="Everybody">
          <h3>Everybody’s figures</h3>
          <DataTable table={peopleTable(people.people)} />
          <h3>Hold points gone by without a yes</h3>
          {people.holds.length === 0 ? <p>None in these runs.</p> : <DataTable table={holdsTable(people.holds)} />}
          <div className="row no-print">
            {facts.people.length === 0 ? null : (
              <button type="button" onClick={() => go({ view: 'sheet' })}>
                Feedback for one person
              </button>
            )}
          </div>
        </section>
      )}
    </div>
  );
}

function heatTitle(stuck: number, people: number): string {
  if (stuck === 0) return `Of ${many(people, 'person', 'people')} nobody is slow at a step beyond their own pace`;
  return `${many(stuck, 'field stands', 'fields stand')} out clearly among ${many(people, 'person', 'people')}`;
}

function HeatLegend() {
  return (
    <div className="review-legend" aria-hidden="true">
      {[0.5, 0.7, 1, 1.4, 2].map((ratio) => (
        <span key={ratio}>
          <i style={{ background: heatFill(ratio) }} />
          {ratio === 0.5 ? 'half' : ratio === 1 ? 'as expected' : ratio === 2 ? 'twice' : ratio}
        </span>
      ))}
    </div>
  );
}
