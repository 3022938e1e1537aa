import { useState } from 'react';
import type { Table, TableCell, TableColumn } from '../../review/table.ts';
import { tableAsCsv } from '../../review/table.ts';
import { percent } from '../../review/wording.ts';
import { saveFile } from '../platform/save-file.ts';

const rowsAtFirst = 60;

/** A table to read, to print and to take elsewhere. */
export function DataTable({
  table,
  whole,
}: {
  readonly table: Table;
  /** Fetches the whole table where `table` is a part of it. */ readonly whole?: () => Promise<Table>;
}) {
  const [shown, setShown] = useState(rowsAtFirst);
  const { columns, rows } = table;
  return (
    <div className="review-table">
      <div className="table-scroll" tabIndex={0} role="region" aria-label={table.title}>
        <table>
          <caption className="hidden-visually">{table.title}</caption>
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
              <tr key={index}>
                {row.map((cell, column) => (
                  <Cell key={column} cell={cell} column={columns[column]} isHead={column === 0} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {table.note === null ? null : <p className="small quiet">{table.note}</p>}
      <div className="row no-print">
        {rows.length > shown ? (
          <button type="button" onClick={() => setShown(shown + 200)}>
            Show more of {rows.length} rows
          </button>
        ) : null}
        <button type="button" onClick={() => void save(table, whole)}>
          Save as CSV
        </button>
      </div>
    </div>
  );
}

async function save(table: Table, whole: (() => Promise<Table>) | undefined): Promise<void> {
  const all = whole === undefined ? table : await whole();
  saveFile(`${all.name}.csv`, 'text/csv;charset=utf-8;header=present', [tableAsCsv(all)]);
}

function Cell({ cell, column, isHead }: { readonly cell: TableCell; readonly column: TableColumn | undefined; readonly isHead: boolean }) {
  const kind = column?.kind ?? 'text';
  const text = cellText(cell, kind);
  const className = kind === 'text' || kind === 'day' ? '' : 'number';
  return isHead ? (
    <th scope="row" className={className}>
      {text}
    </th>
  ) : (
    <td className={className}>{text}</td>
  );
}

/** A cell as it is read: times as minutes and seconds, shares as percent. */
export function cellText(cell: TableCell, kind: TableColumn['kind']): string {
  if (cell === null) return '';
  if (typeof cell === 'string') return cell;
  switch (kind) {
    case 'time':
      return clock(cell);
    case 'share':
      return percent(cell);
    case 'count':
      return String(Math.round(cell));
    case 'number':
      return Math.abs(cell) < 0.001 && cell !== 0 ? cell.toExponential(1) : String(Number(cell.toFixed(3)));
    case 'text':
    case 'day':
      return String(cell);
  }
}

/** "3:40" or "1:05:00"; tenths below ten seconds. */
export function clock(seconds: number): string {
  if (!Number.isFinite(seconds)) return '';
  const sign = seconds < 0 ? '−' : '';
  const size = Math.abs(seconds);
  if (size < 9.95) return `${sign}0:0${Number(size.toFixed(1))}`;
  const whole = Math.round(size);
  const pad = (part: number): string => String(part).padStart(2, '0');
  const minutes = Math.floor(whole / 60);
  return sign + (minutes < 60 ? `${minutes}:${pad(whole % 60)}` : `${Math.floor(minutes / 60)}:${pad(minutes % 60)}:${pad(whole % 60)}`);
}
