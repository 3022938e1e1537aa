import type { Effect, Score } from './own-voice-store.ts';
import { useEnrolWords } from './words/words.ts';

/** What getting used to a person was worth, as it was measured. */
export function EffectTable({ effect }: { readonly effect: Effect }) {
  const words = useEnrolWords();
  const cell = ({ right, wrong }: Score) => words.understood(right, effect.takes, wrong);
  return (
    <figure className="enrol-effect">
      <figcaption>{words.table}</figcaption>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.condition}</th>
            <th scope="col">{words.before}</th>
            <th scope="col">{words.after}</th>
          </tr>
        </thead>
        <tbody>
          {(['quiet', 'noisy'] as const).map((where) => (
            <tr key={where}>
              <th scope="row">{words[where]}</th>
              <td>{cell(effect[where].before)}</td>
              <td>{cell(effect[where].after)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet small">{words.small}</p>
    </figure>
  );
}
