import { useEffect, useRef, useState } from 'react';
import { type KeyPath, nodeAt } from '../../../procedure/plain-tree.ts';
import type { YamlNode } from '../../../procedure/yaml-tree.ts';
import type { Checked } from '../check.ts';
import type { BenchView } from '../text/bench.ts';
import { markText } from '../text/editing.ts';
import { useAuthorWords } from '../words/words.ts';
import { AddButton, Entry, EntryList, keyOf, Moves, nameOf } from './entry.tsx';
import { ByHand, Typed } from './field.tsx';
import { pathText, useForm } from './form-context.ts';
import { orderAt } from './order-at.ts';

/** The whole procedure as a form. One step is open at a time, the one where the cursor is. */
export function FormPane({
  view,
  hearStep,
  rehearseStep,
}: {
  readonly view: BenchView;
  readonly hearStep: (id: string) => void;
  readonly rehearseStep: (id: string) => void;
}) {
  const words = useAuthorWords();
  const { root, bench } = useForm();
  const form = useRef<HTMLDivElement>(null);
  const text = words.form;
  const top = orderAt([]);
  const [open, setOpen] = useState<string | null>(null);
  const cursorStep = stepPath(view.cursor);
  useEffect(() => {
    if (cursorStep !== null) setOpen(cursorStep);
  }, [cursorStep]);
  // Whoever moves about in the text sees the same step here; whoever fills in the form is left where they are.
  useEffect(() => {
    if (bench.editor.hasFocus) form.current?.querySelector('.author-step.open')?.scrollIntoView({ block: 'nearest' });
  }, [bench, open]);
  let number = 0;
  const stages = nodeAt(root, ['stages']);
  const sides = nodeAt(root, ['sides']);
  return (
    <div className="author-form" ref={form}>
      <Section title={text.head} startsOpen={stages === null}>
        <Entry kind="head" path={[]} />
        <Builds />
      </Section>
      <Section title={text.before} startsOpen={false}>
        <EntryList listKey="before" kind="before" path={['before']} order={top} />
        <EntryList listKey="cautions" kind="caution" path={['cautions']} order={top} />
        <EntryList listKey="parts" kind="supply" path={['parts']} order={top} />
        <EntryList listKey="consumables" kind="supply" path={['consumables']} order={top} />
        <EntryList listKey="supports" kind="supply" path={['supports']} order={top} />
      </Section>
      <h3>{text.stages}</h3>
      {stages !== null && stages.kind !== 'list' ? <ByHand label={text.stages} path={['stages']} /> : null}
      {stages?.kind === 'list'
        ? stages.items.map((stage, index) => {
            const from = number;
            number += stepsOf(stage).length;
            return (
              <Stage
                key={keyOf(stage, index)}
                name={text.stage(index + 1)}
                list={['stages']}
                kind="stage"
                index={index}
                length={stages.items.length}
                numberOf={(step) => String(from + step + 1)}
                open={open}
                setOpen={setOpen}
                hearStep={hearStep}
                rehearseStep={rehearseStep}
              />
            );
          })
        : null}
      <AddButton listKey="stages" kind="stage" path={['stages']} index={stages?.kind === 'list' ? stages.items.length : 0} order={top} />
      <h3>{text.sides}</h3>
      {sides?.kind === 'list'
        ? sides.items.map((side, index) => (
            <Stage
              key={keyOf(side, index)}
              name={nameOf(side) ?? text.sides}
              list={['sides']}
              kind="side"
              index={index}
              length={sides.items.length}
              numberOf={(step) => String(step + 1)}
              open={open}
              setOpen={setOpen}
              hearStep={hearStep}
              rehearseStep={rehearseStep}
            />
          ))
        : null}
      <AddButton listKey="sides" kind="side" path={['sides']} index={sides?.kind === 'list' ? sides.items.length : 0} order={top} />
      <h3>{text.afterwards}</h3>
      <EntryList listKey="afterwards" kind="follow-up" path={['afterwards']} order={top} />
    </div>
  );
}

/** While the text cannot be read there is nothing to fill in. */
export function FormWaits({
  checked,
  onShow,
}: {
  readonly checked: Checked | null;
  readonly onShow: (line: number, column: number) => void;
}) {
  const words = useAuthorWords();
  const first = checked?.marks[0];
  return (
    <div className="author-waits">
      <p>{words.form.waits}</p>
      {first === undefined ? null : (
        <button type="button" onClick={() => onShow(first.line, first.column)}>
          {`${words.findings.at(first.line, first.column)}: ${markText(first, words)}`}
        </button>
      )}
    </div>
  );
}

function Section({
  title,
  startsOpen,
  children,
}: {
  readonly title: string;
  readonly startsOpen: boolean;
  readonly children: React.ReactNode;
}) {
  const [open, setOpen] = useState(startsOpen);
  return (
    <details className="author-section" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h3>{title}</h3>
      </summary>
      {open ? children : null}
    </details>
  );
}

/** Builds are names with a sentence each, so they are no list of entries. */
function Builds() {
  const { form: text } = useAuthorWords();
  const { root, edit, readOnly } = useForm();
  const [name, setName] = useState('');
  const node = nodeAt(root, ['builds']);
  const entries = node?.kind === 'map' ? node.entries : [];
  return (
    <section className="author-list">
      <h4>{text.lists['builds']}</h4>
      {entries.map(({ key, value }) => (
        <div key={key} className="author-build">
          <Typed
            label={key}
            full={`${text.lists['builds'] ?? ''}: ${key}`}
            value={value.kind === 'value' && value.value !== null ? String(value.value) : ''}
            give={(typed) => edit({ kind: 'set', path: ['builds', key], value: typed })}
          />
          <button
            type="button"
            className="author-small"
            disabled={readOnly || entries.length === 1}
            aria-label={text.removeWhat(key)}
            onClick={() => edit({ kind: 'remove', path: ['builds', key] })}
          >
            {text.remove}
          </button>
        </div>
      ))}
      <form
        className="author-build"
        onSubmit={(event) => {
          event.preventDefault();
          if (name.trim() === '') return;
          edit({ kind: 'set', path: ['builds', name.trim()], value: name.trim() });
          setName('');
        }}
      >
        <label>
          <span>{text.add(text.one['builds'] ?? '')}</span>
          <input
            value={name}
            maxLength={16}
            pattern="[A-Za-z0-9][A-Za-z0-9.\-]*"
            readOnly={readOnly}
            onChange={(event) => setName(event.target.value)}
          />
        </label>
        <button type="submit" className="author-small" disabled={readOnly || name.trim() === ''}>
          {text.add('')}
        </button>
      </form>
    </section>
  );
}

interface StageProps {
  readonly name: string;
  readonly list: KeyPath;
  readonly kind: 'stage' | 'side';
  readonly index: number;
  readonly length: number;
  readonly numberOf: (step: number) => string;
  readonly open: string | null;
  readonly setOpen: (path: string | null) => void;
  readonly hearStep: (id: string) => void;
  readonly rehearseStep: (id: string) => void;
}

function Stage({ name, list, kind, index, length, numberOf, open, setOpen, hearStep, rehearseStep }: StageProps) {
  const { form: text } = useAuthorWords();
  const { root } = useForm();
  const path = [...list, index];
  const steps = nodeAt(root, [...path, 'steps']);
  const stepsPath = [...path, 'steps'];
  const items = steps?.kind === 'list' ? steps.items : [];
  return (
    <section className="author-stage">
      <div className="author-item-head">
        <strong>{name}</strong>
        <Moves path={list} index={index} length={length} name={name} />
      </div>
      <Entry kind={kind} path={path} />
      {steps !== null && steps.kind !== 'list' ? <ByHand label={text.lists['steps'] ?? ''} path={stepsPath} /> : null}
      <ol className="author-steps">
        {items.map((step, place) => (
          <Step
            key={keyOf(step, place)}
            number={numberOf(place)}
            step={step}
            path={[...stepsPath, place]}
            length={items.length}
            isOpen={open === pathText([...stepsPath, place])}
            setOpen={setOpen}
            hearStep={kind === 'stage' ? hearStep : null}
            rehearseStep={kind === 'stage' ? rehearseStep : null}
          />
        ))}
      </ol>
      <AddButton
        listKey="steps"
        kind="step"
        path={stepsPath}
        index={items.length}
        order={orderAt(path)}
        onAdded={() => setOpen(pathText([...stepsPath, items.length]))}
      />
    </section>
  );
}

interface StepProps {
  readonly number: string;
  readonly step: YamlNode;
  readonly path: KeyPath;
  readonly length: number;
  readonly isOpen: boolean;
  readonly setOpen: (path: string | null) => void;
  readonly hearStep: ((id: string) => void) | null;
  readonly rehearseStep: ((id: string) => void) | null;
}

function Step({ number, step, path, length, isOpen, setOpen, hearStep, rehearseStep }: StepProps) {
  const words = useAuthorWords();
  const { form: text } = words;
  const { bench, marksAt, questions } = useForm();
  const at = pathText(path);
  const list = path.slice(0, -1);
  const index = Number(path.at(-1));
  const marks = [...marksAt].filter(([place]) => place === at || place.startsWith(`${at}.`)).flatMap(([, found]) => found);
  const errors = marks.filter(({ severity }) => severity === 'error').length;
  const asked = questions.filter(
    ({ group, answer }) => answer === null && group !== null && pathText(group.path).startsWith(`${at}.`),
  ).length;
  const id = nodeAt(step, ['id']);
  const stepId = id?.kind === 'value' && id.value !== null ? String(id.value) : null;
  const name = text.step(number);
  return (
    <li className={isOpen ? 'author-step open' : 'author-step'}>
      <button
        type="button"
        className="author-step-line"
        aria-expanded={isOpen}
        onClick={() => {
          setOpen(isOpen ? null : at);
          if (!isOpen) bench.showPath([...path, 'do'], false);
        }}
      >
        <span className="author-number">{number}</span>
        <span className="author-sentence">
          {nameOf(step) ?? text.noSentence}
          <span className="quiet small">{groupsLine(step)}</span>
        </span>
        {errors > 0 ? <span className="bad small">{words.library.errors(errors)}</span> : null}
        {marks.length > errors ? <span className="warn small">{`${marks.length - errors} !`}</span> : null}
        {asked > 0 ? <span className="warn small">{`${asked} ?`}</span> : null}
      </button>
      {isOpen ? (
        <div className="author-step-body">
          <div className="row">
            <Moves path={list} index={index} length={length} name={name} onMoved={(to) => setOpen(pathText([...list, to]))} />
            {hearStep === null || stepId === null ? null : (
              <button type="button" className="author-small" onClick={() => hearStep(stepId)}>
                {words.hear.step}
              </button>
            )}
            {rehearseStep === null || stepId === null ? null : (
              <button type="button" className="author-small" onClick={() => rehearseStep(stepId)}>
                {words.hear.rehearse}
              </button>
            )}
          </div>
          <Entry kind="step" path={path} />
        </div>
      ) : null}
    </li>
  );
}

/** "8 × flange bolt, 40 N·m ±2" */
function groupsLine(step: YamlNode): string {
  const groups = nodeAt(step, ['fasteners']);
  if (groups?.kind !== 'list') return '';
  const plain = (node: YamlNode | null): string =>
    node === null || node.kind === 'list'
      ? ''
      : node.kind === 'value'
        ? String(node.value ?? '')
        : [...new Set(node.entries.map(({ value }) => plain(value)))].join(' / ');
  const parts = groups.items.map((group) =>
    [`${plain(nodeAt(group, ['count']))} × ${plain(nodeAt(group, ['name']))}`, plain(nodeAt(group, ['torque']))]
      .filter((part) => part !== '')
      .join(', '),
  );
  return ` ${parts.join(' · ')}`;
}

function stepsOf(stage: YamlNode): readonly YamlNode[] {
  const steps = nodeAt(stage, ['steps']);
  return steps?.kind === 'list' ? steps.items : [];
}

/** "stages[0].steps[3]" where the cursor is in that step. */
function stepPath(cursor: KeyPath): string | null {
  const [list, , steps, place] = cursor;
  return (list === 'stages' || list === 'sides') && steps === 'steps' && typeof place === 'number' ? pathText(cursor.slice(0, 4)) : null;
}
