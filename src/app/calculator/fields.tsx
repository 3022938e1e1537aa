import { useId } from 'react';
import type { ReactNode } from 'react';
import { useCalculatorWords } from './words/words.ts';

/** One value to type, with what is wrong with it right below. `expected` null: nothing is wrong. */
export function TextField({
  label,
  value,
  onChange,
  expected,
  numeric = false,
}: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly expected: string | null;
  readonly numeric?: boolean;
}) {
  const words = useCalculatorWords();
  const problem = useId();
  return (
    <label>
      {label}
      <input
        value={value}
        maxLength={80}
        inputMode={numeric ? 'decimal' : 'text'}
        autoComplete="off"
        aria-invalid={expected !== null}
        aria-describedby={expected === null ? undefined : problem}
        onChange={(event) => onChange(event.target.value)}
      />
      {expected === null ? null : (
        <span id={problem} className="bad small" role="alert">
          {words.bad(value.trim(), expected)}
        </span>
      )}
    </label>
  );
}

export function ChoiceField<Choice extends string>({
  label,
  value,
  of,
  onChange,
}: {
  readonly label: string;
  readonly value: Choice;
  readonly of: readonly (readonly [Choice, string])[];
  readonly onChange: (value: Choice) => void;
}) {
  return (
    <label>
      {label}
      <select value={value} onChange={(event) => onChange(event.target.value as Choice)}>
        {of.map(([choice, text]) => (
          <option key={choice} value={choice}>
            {text}
          </option>
        ))}
      </select>
    </label>
  );
}

/** A part of the calculator: what is asked on one side, what comes of it on the other. */
export function Part({
  id,
  title,
  asked,
  children,
}: {
  readonly id: string;
  readonly title: string;
  readonly asked: ReactNode;
  readonly children: ReactNode;
}) {
  const words = useCalculatorWords();
  return (
    <section className="panel calculator-part" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>{title}</h2>
      <div className="calculator-fields">{asked}</div>
      <div className="stack" aria-live="polite">
        {children}
        <p className="quiet small">{words.calculated}</p>
      </div>
    </section>
  );
}

/** Figures with their names, one under the other. */
export function Figures({ rows }: { readonly rows: readonly (readonly [string, string] | null)[] }) {
  return (
    <dl className="calculator-figures">
      {rows.map((row) =>
        row === null ? null : (
          <div key={row[0]}>
            <dt>{row[0]}</dt>
            <dd>{row[1]}</dd>
          </div>
        ),
      )}
    </dl>
  );
}
