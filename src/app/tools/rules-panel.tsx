import { useState } from 'react';
import type { Crib, CribRules } from '../../torque/crib.ts';
import { squareDrives } from '../../torque/sockets.ts';
import { useToolsWords } from './words/words.ts';

/** When the person wants to be warned: intervals of calibration, the usable range, and what their square drives bear. */
export function RulesPanel({ crib, onChange }: { readonly crib: Crib; readonly onChange: (rules: unknown) => void }) {
  const words = useToolsWords();
  const { rules } = crib;
  const set = (part: Partial<Record<keyof CribRules, unknown>>) => onChange({ ...rules, ...part });
  return (
    <section className="stack">
      <h2>{words.rules}</h2>
      <p className="quiet small">{words.rulesAbout}</p>
      <fieldset className="panel tool-row">
        <legend className="hidden-visually">{words.rules}</legend>
        {(['calibrationMonths', 'calibrationOperations', 'usableFrom'] as const).map((key) => (
          <RuleField key={key} label={words[key]} value={rules[key]} onChange={(value) => set({ [key]: value })} />
        ))}
        {squareDrives.map((square) => (
          <RuleField
            key={square}
            label={words.squareLimit(square)}
            value={rules.squareLimits[square]}
            onChange={(value) => set({ squareLimits: { ...rules.squareLimits, [square]: value } })}
          />
        ))}
      </fieldset>
    </section>
  );
}

function RuleField({
  label,
  value,
  onChange,
}: {
  readonly label: string;
  readonly value: number | null;
  readonly onChange: (value: unknown) => void;
}) {
  const [typed, setTyped] = useState(value === null ? '' : String(value));
  return (
    <label>
      {label}
      <input
        inputMode="decimal"
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={() => onChange(typedNumber(typed, null))}
      />
    </label>
  );
}

/** The number that was typed; what is none goes on as it is, so that the complaint can name it. */
export function typedNumber(typed: string, empty: number | null): unknown {
  const plain = typed.trim().replace(',', '.');
  if (plain === '') return empty;
  return Number.isNaN(Number(plain)) ? typed.trim() : Number(plain);
}
