import { useMemo } from 'react';
import type { Orders } from '../../../review/questions/orders.ts';
import { ordersTable } from '../../../review/tables.ts';
import { many } from '../../../review/wording.ts';
import { useAnswer, useDesk } from '../desk.ts';
import { ProcedureChoice } from '../filters.tsx';
import { Picture } from '../picture.tsx';
import { flowPicture } from '../pictures/flow.ts';

/** The orders really taken, against the written one. */
export function OrdersView() {
  const { procedure } = useDesk();
  const orders = useAnswer({ view: 'orders', procedure });
  return (
    <div className="stack">
      <ProcedureChoice />
      {orders === undefined || orders === null ? <p role="status">Reckoning…</p> : <Flow orders={orders} />}
    </div>
  );
}

function Flow({ orders }: { readonly orders: Orders }) {
  const draw = useMemo(() => flowPicture(orders), [orders]);
  if (orders.runs === 0) return <p className="review-caution">No run of it in this selection.</p>;
  return (
    <Picture
      title={`${orders.straightRuns} of ${many(orders.runs, 'run')} went straight through ${orders.order === 'written' ? 'the written order' : 'the usual order (no plan came with these logs)'}`}
      note="Steps from top to bottom in that order. Blue arcs on the right go past steps, orange ones on the left go back, dotted ones go into a side procedure or return from it. Thicker is more often; the commonest carry their number. Open dots are steps of side procedures."
      draw={draw}
      table={ordersTable(orders)}
    />
  );
}
