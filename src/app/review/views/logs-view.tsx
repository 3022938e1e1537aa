import { useState } from 'react';
import type { TrainerNotes } from '../../../review/notes.ts';
import { joinNotes, parseNotes } from '../../../review/notes.ts';
import type { Facts } from '../../../review/review.ts';
import { faultSentences } from '../../../review/review.ts';
import type { Table } from '../../../review/table.ts';
import { FileButton } from '../../pages/file-button.tsx';
import { saveFile } from '../../platform/save-file.ts';
import { DataTable } from '../data-table.tsx';
import { useDesk } from '../desk.ts';
import type { LogDoors } from '../log-buttons.tsx';
import { LogButtons } from '../log-buttons.tsx';
import type { Wording } from '../words/words.ts';
import { useWording } from '../words/words.ts';

/** What was read and what could not be, and the trainer's own notes as a file. */
export function LogsView({ doors }: { readonly doors: LogDoors }) {
  const { facts } = useDesk();
  const wording = useWording();
  const words = wording.page.logs;
  const { report } = facts;
  const faults = faultSentences(facts.faults, wording.own);
  return (
    <div className="stack">
      <p className="review-count">{words.summary(report.files.length, report.lines, facts.events, facts.runs)}</p>
      <p>{report.hashes === 'computed' ? words.computed : words.compared}</p>
      {faults.length === 0 ? <p className="good">{words.whole}</p> : null}
      {faults.map((fault) => (
        <p key={fault} className="review-caution">
          {fault}
        </p>
      ))}
      {report.examples.length === 0 ? null : <DataTable table={examplesTable(report.examples, wording)} />}
      <LogButtons {...doors} />
      <details>
        <summary>{words.everyFile}</summary>
        <DataTable table={filesTable(report.files, wording)} />
      </details>
      <NotesFile />
    </div>
  );
}

function NotesFile() {
  const { notes, changeNotes } = useDesk();
  const words = useWording().page.notes;
  const [message, setMessage] = useState<string | null>(null);
  const take = async (file: File): Promise<void> => {
    const taken = await readNotes(file);
    setMessage(taken === null ? words.notNotes(file.name) : words.taken);
    if (taken !== null) changeNotes(joinNotes(notes, taken));
  };
  return (
    <section className="stack no-print" aria-labelledby="review-notes-file">
      <h3 id="review-notes-file">{words.title}</h3>
      <p>{words.about(Object.keys(notes.runs).length)}</p>
      <div className="row">
        <button type="button" onClick={() => saveFile('undertray-review-notes.json', 'application/json', [JSON.stringify(notes, null, 2)])}>
          {words.save}
        </button>
        <FileButton label={words.take} accept=".json" onFile={(file) => void take(file)} />
      </div>
      <p role="status">{message ?? ''}</p>
    </section>
  );
}

async function readNotes(file: File): Promise<TrainerNotes | null> {
  try {
    return parseNotes(JSON.parse(await file.text()));
  } catch {
    return null;
  }
}

function examplesTable(examples: Facts['report']['examples'], { page, own }: Wording): Table {
  const words = page.logs;
  return {
    name: 'lines-left-out',
    title: words.examplesTitle,
    columns: [
      { label: words.file, kind: 'text' },
      { label: words.line, kind: 'count' },
      { label: words.fault, kind: 'text' },
    ],
    rows: examples.map(({ file, line, fault }) => [file, line, own.lineFault[fault]]),
    note: null,
  };
}

function filesTable(files: Facts['report']['files'], { page }: Wording): Table {
  const words = page.logs;
  return {
    name: 'files',
    title: words.filesTitle,
    columns: [
      { label: words.file, kind: 'text' },
      { label: words.lines, kind: 'count' },
      { label: words.used, kind: 'count' },
    ],
    rows: files.map(({ name, lines, used }) => [name, lines, used]),
    note: null,
  };
}
