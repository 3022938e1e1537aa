import { useEffect, useState } from 'react';
import * as own from '../../own-files.ts';
import { FileButton } from '../../pages/file-button.tsx';
import { useSettings } from '../../settings-context.ts';
import { clockText } from '../questions.ts';
import { useAuthorWords } from '../words/words.ts';
import { Recorder } from './recorder.tsx';

/** Talks on this device: recorded here or taken in, each with its sound and its transcript as far as it has them. */
export function RecordingsSection({
  recordings,
  onChanged,
  onDraft,
}: {
  readonly recordings: readonly own.Recording[];
  readonly onChanged: () => void;
  readonly onDraft: (recording: own.Recording) => void;
}) {
  const { recording: text } = useAuthorWords();
  return (
    <section className="stack">
      <h2>{text.title}</h2>
      <Recorder onDone={onChanged} />
      <div className="panels">
        {recordings.map((recording) => (
          <RecordingPanel key={recording.id} recording={recording} onChanged={onChanged} onDraft={onDraft} />
        ))}
      </div>
    </section>
  );
}

function RecordingPanel({
  recording,
  onChanged,
  onDraft,
}: {
  readonly recording: own.Recording;
  readonly onChanged: () => void;
  readonly onDraft: (recording: own.Recording) => void;
}) {
  const words = useAuthorWords();
  const { recording: text } = words;
  const { settings } = useSettings();
  const [address, setAddress] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const { id, type, transcript, title } = recording;
  useEffect(() => {
    if (type === null) return;
    let made: string | null = null;
    let over = false;
    void own.soundOf(id, type).then((sound) => {
      if (sound === null || over) return;
      made = URL.createObjectURL(sound);
      setAddress(made);
    });
    return () => {
      over = true;
      if (made !== null) URL.revokeObjectURL(made);
    };
  }, [id, type, recording.seconds]);
  const attach = async (file: File) => {
    try {
      await own.keepRecording({ ...recording, transcript: await file.text() });
      onChanged();
    } catch {
      setTrouble(words.library.notStored);
    }
  };
  return (
    <article className="panel">
      <h3>{title}</h3>
      <p className="quiet small">
        {[
          new Date(recording.at).toLocaleDateString(settings.language, { dateStyle: 'medium' }),
          recording.seconds === 0 ? null : clockText(recording.seconds),
          transcript === null ? text.noTranscript : null,
        ]
          .filter((part) => part !== null)
          .join(' · ')}
      </p>
      {trouble === null ? null : (
        <p className="bad" role="alert">
          {trouble}
        </p>
      )}
      {address === null ? null : <audio className="author-audio" controls src={address} aria-label={`${text.play}: ${title}`} />}
      {transcript === null ? null : (
        <details>
          <summary>{text.transcript}</summary>
          <p className="author-transcript">{transcript}</p>
        </details>
      )}
      <div className="row">
        {transcript === null ? null : (
          <button type="button" className="primary" aria-label={`${text.draft}: ${title}`} onClick={() => onDraft(recording)}>
            {text.draft}
          </button>
        )}
        <FileButton label={text.attach} accept=".vtt,.srt,.txt" onFile={(file) => void attach(file)} />
        {address === null ? null : (
          <a
            className="button"
            href={address}
            download={`${title.replace(/[^\p{L}\p{N} -]/gu, '')}.${(type ?? '').includes('mp4') ? 'm4a' : 'webm'}`}
          >
            {text.save}
          </a>
        )}
        <button
          type="button"
          aria-label={`${text.remove}: ${title}`}
          onClick={() => {
            if (confirm(text.removeSure)) void own.dropRecording(id).then(onChanged);
          }}
        >
          {text.remove}
        </button>
      </div>
    </article>
  );
}
