import { useState } from 'react';
import { type KeyPath, nodeAt } from '../../procedure/plain-tree.ts';
import { EvidenceLine } from './form/evidence-line.tsx';
import { useForm } from './form/form-context.ts';
import { orderAt } from './form/order-at.ts';
import { type DraftQuestion, lookItUp } from './questions.ts';
import { useAuthorWords } from './words/words.ts';

/** What a draft left open, with the sentence that raised it. */
export function QuestionsPane({ onShow }: { readonly onShow: () => void }) {
  const { questions: text } = useAuthorWords();
  const { questions } = useForm();
  const open = questions.filter(({ answer }) => answer === null);
  return (
    <div className="author-questions">
      <p role="status">{questions.length === 0 ? text.none : text.left(open.length, questions.length)}</p>
      {questions.length === 0 ? null : <p className="warn small">{text.check}</p>}
      {open.map((question) => (
        <QuestionCard key={question.number} question={question} onShow={onShow} />
      ))}
      {questions
        .filter(({ answer }) => answer !== null)
        .map((question) => (
          <QuestionCard key={question.number} question={question} onShow={onShow} />
        ))}
    </div>
  );
}

/** One question, answered in place: in words, with the value itself, or by leaving it to the maker's manual. */
export function QuestionCard({ question, onShow }: { readonly question: DraftQuestion; readonly onShow?: () => void }) {
  const words = useAuthorWords();
  const { questions: text } = words;
  const { bench, root, edit, readOnly } = useForm();
  const { path, number, ask, heard, offered, answer, group, field } = question;
  const [given, setGiven] = useState('');
  const [value, setValue] = useState<string | null>(null);
  const node = field === null ? null : nodeAt(root, field);
  const standing = node?.kind === 'value' && node.value !== null ? String(node.value) : '';
  const written = value ?? standing;
  const key = field?.findLast((one) => typeof one === 'string' && !one.startsWith('build ')) ?? '';
  const label = words.form.fields[String(key)] ?? String(key);
  const give = (reply: string) => edit({ kind: 'set', path: [...path, 'answer'], value: reply, order: orderAt(path) });
  const write = (target: KeyPath, said: string, reply: string) => {
    const asNumber = key === 'count' && /^\d+$/.test(said);
    const last = String(target.at(-1));
    const holder = target.slice(0, -1);
    const plain = asNumber ? Number(said) : said;
    // The first value that is for one build only begins the choice by build.
    const begins = last.startsWith('build ') && nodeAt(root, holder)?.kind !== 'map';
    edit(
      begins
        ? { kind: 'set', path: holder, value: { [last]: plain }, order: orderAt(holder.slice(0, -1)) }
        : { kind: 'set', path: target, value: plain, order: orderAt(holder) },
      { kind: 'set', path: [...path, 'answer'], value: reply, order: orderAt(path) },
    );
  };
  const submit = () => {
    const reply = given.trim() === '' ? written.trim() : given.trim();
    if (field !== null && written.trim() !== '' && written !== standing) write(field, written.trim(), reply);
    else give(reply);
  };
  if (answer !== null)
    return (
      <article className="author-question done">
        <p>{`${number}. ${ask}`}</p>
        <p className="good small">{text.answered(answer)}</p>
        <button
          type="button"
          className="author-small"
          disabled={readOnly}
          aria-label={`${text.again}: ${number}`}
          onClick={() => edit({ kind: 'remove', path: [...path, 'answer'] })}
        >
          {text.again}
        </button>
      </article>
    );
  const confirms = / right as heard\?/.test(ask) || /^Sizes were said/.test(ask);
  return (
    <article className="author-question">
      <p>
        <strong>{`${number}. ${ask}`}</strong>
      </p>
      {heard === null ? <p className="quiet small">{text.nothingSaid}</p> : <EvidenceLine heard={heard} sure={null} />}
      {offered === null || field === null ? null : (
        <div className="author-offer">
          <p>{text.offered(label)}</p>
          <button
            type="button"
            disabled={readOnly}
            aria-label={`${text.take(offered)}, ${number}`}
            onClick={() => write(field, offered, offered)}
          >
            {text.take(offered)}
          </button>
        </div>
      )}
      <form
        className="author-answer"
        onSubmit={(event) => {
          event.preventDefault();
          submit();
        }}
      >
        {field === null || (node !== null && node.kind !== 'value') ? (
          <label>
            <span>{text.answer}</span>
            <input
              value={given}
              maxLength={400}
              aria-label={`${text.answer}, ${number}`}
              readOnly={readOnly}
              onChange={(event) => setGiven(event.target.value)}
            />
          </label>
        ) : (
          <label>
            <span>{text.value(label)}</span>
            <input
              value={written}
              maxLength={400}
              aria-label={`${text.value(label)}, ${number}`}
              readOnly={readOnly}
              onChange={(event) => setValue(event.target.value)}
            />
          </label>
        )}
        <button type="submit" disabled={readOnly || (given.trim() === '' && written.trim() === '')}>
          {text.give}
        </button>
      </form>
      <div className="row">
        {confirms ? (
          <button type="button" className="author-small" disabled={readOnly} onClick={() => give(text.rightAsHeard)}>
            {text.asHeard}
          </button>
        ) : null}
        <button
          type="button"
          className="author-small"
          disabled={readOnly}
          aria-label={`${text.lookUp}, ${number}`}
          onClick={() => give(lookItUp)}
        >
          {text.lookUp}
        </button>
        {group === null || onShow === undefined ? null : (
          <button
            type="button"
            className="author-small"
            onClick={() => {
              bench.showPath(group.path, false);
              onShow();
            }}
          >
            {text.show}
          </button>
        )}
      </div>
    </article>
  );
}
