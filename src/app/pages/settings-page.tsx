import { lazy, Suspense, useEffect, useState, useSyncExternalStore } from 'react';
import { intentNames } from '../../phrasing/intents.ts';
import { languages } from '../../phrasing/language.ts';
import { packFor } from '../../phrasing/packs.ts';
import { torqueUnits } from '../../torque/quantities.ts';
import { listenToHeadset } from '../platform/headset.ts';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import type { KeyAction } from '../settings.ts';
import { waysToListen } from '../settings.ts';
import { useWords } from '../words/words.ts';
import { LevelMeter } from './level-meter.tsx';
import { SettingsOpening } from './settings-opening.tsx';

const OutboxSection = lazy(() => import('../record/outbox-section.tsx').then((module) => ({ default: module.OutboxSection })));
const VoiceSection = lazy(() => import('../enrol/voice-section.tsx').then((module) => ({ default: module.VoiceSection })));
const StorageSection = lazy(() => import('../device/storage-section.tsx').then((module) => ({ default: module.StorageSection })));

const languageNames = { en: 'English', fr: 'Français' } as const;

/** What a person chooses once on this device. Each choice says what it does. */
export function SettingsPage() {
  const words = useWords();
  const text = words.settings;
  const { settings, change, kept } = useSettings();
  const { speech } = useServices();
  const status = useSyncExternalStore(speech.subscribe, speech.status);
  return (
    <main className="page">
      <SettingsOpening />
      {kept ? null : (
        <p className="trouble" role="alert">
          {text.notKept}
        </p>
      )}
      <div className="panels">
        <section className="panel">
          <Choice
            label={text.language}
            value={settings.language}
            options={languages.map((one) => [one, languageNames[one]])}
            onChange={(language) => change({ language })}
          />
          <label>
            {text.person}
            <input
              value={settings.person}
              maxLength={60}
              autoComplete="name"
              onChange={(event) => change({ person: event.target.value })}
            />
          </label>
          <label>
            {text.group}
            <input value={settings.group} maxLength={60} onChange={(event) => change({ group: event.target.value })} />
          </label>
          <Choice
            label={text.unit}
            value={settings.unit ?? ''}
            options={[['', text.unitSource], ...torqueUnits.map((unit) => [unit, unit] as const)]}
            onChange={(unit) => change({ unit: unit === '' ? null : unit })}
          />
          <Choice
            label={text.theme}
            value={settings.theme}
            options={(['system', 'dark', 'light'] as const).map((one) => [one, text.themes[one]])}
            onChange={(theme) => change({ theme })}
          />
        </section>
        <section className="panel">
          <Choice
            label={text.listen}
            value={settings.listen}
            options={waysToListen.map((one) => [one, text.ways[one]])}
            onChange={(listen) => change({ listen })}
          />
          <Choice
            label={text.ear}
            value={settings.ear}
            options={(['automatic', 'browser', 'local'] as const).map((one) => [one, text.ears[one]])}
            onChange={(ear) => change({ ear })}
          />
          <label className="check">
            <input type="checkbox" checked={settings.remoteSpeech} onChange={(event) => change({ remoteSpeech: event.target.checked })} />
            {text.remote}
          </label>
          <p className="quiet small">{text.remoteWhy}</p>
          <MicrophoneCheck />
          <Suspense fallback={null}>
            <VoiceSection />
          </Suspense>
        </section>
        <section className="panel">
          <Choice
            label={text.voice}
            value={settings.voice}
            options={(['automatic', 'browser', 'local', 'off'] as const).map((one) => [one, text.voices[one]])}
            onChange={(voice) => change({ voice })}
          />
          <label>
            {text.volume}
            <input
              type="range"
              min={0.2}
              max={1}
              step={0.1}
              value={settings.volume}
              onChange={(event) => change({ volume: Number(event.target.value) })}
            />
          </label>
          <label>
            {text.rate}
            <input
              type="range"
              min={0.6}
              max={1.6}
              step={0.1}
              value={settings.rate}
              onChange={(event) => change({ rate: Number(event.target.value) })}
            />
          </label>
          <button type="button" onClick={() => void speech.begin().then(() => speech.speak(text.sample, null))}>
            {text.hear}
          </button>
          <p className="quiet small" aria-live="polite">
            {status.voiceKind === null ? '' : words.voice[status.voiceKind]}
          </p>
          <label className="check">
            <input type="checkbox" checked={settings.vibrate} onChange={(event) => change({ vibrate: event.target.checked })} />
            {text.vibrate}
          </label>
        </section>
        <KeysPanel />
        <Suspense fallback={null}>
          <OutboxSection />
        </Suspense>
      </div>
      <Suspense fallback={null}>
        <StorageSection />
      </Suspense>
    </main>
  );
}

function Choice<T extends string>({
  label,
  value,
  options,
  onChange,
}: {
  readonly label: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly onChange: (value: T) => void;
}) {
  return (
    <label>
      {label}
      <select
        value={value}
        onChange={(event) => {
          const chosen = options.find(([one]) => one === event.target.value);
          if (chosen !== undefined) onChange(chosen[0]);
        }}
      >
        {options.map(([one, name]) => (
          <option key={one} value={one}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Says what it hears, before the job, and which ear hears it. */
function MicrophoneCheck() {
  const words = useWords();
  const { speech } = useServices();
  const status = useSyncExternalStore(speech.subscribe, speech.status);
  const [heard, setHeard] = useState<readonly string[]>([]);
  const [checking, setChecking] = useState(false);
  useEffect(() => {
    if (!checking) return;
    const stops = [
      speech.onHeard(({ alternatives }) => setHeard((before) => [...before, alternatives[0]?.text ?? ''].slice(-5))),
      speech.onRejected(() => setHeard((before) => [...before, words.work.noWords].slice(-5))),
    ];
    speech.listen({
      state: 'fastening',
      legal: ['done', 'torque', 'socket', 'repeat', 'how-many-left', 'stop'],
      names: [],
      measureUnit: null,
      maxCount: 8,
    });
    return () => {
      for (const stop of stops) stop();
      speech.listen(null);
    };
  }, [checking, speech, words]);
  return (
    <div className="stack">
      <button
        type="button"
        onClick={() => {
          setChecking(!checking);
          if (!checking) void speech.begin();
        }}
      >
        {words.settings.micCheck}
      </button>
      {checking ? (
        <div className="stack" aria-live="polite">
          <p>{words.settings.micSay}</p>
          <LevelMeter label={words.settings.micLevel} />
          <p className="quiet small">
            {status.ear === 'loading' ? words.work.starts : status.ear === 'broken' ? words.work.micOff : words.work.listening}
            {status.earKind === null ? '' : `: ${words.ear[status.earKind]}`}
          </p>
          {heard.map((one, index) => (
            <p key={index} className="good">{`“${one}”`}</p>
          ))}
        </div>
      ) : null}
    </div>
  );
}

function KeysPanel() {
  const words = useWords();
  const text = words.settings;
  const { settings, change } = useSettings();
  const [waiting, setWaiting] = useState(false);
  const [action, setAction] = useState<KeyAction>('done');
  const { commands } = packFor(settings.language).lexicon;
  const name = (of: KeyAction) => (of === 'talk' ? text.talk : commands[of].button);
  useEffect(() => {
    if (!waiting) return;
    const take = (code: string) => {
      change({ keys: { ...settings.keys, [code]: action } });
      setWaiting(false);
    };
    const key = (event: KeyboardEvent) => {
      event.preventDefault();
      take(event.code);
    };
    addEventListener('keydown', key, { once: true });
    const deafen = listenToHeadset(take);
    return () => {
      removeEventListener('keydown', key);
      deafen();
    };
  }, [waiting, action, settings.keys, change]);
  return (
    <section className="panel">
      <h2>{text.keys}</h2>
      <p className="quiet small">{text.keysWhy}</p>
      <ul className="stack" style={{ listStyle: 'none', padding: 0, margin: 0 }}>
        {Object.entries(settings.keys).map(([code, does]) => (
          <li key={code} className="row">
            <kbd>{code.replace(/^(?:Key|Digit|Media)(?=.)/u, '')}</kbd>
            <span style={{ flex: 1 }}>{name(does)}</span>
            <button
              type="button"
              aria-label={`${text.unassign} ${code}`}
              onClick={() => change({ keys: Object.fromEntries(Object.entries(settings.keys).filter(([one]) => one !== code)) })}
            >
              {text.unassign}
            </button>
          </li>
        ))}
      </ul>
      <Choice
        label={text.does}
        value={action}
        options={(['talk', ...intentNames.filter((one) => !['number', 'reason', 'sign'].includes(one))] as const).map((one) => [
          one,
          name(one),
        ])}
        onChange={setAction}
      />
      <button type="button" className={waiting ? 'primary' : ''} onClick={() => setWaiting(!waiting)}>
        {waiting ? text.pressNow : text.assign}
      </button>
    </section>
  );
}
