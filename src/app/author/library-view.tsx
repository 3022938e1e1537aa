import { useCallback, useEffect, useState } from 'react';
import { Link, useLocation } from 'wouter';
import * as own from '../own-files.ts';
import { FileButton } from '../pages/file-button.tsx';
import { newId } from '../platform/clock.ts';
import { useSettings } from '../settings-context.ts';
import { shippedLabels } from '../shelf.ts';
import type { ShelfLabel } from '../shelf.ts';
import { draft } from './drafting.ts';
import { LibraryOpening } from './library-opening.tsx';
import { RecordingsSection } from './recording/recordings-section.tsx';
import type { Listed } from './library-work.ts';
import { useAuthorWords } from './words/words.ts';
import './author.css';

// What reads, writes and drafts procedures is most of the code here: it comes when there is something to be done with it.
const theWork = () => import('./library-work.ts');

/** Where an author's procedures lie, and where new ones begin. */
export function LibraryView() {
  const words = useAuthorWords();
  const { settings } = useSettings();
  const [, navigate] = useLocation();
  const [listed, setListed] = useState<readonly Listed[] | null>(null);
  const [recordings, setRecordings] = useState<readonly own.Recording[]>([]);
  const [message, setMessage] = useState<string | null>(null);
  const [drafting, setDrafting] = useState<string | null>(null);
  const text = words.library;

  const read = useCallback(async () => {
    const [pieces, runnable] = await Promise.all([own.workPieces(), own.runnableFiles()]);
    setListed(pieces.length === 0 ? [] : (await theWork()).listed(pieces, new Map(runnable), text));
    setRecordings(await own.recordings());
  }, [text]);
  useEffect(() => {
    read().catch(() => setListed([]));
  }, [read]);

  const taken = (listed ?? []).map(({ name }) => name);
  /** Stores it first and opens it then. */
  const begin = async (base: string, written: string, recording: string | null = null) => {
    try {
      const name = (await theWork()).freeName(base, taken);
      await own.keepPiece(own.newPiece(name, written, recording, Date.now()));
      if (recording !== null) await own.keepVersion(name, written, words.library.fromTalk, Date.now());
      navigate(`/author/${encodeURIComponent(name)}`);
    } catch {
      setMessage(text.notStored);
    }
  };
  const draftTalk = async ({ id, title, transcript }: own.Recording) => {
    setMessage(null);
    setDrafting(text.drafting(title));
    const answer = await draft({ transcript: transcript ?? '', name: title }).catch(() => null);
    setDrafting(null);
    if (answer?.kind === 'drafted') await begin(title, answer.file, id);
    else setMessage(answer === null ? text.notDrafted(title) : answer.kind === 'nothing' ? text.noFasteners(title) : text.noReader(title));
  };
  const takeTranscript = async (file: File) => {
    const transcript = await file.text().catch(() => null);
    if (transcript === null) {
      setMessage(text.unread(file.name));
      return;
    }
    const recording = {
      v: 1,
      id: newId(),
      title: file.name.replace(/\.\w+$/, ''),
      at: Date.now(),
      seconds: 0,
      type: null,
      transcript,
    } as const;
    try {
      await own.keepRecording(recording);
      await read();
      await draftTalk(recording);
    } catch {
      setMessage(text.notStored);
    }
  };
  const takeFile = async (file: File) => {
    const raw = await file.text().catch(() => null);
    if (raw === null) {
      setMessage(text.unread(file.name));
      return;
    }
    if (!/\.json$/i.test(file.name)) {
      await begin(file.name, raw);
      return;
    }
    const { readShare, freeName } = await theWork();
    const found = readShare(raw);
    if (!found.ok) {
      setMessage(text.notShared(file.name, found.where, found.expected));
      return;
    }
    const name = freeName(found.shared.name, taken);
    const { recording } = found.shared;
    const id = recording === null ? null : newId();
    try {
      if (recording !== null && id !== null) {
        if (recording.sound !== null) await own.keepSound(id, 0, soundIn(recording.sound));
        await own.keepRecording({
          v: 1,
          id,
          title: recording.title,
          at: recording.at,
          seconds: recording.seconds,
          transcript: recording.transcript,
          type: recording.sound?.type ?? null,
        });
      }
      for (const version of found.shared.versions) await own.keepVersion(name, version.text, version.note, version.at);
      await own.keepPiece(own.newPiece(name, found.shared.text, id, Date.now()));
      navigate(`/author/${encodeURIComponent(name)}`);
    } catch {
      setMessage(text.notStored);
    }
  };
  const remove = async ({ name, title }: Listed) => {
    if (!confirm(text.removeSure(title))) return;
    await own.dropOwn(name);
    await read();
  };

  return (
    <main className="page at-desk author-library">
      <LibraryOpening />
      {drafting === null ? null : <p role="status">{drafting}</p>}
      {message === null ? null : (
        <p className="trouble" role="alert">
          {message}
        </p>
      )}
      <section className="stack">
        <h2>{text.own}</h2>
        {/* Its place is kept while the store is read, so that nothing jumps under a finger. */}
        {listed === null || listed.length === 0 ? (
          <p className="quiet" style={listed === null ? { visibility: 'hidden' } : {}}>
            {text.none}
          </p>
        ) : null}
        <div className="panels">
          {listed?.map((one) => (
            <article key={one.name} className="panel">
              <h3>{one.title}</h3>
              <p className="quiet small">
                {[one.state, one.changed === 0 ? null : text.changed(moment(one.changed, settings.language))]
                  .filter((part) => part !== null)
                  .join(' · ')}
              </p>
              <div className="row">
                <Link className="button primary" href={`/author/${encodeURIComponent(one.name)}`} aria-label={`${text.open}: ${one.title}`}>
                  {text.open}
                </Link>
                <button type="button" aria-label={`${text.remove}: ${one.title}`} onClick={() => void remove(one)}>
                  {text.remove}
                </button>
              </div>
            </article>
          ))}
        </div>
      </section>
      <section className="stack">
        <h2>{text.begin}</h2>
        <div className="panels">
          <article className="panel">
            <h3>{text.fromTalk}</h3>
            <p className="quiet small">{text.fromTalkWhy}</p>
            <FileButton label={text.transcript} accept=".vtt,.srt,.txt" onFile={(file) => void takeTranscript(file)} />
          </article>
          <Beginning onBegin={(head) => void theWork().then(({ skeleton }) => begin(head.title, skeleton(head, settings.language)))} />
          <article className="panel">
            <h3>{text.fromShipped}</h3>
            <p className="quiet small">{text.fromShippedWhy}</p>
            <Copying
              onCopy={({ id, name }) => void theWork().then(async ({ shippedText }) => begin(id, (await shippedText(name)) ?? ''))}
            />
          </article>
          <article className="panel">
            <h3>{text.fromFile}</h3>
            <p className="quiet small">{text.fromFileWhy}</p>
            <FileButton label={text.file} accept=".yaml,.yml,.json" onFile={(file) => void takeFile(file)} />
          </article>
        </div>
      </section>
      <RecordingsSection recordings={recordings} onChanged={() => void read()} onDraft={(recording) => void draftTalk(recording)} />
    </main>
  );
}

function Beginning({ onBegin }: { readonly onBegin: (head: { title: string; vehicle: string; author: string }) => void }) {
  const { library: text } = useAuthorWords();
  const { settings } = useSettings();
  const [head, setHead] = useState({ title: '', vehicle: '', author: settings.person });
  const field = (key: keyof typeof head, label: string) => (
    <label>
      {label}
      <input required maxLength={120} value={head[key]} onChange={(event) => setHead({ ...head, [key]: event.target.value })} />
    </label>
  );
  return (
    <form
      className="panel"
      onSubmit={(event) => {
        event.preventDefault();
        onBegin(head);
      }}
    >
      <h3>{text.fromNothing}</h3>
      <p className="quiet small">{text.fromNothingWhy}</p>
      {field('title', text.name)}
      {field('vehicle', text.vehicle)}
      {field('author', text.author)}
      <button type="submit">{text.create}</button>
    </form>
  );
}

function Copying({ onCopy }: { readonly onCopy: (label: ShelfLabel) => void }) {
  const { library: text } = useAuthorWords();
  const [chosen, setChosen] = useState('');
  const label = shippedLabels.find(({ name }) => name === chosen) ?? shippedLabels[0];
  return (
    <>
      <label>
        {text.which}
        <select value={label?.name ?? ''} onChange={(event) => setChosen(event.target.value)}>
          {shippedLabels.map(({ name, title }) => (
            <option key={name} value={name}>
              {title}
            </option>
          ))}
        </select>
      </label>
      <button type="button" disabled={label === undefined} onClick={() => (label === undefined ? undefined : onCopy(label))}>
        {text.copy}
      </button>
    </>
  );
}

const moment = (at: number, language: string) => new Date(at).toLocaleString(language, { dateStyle: 'medium', timeStyle: 'short' });

function soundIn({ type, base64 }: { readonly type: string; readonly base64: string }): Blob {
  return new Blob([Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))], { type });
}
