import { useEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { Link } from 'wouter';
import { useMedia } from '../platform/media.ts';
import { type KeyPath, nodeAt } from '../../procedure/plain-tree.ts';
import { shelve } from '../library.ts';
import * as own from '../own-files.ts';
import { saveFile } from '../platform/save-file.ts';
import { useWords } from '../words/words.ts';
import { canBeRun, type Checked } from './check.ts';
import { FindingsPane } from './findings-pane.tsx';
import { FormContext, type FormAccess } from './form/form-context.ts';
import { FormPane, FormWaits } from './form/form-pane.tsx';
import { namesIn } from './form/field.tsx';
import { HearPane } from './hear-pane.tsx';
import { evidenceIn, questionsIn } from './questions.ts';
import { QuestionsPane } from './questions-pane.tsx';
import { RehearsePane } from './rehearse-pane.tsx';
import { packShare } from './share.ts';
import { useTabHold } from './tab-hold.ts';
import type { Bench } from './text/bench.ts';
import { startBench } from './text/bench.ts';
import { diagnosticOf, editing } from './text/editing.ts';
import { VersionsPane } from './versions/versions-pane.tsx';
import { useAuthorWords } from './words/words.ts';
import './author.css';

const panes = ['text', 'form', 'findings', 'questions', 'hear', 'rehearse', 'versions'] as const;
type Pane = (typeof panes)[number];

/** Text and form of one procedure, with everything that checks it. */
export function BenchPage({ name }: { readonly name: string }) {
  const words = useAuthorWords();
  const hold = useTabHold(name);
  const [bench, setBench] = useState<Bench | null>(null);
  const [piece, setPiece] = useState<own.WorkPiece | null>(null);
  const [gone, setGone] = useState(false);
  // Opened again when this tab becomes the one that writes: the other may have written meanwhile.
  useEffect(() => {
    if (hold === 'asking') return;
    let over = false;
    let started: Bench | null = null;
    own.openPiece(name).then(
      (found) => {
        if (over) return;
        setGone(found === null);
        if (found === null) return;
        started = startBench({
          piece: found,
          extensions: editing(words),
          keep: own.keepPiece,
          now: Date.now,
          diagnosticOf: (mark, state) => diagnosticOf(mark, state, words),
          lint: words.lint,
        });
        started.setReadOnly(hold !== 'mine');
        setPiece(found);
        setBench(started);
      },
      () => setGone(true),
    );
    return () => {
      over = true;
      started?.end();
      setBench(null);
    };
  }, [name, hold, words]);
  if (gone)
    return (
      <main className="page">
        <p className="trouble" role="alert">
          {words.bench.gone}
        </p>
        <Link className="button" href="/author">
          {words.bench.back}
        </Link>
      </main>
    );
  if (bench === null || piece === null) return <p className="page quiet">…</p>;
  return <Benched key={hold} bench={bench} piece={piece} readOnly={hold !== 'mine'} />;
}

function Benched({ bench, piece, readOnly }: { readonly bench: Bench; readonly piece: own.WorkPiece; readonly readOnly: boolean }) {
  const words = useAuthorWords();
  const { bench: text } = words;
  const view = useSyncExternalStore(bench.subscribe, bench.view);
  const wide = useMedia(wideQuery);
  const [chosen, setChosen] = useState<Pane>('form');
  const [build, setBuild] = useState('');
  const [hearing, setHearing] = useState<{ readonly step: string } | null>(null);
  const [rehearsing, setRehearsing] = useState<{ readonly step: string } | null>(null);
  const [versions, setVersions] = useState<readonly own.KeptVersion[]>([]);
  const [message, setMessage] = useState<string | null>(null);
  const [keeping, setKeeping] = useState(false);
  const [recording, setRecording] = useState<own.Recording | null>(null);
  const { play, player } = usePlayer(recording);
  const { checked, root } = view;
  const file = checked?.file ?? null;
  const shownBuild = file?.builds.has(build) === true ? build : ([...(file?.builds.keys() ?? [])][0] ?? '');
  // Where the text has its own half, the other half shows something else.
  const pane: Pane = wide && chosen === 'text' ? 'form' : chosen;

  useEffect(() => {
    void own.versionsOf(piece.name).then(setVersions);
    if (piece.recording !== null) void own.openRecording(piece.recording).then((found) => setRecording(found ?? null));
  }, [piece]);
  useEffect(() => {
    const keys = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key === 's') {
        event.preventDefault();
        setKeeping(true);
        return;
      }
      // The text has these keys itself; everywhere else on the page they mean the same history.
      if (event.target instanceof Node && bench.editor.dom.contains(event.target)) return;
      if (key === 'z' || key === 'y') {
        event.preventDefault();
        if (key === 'y' || event.shiftKey) bench.redo();
        else bench.undo();
      }
    };
    // A tab that is put away may never come back.
    const putAway = () => {
      if (document.visibilityState === 'hidden') void bench.stored();
    };
    addEventListener('keydown', keys);
    document.addEventListener('visibilitychange', putAway);
    return () => {
      removeEventListener('keydown', keys);
      document.removeEventListener('visibilitychange', putAway);
    };
  }, [bench]);

  const form = useMemo((): FormAccess | null => {
    if (root === null) return null;
    const marksAt = new Map<string, Checked['marks'][number][]>();
    for (const mark of checked?.marks ?? []) marksAt.set(mark.path, [...(marksAt.get(mark.path) ?? []), mark]);
    return {
      bench,
      root,
      readOnly,
      builds: namesIn(root, 'builds').map(([id]) => id),
      marksAt,
      questions: questionsIn(root),
      evidence: evidenceIn(root),
      play,
      edit: (...edits) => {
        if (!bench.edit(edits)) setMessage(text.noEdit);
      },
    };
  }, [bench, root, checked, readOnly, play, text]);

  const showLine = (line: number, column: number) => {
    const { doc } = bench.editor.state;
    if (!wide) setChosen('text');
    const at = doc.line(Math.min(Math.max(1, line), doc.lines));
    // The text must be on the page before it can be scrolled.
    requestAnimationFrame(() => bench.show(Math.min(at.from + column - 1, at.to), true));
  };
  const keep = async (note: string, raise: number | null) => {
    setKeeping(false);
    bench.checkNow();
    if (raise !== null) bench.edit([{ kind: 'set', path: ['revision'], value: raise }]);
    const now = bench.view().text;
    try {
      await bench.stored();
      const version = await own.keepVersion(piece.name, now, note, Date.now());
      const shelved = await shelve(piece.name, now);
      setMessage(shelved.ok && shelved.kept ? text.kept(version.number) : text.keptOnly(version.number));
      setVersions(await own.versionsOf(piece.name));
    } catch {
      setMessage(text.failed);
    }
  };
  const openQuestions = form?.questions.filter(({ answer }) => answer === null).length ?? 0;
  const counts: Partial<Record<Pane, number>> = { findings: checked?.marks.length ?? 0, questions: openQuestions };
  const tabs = panes.filter((one) => !(wide && one === 'text') && (one !== 'questions' || (form?.questions.length ?? 0) > 0));
  const hearStep = (step: string) => {
    bench.checkNow();
    setChosen('hear');
    setHearing({ step });
  };
  const rehearseStep = (step: string) => {
    bench.checkNow();
    setChosen('rehearse');
    setRehearsing({ step });
  };
  const textShown = wide || pane === 'text';

  return (
    <div className="author at-desk">
      <BenchTop
        bench={bench}
        view={view}
        piece={piece}
        recording={recording}
        versions={versions}
        readOnly={readOnly}
        onKeep={() => setKeeping(true)}
      />
      {readOnly ? (
        <p className="trouble" role="alert">
          {text.otherTab}
        </p>
      ) : null}
      {message === null ? null : (
        <p className="author-message" role="status">
          {message}
          <button type="button" className="author-small" onClick={() => setMessage(null)} aria-label={text.cancel}>
            ×
          </button>
        </p>
      )}
      {keeping && !readOnly ? (
        <KeepForm
          view={view}
          last={versions.at(-1) ?? null}
          onKeep={(note, raise) => void keep(note, raise)}
          onCancel={() => setKeeping(false)}
        />
      ) : null}
      {player}
      <div className="author-halves">
        <div className="author-tabs" role="tablist" aria-label={text.tabs}>
          {tabs.map((one) => (
            <button
              key={one}
              id={`tab-${one}`}
              type="button"
              role="tab"
              aria-selected={pane === one}
              aria-controls={`pane-${one}`}
              tabIndex={pane === one ? 0 : -1}
              onClick={() => setChosen(one)}
              onKeyDown={(event) => {
                const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
                if (step === 0) return;
                const next = tabs[(tabs.indexOf(one) + step + tabs.length) % tabs.length] ?? one;
                setChosen(next);
                document.getElementById(`tab-${next}`)?.focus();
              }}
            >
              {text[one]}
              {(counts[one] ?? 0) > 0 ? <span className="author-count">{counts[one]}</span> : null}
            </button>
          ))}
        </div>
        {textShown ? (
          <div className="author-text" {...(wide ? {} : { role: 'tabpanel', id: 'pane-text', 'aria-labelledby': 'tab-text' })}>
            <EditorPlace bench={bench} />
          </div>
        ) : null}
        {pane === 'text' ? null : (
          <div className="author-pane" role="tabpanel" id={`pane-${pane}`} aria-labelledby={`tab-${pane}`} tabIndex={0}>
            {pane === 'findings' ? <FindingsPane checked={checked} onShow={showLine} onQuestions={() => setChosen('questions')} /> : null}
            {pane === 'hear' ? (
              <HearPane file={file} build={shownBuild} setBuild={setBuild} wanted={hearing} onRehearse={rehearseStep} />
            ) : null}
            {pane === 'rehearse' ? <RehearsePane file={file} build={shownBuild} setBuild={setBuild} wanted={rehearsing} /> : null}
            {pane === 'versions' ? (
              <VersionsPane
                versions={versions}
                text={view.text}
                readOnly={readOnly}
                onRestore={(version) => {
                  bench.replace(version.text);
                  setMessage(words.versions.restored(version.number));
                }}
              />
            ) : null}
            {pane !== 'form' && pane !== 'questions' ? null : form === null ? (
              <FormWaits checked={checked} onShow={showLine} />
            ) : (
              <FormContext value={form}>
                {pane === 'form' ? (
                  <FormPane view={view} hearStep={hearStep} rehearseStep={rehearseStep} />
                ) : (
                  <QuestionsPane onShow={() => setChosen('form')} />
                )}
              </FormContext>
            )}
          </div>
        )}
      </div>
    </div>
  );
}

/** The editor is one and stays; it is put where it is shown. */
function EditorPlace({ bench }: { readonly bench: Bench }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    place.current?.append(bench.editor.dom);
    bench.editor.requestMeasure();
    return () => bench.editor.dom.remove();
  }, [bench]);
  return <div className="author-editor" ref={place} />;
}

interface TopProps {
  readonly bench: Bench;
  readonly view: ReturnType<Bench['view']>;
  readonly piece: own.WorkPiece;
  readonly recording: own.Recording | null;
  readonly versions: readonly own.KeptVersion[];
  readonly readOnly: boolean;
  readonly onKeep: () => void;
}

function BenchTop({ bench, view, piece, recording, versions, readOnly, onKeep }: TopProps) {
  const words = useAuthorWords();
  const app = useWords();
  const { bench: text } = words;
  const title = valueAt(view, ['title']) ?? piece.name;
  const { checked } = view;
  const state = view.saving === 'failed' ? text.failed : view.saving === 'storing' ? text.storing : text.stored;
  const errors = checked?.marks.filter(({ severity }) => severity === 'error').length ?? 0;
  return (
    <header className="author-top">
      <div className="author-title">
        <h1>{title}</h1>
        <p className="small">
          <span
            className={view.saving === 'failed' ? 'bad' : 'quiet'}
            role={view.saving === 'failed' ? 'alert' : undefined}
            data-saving={view.saving}
          >
            {state}
          </span>
          {checked === null ? null : canBeRun(checked) ? (
            <span className="good">{` · ${text.runnable}`}</span>
          ) : (
            <span className="warn">
              {` · ${[
                checked.unanswered > 0 ? words.library.open_questions(checked.unanswered) : null,
                errors > 0 ? words.library.errors(errors) : null,
              ]
                .filter((part) => part !== null)
                .join(' · ')}`}
            </span>
          )}
        </p>
      </div>
      <div className="row">
        <button type="button" disabled={!view.canUndo || readOnly} onClick={() => bench.undo()}>
          {text.undo}
        </button>
        <button type="button" disabled={!view.canRedo || readOnly} onClick={() => bench.redo()}>
          {text.redo}
        </button>
        <button type="button" disabled={readOnly} onClick={onKeep}>
          {text.keep}
        </button>
        <Sharing view={view} piece={piece} versions={versions} recording={recording} />
        <Link className="button" href="/calculator">
          {app.nav.calculator}
        </Link>
        <Link className="button" href="/author">
          {text.back}
        </Link>
        <Link className="button" href="/">
          {app.nav.start}
        </Link>
      </div>
    </header>
  );
}

function Sharing({ view, piece, versions, recording }: Pick<TopProps, 'view' | 'piece' | 'versions' | 'recording'>) {
  const { bench: text } = useAuthorWords();
  const [open, setOpen] = useState(false);
  const [sound, setSound] = useState<Blob | null>(null);
  const [withSound, setWithSound] = useState(false);
  useEffect(() => {
    if (!open || recording?.type === null || recording === null) return;
    void own.soundOf(recording.id, recording.type).then(setSound);
  }, [open, recording]);
  const all = async () => {
    const spoken =
      withSound && sound !== null && recording?.type !== null && recording !== null
        ? { type: recording.type, base64: await base64Of(sound) }
        : null;
    const packed = packShare({
      name: piece.name,
      text: view.text,
      versions: versions.map(({ number, at, note, text: kept }) => ({ number, at, note, text: kept })),
      recording:
        recording === null
          ? null
          : { title: recording.title, at: recording.at, seconds: recording.seconds, transcript: recording.transcript, sound: spoken },
    });
    await handOver(`${piece.name.replace(/\.ya?ml$/, '')}.undertray.json`, 'application/json', packed);
    setOpen(false);
  };
  return (
    <div className="author-share">
      <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {text.share}
      </button>
      {open ? (
        <div className="author-menu">
          <button type="button" onClick={() => void handOver(piece.name, 'application/yaml', view.text).then(() => setOpen(false))}>
            {text.saveYaml}
          </button>
          <button type="button" onClick={() => void all()}>
            {text.saveAll}
          </button>
          {sound === null ? null : (
            <label className="check">
              <input type="checkbox" checked={withSound} onChange={(event) => setWithSound(event.target.checked)} />
              {text.withSound((sound.size / 1_000_000).toFixed(1))}
            </label>
          )}
        </div>
      ) : null}
    </div>
  );
}

/** The device's own sharing where it takes such a file, a download everywhere else. */
async function handOver(name: string, type: string, content: string): Promise<void> {
  const files = [new File([content], name, { type })];
  // Missing in many browsers, whatever the types say.
  const { canShare } = navigator as { readonly canShare?: (data: ShareData) => boolean };
  if (canShare?.call(navigator, { files }) === true && matchMedia('(pointer: coarse)').matches) {
    const shared = await navigator.share({ files }).then(
      () => true,
      // Taken back by the person: nothing is to be done instead.
      (error: unknown) => error instanceof DOMException && error.name === 'AbortError',
    );
    if (shared) return;
  }
  saveFile(name, type, [content]);
}

function base64Of(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(typeof reader.result === 'string' ? reader.result.replace(/^[^,]*,/, '') : '');
    reader.onerror = () => reject(reader.error ?? new Error('unreadable'));
    reader.readAsDataURL(blob);
  });
}

function KeepForm({
  view,
  last,
  onKeep,
  onCancel,
}: {
  readonly view: TopProps['view'];
  readonly last: own.KeptVersion | null;
  readonly onKeep: (note: string, raise: number | null) => void;
  readonly onCancel: () => void;
}) {
  const { bench: text } = useAuthorWords();
  const [note, setNote] = useState('');
  const [raises, setRaises] = useState(true);
  const revision = Number(valueAt(view, ['revision']) ?? NaN);
  // Two texts with one revision could not be told apart in the records.
  const canRaise =
    last !== null && last.text !== view.text && Number.isInteger(revision) && new RegExp(`^revision: *${revision}\\b`, 'm').test(last.text);
  return (
    <form
      className="author-keep panel"
      onSubmit={(event) => {
        event.preventDefault();
        onKeep(note.trim(), canRaise && raises ? revision + 1 : null);
      }}
    >
      <label>
        <span>{text.keepNote}</span>
        <input autoFocus value={note} maxLength={300} onChange={(event) => setNote(event.target.value)} />
      </label>
      {canRaise ? (
        <label className="check">
          <input type="checkbox" checked={raises} onChange={(event) => setRaises(event.target.checked)} />
          {text.raise(revision, revision + 1)}
        </label>
      ) : null}
      <div className="row">
        <button type="submit" className="primary">
          {text.keepNow}
        </button>
        <button type="button" onClick={onCancel}>
          {text.cancel}
        </button>
      </div>
    </form>
  );
}

/** The recording of the talk, played from where a sentence was said. */
function usePlayer(recording: own.Recording | null) {
  const { recording: text } = useAuthorWords();
  const audio = useRef<HTMLAudioElement>(null);
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    if (recording?.type === null || recording === null) return;
    let made: string | null = null;
    let over = false;
    void own.soundOf(recording.id, recording.type).then((sound) => {
      if (sound === null || over) return;
      made = URL.createObjectURL(sound);
      setAddress(made);
    });
    return () => {
      over = true;
      if (made !== null) URL.revokeObjectURL(made);
    };
  }, [recording]);
  const play = useMemo(
    () =>
      address === null
        ? null
        : (at: number) => {
            if (audio.current === null) return;
            audio.current.currentTime = at;
            void audio.current.play();
          },
    [address],
  );
  return {
    play,
    player: address === null ? null : <audio ref={audio} className="author-audio" controls src={address} aria-label={text.play} />,
  };
}

function valueAt({ root }: TopProps['view'], path: KeyPath): string | null {
  const node = root === null ? null : nodeAt(root, path);
  return node?.kind === 'value' && node.value !== null ? String(node.value) : null;
}

const wideQuery = '(min-width: 1000px)';
