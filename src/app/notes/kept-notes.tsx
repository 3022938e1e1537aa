import { useEffect, useState } from 'react';
import type { Note } from '../../job/state.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import { useWords } from '../words/words.ts';
import { theRecordings } from '../record/stores.ts';
import { useRecordWords } from '../record/use-record-words.ts';

/** Notes as they can be read, heard and seen. */
export function KeptNotes({ job, plan, notes }: { readonly job: string; readonly plan: Plan; readonly notes: readonly Note[] }) {
  const words = useRecordWords().notes;
  return (
    <ul className="kept-notes">
      {notes.map((note) => (
        <li key={note.seq} className="stack">
          <p>
            <span className="quiet">{`${words.of(plan.steps.find(({ id }) => id === note.step)?.number ?? null)}: `}</span>
            {note.question ? <strong>{`${words.question} `}</strong> : null}
            {note.text !== '' ? note.text : note.media === 'photo' ? words.image : words.audio}
          </p>
          {note.recording === null ? null : <KeptRecording job={job} id={note.recording} media={note.media} />}
        </li>
      ))}
    </ul>
  );
}

type Found = { readonly address: string; readonly isWhole: boolean } | { readonly trouble: string };

function KeptRecording({ job, id, media }: { readonly job: string; readonly id: string; readonly media: Note['media'] }) {
  const words = useRecordWords().notes;
  const troubles = useWords().trouble;
  const [found, setFound] = useState<Found | null>(null);
  useEffect(() => {
    let address: string | null = null;
    let over = false;
    void theRecordings()
      .read({ job, id })
      .then((read) => {
        if (over) return;
        if (!read.ok) {
          setFound({ trouble: read.code === 'no-such-recording' ? words.gone : troubles[read.code] });
          return;
        }
        address = URL.createObjectURL(read.contents);
        setFound({ address, isWhole: read.isWhole });
      });
    return () => {
      over = true;
      if (address !== null) URL.revokeObjectURL(address);
    };
  }, [job, id, words, troubles]);
  if (found === null) return null;
  if ('trouble' in found) return <p className="warn small">{found.trouble}</p>;
  return (
    <>
      {found.isWhole ? null : <p className="warn small">{words.changed}</p>}
      {media === 'photo' ? (
        <img className="kept-photo" src={found.address} alt={words.image} />
      ) : (
        <audio controls preload="metadata" src={found.address} aria-label={words.audio} />
      )}
    </>
  );
}
