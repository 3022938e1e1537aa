import { historyField, isolateHistory, redo, redoDepth, undo, undoDepth } from '@codemirror/commands';
import type { Diagnostic } from '@codemirror/lint';
import { setDiagnostics } from '@codemirror/lint';
import { Compartment, EditorState } from '@codemirror/state';
import type { Extension, TransactionSpec } from '@codemirror/state';
import { EditorView } from '@codemirror/view';
import { editText, type ProcedureEdit } from '../../../procedure/edits.ts';
import { type KeyPath, nodeAt, pathAt } from '../../../procedure/plain-tree.ts';
import { readYaml, type YamlNode } from '../../../procedure/yaml-tree.ts';
import type { LintWords } from '../../../procedure/told.ts';
import { type Checked, checkText } from '../check.ts';
import type { WorkPiece } from '../../own-files.ts';
import { leastChange } from './least-change.ts';

export type Saving = 'stored' | 'storing' | 'failed';

/** What the page shows of a procedure being written. A new object whenever anything in it changes. */
export interface BenchView {
  readonly text: string;
  /** Null while the text is no YAML; the form then waits. */
  readonly root: YamlNode | null;
  /** May lag behind the text by a moment. */
  readonly checked: Checked | null;
  /** The way to where the cursor is. */
  readonly cursor: KeyPath;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly saving: Saving;
}

/** One procedure on the bench: text, form and history in one. The text is the truth; a form's edit is an edit of the text. */
export interface Bench {
  readonly view: () => BenchView;
  readonly subscribe: (listener: () => void) => () => void;
  readonly editor: EditorView;
  /** False where the text allows no such edit. */
  edit(edits: readonly ProcedureEdit[]): boolean;
  undo(): void;
  redo(): void;
  /** Puts another text in place of all, as one step of the history. */
  replace(text: string): void;
  /** Moves the cursor there and brings it into sight; `focus` goes into the text too. */
  show(offset: number, focus: boolean): void;
  showPath(path: KeyPath, focus: boolean): void;
  /** Checks the text as it stands now, without waiting for a pause in the typing. */
  checkNow(): void;
  /** What a form's field has not yet handed over, handed over now. */
  readonly unfinished: Set<() => void>;
  setReadOnly(readOnly: boolean): void;
  /** Resolves when everything is stored. */
  stored(): Promise<void>;
  end(): void;
}

export interface BenchDeps {
  readonly piece: WorkPiece;
  readonly extensions: Extension;
  readonly keep: (piece: WorkPiece) => Promise<void>;
  readonly now: () => number;
  readonly diagnosticOf: (mark: Checked['marks'][number], state: EditorState) => Diagnostic;
  /** The words of the lint. */
  readonly lint: LintWords;
}

const historyFields = { history: historyField };
/** After this many milliseconds without a key the text is read again. */
const readAfter = 120;
const checkAfter = 250;

export function startBench({ piece, extensions, keep, now, diagnosticOf, lint }: BenchDeps): Bench {
  const listeners = new Set<() => void>();
  const unfinished = new Set<() => void>();
  const lock = new Compartment();
  let readTimer: ReturnType<typeof setTimeout> | undefined;
  let checkTimer: ReturnType<typeof setTimeout> | undefined;
  let saving: Saving = 'stored';
  let root: YamlNode | null = null;
  let readOf: string | null = null;
  let checked: Checked | null = null;
  let readOnly = false;
  let writing: Promise<void> | null = null;
  let unsaved = false;
  let over = false;

  const all: Extension = [
    extensions,
    lock.of([]),
    EditorView.updateListener.of((update) => {
      if (update.docChanged) {
        later();
        publish();
      } else if (update.selectionSet) publish();
      if (update.docChanged || update.selectionSet) save();
    }),
  ];
  const editor = new EditorView({ state: firstState(piece, all) });
  const textNow = () => editor.state.doc.toString();

  read();
  check();
  let view = look();

  function look(): BenchView {
    const { state } = editor;
    return {
      text: readOf === null || readOf.length !== state.doc.length ? textNow() : readOf,
      root,
      checked,
      cursor: root === null ? [] : pathAt(root, state.selection.main.head),
      canUndo: undoDepth(state) > 0,
      canRedo: redoDepth(state) > 0,
      saving,
    };
  }

  function publish(): void {
    if (over) return;
    view = look();
    for (const listener of listeners) listener();
  }

  function later(): void {
    clearTimeout(readTimer);
    clearTimeout(checkTimer);
    readTimer = setTimeout(() => {
      read();
      publish();
    }, readAfter);
    checkTimer = setTimeout(() => {
      check();
      publish();
    }, checkAfter);
  }

  function read(): void {
    const text = textNow();
    if (text === readOf) return;
    readOf = text;
    const tree = readYaml(text, piece.name);
    root = tree.problems.length === 0 ? tree.root : null;
  }

  function check(): void {
    read();
    checked = checkText(textNow(), piece.name, lint);
    editor.dispatch(
      setDiagnostics(
        editor.state,
        checked.marks.map((mark) => diagnosticOf(mark, editor.state)),
      ),
    );
  }

  /** As fast as the disk takes it: never more than one write behind the keys. */
  function save(): void {
    unsaved = true;
    if (writing !== null || readOnly || over) return;
    saving = 'storing';
    writing = write();
  }

  async function write(): Promise<void> {
    try {
      while (unsaved && !readOnly) {
        unsaved = false;
        const editorState: unknown = editor.state.toJSON(historyFields);
        await keep({ ...piece, text: textNow(), editor: editorState, changed: now() });
      }
      saving = 'stored';
    } catch {
      saving = 'failed';
    }
    writing = null;
    publish();
  }

  function change(text: string, spec: TransactionSpec): void {
    const old = textNow();
    const { from, to, insert } = leastChange(old, text);
    editor.dispatch({ changes: { from, to, insert }, ...spec });
    clearTimeout(readTimer);
    read();
    publish();
  }

  function finish(): void {
    for (const hand of [...unfinished]) hand();
  }

  return {
    view: () => view,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    editor,
    edit(edits) {
      if (readOnly) return false;
      const edited = editText(textNow(), edits);
      if (!edited.ok) return false;
      if (edited.text !== textNow()) change(edited.text, { annotations: isolateHistory.of('full'), userEvent: 'input.form' });
      return true;
    },
    undo() {
      finish();
      undo(editor);
    },
    redo() {
      finish();
      redo(editor);
    },
    replace: (text) => change(text, { annotations: isolateHistory.of('full'), userEvent: 'input.replace' }),
    show(offset, focus) {
      const at = Math.min(offset, editor.state.doc.length);
      editor.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: 'center' }) });
      if (focus) editor.focus();
    },
    showPath(path, focus) {
      const node = root === null ? null : nodeAt(root, path);
      if (node !== null) this.show(node.offset, focus);
    },
    checkNow() {
      finish();
      clearTimeout(checkTimer);
      check();
      publish();
    },
    unfinished,
    setReadOnly(next) {
      readOnly = next;
      editor.dispatch({ effects: lock.reconfigure(next ? [EditorState.readOnly.of(true), EditorView.editable.of(false)] : []) });
    },
    async stored() {
      finish();
      await writing;
    },
    end() {
      finish();
      over = true;
      clearTimeout(readTimer);
      clearTimeout(checkTimer);
      listeners.clear();
      editor.destroy();
    },
  };
}

/** With cursor and history where they fit the text; a state that does not read is worth no halt. */
function firstState({ text, editor }: WorkPiece, extensions: Extension): EditorState {
  if (typeof editor === 'object' && editor !== null) {
    try {
      const state = EditorState.fromJSON(editor, { extensions }, historyFields);
      if (state.doc.toString() === text) return state;
    } catch {
      // Written by another version of the editor: the text counts.
    }
  }
  return EditorState.create({ doc: text, extensions });
}
