import { useMemo, useState } from 'react';
import type { FeedbackSheet } from '../../../review/questions/feedback.ts';
import { many } from '../../../review/wording.ts';
import { useAnswer, useDesk } from '../desk.ts';
import { Choice } from '../filters.tsx';
import { Drawing } from '../picture.tsx';
import { oneCurve } from '../pictures/learning-curves.ts';

/** One page for one person: to print, to give away, to have read aloud. */
export function SheetView({ person }: { readonly person: number | null }) {
  const { facts, terms } = useDesk();
  const [chosen, setChosen] = useState<number | null>(null);
  const shown = chosen ?? person ?? facts.people[0]?.person ?? 0;
  const sheet = useAnswer({ view: 'sheet', person: shown });
  return (
    <div className="stack">
      <div className="review-choice no-print">
        <Choice
          label="Feedback for"
          all={null}
          value={String(shown)}
          options={facts.people.map(({ person: one, name, code }) => [
            String(one),
            terms.codes ? code : `${name ?? 'nobody named'} (${code})`,
          ])}
          onChoose={(value) => setChosen(Number(value))}
        />
      </div>
      {sheet === undefined ? (
        <p role="status">Reckoning…</p>
      ) : sheet === null ? (
        <p className="review-caution">No run of this person fits the filters.</p>
      ) : (
        <Sheet sheet={sheet} />
      )}
    </div>
  );
}

function Sheet({ sheet }: { readonly sheet: FeedbackSheet }) {
  const { speak } = useDesk();
  return (
    <article className="review-sheet">
      <header>
        <h2>Feedback for {sheet.called}</h2>
        <p className="quiet">
          {sheet.group === null ? '' : `${sheet.group}, `}
          {many(sheet.runs, 'run')} from {sheet.from ?? '?'} to {sheet.to ?? '?'}
        </p>
        <div className="row no-print">
          <button type="button" onClick={() => speak(sheet.spoken)}>
            Read aloud
          </button>
          <button type="button" onClick={() => print()}>
            Print
          </button>
        </div>
      </header>
      {sheet.cautions.map((caution) => (
        <p key={caution} className="review-caution">
          {caution}
        </p>
      ))}
      <section>
        <h3>What goes well</h3>
        {sheet.good.length === 0 ? (
          <p>Too little to say yet.</p>
        ) : (
          <ul>
            {sheet.good.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </section>
      <section>
        <h3>What to work on</h3>
        <ul>
          {sheet.toDo.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </section>
      <section className="review-sheet-curves">
        <h3>How it has gone</h3>
        <p className="small quiet">
          Minutes at work against the number of the run. The broken line is the aim: what the quickest quarter of all runs kept.
        </p>
        {sheet.learning.map((one) => (
          <Curve key={one.title} {...one} />
        ))}
      </section>
      <section className="review-sheet-words">
        <h3>What we agreed</h3>
        <div className="review-blank" />
        <p className="quiet">Date and names</p>
      </section>
    </article>
  );
}

function Curve({ title, sentence, curve, aim }: FeedbackSheet['learning'][number]) {
  const draw = useMemo(() => oneCurve(curve, aim), [curve, aim]);
  return (
    <div>
      <h4>{title}</h4>
      <Drawing draw={draw} label={`${title}: minutes at work by run. ${sentence}`} />
      <p className="small">{sentence}</p>
    </div>
  );
}
