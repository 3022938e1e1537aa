import { useCallback, useEffect, useRef, useState } from 'react';
import { useRecordWords } from '../record/use-record-words.ts';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import { dictationFor } from './dictation.ts';
import type { Dictation } from './dictation.ts';
import { keepRecording } from './kept.ts';
import type { NoteDesk } from './kept.ts';
import { openRecorder } from './recorder.ts';
import type { Recorder } from './recorder.ts';
import { NoteInWords } from './note-in-words.tsx';

interface Running {
  readonly recorder: Recorder;
  readonly dictation: Dictation | null;
}

/** A note by voice or in words. Where the ear is on it records by itself, since hands are busy; a pause, a key or a tap ends it. */
export function NoteTaker({ desk, onOver }: { readonly desk: NoteDesk; readonly onOver: () => void }) {
  const words = useRecordWords().notes;
  const { speech } = useServices();
  const { settings } = useSettings();
  /** A recording without words cannot be known for a question, so it can be marked as one. */
  const [isQuestion, setQuestion] = useState(false);
  const question = useRef(false);
  const [seconds, setSeconds] = useState<number | null>(null);
  const running = useRef<Running | null>(null);
  const dropped = useRef(false);
  const isDropped = () => dropped.current;
  const { language, remoteSpeech, keys } = settings;

  const record = useCallback(async () => {
    if (running.current !== null) return;
    const opened = await openRecorder({ endsItself: true });
    if (!opened.ok) {
      await desk.trouble(opened.code);
      return;
    }
    const { recorder } = opened;
    // The screen was left while the microphone opened.
    if (isDropped()) {
      recorder.stop();
      return;
    }
    running.current = { recorder, dictation: await dictationFor(speech, language, remoteSpeech) };
    setSeconds(0);
    const contents = await recorder.finished;
    const said = (await running.current.dictation?.finish()) ?? '';
    running.current = null;
    // Asked again: the screen may have been left while the recording went on.
    if (!isDropped()) await keepRecording(desk, 'audio', contents, { text: said, question: question.current });
    onOver();
  }, [desk, speech, language, remoteSpeech, onOver]);

  useEffect(() => {
    dropped.current = false;
    // Without an ear, recording waits for a tap: nobody asked for the microphone.
    if (speech.status().ear === 'off' || speech.status().ear === 'broken') return;
    const begun = performance.now();
    const wait = setInterval(() => {
      const waited = performance.now() - begun;
      // Not into its own voice, which is still saying what to do; but not for ever either.
      if (waited < 600 || (speech.status().voice === 'speaking' && waited < 5_000)) return;
      clearInterval(wait);
      void record();
    }, 150);
    return () => clearInterval(wait);
  }, [speech, record]);

  useEffect(
    () => () => {
      // A step that is left in the middle of a note keeps what was said until then; the recorder's end sees to it.
      running.current?.recorder.stop();
    },
    [],
  );

  useEffect(() => {
    if (seconds === null) return;
    const tick = setInterval(() => setSeconds((before) => (before ?? 0) + 1), 1000);
    // A pedal that means "done" ends the note; it must not count a fastener meanwhile.
    const end = (event: KeyboardEvent) => {
      if (keys[event.code] !== 'done') return;
      event.preventDefault();
      event.stopImmediatePropagation();
      running.current?.recorder.stop();
    };
    addEventListener('keydown', end, { capture: true });
    return () => {
      clearInterval(tick);
      removeEventListener('keydown', end, { capture: true });
    };
  }, [seconds, keys]);

  const drop = () => {
    dropped.current = true;
    running.current?.recorder.stop();
    onOver();
  };

  if (seconds !== null) {
    return (
      <section className="panel stack" aria-label={words.recording} data-recording>
        <p className="count bad">{`${words.recording} · ${words.seconds(seconds)}`}</p>
        <p>{words.say}</p>
        <div className="row">
          <button type="button" className="primary" onClick={() => running.current?.recorder.stop()}>
            {words.stop}
          </button>
          <button
            type="button"
            aria-pressed={isQuestion}
            onClick={() => {
              question.current = !isQuestion;
              setQuestion(!isQuestion);
            }}
          >
            {words.isQuestion}
          </button>
          <button type="button" onClick={drop}>
            {words.cancel}
          </button>
        </div>
      </section>
    );
  }
  return (
    <NoteInWords
      onKeep={(text) => {
        dropped.current = true;
        void desk.note({ text, recording: null, media: null, question: false }).then(onOver);
      }}
      onRecord={() => void record()}
      onDrop={drop}
    />
  );
}
