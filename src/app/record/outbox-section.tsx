import { useEffect, useState } from 'react';
import { sendFinished } from '../../journal/outbox/finished.ts';
import { readSettings } from '../../journal/outbox/settings.ts';
import type { ReadSettings } from '../../journal/outbox/settings.ts';
import type { RecordStoreSettings } from '../../journal/outbox/store.ts';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import { dateText } from './follow-ups.tsx';
import { theOutbox } from './stores.ts';
import { useOutboxStatus } from './use-outbox-status.ts';
import { useRecordWords } from './use-record-words.ts';

const empty: RecordStoreSettings = { endpoint: '', key: '', secret: '', isOn: false };

/** Where finished jobs are sent to, and how that stands. */
export function OutboxSection() {
  const words = useRecordWords().outbox;
  const { settings } = useSettings();
  const { journal } = useServices();
  const [outbox] = useState(theOutbox);
  const status = useOutboxStatus(outbox);
  const [entry, setEntry] = useState<RecordStoreSettings | null>(null);
  const [isOn, setOn] = useState(false);
  const [problem, setProblem] = useState<Exclude<ReadSettings, { ok: true }> | null>(null);
  useEffect(() => {
    let current = true;
    void outbox.settings().then(
      (kept) => {
        if (!current) return;
        setEntry(kept ?? empty);
        setOn(kept?.isOn ?? false);
      },
      () => {
        if (current) setEntry(empty);
      },
    );
    outbox.nudge();
    return () => {
      current = false;
    };
  }, [outbox]);
  if (entry === null) return null;
  const keep = async (wanted: RecordStoreSettings) => {
    const read = readSettings(wanted);
    setProblem(read.ok ? null : read);
    if (!read.ok) return;
    setEntry(read.settings);
    setOn(read.settings.isOn);
    await outbox.keepSettings(read.settings);
    await sendFinished(journal, outbox);
  };
  const forget = async () => {
    setEntry(empty);
    setOn(false);
    setProblem(null);
    await outbox.keepSettings(null);
  };
  const field = (name: 'endpoint' | 'key' | 'secret', type: string) => (
    <label>
      {words[name]}
      <input
        type={type}
        value={entry[name]}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={problem?.path === name}
        onChange={(event) => setEntry({ ...entry, [name]: event.target.value })}
      />
    </label>
  );
  return (
    <section className="panel stack" aria-label={words.title}>
      <h2>{words.title}</h2>
      <p className="small">{words.about}</p>
      <form
        className="stack"
        onSubmit={(event) => {
          event.preventDefault();
          void keep(entry);
        }}
      >
        {field('endpoint', 'url')}
        {field('key', 'text')}
        {field('secret', 'password')}
        <label className="check">
          <input type="checkbox" checked={entry.isOn} onChange={(event) => setEntry({ ...entry, isOn: event.target.checked })} />
          {words.on}
        </label>
        {problem === null ? null : (
          <p className="trouble" role="alert">
            {words.problems[problem.code]}
          </p>
        )}
        <div className="row">
          <button type="submit" className="primary">
            {words.save}
          </button>
          <button type="button" onClick={() => void forget()}>
            {words.forget}
          </button>
        </div>
      </form>
      <div role="status" className="stack">
        <p>
          {isOn
            ? status.phase === 'halted'
              ? words.halted[status.halted ?? 'no-settings']
              : words.phases[status.phase]
            : words.halted['switched-off']}
        </p>
        {status.unsent === null ? null : <p data-unsent={status.unsent}>{words.unsent(status.unsent)}</p>}
        {status.refused === null || status.refused === 0 ? null : <p className="warn">{words.refused(status.refused)}</p>}
        <p className="quiet">
          {`${words.lastTitle}: ${status.last === null ? words.none : `${words.last[status.last.answer]}, ${dateText(status.last.at, settings.language)}`}`}
        </p>
      </div>
      <div className="row">
        <button type="button" disabled={!isOn} onClick={() => void sendFinished(journal, outbox)}>
          {words.sendNow}
        </button>
        {status.refused === null || status.refused === 0 ? null : (
          <button type="button" onClick={() => void outbox.retryRefused()}>
            {words.retry}
          </button>
        )}
      </div>
    </section>
  );
}
