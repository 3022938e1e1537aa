import { useEffect, useMemo, useState } from 'react';
import type { RunNote } from '../../../review/notes.ts';
import type { RunLine } from '../../../review/questions/run-list.ts';
import { faultsOfRun } from '../../../review/questions/run-list.ts';
import { marksTable, pairTable, runsTable, timelineTable } from '../../../review/tables.ts';
import { localDay, localTime } from '../../../review/wording.ts';
import { DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { Choice } from '../filters.tsx';
import { Folded } from '../folded.tsx';
import { Drawing, Picture } from '../picture.tsx';
import type { Wording } from '../words/words.ts';
import { useWording } from '../words/words.ts';
import { markShapes, pairPicture, pairStrips, runTimeline } from '../pictures/run-timeline.ts';

const pageLength = 25;

/** Every run: looked at one by one, set side by side, annotated, excluded, rated. */
export function RunsView({ jobs }: { readonly jobs: readonly string[] }) {
  const [open, setOpen] = useState<readonly string[]>(jobs);
  useEffect(() => setOpen(jobs), [jobs]);
  const [first, setFirst] = useState(0);
  const { terms, client } = useDesk();
  const { page, own } = useWording();
  const words = page.runs;
  useEffect(() => setFirst(0), [terms]);
  const runs = useAnswer({ view: 'runs', first, last: first + pageLength, procedure: null });
  const toggle = (job: string): void =>
    setOpen((before) => (before.includes(job) ? before.filter((one) => one !== job) : [...before, job].slice(-2)));
  const [one, other] = open;
  return (
    <div className="stack">
      {one === undefined ? (
        <p className="quiet">{words.pick}</p>
      ) : (
        <button type="button" className="no-print" style={{ justifySelf: 'start' }} onClick={() => setOpen([])}>
          {words.away(open.length)}
        </button>
      )}
      {one !== undefined && other === undefined ? <OneRun job={one} /> : null}
      {one !== undefined && other !== undefined ? <TwoRuns jobs={[one, other]} /> : null}
      {runs === undefined ? (
        <p role="status">{page.reckoning}</p>
      ) : (
        <section className="stack" aria-label={words.label}>
          <h3>{words.head(runs.of)}</h3>
          <RunTable lines={runs.lines} open={open} onToggle={toggle} />
          <div className="row no-print">
            <button type="button" disabled={first === 0} onClick={() => setFirst(Math.max(0, first - pageLength))}>
              {words.newer}
            </button>
            <span className="small">{words.part(runs.of === 0 ? 0 : first + 1, Math.min(runs.of, first + pageLength), runs.of)}</span>
            <button type="button" disabled={first + pageLength >= runs.of} onClick={() => setFirst(first + pageLength)}>
              {words.older}
            </button>
          </div>
          <Folded summary={words.figures}>
            {() => (
              <DataTable
                table={runsTable(runs.lines, own)}
                whole={() =>
                  client.ask({ view: 'runs', first: 0, last: 0, procedure: null }, terms).then(({ lines }) => runsTable(lines, own))
                }
              />
            )}
          </Folded>
        </section>
      )}
    </div>
  );
}

function RunTable({
  lines,
  open,
  onToggle,
}: {
  readonly lines: readonly RunLine[];
  readonly open: readonly string[];
  readonly onToggle: (job: string) => void;
}) {
  const { notes } = useDesk();
  const wording = useWording();
  const { page, own } = wording;
  const words = page.runs;
  return (
    <div className="table-scroll" tabIndex={0} role="region" aria-label={words.label}>
      <table className="review-runs">
        <thead>
          <tr>
            <th scope="col">{words.show}</th>
            <th scope="col">{own.table.day}</th>
            <th scope="col">{own.table.person}</th>
            <th scope="col">{own.table.procedure}</th>
            <th scope="col" className="number">
              {own.table.run}
            </th>
            <th scope="col" className="number">
              {own.table.atWork}
            </th>
            <th scope="col" className="number">
              {own.table.pace}
            </th>
            <th scope="col">{words.remarks}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.job} className={notes.runs[line.job]?.excluded == null ? '' : 'review-excluded'}>
              <td>
                <button type="button" aria-pressed={open.includes(line.job)} onClick={() => onToggle(line.job)}>
                  {open.includes(line.job) ? words.shown : words.show}
                  <span className="hidden-visually">{words.showRun(line.number, line.called)}</span>
                </button>
              </td>
              <td className="day">{localDay(line.begun, line.offset)}</td>
              <td>{line.called}</td>
              <td className="words">
                {line.title}, {line.build}
              </td>
              <td className="number">{line.number}</td>
              <td className="number">{own.clock(line.active)}</td>
              <td className="number">{line.pace === null ? '' : own.number(line.pace, 2)}</td>
              <td>{remarks(line, notes.runs[line.job], wording)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function remarks(line: RunLine, note: RunNote | undefined, { page, own }: Wording): string {
  const words = page.runs;
  const parts = [
    note?.excluded == null ? '' : words.excluded(note.excluded),
    line.ending === 'signed' ? '' : own.ending[line.ending],
    line.isOutlier ? words.outlier : '',
    note?.rating == null ? '' : words.rated(own.percent(note.rating)),
    note === undefined || note.text === '' ? '' : own.quoted(note.text),
    ...line.faults.map((fault) => own.runFault[fault]),
  ];
  return parts.filter((part) => part !== '').join('; ');
}

function OneRun({ job }: { readonly job: string }) {
  const answer = useAnswer({ view: 'run', job });
  const run = answer?.run ?? null;
  const wording = useWording();
  const { page, own } = wording;
  const words = page.runs;
  const draw = useMemo(() => (run === null ? null : runTimeline(run, wording)), [run, wording]);
  if (answer === undefined) return <p role="status">{page.reckoning}</p>;
  if (answer === null || run === null || draw === null) return <p className="review-caution">{words.gone}</p>;
  const said = new Set(run.marks.map(({ kind }) => kind));
  const shapes = (Object.keys(markShapes) as (keyof typeof markShapes)[]).filter((kind) => said.has(kind));
  const faults = faultsOfRun(run.faults);
  const paused = run.steps.reduce((sum, step) => sum + step.paused, 0);
  const active = run.steps.reduce((sum, step) => sum + step.active, 0);
  return (
    <section className="stack" aria-label={words.one}>
      {faults.length === 0 ? null : (
        <p className="review-caution">{words.notWhole(own.listed(faults.map((fault) => own.runFault[fault])))}</p>
      )}
      <Picture
        title={words.oneTitle(answer.called, run.number, run.title, run.build, active, paused)}
        note={words.oneNote(localTime(run.begun, run.offset), own.ending[run.ending])}
        draw={draw}
        table={() => timelineTable(run, answer.called, own)}
      >
        <ul className="review-shapes">
          {shapes.map((kind) => (
            <li key={kind}>
              <Shape kind={kind} /> {own.mark[kind]}
            </li>
          ))}
        </ul>
      </Picture>
      <Folded summary={words.said}>{() => <DataTable table={marksTable(run, own)} />}</Folded>
      <RunNotes job={job} />
    </section>
  );
}

/** The shape as it stands in the picture, for the legend. */
function Shape({ kind }: { readonly kind: keyof typeof markShapes }) {
  const { own } = useWording();
  const draw = useMemo(
    () =>
      (plot: Parameters<Parameters<typeof Drawing>[0]['draw']>[0]): Element =>
        plot.plot({
          width: 16,
          height: 16,
          margin: 0,
          x: { domain: [0, 1], axis: null },
          y: { domain: [0, 1], axis: null },
          marks: [
            plot.dot([[0.5, 0.5]], {
              symbol: markShapes[kind],
              r: 4,
              stroke: 'var(--ink)',
              fill: 'var(--ground)',
              strokeWidth: 1.8,
            }),
          ],
        }),
    [kind],
  );
  return (
    <span className="review-shape">
      <Drawing draw={draw} label={own.mark[kind]} least={1} />
    </span>
  );
}

function TwoRuns({ jobs }: { readonly jobs: readonly [string, string] }) {
  const answer = useAnswer({ view: 'pair', jobs });
  const wording = useWording();
  const { page, own } = wording;
  const words = page.runs;
  const draw = useMemo(
    () => (answer === null || answer === undefined ? null : pairPicture(answer.first, answer.second, answer.called, wording)),
    [answer, wording],
  );
  const strips = useMemo(
    () => (answer === null || answer === undefined ? null : pairStrips(answer.first, answer.second, answer.called, wording)),
    [answer, wording],
  );
  if (answer === undefined) return <p role="status">{page.reckoning}</p>;
  if (answer === null || draw === null || strips === null) return <p className="review-caution">{words.bothGone}</p>;
  const { first, second, called } = answer;
  const total = (run: typeof first): number => run.steps.reduce((sum, step) => sum + step.active, 0);
  const difference = total(second) - total(first);
  const isSame = first.procedure === second.procedure;
  return (
    <section className="stack" aria-label={words.two}>
      {isSame ? null : <p className="review-caution">{words.differ}</p>}
      <Picture
        title={words.twoTitle(called[0], called[1], difference)}
        note={words.twoNote(called[0], called[1])}
        draw={draw}
        table={() => pairTable(first, second, called, own)}
      >
        <Drawing draw={strips} label={words.strips(called[0], called[1])} />
      </Picture>
    </section>
  );
}

const noNote: RunNote = { text: '', excluded: null, rating: null };
const ratings = [0.7, 0.8, 0.85, 0.9, 0.95, 1, 1.05, 1.1, 1.15, 1.2, 1.3] as const;

/** What the trainer says of one run. The log itself is never touched. */
function RunNotes({ job }: { readonly job: string }) {
  const { notes, changeNotes } = useDesk();
  const words = useWording().page.runs;
  const note = notes.runs[job] ?? noNote;
  const [text, setText] = useState(note.text);
  const [reason, setReason] = useState(note.excluded ?? '');
  useEffect(() => {
    setText(note.text);
    setReason(note.excluded ?? '');
  }, [job, note.text, note.excluded]);
  const change = (part: Partial<RunNote>): void => changeNotes({ ...notes, runs: { ...notes.runs, [job]: { ...note, ...part } } });
  return (
    <section className="panel no-print" aria-labelledby="review-notes">
      <h3 id="review-notes">{words.notes}</h3>
      <label>
        {words.note}
        <textarea
          rows={2}
          value={text}
          maxLength={2000}
          onChange={({ target }) => setText(target.value)}
          onBlur={() => text !== note.text && change({ text })}
        />
      </label>
      <div className="review-choice">
        <Choice
          label={words.rating}
          all={words.notRated}
          value={note.rating === null ? '' : String(note.rating)}
          options={ratings.map((rating) => [String(rating), words.ratingText(rating)])}
          onChoose={(value) => change({ rating: value === '' ? null : Number(value) })}
        />
        <label>
          {words.reason}
          <input value={reason} maxLength={200} onChange={({ target }) => setReason(target.value)} />
        </label>
        {note.excluded === null ? (
          <button type="button" disabled={reason.trim() === ''} onClick={() => change({ excluded: reason.trim() })}>
            {words.exclude}
          </button>
        ) : (
          <button type="button" onClick={() => change({ excluded: null })}>
            {words.include}
          </button>
        )}
      </div>
    </section>
  );
}
