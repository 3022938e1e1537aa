import { useEffect, useState } from 'react';
import type { ReactNode } from 'react';
import type { Crib } from '../../torque/crib.ts';
import { emptyCrib, recordCalibration } from '../../torque/crib.ts';
import { formatCrib, parseCrib, readCrib } from '../../torque/crib-file.ts';
import { squareDrives } from '../../torque/sockets.ts';
import { torqueUnits } from '../../torque/quantities.ts';
import { wrenchClasses } from '../../torque/crib.ts';
import type { Problem } from '../../torque/reading.ts';
import { countedCrib, loadOwnCrib, saveCrib } from '../crib-store.ts';
import { newId, today } from '../platform/clock.ts';
import { saveFile } from '../platform/save-file.ts';
import { RulesPanel, typedNumber } from '../tools/rules-panel.tsx';
import { ToolsOpening } from '../tools/tools-opening.tsx';
import { useToolsWords } from '../tools/words/words.ts';
import { WrenchState } from '../tools/wrench-state.tsx';
import { useWords } from '../words/words.ts';
import { FileButton } from './file-button.tsx';

/** One value of a tool: how it is asked for, and what an empty field means. */
type Field = { readonly key: string } & (
  | { readonly kind: 'text'; readonly empty: null | '' }
  | { readonly kind: 'number'; readonly empty: null | 0 }
  | { readonly kind: 'date' }
  | { readonly kind: 'flag' }
  | { readonly kind: 'choice'; readonly of: readonly string[]; readonly empty: boolean }
);

type Drawer = Exclude<keyof Crib, 'format' | 'name' | 'rules'>;
type Tool = Readonly<Record<string, unknown>> & { readonly id: string };

const square: Field = { key: 'square', kind: 'choice', of: squareDrives, empty: false };
const sizeUnit: Field = { key: 'sizeUnit', kind: 'choice', of: ['mm', 'in'], empty: false };

/** What is asked about each kind of tool; the schema of the crib has the last word on what is right. */
const drawers: Readonly<Record<Drawer, { readonly fields: readonly Field[]; readonly fresh: Readonly<Record<string, unknown>> }>> = {
  wrenches: {
    fields: [
      { key: 'name', kind: 'text', empty: '' },
      { key: 'min', kind: 'number', empty: 0 },
      { key: 'max', kind: 'number', empty: 0 },
      { key: 'unit', kind: 'choice', of: torqueUnits, empty: false },
      { key: 'graduation', kind: 'number', empty: null },
      square,
      { key: 'tolerance', kind: 'choice', of: [...Object.keys(wrenchClasses), '1', '2', '3', '4', '6'], empty: false },
      { key: 'calibrated', kind: 'date' },
      { key: 'operations', kind: 'number', empty: 0 },
      { key: 'lever', kind: 'number', empty: null },
      { key: 'suspect', kind: 'flag' },
    ],
    fresh: {
      name: '',
      min: 40,
      max: 200,
      unit: 'N·m',
      graduation: 1,
      square: '1/2',
      tolerance: 'II-A',
      calibrated: null,
      operations: 0,
      suspect: false,
      lever: null,
    },
  },
  sockets: {
    fields: [
      { key: 'kind', kind: 'choice', of: ['hex', 'bihex', 'square'], empty: false },
      { key: 'size', kind: 'text', empty: '' },
      sizeUnit,
      square,
      { key: 'deep', kind: 'flag' },
    ],
    fresh: { kind: 'hex', size: '13', sizeUnit: 'mm', square: '1/2', deep: false },
  },
  bits: {
    fields: [
      { key: 'kind', kind: 'choice', of: ['socket-head hex', 'internal serration', 'slotted', 'cross-head'], empty: false },
      { key: 'size', kind: 'text', empty: '' },
      { key: 'sizeUnit', kind: 'choice', of: ['mm', 'in'], empty: true },
      { key: 'square', kind: 'choice', of: squareDrives, empty: true },
    ],
    fresh: { kind: 'internal serration', size: 'T50', sizeUnit: null, square: '1/2' },
  },
  extensions: { fields: [{ key: 'length', kind: 'number', empty: 0 }, square], fresh: { length: 150, square: '1/2' } },
  joints: { fields: [square], fresh: { square: '1/2' } },
  drives: {
    fields: [{ key: 'kind', kind: 'choice', of: ['ratchet', 'bar'], empty: false }, square],
    fresh: { kind: 'ratchet', square: '1/2' },
  },
  stepAdapters: {
    fields: [
      { key: 'from', kind: 'choice', of: squareDrives, empty: false },
      { key: 'to', kind: 'choice', of: squareDrives, empty: false },
    ],
    fresh: { from: '1/2', to: '3/8' },
  },
  adapters: {
    fields: [
      { key: 'kind', kind: 'choice', of: ['crowfoot', 'extension'], empty: false },
      { key: 'size', kind: 'text', empty: null },
      { key: 'sizeUnit', kind: 'choice', of: ['mm', 'in'], empty: true },
      square,
      { key: 'centre', kind: 'number', empty: 0 },
      { key: 'angle', kind: 'number', empty: null },
    ],
    fresh: { kind: 'crowfoot', size: '17', sizeUnit: 'mm', square: '1/2', centre: 50, angle: null },
  },
  angleGauges: {
    fields: [
      { key: 'name', kind: 'text', empty: '' },
      { key: 'square', kind: 'choice', of: squareDrives, empty: true },
    ],
    fresh: { name: '', square: '1/2' },
  },
  others: { fields: [{ key: 'name', kind: 'text', empty: '' }], fresh: { name: '' } },
};

/** The tool crib: filled in once, stored with every change that is right, exported and taken in as a file. */
export function ToolsPage() {
  const [crib, setCrib] = useState<Crib | null>(null);
  useEffect(() => {
    void loadOwnCrib().then((own) => setCrib(own ?? emptyCrib));
  }, []);
  return (
    <main className="page">
      <ToolsOpening />
      {crib === null ? null : <Drawers crib={crib} setCrib={setCrib} />}
    </main>
  );
}

function Drawers({ crib, setCrib }: { readonly crib: Crib; readonly setCrib: (crib: Crib) => void }) {
  const words = useWords();
  const text = words.tools;
  const own = useToolsWords();
  const [counted, setCounted] = useState<Crib | null>(null);
  const [problems, setProblems] = useState<readonly string[]>([]);
  /** What was just replaced or removed, to be given back. */
  const [before, setBefore] = useState<{ readonly crib: Crib; readonly what: string } | null>(null);
  /** Fields hold what is being typed; a crib from elsewhere draws them anew. */
  const [drawn, setDrawn] = useState(0);
  useEffect(() => void countedCrib(crib).then(setCounted), [crib]);
  const where = ({ path }: Problem): string => {
    const [, drawer, index, field] = /^(\w+)\[(\d+)\](?:\.(\w+))?/u.exec(path) ?? [];
    if (drawer === undefined || !(drawer in drawers)) return path;
    return own.at(text.drawers[drawer as Drawer], Number(index) + 1, text.fields[field ?? ''] ?? field ?? '').replace(/, $/u, '');
  };
  const told = (one: Problem): string => own.problem(where(one), words.fault(one));
  const keep = async (changed: unknown) => {
    const read = readCrib(changed);
    if (!read.ok) {
      setProblems(read.problems.map(told));
      // What was typed stays in its field to be put right; only what is right is stored.
      return;
    }
    setCrib(read.crib);
    setProblems((await saveCrib(read.crib)) ? [] : [words.trouble['not-stored-disk-full']]);
  };
  const takeIn = async (file: File) => {
    const read = parseCrib(await file.text());
    if (!read.ok) {
      setProblems([own.notTaken(file.name), ...read.problems.slice(0, 20).map(told)]);
      return;
    }
    setBefore({ crib, what: own.tookIn(file.name) });
    await keep(read.crib);
    setDrawn((times) => times + 1);
  };
  return (
    <>
      {isEmpty(crib) ? (
        <div className="panel stack">
          <p>{own.empty}</p>
          {own.begin.map((line) => (
            <p key={line}>{line}</p>
          ))}
          <p className="quiet small">{own.example}</p>
        </div>
      ) : null}
      {before === null ? null : (
        <div className="row" role="status">
          <p>{before.what}</p>
          <button
            type="button"
            onClick={() => {
              setBefore(null);
              void keep(before.crib).then(() => setDrawn((times) => times + 1));
            }}
          >
            {own.takeBack}
          </button>
        </div>
      )}
      {problems.length === 0 ? null : (
        <div className="trouble" role="alert">
          {problems.map((problem) => (
            <p key={problem}>{problem}</p>
          ))}
        </div>
      )}
      {(Object.keys(drawers) as Drawer[]).map((drawer) => (
        <section key={drawer} className="stack">
          <h2>{text.drawers[drawer]}</h2>
          {(crib[drawer] as unknown as readonly Tool[]).map((tool) => (
            <ToolRow
              key={`${drawn} ${tool.id}`}
              tool={tool}
              extra={
                drawer === 'wrenches' ? (
                  <WrenchExtra
                    crib={crib}
                    counted={counted}
                    id={tool.id}
                    onCalibrated={() => void keep(recordCalibration(crib, tool.id, today())).then(() => setDrawn((times) => times + 1))}
                  />
                ) : null
              }
              fields={drawers[drawer].fields}
              name={text.drawers[drawer]}
              onChange={(changed) =>
                void keep({
                  ...crib,
                  [drawer]: (crib[drawer] as unknown as readonly Tool[]).map((one) => (one.id === tool.id ? changed : one)),
                })
              }
              onRemove={() => {
                setBefore({ crib, what: own.removed(nameOf(tool, text.drawers[drawer])) });
                void keep({ ...crib, [drawer]: (crib[drawer] as unknown as readonly Tool[]).filter((one) => one.id !== tool.id) });
              }}
            />
          ))}
          <button
            type="button"
            style={{ justifySelf: 'start' }}
            onClick={() => {
              const fresh = { ...drawers[drawer].fresh, id: newId().slice(0, 8) };
              void keep({
                ...crib,
                [drawer]: [
                  ...crib[drawer],
                  'name' in fresh ? { ...fresh, name: `${text.drawers[drawer]} ${crib[drawer].length + 1}` } : fresh,
                ],
              });
            }}
          >
            {text.add(text.drawers[drawer])}
          </button>
        </section>
      ))}
      <RulesPanel key={drawn} crib={crib} onChange={(rules) => void keep({ ...crib, rules })} />
      <div className="row">
        <button type="button" onClick={() => saveFile('tool-crib.json', 'application/json', [formatCrib(crib)])}>
          {text.export}
        </button>
        <FileButton label={text.import} accept=".json" onFile={(file) => void takeIn(file)} />
      </div>
    </>
  );
}

interface ToolRowProps {
  readonly tool: Tool;
  readonly fields: readonly Field[];
  readonly name: string;
  readonly onChange: (tool: Tool) => void;
  readonly onRemove: () => void;
  /** What else there is to say of it. */
  readonly extra: ReactNode;
}

function WrenchExtra({
  crib,
  counted,
  id,
  onCalibrated,
}: {
  readonly crib: Crib;
  readonly counted: Crib | null;
  readonly id: string;
  readonly onCalibrated: () => void;
}) {
  const own = crib.wrenches.find((wrench) => wrench.id === id);
  const summed = counted?.wrenches.find((wrench) => wrench.id === id);
  return own === undefined || summed === undefined ? null : (
    <WrenchState own={own} counted={summed} rules={crib.rules} onCalibrated={onCalibrated} />
  );
}

const isEmpty = (crib: Crib): boolean => (Object.keys(drawers) as Drawer[]).every((drawer) => crib[drawer].length === 0);

function nameOf(tool: Tool, drawer: string): string {
  const name = tool['name'] ?? tool['size'] ?? tool['length'];
  return typeof name === 'string' || typeof name === 'number' ? `${drawer} ${name}` : drawer;
}

function ToolRow({ tool, fields, name, onChange, onRemove, extra }: ToolRowProps) {
  const words = useWords();
  return (
    <fieldset className="panel tool-row">
      <legend className="hidden-visually">{name}</legend>
      {fields.map((field) => (
        <FieldInput
          key={field.key}
          field={field}
          value={tool[field.key]}
          label={words.tools.fields[field.key] ?? field.key}
          onChange={(value) => onChange({ ...tool, [field.key]: value })}
        />
      ))}
      {extra}
      <button type="button" onClick={onRemove}>
        {words.start.remove}
      </button>
    </fieldset>
  );
}

function FieldInput({
  field,
  value,
  label,
  onChange,
}: {
  readonly field: Field;
  readonly value: unknown;
  readonly label: string;
  readonly onChange: (value: unknown) => void;
}) {
  const [typed, setTyped] = useState(value === null || value === undefined ? '' : String(value as string | number));
  switch (field.kind) {
    case 'flag':
      return (
        <label className="check">
          <input type="checkbox" checked={value === true} onChange={(event) => onChange(event.target.checked)} />
          {label}
        </label>
      );
    case 'choice':
      return (
        <label>
          {label}
          <select
            value={typed}
            onChange={(event) => {
              setTyped(event.target.value);
              onChange(chosenValue(field, event.target.value));
            }}
          >
            {field.empty ? <option value="">–</option> : null}
            {field.of.map((one) => (
              <option key={one} value={one}>
                {/^\d+$/u.test(one) && field.key === 'tolerance' ? `±${one} %` : one}
              </option>
            ))}
          </select>
        </label>
      );
    case 'date':
      return (
        <label>
          {label}
          <input
            type="date"
            value={typed}
            onChange={(event) => {
              setTyped(event.target.value);
              onChange(event.target.value === '' ? null : event.target.value);
            }}
          />
        </label>
      );
    case 'number':
    case 'text':
      return (
        <label>
          {label}
          <input
            inputMode={field.kind === 'number' ? 'decimal' : 'text'}
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
            // Stored when the field is left: half a number is not a number.
            onBlur={() =>
              onChange(field.kind === 'number' ? typedNumber(typed, field.empty) : typed.trim() === '' ? field.empty : typed.trim())
            }
          />
        </label>
      );
  }
}

const chosenValue = (field: Field, chosen: string): unknown =>
  chosen === '' ? null : field.key === 'tolerance' && /^\d+$/u.test(chosen) ? Number(chosen) : chosen;
