import { clockText, type Heard } from '../questions.ts';
import { useAuthorWords } from '../words/words.ts';
import { useForm } from './form-context.ts';

/** The sentence that something came from, when it was said, and a way to hear it again. */
export function EvidenceLine({ heard, sure }: { readonly heard: Heard; readonly sure: number | null }) {
  const { form: text, questions } = useAuthorWords();
  const { play } = useForm();
  const { said, at } = heard;
  return (
    <p className="small author-heard">
      <span>{text.heard(said)}</span>
      {at === null ? null : play === null ? (
        <span className="quiet">{clockText(at)}</span>
      ) : (
        <button type="button" className="author-small" onClick={() => play(at)}>
          {questions.play(clockText(at))}
        </button>
      )}
      {sure === null ? null : <span className="quiet">{text.sure(sure)}</span>}
    </p>
  );
}
