import type { ReviewWords } from './words/en.ts';

/** How a column is to be read and shown. Times are in seconds, shares from 0 to 1. */
type ColumnKind = 'text' | 'count' | 'number' | 'time' | 'share' | 'day';

export interface TableColumn {
  readonly label: string;
  readonly kind: ColumnKind;
}

export type TableCell = string | number | null;

/** The figures behind a picture: for reading, printing and taking elsewhere. */
export interface Table {
  /** A file name without its ending. */
  readonly name: string;
  /** What is seen in it. */
  readonly title: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly TableCell[])[];
  /** What must be known to read it rightly. */
  readonly note: string | null;
}

/**
 * A table as CSV (RFC 4180): a heading line, lines ended by CRLF, quotes doubled. Times are in seconds, shares as numbers. Where the language
 * has a decimal comma, fields are parted by semicolons, since that is what a spreadsheet set to it opens.
 * A text that a spreadsheet would take for a formula gets an apostrophe in front, since names come from other people.
 */
export function tableAsCsv(table: Table, words: ReviewWords): string {
  const { csv } = words.table;
  const heading = table.columns.map(({ label, kind }) => (kind === 'time' ? words.table.seconds(label) : label));
  const lines = [heading, ...table.rows].map((row) => row.map((cell) => field(cell, csv)));
  return lines.map((line) => `${line.join(csv.separator)}\r\n`).join('');
}

function field(cell: TableCell, { point }: ReviewWords['table']['csv']): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(Number(cell.toPrecision(10))).replace('.', point);
  const text = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",;\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
