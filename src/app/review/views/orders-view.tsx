import { useMemo } from 'react';
import type { Orders } from '../../../review/questions/orders.ts';
import { ordersTable } from '../../../review/tables.ts';
import { useAnswer, useDesk } from '../desk.ts';
import { ProcedureChoice } from '../filters.tsx';
import { Picture } from '../picture.tsx';
import { flowPicture } from '../pictures/flow.ts';
import { useWording } from '../words/words.ts';

/** The orders really taken, against the written one. */
export function OrdersView() {
  const { procedure } = useDesk();
  const { page } = useWording();
  const orders = useAnswer({ view: 'orders', procedure });
  return (
    <div className="stack">
      <ProcedureChoice />
      {orders === undefined || orders === null ? <p role="status">{page.reckoning}</p> : <Flow orders={orders} />}
    </div>
  );
}

function Flow({ orders }: { readonly orders: Orders }) {
  const wording = useWording();
  const words = wording.page.orders;
  const draw = useMemo(() => flowPicture(orders, wording), [orders, wording]);
  if (orders.runs === 0) return <p className="review-caution">{words.none}</p>;
  return (
    <Picture
      title={words.title(orders.straightRuns, orders.runs, orders.order === 'written')}
      note={words.note}
      draw={draw}
      table={() => ordersTable(orders, wording.own)}
    />
  );
}
