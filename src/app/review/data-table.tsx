import { memo, useMemo, useState } from 'react';
import type { Table, TableCell, TableColumn } from '../../review/table.ts';
import { tableAsCsv } from '../../review/table.ts';
import type { ReviewWords } from '../../review/words/en.ts';
import { saveFile } from '../platform/save-file.ts';
import { useInTurn } from './use-in-turn.ts';
import { useWording } from './words/words.ts';

/** So many without asking, a few at a time: laying a table out takes longer than a page may stand still. */
const rowsAtFirst = 60;
const rowsAtOnce = 10;
const fewRows = 8;

/** A table to read, to print and to take elsewhere. */
export function DataTable({
  table,
  whole,
}: {
  readonly table: Table;
  /** Fetches the whole table where `table` is a part of it. */ readonly whole?: () => Promise<Table>;
}) {
  const { page, own } = useWording();
  const [wanted, setWanted] = useState(rowsAtFirst);
  const [latest, setLatest] = useState(table);
  const { columns, rows, title, note } = latest;
  const { shown, isComing, again } = useInTurn(Math.min(wanted, rows.length), rowsAtOnce);
  // Another table comes bit by bit, as the first one did; one that says the same leaves what is there alone.
  if (table !== latest && !isAlike(table, latest)) {
    setLatest(table);
    again();
  }
  const digits = useMemo(() => columns.map((_, column) => digitsFor(rows, column)), [columns, rows]);
  return (
    <div
      className={rows.length > fewRows ? 'review-table review-long' : 'review-table'}
      style={{ containIntrinsicBlockSize: `auto ${Math.min(rows.length, wanted) * 2.2 + 8}rem` }}
    >
      <div className="table-scroll" tabIndex={0} role="region" aria-label={title} aria-busy={isComing}>
        <table>
          <caption className="hidden-visually">{title}</caption>
          <thead>
            <tr>
              {columns.map(({ label, kind }, index) => (
                <th key={index} scope="col" className={kind === 'text' || kind === 'day' ? '' : 'number'}>
                  {label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, shown).map((row, index) => (
              <Row key={index} row={row} columns={columns} digits={digits} words={own} />
            ))}
          </tbody>
        </table>
      </div>
      {note === null ? null : <p className="small quiet">{note}</p>}
      <div className="row no-print">
        {rows.length > wanted ? (
          <button type="button" onClick={() => setWanted(wanted + 200)}>
            {page.table.more(rows.length)}
          </button>
        ) : null}
        <button type="button" onClick={() => void save(table, whole, own)}>
          {page.table.csv}
        </button>
      </div>
    </div>
  );
}

async function save(table: Table, whole: (() => Promise<Table>) | undefined, words: ReviewWords): Promise<void> {
  const all = whole === undefined ? table : await whole();
  // Without the mark of UTF-8, spreadsheets take accents for two letters each.
  saveFile(`${all.name}.csv`, 'text/csv;charset=utf-8;header=present', ['\uFEFF', tableAsCsv(all, words)]);
}

function isAlike(one: Table, other: Table): boolean {
  return (
    one.title === other.title &&
    one.note === other.note &&
    one.rows.length === other.rows.length &&
    one.columns.length === other.columns.length &&
    one.columns.every(({ label, kind }, column) => label === other.columns[column]?.label && kind === other.columns[column].kind) &&
    one.rows.every((row, index) => row.every((cell, column) => cell === other.rows[index]?.[column]))
  );
}

/** Two digits behind the point where all are small, one otherwise, so that a column reads evenly. */
function digitsFor(rows: Table['rows'], column: number): number {
  return rows.some((row) => typeof row[column] === 'number' && Math.abs(row[column]) >= 4) ? 1 : 2;
}

/** Those that are there already are left alone while more come. */
const Row = memo(function Row({
  row,
  columns,
  digits,
  words,
}: {
  readonly row: readonly TableCell[];
  readonly columns: readonly TableColumn[];
  readonly digits: readonly number[];
  readonly words: ReviewWords;
}) {
  return (
    <tr>
      {row.map((cell, column) => (
        <Cell key={column} cell={cell} column={columns[column]} digits={digits[column] ?? 2} isHead={column === 0} words={words} />
      ))}
    </tr>
  );
});

function Cell({
  cell,
  column,
  digits,
  isHead,
  words,
}: {
  readonly cell: TableCell;
  readonly column: TableColumn | undefined;
  readonly digits: number;
  readonly isHead: boolean;
  readonly words: ReviewWords;
}) {
  const kind = column?.kind ?? 'text';
  const text = cellText(cell, kind, digits, words);
  const className = kind === 'day' ? 'day' : kind !== 'text' ? 'number' : text.length > 18 ? 'words' : '';
  return isHead ? (
    <th scope="row" className={className}>
      {text}
    </th>
  ) : (
    <td className={className}>{text}</td>
  );
}

/** A cell as it is read: times as minutes and seconds, shares as percent. */
function cellText(cell: TableCell, kind: TableColumn['kind'], digits: number, words: ReviewWords): string {
  if (cell === null) return '';
  if (typeof cell === 'string') return cell;
  switch (kind) {
    case 'time':
      return words.clock(cell);
    case 'share':
      return words.percent(cell);
    case 'count':
      return words.whole(cell);
    case 'number':
      return cell !== 0 && Math.abs(cell) < 0.005 ? cell.toExponential(1) : words.number(cell, digits);
    case 'text':
    case 'day':
      return String(cell);
  }
}
