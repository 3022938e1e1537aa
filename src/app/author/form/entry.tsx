import { useState } from 'react';
import { type KeyPath, nodeAt } from '../../../procedure/plain-tree.ts';
import type { YamlNode } from '../../../procedure/yaml-tree.ts';
import { QuestionCard } from '../questions-pane.tsx';
import { useAuthorWords } from '../words/words.ts';
import { ByHand, Field } from './field.tsx';
import { useForm } from './form-context.ts';
import { fresh, idMaker, type KindName, kinds } from './kinds.ts';
import { orderAt } from './order-at.ts';

/** The values of one entry, and the lists inside it. */
export function Entry({ kind, path }: { readonly kind: KindName; readonly path: KeyPath }) {
  const words = useAuthorWords();
  const { root, questions } = useForm();
  const { fields, lists } = kinds[kind];
  const [opened, setOpened] = useState(false);
  const order = orderAt(path);
  const id = nodeAt(root, [...path, 'id']);
  const group = kind === 'group' && id?.kind === 'value' ? String(id.value) : null;
  const first = fields.filter((field) => field.first || (nodeAt(root, [...path, field.key]) !== null && field.key !== 'id'));
  const rest = fields.filter((field) => !first.includes(field));
  const asked = group === null ? [] : questions.filter((question) => question.group?.id === group && question.answer === null);
  return (
    <div className="author-entry">
      <div className="author-fields">
        {first.map((field) => (
          <Field key={field.key} field={field} path={path} order={order} group={group} />
        ))}
      </div>
      {rest.length === 0 ? null : (
        <details open={opened} onToggle={(event) => setOpened(event.currentTarget.open)}>
          <summary>{words.form.more}</summary>
          {opened ? (
            <div className="author-fields">
              {rest.map((field) => (
                <Field key={field.key} field={field} path={path} order={order} group={group} />
              ))}
            </div>
          ) : null}
        </details>
      )}
      {asked.map((question) => (
        <QuestionCard key={question.number} question={question} />
      ))}
      {lists.map((list) =>
        list.single === true ? (
          <Single key={list.key} listKey={list.key} kind={list.kind} path={[...path, list.key]} order={order} />
        ) : (
          <EntryList key={list.key} listKey={list.key} kind={list.kind} path={[...path, list.key]} order={order} />
        ),
      )}
    </div>
  );
}

interface ListProps {
  readonly listKey: string;
  readonly kind: KindName;
  readonly path: KeyPath;
  readonly order: readonly string[];
}

/** A list of entries, each with its fields open: for lists that are short. */
export function EntryList({ listKey, kind, path, order }: ListProps) {
  const words = useAuthorWords();
  const { root } = useForm();
  const node = nodeAt(root, path);
  const title = words.form.lists[listKey] ?? listKey;
  if (node !== null && node.kind !== 'list' && !(node.kind === 'value' && node.value === null)) return <ByHand label={title} path={path} />;
  const items = node?.kind === 'list' ? node.items : [];
  return (
    <section className="author-list">
      {items.length === 0 ? null : <h4>{title}</h4>}
      {items.map((item, index) => (
        <div key={keyOf(item, index)} className="author-item">
          <div className="author-item-head">
            <strong>{nameOf(item) ?? `${index + 1}`}</strong>
            <Moves path={path} index={index} length={items.length} name={nameOf(item) ?? `${title} ${index + 1}`} />
          </div>
          {item.kind === 'map' && item.entries.every(({ key }) => !/^(?:build .+|other builds)$/.test(key)) ? (
            <Entry kind={kind} path={[...path, index]} />
          ) : (
            <ByHand label={title} path={[...path, index]} />
          )}
        </div>
      ))}
      <AddButton listKey={listKey} kind={kind} path={path} index={items.length} order={order} />
    </section>
  );
}

function Single({ listKey, kind, path, order }: ListProps) {
  const words = useAuthorWords();
  const { root, edit, readOnly, bench } = useForm();
  const node = nodeAt(root, path);
  const name = words.form.lists[listKey] ?? listKey;
  if (node === null)
    return (
      <button
        type="button"
        className="author-add"
        disabled={readOnly}
        onClick={() => edit({ kind: 'set', path, value: fresh(kind, idMaker(bench.view().text)), order })}
      >
        {words.form.add(words.form.one[listKey] ?? listKey)}
      </button>
    );
  return (
    <section className="author-list">
      <div className="author-item">
        <div className="author-item-head">
          <strong>{name}</strong>
          <button
            type="button"
            className="author-small"
            disabled={readOnly}
            aria-label={words.form.removeWhat(name)}
            onClick={() => edit({ kind: 'remove', path })}
          >
            {words.form.remove}
          </button>
        </div>
        {node.kind === 'map' && node.entries.some(({ key }) => /^(?:build .+|other builds)$/.test(key)) ? (
          <ByHand label={name} path={path} />
        ) : (
          <Entry kind={kind} path={path} />
        )}
      </div>
    </section>
  );
}

export function AddButton({
  listKey,
  kind,
  path,
  index,
  order,
  onAdded,
}: Omit<ListProps, 'listKey'> & { readonly listKey: string; readonly index: number; readonly onAdded?: () => void }) {
  const { form: text } = useAuthorWords();
  const { bench, edit, readOnly } = useForm();
  return (
    <button
      type="button"
      className="author-add"
      disabled={readOnly}
      onClick={() => {
        edit({ kind: 'insert', path, index, value: fresh(kind, idMaker(bench.view().text)), order });
        onAdded?.();
      }}
    >
      {text.add(text.one[listKey] ?? listKey)}
    </button>
  );
}

/** Up, down and away. */
export function Moves({
  path,
  index,
  length,
  name,
  onMoved,
}: {
  readonly path: KeyPath;
  readonly index: number;
  readonly length: number;
  readonly name: string;
  readonly onMoved?: (to: number) => void;
}) {
  const { form: text } = useAuthorWords();
  const { edit, readOnly } = useForm();
  const move = (to: number) => {
    edit({ kind: 'move', path, from: index, to });
    onMoved?.(to);
  };
  return (
    <span className="author-moves">
      <button
        type="button"
        className="author-small"
        aria-label={text.moveUp(name)}
        disabled={readOnly || index === 0}
        onClick={() => move(index - 1)}
      >
        {text.up}
      </button>
      <button
        type="button"
        className="author-small"
        aria-label={text.moveDown(name)}
        disabled={readOnly || index === length - 1}
        onClick={() => move(index + 1)}
      >
        {text.down}
      </button>
      <button
        type="button"
        className="author-small"
        aria-label={text.removeWhat(name)}
        disabled={readOnly}
        onClick={() => edit({ kind: 'remove', path: [...path, index] })}
      >
        {text.remove}
      </button>
    </span>
  );
}

/** What an entry is called on its head. */
export function nameOf(node: YamlNode): string | null {
  for (const key of ['name', 'title', 'do', 'ask', 'check', 'text', 'say']) {
    const value = nodeAt(node, [key]);
    if (value?.kind === 'value' && value.value !== null && String(value.value).trim() !== '') return String(value.value);
  }
  return null;
}

/** So that a field keeps its keyboard focus while entries around it move. */
export function keyOf(node: YamlNode, index: number): string {
  const id = nodeAt(node, ['id']);
  return id?.kind === 'value' && id.value !== null ? `${String(id.value)} ` : String(index);
}
