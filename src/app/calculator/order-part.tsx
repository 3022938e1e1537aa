import { useState } from 'react';
import type { Place } from '../../torque/sequences.ts';
import { circlePlaces, circularOrder, drawUpOrder, gridPlaces, spiralOrder, starOrder } from '../../torque/sequences.ts';
import { ChoiceField, Part, TextField } from './fields.tsx';
import { wholeBetween } from './figures.ts';
import { useCalculatorWords } from './words/words.ts';

const patterns = ['star', 'draw-up', 'circular', 'spiral'] as const;
type Pattern = (typeof patterns)[number];

/** In which order to take so many fasteners, as numbers and as a picture. */
export function OrderPart() {
  const words = useCalculatorWords();
  const text = words.order;
  const [pattern, setPattern] = useState<Pattern>('star');
  const [countTyped, setCount] = useState('8');
  const [rowsTyped, setRows] = useState('2');
  const [columnsTyped, setColumns] = useState('5');
  const count = wholeBetween(countTyped, 1, 60);
  const rows = wholeBetween(rowsTyped, 1, 12);
  const columns = wholeBetween(columnsTyped, 1, 12);
  const made =
    pattern === 'spiral'
      ? rows === null || columns === null
        ? null
        : { order: spiralOrder(rows, columns), places: gridPlaces(rows, columns) }
      : count === null
        ? null
        : { order: orderOnCircle(pattern, count), places: circlePlaces(count) };
  return (
    <Part
      id="order"
      title={text.title}
      asked={
        <>
          <ChoiceField
            label={text.pattern}
            value={pattern}
            of={patterns.map((one) => [one, text.patterns[one]] as const)}
            onChange={setPattern}
          />
          {pattern === 'spiral' ? (
            <>
              <TextField
                numeric
                label={text.rows}
                value={rowsTyped}
                onChange={setRows}
                expected={rows === null ? words.expected.grid : null}
              />
              <TextField
                numeric
                label={text.columns}
                value={columnsTyped}
                onChange={setColumns}
                expected={columns === null ? words.expected.grid : null}
              />
            </>
          ) : (
            <TextField
              numeric
              label={text.count}
              value={countTyped}
              onChange={setCount}
              expected={count === null ? words.expected.count : null}
            />
          )}
        </>
      }
    >
      {made === null ? null : (
        <>
          <p>{text.result}</p>
          <p className="order-numbers">{made.order.map((index) => index + 1).join(' · ')}</p>
          <OrderPicture places={made.places} order={made.order} label={text.picture(made.places.length)} />
        </>
      )}
      {pattern === 'draw-up' ? <p>{text.drawUp}</p> : null}
      <p className="quiet small">{text.numbering}</p>
      <p className="quiet small">{text.common}</p>
    </Part>
  );
}

function orderOnCircle(pattern: Exclude<Pattern, 'spiral'>, count: number): readonly number[] {
  switch (pattern) {
    case 'star':
      return starOrder(count);
    case 'draw-up':
      return drawUpOrder(count);
    case 'circular':
      return circularOrder(count);
  }
}

function OrderPicture({
  places,
  order,
  label,
}: {
  readonly places: readonly Place[];
  readonly order: readonly number[];
  readonly label: string;
}) {
  const at = (index: number) => ({ x: 18 + (places[index]?.x ?? 0) * 164, y: 18 + (places[index]?.y ?? 0) * 164 });
  const radius = places.length > 40 ? 6 : places.length > 20 ? 8 : places.length > 10 ? 11 : 14;
  const path = order.map((index, turn) => `${turn === 0 ? 'M' : 'L'}${at(index).x} ${at(index).y}`).join(' ');
  return (
    <svg className="pattern order-picture" viewBox="0 0 200 200" role="img" aria-label={label}>
      {places.length > 40 ? null : <path d={path} className="way" />}
      {order.map((index, turn) => (
        <g key={index}>
          <circle cx={at(index).x} cy={at(index).y} r={radius} className={turn === 0 ? 'next' : 'seat'} />
          <text x={at(index).x} y={at(index).y} className={turn === 0 ? 'next-text' : ''} style={{ fontSize: radius * 1.1 }}>
            {turn + 1}
          </text>
        </g>
      ))}
    </svg>
  );
}
