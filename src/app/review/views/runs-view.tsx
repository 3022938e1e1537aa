import { useEffect, useMemo, useState } from 'react';
import type { RunNote } from '../../../review/notes.ts';
import type { RunLine } from '../../../review/questions/run-list.ts';
import { faultsOfRun } from '../../../review/questions/run-list.ts';
import { marksTable, pairTable, runsTable, timelineTable } from '../../../review/tables.ts';
import { duration, listed, localDay, localTime, many } from '../../../review/wording.ts';
import { clock, DataTable } from '../data-table.tsx';
import { useAnswer, useDesk } from '../desk.ts';
import { Choice } from '../filters.tsx';
import { Drawing, Picture } from '../picture.tsx';
import { markShapes, pairPicture, pairStrips, runTimeline } from '../pictures/run-timeline.ts';

const pageLength = 25;

/** Every run: looked at one by one, set side by side, annotated, excluded, rated. */
export function RunsView({ jobs }: { readonly jobs: readonly string[] }) {
  const [open, setOpen] = useState<readonly string[]>(jobs);
  useEffect(() => setOpen(jobs), [jobs]);
  const [first, setFirst] = useState(0);
  const { terms, client } = useDesk();
  useEffect(() => setFirst(0), [terms]);
  const runs = useAnswer({ view: 'runs', first, last: first + pageLength, procedure: null });
  const toggle = (job: string): void =>
    setOpen((before) => (before.includes(job) ? before.filter((one) => one !== job) : [...before, job].slice(-2)));
  const [one, other] = open;
  return (
    <div className="stack">
      {one === undefined ? (
        <p className="quiet">Pick a run to see it laid out in time, or two to set them side by side.</p>
      ) : (
        <button type="button" className="no-print" style={{ justifySelf: 'start' }} onClick={() => setOpen([])}>
          Put {open.length === 2 ? 'both' : 'it'} away
        </button>
      )}
      {one !== undefined && other === undefined ? <OneRun job={one} /> : null}
      {one !== undefined && other !== undefined ? <TwoRuns jobs={[one, other]} /> : null}
      {runs === undefined ? (
        <p role="status">Reckoning…</p>
      ) : (
        <section className="stack" aria-label="Runs">
          <h3>{many(runs.of, 'run')}, the newest first</h3>
          <RunTable lines={runs.lines} open={open} onToggle={toggle} />
          <div className="row no-print">
            <button type="button" disabled={first === 0} onClick={() => setFirst(Math.max(0, first - pageLength))}>
              Newer
            </button>
            <span className="small">
              {runs.of === 0 ? 0 : first + 1} to {Math.min(runs.of, first + pageLength)} of {runs.of}
            </span>
            <button type="button" disabled={first + pageLength >= runs.of} onClick={() => setFirst(first + pageLength)}>
              Older
            </button>
          </div>
          <details>
            <summary>The figures of these runs</summary>
            <DataTable
              table={runsTable(runs.lines)}
              whole={() => client.ask({ view: 'runs', first: 0, last: 0, procedure: null }, terms).then(({ lines }) => runsTable(lines))}
            />
          </details>
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
  return (
    <div className="table-scroll" tabIndex={0} role="region" aria-label="Runs">
      <table className="review-runs">
        <thead>
          <tr>
            <th scope="col">Show</th>
            <th scope="col">Day</th>
            <th scope="col">Person</th>
            <th scope="col">Procedure</th>
            <th scope="col" className="number">
              Run
            </th>
            <th scope="col" className="number">
              At work
            </th>
            <th scope="col" className="number">
              Pace
            </th>
            <th scope="col">Remarks</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.job} className={notes.runs[line.job]?.excluded == null ? '' : 'review-excluded'}>
              <td>
                <button type="button" aria-pressed={open.includes(line.job)} onClick={() => onToggle(line.job)}>
                  {open.includes(line.job) ? 'Shown' : 'Show'}
                  <span className="hidden-visually">
                    {' '}
                    run {line.number} of {line.called}
                  </span>
                </button>
              </td>
              <td className="day">{localDay(line.begun, line.offset)}</td>
              <td>{line.called}</td>
              <td className="words">
                {line.title}, {line.build}
              </td>
              <td className="number">{line.number}</td>
              <td className="number">{clock(line.active)}</td>
              <td className="number">{line.pace === null ? '' : line.pace.toFixed(2)}</td>
              <td>{remarks(line, notes.runs[line.job])}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function remarks(line: RunLine, note: RunNote | undefined): string {
  const parts = [
    note?.excluded == null ? '' : `left out: ${note.excluded}`,
    line.ending === 'signed' ? '' : line.ending,
    line.isOutlier ? 'outlier' : '',
    note?.rating == null ? '' : `rated ${Math.round(note.rating * 100)} %`,
    note === undefined || note.text === '' ? '' : `“${note.text}”`,
    ...line.faults,
  ];
  return parts.filter((part) => part !== '').join('; ');
}

function OneRun({ job }: { readonly job: string }) {
  const answer = useAnswer({ view: 'run', job });
  const run = answer?.run ?? null;
  const draw = useMemo(() => (run === null ? null : runTimeline(run)), [run]);
  if (answer === undefined) return <p role="status">Reckoning…</p>;
  if (answer === null || run === null || draw === null) return <p className="review-caution">This run is not in the logs any more.</p>;
  const said = new Set(run.marks.map(({ kind }) => kind));
  const shapes = (Object.keys(markShapes) as (keyof typeof markShapes)[]).filter((kind) => said.has(kind));
  const faults = faultsOfRun(run.faults);
  const paused = run.steps.reduce((sum, step) => sum + step.paused, 0);
  const active = run.steps.reduce((sum, step) => sum + step.active, 0);
  return (
    <section className="stack" aria-label="One run">
      {faults.length === 0 ? null : <p className="review-caution">The log of this run is not whole: {listed(faults)}.</p>}
      <Picture
        title={`${answer.called}, run ${run.number} of “${run.title}”, build ${run.build}: ${duration(active)} at work, ${duration(paused)} paused`}
        note={`${localTime(run.begun, run.offset)}, ${run.ending}. Bars are work on a step, broken outlines waits, the grey bands pauses.`}
        draw={draw}
        table={timelineTable(run, answer.called)}
      >
        <ul className="review-shapes">
          {shapes.map((kind) => (
            <li key={kind}>
              <Shape kind={kind} /> {markShapes[kind].text}
            </li>
          ))}
        </ul>
      </Picture>
      <details>
        <summary>What was said and done, in turn</summary>
        <DataTable table={marksTable(run)} />
      </details>
      <RunNotes job={job} />
    </section>
  );
}

/** The shape as it stands in the picture, for the legend. */
function Shape({ kind }: { readonly kind: keyof typeof markShapes }) {
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
              symbol: markShapes[kind].symbol,
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
      <Drawing draw={draw} label={markShapes[kind].text} least={1} />
    </span>
  );
}

function TwoRuns({ jobs }: { readonly jobs: readonly [string, string] }) {
  const answer = useAnswer({ view: 'pair', jobs });
  const draw = useMemo(
    () => (answer === null || answer === undefined ? null : pairPicture(answer.first, answer.second, answer.called)),
    [answer],
  );
  const strips = useMemo(
    () => (answer === null || answer === undefined ? null : pairStrips(answer.first, answer.second, answer.called)),
    [answer],
  );
  if (answer === undefined) return <p role="status">Reckoning…</p>;
  if (answer === null || draw === null || strips === null)
    return <p className="review-caution">These runs are not in the logs any more.</p>;
  const { first, second, called } = answer;
  const total = (run: typeof first): number => run.steps.reduce((sum, step) => sum + step.active, 0);
  const difference = total(second) - total(first);
  const isSame = first.procedure === second.procedure;
  return (
    <section className="stack" aria-label="Two runs">
      {isSame ? null : (
        <p className="review-caution">These are runs of two procedures: only steps of the same procedure can be set beside each other.</p>
      )}
      <Picture
        title={`${called[1]} took ${duration(Math.abs(difference))} ${difference >= 0 ? 'longer' : 'less'} at work than ${called[0]}`}
        note={`Blue dots are ${called[0]}, orange squares ${called[1]}, minutes at work on each step. Above, both as strips of time on one scale: shades are steps, gaps pauses, the fine strokes what was asked or misheard.`}
        draw={draw}
        table={pairTable(first, second, called)}
      >
        <Drawing draw={strips} label={`Both runs as strips of time: ${called[0]} and ${called[1]}`} />
      </Picture>
    </section>
  );
}

const noNote: RunNote = { text: '', excluded: null, rating: null };
const ratings = [0.7, 0.8, 0.85, 0.9, 0.95, 1, 1.05, 1.1, 1.15, 1.2, 1.3] as const;

/** What the trainer says of one run. The log itself is never touched. */
function RunNotes({ job }: { readonly job: string }) {
  const { notes, changeNotes } = useDesk();
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
      <h3 id="review-notes">Your notes on this run</h3>
      <label>
        Note
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
          label="Pace, as you judged it"
          all="Not rated"
          value={note.rating === null ? '' : String(note.rating)}
          options={ratings.map((rating) => [
            String(rating),
            `${Math.round(rating * 100)} %${rating === 1 ? ', normal' : rating < 1 ? ', slower than normal' : ', quicker than normal'}`,
          ])}
          onChoose={(value) => change({ rating: value === '' ? null : Number(value) })}
        />
        <label>
          Reason to leave it out
          <input value={reason} maxLength={200} onChange={({ target }) => setReason(target.value)} />
        </label>
        {note.excluded === null ? (
          <button type="button" disabled={reason.trim() === ''} onClick={() => change({ excluded: reason.trim() })}>
            Leave this run out
          </button>
        ) : (
          <button type="button" onClick={() => change({ excluded: null })}>
            Let it count again
          </button>
        )}
      </div>
    </section>
  );
}
