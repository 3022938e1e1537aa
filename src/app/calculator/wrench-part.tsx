import { useEffect, useState } from 'react';
import { packFor } from '../../phrasing/packs.ts';
import type { TorqueWrench } from '../../torque/crib.ts';
import { emptyCrib } from '../../torque/crib.ts';
import { armFactor } from '../../torque/lever.ts';
import type { Degrees, Millimetres } from '../../torque/quantities.ts';
import { parseTorque } from '../../torque/units.ts';
import type { WrenchChoice } from '../../torque/wrench.ts';
import { ordinaryTolerance, parseWrenchRange, tryWrench } from '../../torque/wrench.ts';
import { loadCrib } from '../crib-store.ts';
import { today } from '../platform/clock.ts';
import { useSettings } from '../settings-context.ts';
import { ChoiceField, Figures, Part, TextField } from './fields.tsx';
import { figure, numberBetween, torqueText } from './figures.ts';
import { LeverPicture } from './lever-picture.tsx';
import { useCalculatorWords } from './words/words.ts';

/** What to set a wrench to, with or without an adapter: T·L/(L + E·cos θ), on a mark of its scale. */
export function WrenchPart() {
  const words = useCalculatorWords();
  const text = words.wrench;
  const { language } = useSettings().settings;
  const [own, setOwn] = useState<readonly TorqueWrench[]>([]);
  const [chosen, setChosen] = useState('');
  const [torqueTyped, setTorque] = useState('90 N·m');
  const [rangeTyped, setRange] = useState('40-200/5');
  const [toleranceTyped, setTolerance] = useState(String(ordinaryTolerance));
  const [leverTyped, setLever] = useState('400');
  const [centreTyped, setCentre] = useState('50');
  const [angleTyped, setAngle] = useState('45');
  useEffect(() => {
    void loadCrib().then((crib) => setOwn(crib?.wrenches ?? []));
  }, []);
  const torque = parseTorque(torqueTyped);
  const range = parseWrenchRange(rangeTyped, torque.ok ? torque.value.unit : 'N·m');
  const tolerance = numberBetween(toleranceTyped, 0.01, 49.99);
  const mine = own.find(({ id }) => id === chosen);
  const lever = mine?.lever ?? numberBetween(leverTyped, 1, 5000);
  const straight = centreTyped.trim() === '';
  const centre = straight ? 0 : numberBetween(centreTyped, 0.1, 2000);
  const angle = straight ? 0 : numberBetween(angleTyped, 0, 180);
  const wrench: TorqueWrench | null = mine
    ? { ...mine, lever: lever as Millimetres | null }
    : range.ok && tolerance !== null
      ? { ...blank, ...range.value, tolerance, lever: lever as Millimetres | null }
      : null;
  const adapter = centre === null || angle === null || straight ? null : { centre: centre as Millimetres, angle: angle as Degrees };
  const ready = torque.ok && wrench !== null && (straight || (lever !== null && adapter !== null));
  const choice = ready ? tryWrench(wrench, torque.value, null, emptyCrib, { adapter, square: null, today: today() }) : null;
  const factor = adapter === null ? 1 : lever === null ? null : armFactor({ lever: lever as Millimetres, ...adapter });
  return (
    <Part
      id="wrench"
      title={text.title}
      asked={
        <>
          <TextField label={text.torque} value={torqueTyped} onChange={setTorque} expected={torque.ok ? null : words.expected.torque} />
          {own.length === 0 ? null : (
            <ChoiceField
              label={text.own}
              value={chosen}
              of={[['', text.byHand], ...own.map(({ id, name }) => [id, name] as const)]}
              onChange={setChosen}
            />
          )}
          {mine ? null : (
            <>
              <TextField label={text.range} value={rangeTyped} onChange={setRange} expected={range.ok ? null : words.expected.range} />
              <TextField
                numeric
                label={text.tolerance}
                value={toleranceTyped}
                onChange={setTolerance}
                expected={tolerance === null ? words.expected.percent : null}
              />
            </>
          )}
          {mine?.lever ? null : (
            <TextField
              numeric
              label={text.lever}
              value={leverTyped}
              onChange={setLever}
              expected={lever === null ? words.expected.length : null}
            />
          )}
          <TextField
            numeric
            label={text.centre}
            value={centreTyped}
            onChange={setCentre}
            expected={centre === null ? words.expected.length : null}
          />
          {straight ? null : (
            <TextField
              numeric
              label={text.angle}
              value={angleTyped}
              onChange={setAngle}
              expected={angle === null ? words.expected.angle : null}
            />
          )}
        </>
      }
    >
      {lever !== null && adapter !== null ? <LeverPicture lever={lever} centre={adapter.centre} angle={adapter.angle} /> : null}
      {factor === null ? <p className="warn">{text.impossible}</p> : null}
      {choice !== null && factor !== null ? <Answer choice={choice} /> : null}
      {torque.ok && factor !== null && adapter !== null && choice?.fits !== true ? (
        <Figures rows={[[text.exact, torqueText({ ...torque.value, value: torque.value.value * factor }, language)]]} />
      ) : null}
      <p className="quiet small">{text.mind}</p>
    </Part>
  );
}

function Answer({ choice }: { readonly choice: WrenchChoice }) {
  const text = useCalculatorWords().wrench;
  const { language } = useSettings().settings;
  const { note } = packFor(language).tools;
  if (!choice.fits) {
    return (
      <div className="warn">
        <p>{text.misfit}</p>
        {choice.reasons.map((reason) => (
          <p key={reason.code}>{note(reason)}</p>
        ))}
      </div>
    );
  }
  const { achieved } = choice;
  return (
    <>
      <Figures
        rows={[
          [text.set, torqueText(choice.set, language)],
          [text.exact, torqueText(choice.exact, language)],
          [
            text.achieved,
            `${torqueText(achieved.nominal, language)} (${choice.deviation < 0 ? '−' : '+'}${figure(Math.abs(choice.deviation), language, 2)} %)`,
          ],
          [text.spread, `${torqueText(achieved.low, language)} – ${torqueText(achieved.high, language)}`],
          [text.range30, `${figure(choice.percentOfMax, language, 3)} %`],
        ]}
      />
      {choice.warnings
        .filter(({ code }) => code !== 'calibration-unknown')
        .map((warning) => (
          <p key={warning.code} className="warn">
            {note(warning)}
          </p>
        ))}
    </>
  );
}

/** A wrench of which only range and tolerance are known. */
const blank: Omit<TorqueWrench, 'min' | 'max' | 'graduation' | 'unit' | 'tolerance' | 'lever'> = {
  id: 'typed',
  name: '—',
  square: '1/2',
  calibrated: null,
  operations: 0,
  suspect: false,
};
