import { useEffect, useRef, useState } from 'react';
import { Link } from 'wouter';
import type { RecognitionConstructorLike } from '../../../speech/ports.ts';
import * as own from '../../own-files.ts';
import { newId } from '../../platform/clock.ts';
import { useSettings } from '../../settings-context.ts';
import { useWords } from '../../words/words.ts';
import { clockText } from '../questions.ts';
import { useAuthorWords } from '../words/words.ts';
import type { SaidPart } from './captions.ts';
import { toWebVtt } from './captions.ts';
import { type Dictation, startDictation, waysToWrite, type Writing } from './dictation.ts';

/** So often a piece of the sound goes to the disk, in milliseconds: at most this much is lost when the tab dies. */
const pieceLength = 2_000;
const tags = { en: 'en-US', fr: 'fr-FR' } as const;

interface SpeechWindow {
  readonly SpeechRecognition?: RecognitionConstructorLike;
  readonly webkitSpeechRecognition?: RecognitionConstructorLike;
}

interface Taking {
  readonly id: string;
  readonly recorder: MediaRecorder;
  readonly stream: MediaStream;
  readonly dictation: Dictation | null;
  readonly begun: number;
}

/** Talks a job through: the sound is kept piece by piece, and what the browser writes down of it. */
export function Recorder({ onDone }: { readonly onDone: () => void }) {
  const { recording: text } = useAuthorWords();
  const app = useWords();
  const { settings } = useSettings();
  const [taking, setTaking] = useState<Taking | null>(null);
  const [writing, setWriting] = useState<Writing | null>(null);
  const [elapsed, setElapsed] = useState(0);
  const [parts, setParts] = useState<readonly SaidPart[]>([]);
  const [interim, setInterim] = useState('');
  const [trouble, setTrouble] = useState<string | null>(null);
  const live = useRef<Taking | null>(null);
  const language = tags[settings.language];

  useEffect(() => {
    let current = true;
    void waysToWrite(recognition(), language, settings.remoteSpeech).then((found) => {
      if (current) setWriting(found);
    });
    return () => {
      current = false;
    };
  }, [language, settings.remoteSpeech]);
  useEffect(() => {
    if (taking === null) return;
    const tick = setInterval(() => setElapsed((performance.now() - taking.begun) / 1000), 500);
    return () => clearInterval(tick);
  }, [taking]);
  // Leaving the page ends the recording; what was said so far is kept.
  useEffect(() => () => end(live.current), []);

  const start = async () => {
    setTrouble(null);
    // Absent outside secure contexts, whatever the types say.
    const devices = navigator.mediaDevices as MediaDevices | undefined;
    const stream = await devices?.getUserMedia({ audio: true }).catch(() => null);
    if (stream === null || stream === undefined) {
      setTrouble(text.noMicrophone);
      return;
    }
    const id = newId();
    const recorder = new MediaRecorder(stream);
    const begun = performance.now();
    const at = Date.now();
    const seconds = () => (performance.now() - begun) / 1000;
    const said: SaidPart[] = [];
    let pieces = 0;
    const keep = () =>
      own
        .keepRecording({
          v: 1,
          id,
          title: text.name(new Date(at).toLocaleString(settings.language, { dateStyle: 'medium', timeStyle: 'short' })),
          at,
          seconds: seconds(),
          type: recorder.mimeType === '' ? 'audio/webm' : recorder.mimeType,
          transcript: said.length === 0 ? null : toWebVtt(said),
        })
        .catch(() => setTrouble(text.notKept));
    recorder.ondataavailable = ({ data }) => {
      if (data.size === 0) return;
      void own.keepSound(id, (pieces += 1), data).then(keep, () => setTrouble(text.notKept));
    };
    recorder.onstop = () => {
      for (const track of stream.getTracks()) track.stop();
      void keep().then(onDone);
    };
    const Recognition = recognition();
    const dictation =
      Recognition === null || writing === null || writing === 'none'
        ? null
        : startDictation({
            Recognition,
            language,
            onDevice: writing === 'on-device',
            seconds,
            onPart: (part) => {
              said.push(part);
              setParts([...said]);
              void keep();
            },
            onInterim: setInterim,
            onStopped: () => setTrouble(text.writingStopped),
          });
    await keep();
    recorder.start(pieceLength);
    const started = { id, recorder, stream, dictation, begun };
    live.current = started;
    setParts([]);
    setElapsed(0);
    setTaking(started);
  };
  const stop = () => {
    end(live.current);
    live.current = null;
    setTaking(null);
    setInterim('');
  };

  return (
    <div className="panel author-recorder">
      <p className="quiet small">{text.about}</p>
      {writing === null ? null : (
        <p className={writing === 'remote' ? 'warn small' : 'quiet small'}>
          {writing === 'on-device' ? text.onDevice : writing === 'remote' ? text.remote : text.noWriting}
        </p>
      )}
      {writing === 'none' && recognition() !== null ? (
        <p className="small">
          {`${text.allow} `}
          <Link href="/settings">{app.nav.settings}</Link>
        </p>
      ) : null}
      {trouble === null ? null : (
        <p className="bad" role="alert">
          {trouble}
        </p>
      )}
      {taking === null ? (
        <button type="button" className="primary" onClick={() => void start()}>
          {text.start}
        </button>
      ) : (
        <>
          <p role="timer" aria-live="off">
            {text.runs(clockText(elapsed))}
          </p>
          <button type="button" className="halt" onClick={stop}>
            {text.stop}
          </button>
          <p className="quiet small">{text.kept}</p>
          {parts.length === 0 && interim === '' ? null : (
            <p className="author-transcript" aria-label={text.interim}>
              {parts.map((part) => part.text).join(' ')} <span className="quiet">{interim}</span>
            </p>
          )}
        </>
      )}
    </div>
  );
}

function recognition(): RecognitionConstructorLike | null {
  const page = globalThis as unknown as SpeechWindow;
  return page.SpeechRecognition ?? page.webkitSpeechRecognition ?? null;
}

function end(taking: Taking | null): void {
  if (taking === null) return;
  taking.dictation?.stop();
  if (taking.recorder.state !== 'inactive') taking.recorder.stop();
}
