import { useEffect, useMemo, useState } from 'react';
import type { FeedbackSheet } from '../../../review/questions/feedback.ts';
import { useAnswer, useDesk } from '../desk.ts';
import { Choice } from '../filters.tsx';
import { Drawing } from '../picture.tsx';
import { oneCurve } from '../pictures/learning-curves.ts';
import type { ReadingState } from '../read-aloud.ts';
import { useWording } from '../words/words.ts';

/** One page for one person: to print, to give away, to have read aloud. */
export function SheetView({ person }: { readonly person: number | null }) {
  const { facts, terms } = useDesk();
  const { page, own } = useWording();
  const words = page.sheet;
  const [chosen, setChosen] = useState<number | null>(null);
  const shown = chosen ?? person ?? facts.people[0]?.person ?? 0;
  const sheet = useAnswer({ view: 'sheet', person: shown });
  return (
    <div className="stack">
      <div className="review-choice no-print">
        <Choice
          label={words.for}
          all={null}
          value={String(shown)}
          options={facts.people.map(({ person: one, name, code }) => [
            String(one),
            name === null ? own.nobody : terms.codes ? code : `${name} (${code})`,
          ])}
          onChoose={(value) => setChosen(Number(value))}
        />
      </div>
      {sheet === undefined ? (
        <p role="status">{page.reckoning}</p>
      ) : sheet === null ? (
        <p className="review-caution">{words.noRun}</p>
      ) : (
        <Sheet sheet={sheet} />
      )}
    </div>
  );
}

function Sheet({ sheet }: { readonly sheet: FeedbackSheet }) {
  const { page } = useWording();
  const words = page.sheet;
  return (
    <article className="review-sheet">
      <header>
        <h2>{words.title(sheet.called)}</h2>
        <p className="quiet">
          {sheet.group === null ? '' : `${sheet.group}, `}
          {words.span(sheet.runs, sheet.from ?? '?', sheet.to ?? '?')}
        </p>
        <div className="row no-print">
          <ReadAloud sentences={sheet.spoken} />
          <button type="button" onClick={() => print()}>
            {page.print}
          </button>
        </div>
      </header>
      {sheet.cautions.map((caution) => (
        <p key={caution} className="review-caution">
          {caution}
        </p>
      ))}
      <section>
        <h3>{words.good}</h3>
        {sheet.good.length === 0 ? (
          <p>{words.tooLittle}</p>
        ) : (
          <ul>
            {sheet.good.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </section>
      <section>
        <h3>{words.toDo}</h3>
        <ul>
          {sheet.toDo.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </section>
      <section className="review-sheet-curves">
        <h3>{words.curves}</h3>
        <p className="small quiet">{words.curvesNote}</p>
        {sheet.learning.map((one) => (
          <Curve key={one.title} {...one} />
        ))}
      </section>
      <section className="review-sheet-words">
        <h3>{words.agreed}</h3>
        <div className="review-blank" />
        <p className="quiet">{words.signed}</p>
      </section>
    </article>
  );
}

/** Starts and stops the reading of the sheet; it stops by itself when the sheet goes. */
function ReadAloud({ sentences }: { readonly sentences: readonly string[] }) {
  const { reader } = useDesk();
  const words = useWording().page.sheet;
  const [state, setState] = useState<ReadingState>('silent');
  useEffect(() => () => reader.stop(), [reader, sentences]);
  return (
    <>
      <button
        type="button"
        aria-pressed={state === 'reading'}
        onClick={() => (state === 'reading' ? reader.stop() : reader.read(sentences, setState))}
      >
        {state === 'reading' ? words.stop : words.read}
      </button>
      <span role="status">{state === 'no-voice' ? words.noVoice : ''}</span>
    </>
  );
}

function Curve({ title, sentence, curve, aim }: FeedbackSheet['learning'][number]) {
  const words = useWording().page.sheet;
  const draw = useMemo(() => oneCurve(curve, aim), [curve, aim]);
  return (
    <div>
      <h4>{title}</h4>
      <Drawing draw={draw} label={words.curve(title, sentence)} />
      <p className="small">{sentence}</p>
    </div>
  );
}
