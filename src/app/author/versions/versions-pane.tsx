import { useEffect, useMemo, useState } from 'react';
import { compareVersions } from '../../../procedure/changes.ts';
import type { KeptVersion } from '../../own-files.ts';
import { useSettings } from '../../settings-context.ts';
import { useAuthorWords } from '../words/words.ts';
import { changeText } from './change-text.ts';

/** What was kept, and what changed between any two, in plain words. */
export function VersionsPane({
  versions,
  text: now,
  readOnly,
  onRestore,
}: {
  readonly versions: readonly KeptVersion[];
  readonly text: string;
  readonly readOnly: boolean;
  readonly onRestore: (version: KeptVersion) => void;
}) {
  const words = useAuthorWords();
  const { versions: text } = words;
  const { settings } = useSettings();
  const newest = versions.at(-1)?.number ?? 0;
  const [from, setFrom] = useState(newest);
  const [to, setTo] = useState(0);
  useEffect(() => setFrom(newest), [newest]);
  const textOf = (number: number) => (number === 0 ? now : (versions.find((version) => version.number === number)?.text ?? ''));
  const nameOf = (number: number) => (number === 0 ? text.now : text.version(number));
  const [before, after] = [textOf(from), textOf(to)];
  const compared = useMemo(() => compareVersions(before, after), [before, after]);
  if (versions.length === 0) return <p className="quiet">{text.none}</p>;
  const pick = (label: string, value: number, set: (value: number) => void) => (
    <label>
      <span>{label}</span>
      <select value={value} onChange={(event) => set(Number(event.target.value))}>
        <option value={0}>{text.now}</option>
        {[...versions].reverse().map(({ number, note }) => (
          <option key={number} value={number}>
            {note === '' ? text.version(number) : `${text.version(number)}: ${note.slice(0, 50)}`}
          </option>
        ))}
      </select>
    </label>
  );
  return (
    <div className="author-versions">
      <div className="row">
        {pick(text.from, from, setFrom)}
        {pick(text.to, to, setTo)}
      </div>
      {!compared.ok ? (
        <p className="warn">{text.unreadable(nameOf(compared.unreadable === 'before' ? from : to))}</p>
      ) : compared.changes.length === 0 ? (
        <p role="status">{text.same}</p>
      ) : (
        <>
          <p role="status">{text.changes(compared.changes.length)}</p>
          <ul className="author-changes">
            {compared.changes.map((change, index) => (
              <li key={index}>{changeText(change, settings.language)}</li>
            ))}
          </ul>
        </>
      )}
      <h4>{text.all}</h4>
      {[...versions].reverse().map((version) => (
        <div key={version.number} className="author-version">
          <span>
            <strong>{text.version(version.number)}</strong>
            <span className="quiet small">{` ${new Date(version.at).toLocaleString(settings.language, { dateStyle: 'medium', timeStyle: 'short' })}`}</span>
            {version.note === '' ? null : <span className="author-note">{version.note}</span>}
          </span>
          <button
            type="button"
            className="author-small"
            disabled={readOnly || version.text === now}
            aria-label={`${text.restore}: ${text.version(version.number)}`}
            onClick={() => onRestore(version)}
          >
            {text.restore}
          </button>
        </div>
      ))}
    </div>
  );
}
