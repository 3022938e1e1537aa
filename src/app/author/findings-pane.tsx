import type { Checked } from './check.ts';
import { markText } from './text/editing.ts';
import { useAuthorWords } from './words/words.ts';

/** All that the lint says, each line a way to its place. */
export function FindingsPane({
  checked,
  onShow,
  onQuestions,
}: {
  readonly checked: Checked | null;
  readonly onShow: (line: number, column: number) => void;
  readonly onQuestions: () => void;
}) {
  const words = useAuthorWords();
  const { findings: text } = words;
  if (checked === null) return <p className="quiet">{text.reading}</p>;
  return (
    <div className="author-findings">
      {checked.unanswered === 0 ? null : (
        <button type="button" className="author-finding warning" onClick={onQuestions}>
          {text.questions(checked.unanswered)}
        </button>
      )}
      {checked.marks.length === 0 && checked.unanswered === 0 ? (
        <p className="good" role="status">
          {text.none}
        </p>
      ) : null}
      {checked.marks.map((mark) => (
        <button
          key={`${mark.line}:${mark.column}:${mark.code}:${mark.build ?? ''}:${mark.path}`}
          type="button"
          className={`author-finding ${mark.severity}`}
          onClick={() => onShow(mark.line, mark.column)}
        >
          <span className="small author-where">{`${text.severity[mark.severity]} · ${text.at(mark.line, mark.column)}`}</span>
          <span lang="en">{markText(mark, words)}</span>
        </button>
      ))}
    </div>
  );
}
