import { useEffect, useId, useRef, useState } from 'react';
import { type KeyPath, nodeAt, type Plain, plainOf } from '../../../procedure/plain-tree.ts';
import type { YamlNode } from '../../../procedure/yaml-tree.ts';
import { markText } from '../text/editing.ts';
import { useAuthorWords } from '../words/words.ts';
import { EvidenceLine } from './evidence-line.tsx';
import { pathText, useForm } from './form-context.ts';
import type { FieldKind, NameSource, Widget } from './kinds.ts';

/** One value of an entry, or one for each build. An edit goes into the text; the text's own edits show here. */
export function Field({
  field,
  path,
  order,
  group,
}: {
  readonly field: FieldKind;
  readonly path: KeyPath;
  readonly order: readonly string[];
  readonly group: string | null;
}) {
  const words = useAuthorWords();
  const { root, builds, edit } = useForm();
  const here = [...path, field.key];
  const node = nodeAt(root, here);
  const label = words.form.fields[field.key] ?? field.key;
  const set = (value: Plain | undefined, at: KeyPath = here) => {
    if (value === undefined) {
      if (nodeAt(root, at) !== null) edit({ kind: 'remove', path: at });
    } else edit({ kind: 'set', path: at, value, order });
  };
  const buildKeys =
    node?.kind === 'map' && node.entries.every(({ key }) => /^(?:build .+|other builds)$/.test(key))
      ? node.entries.map(({ key }) => key)
      : [];
  const canDiffer = builds.length > 1 && byBuildFields.includes(field.key);
  const rest = builds.map((build) => `build ${build}`).filter((key) => !buildKeys.includes(key));
  if (buildKeys.length > 0)
    return (
      <fieldset className="author-builds">
        <legend>{label}</legend>
        {[...buildKeys, ...(buildKeys.includes('other builds') ? [] : rest)].map((key) => (
          <Value
            key={key}
            widget={field.widget}
            label={key === 'other builds' ? words.form.otherBuilds : words.build(key.slice(6))}
            full={`${label}, ${key}`}
            path={[...here, key]}
            node={nodeAt(root, [...here, key])}
            set={(value) => set(value, [...here, key])}
          />
        ))}
        <Differs
          on
          onChange={() => {
            const first = node === null ? null : nodeAt(node, [buildKeys[0] ?? '']);
            set(first === null ? undefined : plainOf(first));
          }}
        />
        <FieldNotes path={here} group={group} fieldKey={field.key} />
      </fieldset>
    );
  if (node?.kind === 'map' && field.widget.kind !== 'way') return <ByHand label={label} path={here} />;
  return (
    <div className={`author-field ${field.widget.kind}${field.widget.kind === 'text' && field.widget.long === true ? ' long' : ''}`}>
      <Value widget={field.widget} label={label} full={label} path={here} node={node} set={set} />
      {canDiffer && node?.kind === 'value' && node.value !== null && field.widget.kind !== 'flag' ? (
        <Differs on={false} onChange={() => set(Object.fromEntries(builds.map((build) => [`build ${build}`, plainOf(node)])))} />
      ) : null}
      <FieldNotes path={here} group={group} fieldKey={field.key} />
    </div>
  );
}

function Differs({ on, onChange }: { readonly on: boolean; readonly onChange: () => void }) {
  const { form: text } = useAuthorWords();
  const { readOnly } = useForm();
  return (
    <button type="button" className="author-differs" disabled={readOnly} onClick={onChange}>
      {on ? text.alike : text.differs}
    </button>
  );
}

/** What usually differs between builds. Anything else may too, in the text. */
const byBuildFields: readonly string[] = ['count', 'drive', 'square', 'torque', 'thread', 'class', 'angle', 'min', 'max', 'for'];

/** Something that only the text can change. */
export function ByHand({ label, path }: { readonly label: string; readonly path: KeyPath }) {
  const { form: text } = useAuthorWords();
  const { bench } = useForm();
  return (
    <div className="author-by-hand">
      <strong>{label}</strong>
      <p className="quiet small">{text.byHand}</p>
      <button type="button" onClick={() => bench.showPath(path, true)}>
        {text.showText}
      </button>
    </div>
  );
}

/** What is wrong with it, and what was heard of it. */
function FieldNotes({ path, group, fieldKey }: { readonly path: KeyPath; readonly group: string | null; readonly fieldKey: string }) {
  const words = useAuthorWords();
  const { marksAt, evidence } = useForm();
  const at = pathText(path);
  const marks = [...marksAt]
    .filter(([place]) => place === at || place.startsWith(`${at}.`) || place.startsWith(`${at}[`))
    .flatMap(([, found]) => found);
  const heard =
    group === null ? [] : evidence.filter((one) => one.group === group && evidenceOf(fieldKey).includes(one.value.split(' ')[0] ?? ''));
  return (
    <>
      {heard.map((one) => (
        <EvidenceLine key={`${one.value} ${one.said}`} heard={one} sure={one.confidence} />
      ))}
      {marks.map((mark) => (
        <p key={`${mark.code} ${mark.column} ${mark.build ?? ''}`} className={`small author-mark ${mark.severity}`}>
          {markText(mark, words)}
        </p>
      ))}
    </>
  );
}

/** The draft calls a drive's size by itself. */
const evidenceOf = (key: string): readonly string[] => (key === 'drive' ? ['drive', 'size'] : [key]);

interface ValueProps {
  readonly widget: Widget;
  readonly label: string;
  /** For those who hear the label alone. */
  readonly full: string;
  readonly path: KeyPath;
  readonly node: YamlNode | null;
  readonly set: (value: Plain | undefined) => void;
}

function Value({ widget, label, full, path, node, set }: ValueProps) {
  const words = useAuthorWords();
  const { readOnly, root, bench } = useForm();
  const show = () => bench.showPath(path, false);
  const value = node?.kind === 'value' ? node.value : null;
  switch (widget.kind) {
    case 'flag':
      return (
        <label className="check">
          <input
            type="checkbox"
            checked={value === true}
            disabled={readOnly}
            onChange={(event) => set(event.target.checked ? true : undefined)}
          />
          {label}
        </label>
      );
    case 'choice':
      return (
        <Picker
          label={label}
          full={full}
          value={value === null ? '' : String(value)}
          options={widget.of.map((one) => [one, widget.translated ? (words.form.choices[one] ?? one) : one])}
          onPick={(picked) => set(picked === '' ? undefined : picked)}
        />
      );
    case 'names': {
      const options = namesIn(root, widget.of);
      const chosen = node?.kind === 'list' ? (plainOf(node) as readonly Plain[]).map(String) : value === null ? [] : [String(value)];
      if (!widget.many)
        return (
          <Picker
            label={label}
            full={full}
            value={chosen[0] ?? ''}
            options={options}
            onPick={(picked) => set(picked === '' ? undefined : picked)}
          />
        );
      if (options.length === 0 && chosen.length === 0) return null;
      return (
        <fieldset className="author-names">
          <legend>{label}</legend>
          {[...options, ...chosen.filter((one) => !options.some(([id]) => id === one)).map((one) => [one, one] as const)].map(
            ([id, name]) => (
              <label key={id} className="author-tick">
                <input
                  type="checkbox"
                  checked={chosen.includes(id)}
                  disabled={readOnly}
                  onChange={(event) => {
                    const next = event.target.checked ? [...chosen, id] : chosen.filter((one) => one !== id);
                    set(next.length === 0 ? undefined : next);
                  }}
                />
                {name}
              </label>
            ),
          )}
        </fieldset>
      );
    }
    case 'way':
      return <WayOut label={label} node={node} set={set} />;
    case 'words':
      return (
        <Typed
          label={label}
          full={full}
          value={
            node?.kind === 'list'
              ? (plainOf(node) as readonly Plain[]).map((one) => (typeof one === 'object' ? '…' : String(one))).join(', ')
              : value === null
                ? ''
                : String(value)
          }
          example={widget.example ?? ''}
          hint={words.form.list}
          onFocus={show}
          give={(typed) => {
            const items = typed.split(',').map((one) => one.trim());
            const kept = items.filter((one) => one !== '');
            set(kept.length === 0 ? undefined : kept);
          }}
        />
      );
    case 'number':
      return (
        <Typed
          label={label}
          full={full}
          value={value === null ? '' : String(value)}
          numeric
          onFocus={show}
          give={(typed) =>
            set(typed.trim() === '' ? undefined : /^-?\d+(?:[.,]\d+)?$/.test(typed.trim()) ? Number(typed.trim().replace(',', '.')) : typed)
          }
        />
      );
    case 'text':
      return (
        <Typed
          label={label}
          full={full}
          value={value === null ? '' : String(value)}
          example={widget.example ?? ''}
          long={widget.long ?? false}
          onFocus={show}
          give={(typed) => set(typed === '' ? undefined : typed)}
        />
      );
  }
}

/** After this many milliseconds without a key a field's value goes into the text. */
const handOver = 300;

interface TypedProps {
  readonly label: string;
  readonly full: string;
  readonly value: string;
  readonly give: (typed: string) => void;
  readonly onFocus?: () => void;
  readonly example?: string;
  readonly hint?: string;
  readonly long?: boolean;
  readonly numeric?: boolean;
}

/** Typed by hand: shown as typed until it is in the text, then as the text has it. */
export function Typed({ label, full, value, give, onFocus, example = '', hint = '', long = false, numeric = false }: TypedProps) {
  const { bench, readOnly } = useForm();
  const [typed, setTyped] = useState<string | null>(null);
  const live = useRef({ typed, give });
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const hintId = useId();
  useEffect(() => {
    live.current = { typed, give };
  });
  const hand = useRef(() => {
    clearTimeout(timer.current);
    bench.unfinished.delete(hand.current);
    const { typed: last, give: into } = live.current;
    if (last === null) return;
    live.current = { typed: null, give: into };
    into(last);
    setTyped(null);
  });
  useEffect(() => {
    const { current } = hand;
    // A field that goes away, because another step was opened say, hands over first.
    return () => current();
  }, []);
  const take = (next: string) => {
    live.current = { ...live.current, typed: next };
    setTyped(next);
    bench.unfinished.add(hand.current);
    clearTimeout(timer.current);
    timer.current = setTimeout(hand.current, handOver);
  };
  const shared = {
    value: typed ?? value,
    readOnly,
    placeholder: example,
    'aria-label': full,
    'aria-describedby': hint === '' ? undefined : hintId,
    onBlur: () => hand.current(),
    onFocus: () => onFocus?.(),
    onChange: (event: { readonly target: { readonly value: string } }) => take(event.target.value),
  };
  return (
    <label>
      <span>
        {label}
        {hint === '' ? null : (
          <span id={hintId} className="quiet small">
            {` (${hint})`}
          </span>
        )}
      </span>
      {long ? (
        <textarea
          {...shared}
          rows={Math.min(6, Math.max(1, Math.ceil((typed ?? value).length / 46)))}
          onKeyDown={(event) => event.key === 'Enter' && event.preventDefault()}
        />
      ) : (
        <input {...shared} inputMode={numeric ? 'decimal' : 'text'} onKeyDown={(event) => event.key === 'Enter' && hand.current()} />
      )}
    </label>
  );
}

interface PickerProps {
  readonly label: string;
  readonly full: string;
  readonly value: string;
  readonly options: readonly (readonly [string, string])[];
  readonly onPick: (value: string) => void;
}

function Picker({ label, full, value, options, onPick }: PickerProps) {
  const { form: text } = useAuthorWords();
  const { readOnly } = useForm();
  const known = value === '' || options.some(([id]) => id === value);
  return (
    <label>
      <span>{label}</span>
      <select value={value} aria-label={full} disabled={readOnly} onChange={(event) => onPick(event.target.value)}>
        <option value="">{text.none}</option>
        {known ? null : <option value={value}>{value}</option>}
        {options.map(([id, name]) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Where a check that fails leads: advice alone, a step, or a side procedure. */
function WayOut({ label, node, set }: { readonly label: string; readonly node: YamlNode | null; readonly set: ValueProps['set'] }) {
  const { form: text } = useAuthorWords();
  const { root } = useForm();
  const written = node === null ? null : plainOf(node);
  const entry =
    typeof written === 'object' && written !== null && !Array.isArray(written) ? (written as Readonly<Record<string, Plain>>) : null;
  const textIn = (value: Plain | undefined) => (typeof value === 'string' || typeof value === 'number' ? String(value) : '');
  const advice = entry === null ? textIn(written ?? undefined) : textIn(entry['advice']);
  const [go, see] = [entry?.['go'], entry?.['see']];
  const then = go !== undefined ? 'go' : see !== undefined ? 'see' : 'stay';
  const target = textIn(go ?? see);
  const write = (nextThen: string, nextTarget: string, nextAdvice: string) => {
    if (nextThen === 'stay') set(nextAdvice === '' ? undefined : nextAdvice);
    else set({ [nextThen]: nextTarget, ...(nextAdvice === '' ? {} : { advice: nextAdvice }) });
  };
  return (
    <fieldset className="author-builds">
      <legend>{label}</legend>
      <Typed
        label={text.fields['advice'] ?? ''}
        full={`${label}: ${text.fields['advice'] ?? ''}`}
        value={advice}
        long
        give={(typed) => write(then, target, typed)}
      />
      <label>
        <span>{text.fields['then']}</span>
        <select
          value={then}
          aria-label={`${label}: ${text.fields['then'] ?? ''}`}
          onChange={(event) =>
            write(event.target.value, namesIn(root, event.target.value === 'see' ? 'sides' : 'steps')[0]?.[0] ?? '', advice)
          }
        >
          <option value="stay">{text.choices['stay']}</option>
          <option value="go">{text.choices['go']}</option>
          <option value="see" disabled={namesIn(root, 'sides').length === 0}>
            {text.choices['seeSide']}
          </option>
        </select>
      </label>
      {then === 'stay' ? null : (
        <Picker
          label={text.fields['target'] ?? ''}
          full={`${label}: ${text.fields['target'] ?? ''}`}
          value={target}
          options={namesIn(root, then === 'see' ? 'sides' : 'steps')}
          onPick={(picked) => write(picked === '' ? 'stay' : then, picked, advice)}
        />
      )}
    </fieldset>
  );
}

/** Ids with what people call them. */
export function namesIn(root: YamlNode, source: NameSource): readonly (readonly [string, string])[] {
  const entries = (node: YamlNode | null, label: string): readonly (readonly [string, string])[] =>
    node?.kind !== 'list'
      ? []
      : node.items.flatMap((item): (readonly [string, string])[] => {
          const [id, name] = [nodeAt(item, ['id']), nodeAt(item, [label])];
          return id?.kind === 'value' && id.value !== null
            ? [[String(id.value), name?.kind === 'value' && name.value !== null ? String(name.value) : String(id.value)]]
            : [];
        });
  switch (source) {
    case 'builds': {
      const node = nodeAt(root, ['builds']);
      return node?.kind === 'map'
        ? node.entries.map(
            ({ key, value }) => [key, value.kind === 'value' && value.value !== null ? `${key}: ${String(value.value)}` : key] as const,
          )
        : [];
    }
    case 'sides':
      return entries(nodeAt(root, ['sides']), 'title');
    case 'parts':
      return entries(nodeAt(root, ['parts']), 'name');
    case 'supplies':
      return ['parts', 'consumables', 'supports'].flatMap((list) => entries(nodeAt(root, [list]), 'name'));
    case 'steps': {
      const stages = nodeAt(root, ['stages']);
      let number = 0;
      return stages?.kind !== 'list'
        ? []
        : stages.items.flatMap((stage) =>
            entries(nodeAt(stage, ['steps']), 'do').map(([id, name]) => [id, `${(number += 1)}. ${name.slice(0, 60)}`] as const),
          );
    }
  }
}
