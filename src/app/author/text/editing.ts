import { autocompletion, completionKeymap, snippetCompletion } from '@codemirror/autocomplete';
import type { Completion, CompletionContext, CompletionResult } from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { bracketMatching, foldGutter, foldKeymap, HighlightStyle, indentOnInput, syntaxHighlighting } from '@codemirror/language';
import type { Diagnostic } from '@codemirror/lint';
import { lintGutter, lintKeymap } from '@codemirror/lint';
import { EditorState } from '@codemirror/state';
import type { Extension } from '@codemirror/state';
import {
  drawSelection,
  EditorView,
  highlightActiveLine,
  highlightActiveLineGutter,
  hoverTooltip,
  keymap,
  lineNumbers,
} from '@codemirror/view';
import { tags } from '@lezer/highlight';
import schemaText from '../../../../procedures/procedure.schema.json?raw';
import { nodeAt, pathAt, plainOf } from '../../../procedure/plain-tree.ts';
import { cursorPlace, type KeyHelp, type Schema, type SchemaHelp, schemaHelp } from '../../../procedure/schema-help.ts';
import { readYaml } from '../../../procedure/yaml-tree.ts';
import type { Mark } from '../check.ts';
import type { AuthorWords } from '../words/en.ts';

let made: SchemaHelp | null = null;
/** The format's own schema, read once. It is part of the build, so its shape is known. */
export const formatHelp = (): SchemaHelp => (made ??= schemaHelp(JSON.parse(schemaText) as Schema));

/** The text pane: YAML with the schema's help, in the page's own colours. */
export function editing(words: AuthorWords): Extension {
  return [
    lineNumbers(),
    foldGutter(),
    lintGutter(),
    history(),
    drawSelection(),
    indentOnInput(),
    bracketMatching(),
    highlightActiveLine(),
    highlightActiveLineGutter(),
    yaml(),
    EditorState.tabSize.of(2),
    EditorView.lineWrapping,
    syntaxHighlighting(colours),
    theme,
    autocompletion({ override: [complete], icons: false }),
    about,
    // The Tab key stays the browser's, so that nobody is caught in here.
    keymap.of([...completionKeymap, ...lintKeymap, ...foldKeymap, ...historyKeymap, ...defaultKeymap]),
    EditorView.contentAttributes.of({ 'aria-label': words.text.label, spellcheck: 'true', tabindex: '0' }),
  ];
}

/** A mark at its place, to the end of what stands there. */
export function diagnosticOf(mark: Mark, state: EditorState, words: AuthorWords): Diagnostic {
  const line = state.doc.line(Math.min(Math.max(1, mark.line), state.doc.lines));
  const from = Math.min(line.from + mark.column - 1, line.to);
  return {
    from,
    to: Math.max(from, line.from + line.text.replace(/\s+#.*$/, '').trimEnd().length),
    severity: mark.severity === 'hint' ? 'info' : mark.severity,
    message: markText(mark, words),
  };
}

export function markText({ says, build }: Mark, words: AuthorWords): string {
  const where = build === null ? '' : ` (${words.build(build)})`;
  return says.kind === 'finding' ? `${says.message}${where} ${says.advice}` : `${words.findings.fault(says)}${where}`;
}

function complete(context: CompletionContext): CompletionResult | null {
  const text = context.state.doc.toString();
  const place = cursorPlace(text, context.pos);
  if (place === null || (!context.explicit && place.typed === '')) return null;
  const help = formatHelp();
  if (place.wants === 'value') {
    const options = [...help.valuesAt(place.path), ...namesFor(text, place.path.findLast((key) => typeof key === 'string') ?? '')];
    return options.length === 0 ? null : { from: place.from, options: options.map((label) => ({ label })), validFor: /^[\w -]*$/ };
  }
  const keys = help.keysAt(place.path).filter(({ key }) => !place.present.includes(key));
  const builds = help.variesByBuild(place.path)
    ? buildsIn(text).map((id): KeyHelp => ({ key: `build ${id}`, about: '', required: false, holds: 'value' }))
    : [];
  const options = [...keys, ...builds].map((key, index) => keyCompletion(key, place.column, index));
  return options.length === 0 ? null : { from: place.from, options, validFor: /^[\w -]*$/ };
}

function keyCompletion({ key, about: info, required, holds }: KeyHelp, column: number, index: number): Completion {
  const inner = ' '.repeat(column + 2);
  const template = holds === 'list' ? `${key}:\n${inner}- \${}` : holds === 'entry' ? `${key}:\n${inner}\${}` : `${key}: \${}`;
  return snippetCompletion(template.replaceAll(`\n${inner}`, `\n\t`), {
    label: key,
    ...(info === '' ? {} : { info }),
    detail: required ? '*' : '',
    // The schema's own order, which is the order in which an author thinks.
    boost: (required ? 50 : 0) - index,
  });
}

const fromLists: Readonly<Record<string, readonly string[]>> = {
  uses: ['parts', 'consumables', 'supports'],
  part: ['parts'],
  see: ['sides'],
};

/** What the file itself names: the steps to go to, the side procedures, the supplies, the builds. */
function namesFor(text: string, key: string): readonly string[] {
  if (key === 'only') return buildsIn(text);
  const { root } = readYaml(text, '');
  if (root === null) return [];
  const idsIn = (list: string) => {
    const node = nodeAt(root, [list]);
    return node?.kind === 'list'
      ? node.items.map((item) => nodeAt(item, ['id'])).flatMap((id) => (id?.kind === 'value' ? [String(id.value)] : []))
      : [];
  };
  if (key === 'go') return stepIds(text);
  return (fromLists[key] ?? []).flatMap(idsIn);
}

function stepIds(text: string): readonly string[] {
  const { root } = readYaml(text, '');
  const stages = root === null ? null : nodeAt(root, ['stages']);
  if (stages?.kind !== 'list') return [];
  return stages.items.flatMap((stage) => {
    const steps = nodeAt(stage, ['steps']);
    return steps?.kind === 'list'
      ? steps.items.map((step) => nodeAt(step, ['id'])).flatMap((id) => (id?.kind === 'value' ? [String(id.value)] : []))
      : [];
  });
}

function buildsIn(text: string): readonly string[] {
  const { root } = readYaml(text, '');
  const builds = root === null ? null : nodeAt(root, ['builds']);
  return builds === null ? [] : Object.keys(plainOf(builds) ?? {});
}

/** What the schema says of the key under the pointer. */
const about = hoverTooltip((view, pos) => {
  const { root } = readYaml(view.state.doc.toString(), '');
  if (root === null) return null;
  const path = pathAt(root, pos);
  const info = formatHelp().aboutAt(path);
  if (info === null) return null;
  return {
    pos,
    above: true,
    create: () => {
      const dom = document.createElement('div');
      dom.className = 'author-about';
      dom.textContent = info;
      return { dom };
    },
  };
});

const colours = HighlightStyle.define([
  { tag: [tags.propertyName, tags.definition(tags.propertyName)], color: 'var(--accent)' },
  { tag: tags.comment, color: 'var(--quiet)', fontStyle: 'italic' },
  { tag: [tags.string, tags.content], color: 'var(--ink)' },
  { tag: [tags.separator, tags.punctuation, tags.squareBracket, tags.brace], color: 'var(--quiet)' },
]);

const theme = EditorView.theme({
  '&': { backgroundColor: 'var(--raised)', color: 'var(--ink)', height: '100%', fontSize: '0.95rem' },
  '&.cm-focused': { outline: '4px solid var(--warn)', outlineOffset: '-4px' },
  '.cm-scroller': { fontFamily: "ui-monospace, 'DejaVu Sans Mono', monospace", lineHeight: '1.5' },
  '.cm-content': { caretColor: 'var(--ink)', paddingBottom: '30vh' },
  '.cm-cursor': { borderLeftColor: 'var(--ink)', borderLeftWidth: '2px' },
  '&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground': {
    backgroundColor: 'color-mix(in srgb, var(--accent) 30%, var(--raised))',
  },
  '.cm-gutters': { backgroundColor: 'var(--raised)', color: 'var(--quiet)', border: 'none' },
  '.cm-activeLine, .cm-activeLineGutter': { backgroundColor: 'color-mix(in srgb, var(--line) 18%, transparent)' },
  '.cm-tooltip': {
    backgroundColor: 'var(--ground)',
    color: 'var(--ink)',
    border: '2px solid var(--line)',
    borderRadius: '8px',
    maxWidth: 'min(32rem, 90vw)',
  },
  '.cm-tooltip .author-about': { padding: '6px 10px' },
  '.cm-tooltip-autocomplete > ul > li[aria-selected]': { backgroundColor: 'var(--accent)', color: 'var(--on-accent)' },
  '.cm-completionInfo': { backgroundColor: 'var(--ground)', border: '2px solid var(--line)', borderRadius: '8px' },
  '.cm-diagnostic': { borderLeft: '5px solid var(--line)', padding: '4px 10px' },
  '.cm-diagnostic-error': { borderLeftColor: 'var(--bad)' },
  '.cm-diagnostic-warning': { borderLeftColor: 'var(--warn)' },
  '.cm-diagnostic-info': { borderLeftColor: 'var(--accent)' },
  '.cm-panels': { backgroundColor: 'var(--ground)', color: 'var(--ink)' },
  '.cm-foldPlaceholder': { backgroundColor: 'var(--pressed)', color: 'var(--ink)', border: 'none' },
});
