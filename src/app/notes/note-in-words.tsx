import { useState } from 'react';
import { useRecordWords } from '../record/use-record-words.ts';

interface NoteInWordsProps {
  readonly onKeep: (text: string) => void;
  /** Null where nothing can be recorded. */
  readonly onRecord: (() => void) | null;
  readonly onDrop: () => void;
}

/** A note that is typed. A question mark at its end makes it a question. */
export function NoteInWords({ onKeep, onRecord, onDrop }: NoteInWordsProps) {
  const words = useRecordWords().notes;
  const [text, setText] = useState('');
  return (
    <form
      className="panel stack"
      onSubmit={(event) => {
        event.preventDefault();
        const kept = text.trim();
        if (kept !== '') onKeep(kept);
      }}
    >
      <label>
        {words.text}
        <textarea rows={2} value={text} maxLength={20_000} onChange={(event) => setText(event.target.value)} />
      </label>
      <p className="quiet small">{words.asking}</p>
      <div className="row">
        <button type="submit" disabled={text.trim() === ''}>
          {words.keep}
        </button>
        {onRecord === null ? null : (
          <button type="button" onClick={onRecord}>
            {words.record}
          </button>
        )}
        <button type="button" onClick={onDrop}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
