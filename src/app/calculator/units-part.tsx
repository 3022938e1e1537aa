import { useState } from 'react';
import { torqueUnits } from '../../torque/quantities.ts';
import { convert, parseTorque, shownTorque } from '../../torque/units.ts';
import { useSettings } from '../settings-context.ts';
import { Part, TextField } from './fields.tsx';
import { figure } from './figures.ts';
import { useCalculatorWords } from './words/words.ts';

/** One torque in every unit of the trade, as it would be said and unrounded. */
export function UnitsPart() {
  const words = useCalculatorWords();
  const { language } = useSettings().settings;
  const [typed, setTyped] = useState('47 lbf·ft');
  const torque = parseTorque(typed);
  return (
    <Part
      id="units"
      title={words.units.title}
      asked={<TextField label={words.units.torque} value={typed} onChange={setTyped} expected={torque.ok ? null : words.expected.torque} />}
    >
      {torque.ok ? (
        <table>
          <thead>
            <tr>
              <th>{words.units.unit}</th>
              <th>{words.units.spoken}</th>
              <th>{words.units.exact}</th>
            </tr>
          </thead>
          <tbody>
            {torqueUnits.map((unit) => (
              <tr key={unit}>
                <th scope="row">{unit}</th>
                <td>{figure(shownTorque(torque.value, unit).value, language, 10)}</td>
                <td>{figure(convert(torque.value, unit).value, language, 7)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
    </Part>
  );
}
