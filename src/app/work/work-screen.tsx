import { useEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { Link } from 'wouter';
import { mainSteps, secondsLeft, stepAtHand } from '../../job/dialogue.ts';
import type { Now } from '../../job/dialogue.ts';
import type { Recorded } from '../../job/events.ts';
import { interpret } from '../../phrasing/interpret.ts';
import type { Intent } from '../../phrasing/intents.ts';
import { sayOver } from '../../phrasing/say.ts';
import type { LanguagePack } from '../../phrasing/language.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import { now as readNow } from '../platform/clock.ts';
import { useHeadset } from '../platform/headset.ts';
import { useKeys } from '../platform/keys.ts';
import { vibrateFor } from '../platform/vibration.ts';
import { useWakeLock } from '../platform/wake-lock.ts';
import { OtherLanguage } from '../pages/other-language.tsx';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import type { Listening, SpeechStatus } from '../speech-desk.ts';
import { useWords } from '../words/words.ts';
import { StepNotes } from '../notes/step-notes.tsx';
import { Wanted } from '../notes/wanted.tsx';
import { browserRoom, keepStorage } from '../../journal/storage-room.ts';
import { Actions, intentOfKey } from './actions.tsx';
import { OpenMatters } from './open-matters.tsx';
import type { Runner, RunnerView } from './runner.ts';
import { startRunner } from './runner.ts';
import { minutes, StepCard } from './step-card.tsx';
import { WrenchRemarks } from '../kit/wrench-remarks-panel.tsx';
import { useClicks } from './clicks.ts';
import { useSurroundings } from './surroundings.ts';

interface WorkScreenProps {
  readonly job: string;
  readonly plan: Plan;
  readonly events: readonly Recorded[];
  /** A part of the record cannot be read. */
  readonly corrupt: boolean;
  readonly pack: LanguagePack;
}

export function WorkScreen(props: WorkScreenProps) {
  const runner = useRunner(props);
  return runner === null ? null : <Working {...props} runner={runner} />;
}

/** One runner for the job, however often React draws; its language follows the settings. */
function useRunner({ job, plan, events, pack }: WorkScreenProps): Runner | null {
  const { journal, speech } = useServices();
  const { settings, change } = useSettings();
  const live = useRef({ settings, change, pack });
  useEffect(() => {
    live.current = { settings, change, pack };
  });
  const [runner, setRunner] = useState<Runner | null>(null);
  useEffect(() => {
    const started = startRunner({
      journal,
      job,
      plan,
      events,
      now: readNow,
      words: (line) => sayOver(line, live.current.pack, plan.procedure.language),
      speak: (text, cue) => {
        if (cue !== null && live.current.settings.vibrate) vibrateFor(cue);
        speech.speak(text, cue);
      },
      hush: () => speech.hush(),
      isSpeaking: () => speech.status().voice === 'speaking',
      set: (setting) => live.current.change(voiceChange(live.current.settings, setting)),
    });
    setRunner(started);
    return () => {
      started.end();
      speech.hush();
      speech.listen(null);
    };
  }, [journal, speech, job, plan, events]);
  return runner;
}

function voiceChange(settings: { readonly volume: number; readonly rate: number }, setting: 'louder' | 'quieter' | 'slower' | 'faster') {
  const between = (value: number, low: number, high: number) => Math.round(Math.min(high, Math.max(low, value)) * 100) / 100;
  switch (setting) {
    case 'louder':
      return { volume: between(settings.volume + 0.2, 0.2, 1) };
    case 'quieter':
      return { volume: between(settings.volume - 0.2, 0.2, 1) };
    case 'slower':
      return { rate: between(settings.rate - 0.15, 0.6, 1.6) };
    case 'faster':
      return { rate: between(settings.rate + 0.15, 0.6, 1.6) };
  }
}

function Working({ job, plan, corrupt, pack, runner }: WorkScreenProps & { readonly runner: Runner }) {
  const words = useWords();
  const { speech } = useServices();
  const { settings } = useSettings();
  const view = useSyncExternalStore(runner.subscribe, runner.view);
  const status = useSyncExternalStore(speech.subscribe, speech.status);
  const [begun, setBegun] = useState(false);
  const now = useClock(runner, begun);
  const people = useMemo(() => (settings.person === '' ? [] : [settings.person]), [settings.person]);
  useWakeLock(begun && view.state !== 'closed');
  useSpokenWords(runner, pack, begun, people);
  useSurroundings(runner, begun);
  useClicks(runner, job, plan);
  const send = (intent: Intent) => void runner.intent(intent);
  const keyHandlers = useMemo(
    () =>
      begun
        ? {
            act: (name: Parameters<typeof intentOfKey>[0]) => {
              const intent = intentOfKey(name);
              if (intent !== null) void runner.intent(intent);
            },
            talk: (held: boolean) => speech.talk(held),
          }
        : null,
    [begun, runner, speech],
  );
  useKeys(settings.keys, keyHandlers);
  useHeadset(settings.keys, keyHandlers);
  const begin = async (withVoice: boolean) => {
    setBegun(true);
    speech.hush();
    if (withVoice) await speech.begin();
    await runner.begin({ person: settings.person === '' ? null : settings.person, group: settings.group === '' ? null : settings.group });
    if (corrupt) await runner.trouble('record-corrupt');
    // Asked now that somebody works here: browsers decide by use, and some ask the person.
    void keepStorage(browserRoom());
  };
  if (!begun) return <Gate plan={plan} onBegin={(withVoice) => void begin(withVoice)} />;
  return (
    <div className="work" data-state={view.state} data-events={view.events.length}>
      <WorkTop view={view} status={status} now={now} />
      <main className="work-main">
        {view.trouble === null ? null : (
          <p className="trouble" role="alert">
            {words.trouble[view.trouble]}
          </p>
        )}
        <StepCard view={view} now={now} words={(line) => pack.say(line)} />
        <StepNotes view={view} job={job} />
        <Captions view={view} />
        <OpenMatters view={view} />
        {view.state === 'closed' ? (
          <Link className="button primary" href={`/record/${job}`}>
            {words.start.record}
          </Link>
        ) : null}
      </main>
      <div className="work-foot">
        {settings.listen === 'held' ? <TalkButton /> : null}
        <Wanted view={view} runner={runner} job={job} />
        <Actions view={view} pack={pack} people={people} send={send} />
      </div>
    </div>
  );
}

/** Browsers give sound and microphone only after a touch or a key: one tap here, and none after it. */
function Gate({ plan, onBegin }: { readonly plan: Plan; readonly onBegin: (withVoice: boolean) => void }) {
  const words = useWords();
  return (
    <main className="page">
      <h1 lang={plan.procedure.language}>{plan.procedure.title}</h1>
      <p className="quiet">{`${plan.procedure.vehicle} · ${plan.build.id}: ${plan.build.name}`}</p>
      <p lang={plan.procedure.language}>{plan.procedure.source}</p>
      <OtherLanguage language={plan.procedure.language} />
      <p className="warn">{words.safety}</p>
      <WrenchRemarks plan={plan} />
      <button type="button" className="primary" autoFocus style={{ minHeight: 120 }} onClick={() => onBegin(true)}>
        {words.work.begin}
      </button>
      <p className="quiet">{words.work.tapToStart}</p>
      {plan.procedure.id.startsWith(firstExercise) ? <Tour /> : null}
      <div className="row">
        <button type="button" onClick={() => onBegin(false)}>
          {words.work.withoutVoice}
        </button>
        <Link className="button" href="/">
          {words.nav.back}
        </Link>
      </div>
    </main>
  );
}

/** The exercise that the start page sends newcomers to, in any language. */
const firstExercise = 'bench-flange';

/** What somebody who has never done this needs to know, said and shown; it ends whenever the job begins. */
function Tour() {
  const words = useWords();
  const { speech } = useServices();
  const [taken, setTaken] = useState(false);
  return (
    <>
      <button
        type="button"
        aria-expanded={taken}
        onClick={() => {
          setTaken(true);
          void speech.begin().then(() => speech.speak(words.work.tourLines.join(' '), null));
        }}
      >
        {words.work.tour}
      </button>
      {taken ? (
        <ol className="stack">
          {words.work.tourLines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ol>
      ) : null}
    </>
  );
}

function WorkTop({ view, status, now }: { readonly view: RunnerView; readonly status: SpeechStatus; readonly now: Now }) {
  const words = useWords();
  const { plan, job } = view.dialogue;
  const step = stepAtHand(plan, job);
  const side = step === null ? undefined : plan.sides.find((one) => one.id === step.side);
  const where =
    step === null
      ? plan.procedure.title
      : side === undefined
        ? words.work.step(step.number, mainSteps(plan).length)
        : words.work.sideStep(step.number, side.title);
  return (
    <header className="work-top">
      <div className="where">
        <strong>{where}</strong>
        <div className="quiet small">{view.state === 'visiting' ? words.work.looking : (step?.stage.title ?? plan.build.name)}</div>
        <EarChip status={status} />
      </div>
      {job.work.timers.length === 0 ? null : (
        <div className="timers" role="timer" aria-label={words.work.timers}>
          {job.work.timers.map((timer) => (
            <span key={timer.step}>{`${timer.name} ${minutes(secondsLeft(timer, now))}`}</span>
          ))}
        </div>
      )}
      <Link className="button" href="/">
        {words.work.leave}
      </Link>
    </header>
  );
}

function EarChip({ status }: { readonly status: SpeechStatus }) {
  const words = useWords();
  const { settings } = useSettings();
  const text = status.voice === 'speaking' ? words.work.speaking : earText(status, words.work, settings.listen === 'held');
  const tone =
    status.ear === 'broken'
      ? 'bad'
      : status.voice === 'speaking'
        ? 'warn'
        : status.ear === 'listening' || status.ear === 'hearing'
          ? 'good'
          : 'quiet';
  const on = status.ear === 'hearing' || status.voice === 'speaking';
  return (
    <span className={`chip ${tone} ${on ? 'on' : ''}`} role="status">
      <span className={`lamp ${on ? 'pulse' : ''}`} />
      {text}
      {status.ear === 'loading' && status.progress !== null ? ` ${Math.round(status.progress * 100)} %` : ''}
      {status.earKind === null ? null : <span className="kind small">{words.ear[status.earKind]}</span>}
    </span>
  );
}

function earText(status: SpeechStatus, words: ReturnType<typeof useWords>['work'], held: boolean): string {
  switch (status.ear) {
    case 'loading':
      return words.starts;
    case 'listening':
      return words.listening;
    case 'hearing':
      return words.hearing;
    case 'waiting':
      return held ? words.held : words.listening;
    case 'off':
    case 'broken':
      return words.micOff;
  }
}

/** All that is said is shown, and what was heard of the person. */
function Captions({ view }: { readonly view: RunnerView }) {
  const words = useWords();
  const { heard, captions } = view;
  const breath = captions.at(-1)?.breath;
  const inOneBreath = captions.filter((caption) => caption.breath === breath).length;
  return (
    <section className="captions" aria-live="polite">
      {captions.slice(-Math.max(2, inOneBreath)).map((caption, index, all) => (
        <p key={caption.id} className={index === all.length - 1 ? 'caption-now' : 'quiet small'}>
          {index === all.length - 1 ? <span className="hidden-visually">{`${words.work.said}: `}</span> : null}
          {caption.text}
        </p>
      ))}
      <p className={heard?.kind === 'understood' ? 'good small' : 'quiet small'}>
        {`${words.work.heard}: `}
        {heard === null
          ? words.work.heardNothing
          : heard.kind === 'not-understood'
            ? words.work.notUnderstood(heard.text === '' ? words.work.noWords : heard.text)
            : `“${heard.text}”`}
      </p>
    </section>
  );
}

function TalkButton() {
  const words = useWords();
  const { speech } = useServices();
  return (
    <button
      type="button"
      style={{ width: '100%', minHeight: 96 }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        speech.talk(true);
      }}
      onPointerUp={() => speech.talk(false)}
      onPointerCancel={() => speech.talk(false)}
    >
      {words.work.talk}
    </button>
  );
}

/** The present moment, a second at a time while timers run, and the tick that ends them. */
function useClock(runner: Runner, begun: boolean): Now {
  const [now, setNow] = useState(readNow);
  useEffect(() => {
    if (!begun) return;
    const tick = setInterval(() => {
      setNow(readNow());
      if (runner.view().dialogue.job.work.timers.length > 0) void runner.clock();
    }, 1000);
    return () => clearInterval(tick);
  }, [runner, begun]);
  return now;
}

/** Microphone to intent: what may be said goes to the ear, what was said comes back as an intent or as not understood. */
function useSpokenWords(runner: Runner, pack: LanguagePack, begun: boolean, people: readonly string[]): void {
  const { speech } = useServices();
  const { settings } = useSettings();
  const live = useRef(false);
  useEffect(() => {
    live.current = settings.listen === 'name-first';
  }, [settings.listen]);
  useEffect(() => {
    if (!begun) return;
    const listening = (): Listening => {
      const { dialogue, state, legal: all, wants } = runner.view();
      // What is said into a note must not become a command; only "stop" is one everywhere.
      const legal = wants === 'note' ? all.filter((name) => name === 'stop') : all;
      const { cursor } = dialogue.job.work;
      const step = stepAtHand(dialogue.plan, dialogue.job);
      const measure = cursor?.part.kind === 'measure' ? step?.measures[cursor.part.index] : undefined;
      return { state, legal, names: people, measureUnit: measure?.unit ?? null, maxCount: 8 };
    };
    let last = '';
    const tell = () => {
      const next = listening();
      const key = JSON.stringify(next);
      if (key === last) return;
      last = key;
      speech.listen(next);
    };
    tell();
    const unsubscribe = [
      runner.subscribe(tell),
      speech.onHeard(({ alternatives }) => {
        const understood = interpret(alternatives, { ...listening(), language: pack.language, nameFirst: live.current });
        const text = alternatives[0]?.text ?? '';
        if (understood.kind === 'intent') void runner.intent(understood.intent, text);
        // It goes into the note; an answer would be recorded with it.
        else if (runner.view().wants === 'note') return;
        else if (understood.kind === 'not-now') void runner.notNow(understood.intent, text);
        else void runner.notUnderstood(text);
      }),
      speech.onTrouble((code) => void runner.trouble(code)),
    ];
    return () => {
      for (const stop of unsubscribe) stop();
    };
  }, [runner, speech, pack, begun, people]);
}
