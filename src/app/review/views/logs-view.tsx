import { lineFaultTexts } from '../../../review/intake/intake-report.ts';
import type { Table } from '../../../review/table.ts';
import { many } from '../../../review/wording.ts';
import { DataTable } from '../data-table.tsx';
import { useDesk } from '../desk.ts';
import type { LogDoors } from '../log-buttons.tsx';
import { LogButtons } from '../log-buttons.tsx';

/** What was read, and what could not be. */
export function LogsView({ doors }: { readonly doors: LogDoors }) {
  const { facts } = useDesk();
  const { report, faults } = facts;
  return (
    <div className="stack">
      <p className="review-count">
        {many(report.files.length, 'log')}, {many(report.lines, 'line')}, {many(facts.events, 'event')} of {many(facts.runs, 'run')}.
      </p>
      <p>
        {report.hashes === 'computed'
          ? 'Every event’s hash was computed anew and compared.'
          : 'Each event’s hash was compared with the one that the next event names; they were not computed anew, since the logs are large.'}
      </p>
      {faults.length === 0 ? <p className="good">Nothing was wrong with them.</p> : null}
      {faults.map((fault) => (
        <p key={fault} className="review-caution">
          {fault}
        </p>
      ))}
      {report.examples.length === 0 ? null : <DataTable table={examplesTable(report.examples)} />}
      <LogButtons {...doors} />
      <details>
        <summary>Every file</summary>
        <DataTable table={filesTable(report.files)} />
      </details>
    </div>
  );
}

function examplesTable(
  examples: readonly { readonly file: string; readonly line: number; readonly fault: keyof typeof lineFaultTexts }[],
): Table {
  return {
    name: 'lines-left-out',
    title: 'Lines that something was wrong with, the first of them',
    columns: [
      { label: 'File', kind: 'text' },
      { label: 'Line', kind: 'count' },
      { label: 'What', kind: 'text' },
    ],
    rows: examples.map(({ file, line, fault }) => [file, line, lineFaultTexts[fault]]),
    note: null,
  };
}

function filesTable(files: readonly { readonly name: string; readonly lines: number; readonly used: number }[]): Table {
  return {
    name: 'files',
    title: 'Files read',
    columns: [
      { label: 'File', kind: 'text' },
      { label: 'Lines', kind: 'count' },
      { label: 'Events used', kind: 'count' },
    ],
    rows: files.map(({ name, lines, used }) => [name, lines, used]),
    note: null,
  };
}
