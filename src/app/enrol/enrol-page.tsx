import { useEffect, useRef, useState } from 'react';
import { Link } from 'wouter';
import { beginEnrolment } from '../../speech/enrolment/browser-enrolment.ts';
import { learntLocally } from '../../speech/heard-locally.ts';
import { PageTop } from '../pages/page-top.tsx';
import { vibrateFor } from '../platform/vibration.ts';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import type { SpeechDesk } from '../speech-desk.ts';
import { askedCommands, effectOf, trialOf, verdictOf } from './commands.ts';
import { EffectTable } from './effect-table.tsx';
import { EnrolmentRun, type RunState, type Saying } from './enrolment-run.ts';
import type { Effect } from './own-voice-store.ts';
import { keepVoice, presentEar } from './own-voice-store.ts';
import type { EnrolWords } from './words/en.ts';
import { useEnrolWords } from './words/words.ts';
import './enrol.css';

type Shown =
  | RunState
  | { readonly at: 'start' }
  | { readonly at: 'done'; readonly effect: Effect; readonly outcome: 'better' | 'same' | 'worse' | 'notStored' };

/** Two minutes in which the ear of this device gets used to one person, and what that is worth. */
export function EnrolPage() {
  const words = useEnrolWords();
  const { settings } = useSettings();
  const { speech } = useServices();
  const [shown, setShown] = useState<Shown>({ at: 'start' });
  const run = useRef<EnrolmentRun | null>(null);
  const { language } = settings;
  const commands = askedCommands(language);
  useEffect(() => () => run.current?.end(), []);

  const finish = async (state: Extract<RunState, { at: 'learnt' }>) => {
    const { learnt } = state;
    const effect = effectOf(state.commands, learnt.before, learnt.after, language);
    const verdict = verdictOf(effect);
    const voice = { format: 1, person: settings.person, when: Date.now(), own: learnt.own, ear: presentEar, effect, inUse: true } as const;
    const outcome = verdict === 'better' && !(await keepVoice(voice)) ? 'notStored' : verdict;
    setShown({ at: 'done', effect, outcome });
    speech.speak(words[outcome], 'heard');
  };

  const begin = async () => {
    speech.listen(null);
    await speech.begin();
    run.current?.end();
    run.current = new EnrolmentRun({
      commands,
      begin: beginEnrolment,
      say: (sayings) => spokenOut(speech, sayings.map((one) => told(one, words)).join(' ')),
      heard: () => {
        if (settings.vibrate) vibrateFor('heard');
      },
      trialOf: (command, sound) => trialOf(command, sound, language),
      after: (milliseconds, act) => {
        const timer = setTimeout(act, milliseconds);
        return () => clearTimeout(timer);
      },
      onState: (state) => {
        if (state.at === 'learnt') void finish(state);
        else setShown(state);
        if (state.at === 'failed') speech.speak(faultText(state.fault, words), 'not-understood');
        if (state.at === 'too-few') speech.speak(words.tooFew, 'not-understood');
      },
    });
  };
  const stop = () => {
    run.current?.end();
    run.current = null;
    speech.hush();
    setShown({ at: 'start' });
  };

  return (
    <main className="page">
      <PageTop title={words.title} />
      {learntLocally.includes(language) ? (
        <section className="stack enrol" aria-live="polite">
          <Stage shown={shown} words={words} commands={commands.map(({ text }) => text)} />
          {shown.at === 'asking' || shown.at === 'loading' ? (
            <div className="row">
              {shown.at === 'asking' ? (
                <button type="button" onClick={() => run.current?.skip()}>
                  {words.skip}
                </button>
              ) : null}
              <button type="button" onClick={stop}>
                {words.stop}
              </button>
            </div>
          ) : shown.at === 'learning' || shown.at === 'learnt' ? null : (
            <div className="row">
              <button type="button" className="primary" onClick={() => void begin()}>
                {shown.at === 'start' ? words.begin : words.again}
              </button>
              <Link className="button" href="/settings">
                {words.back}
              </Link>
            </div>
          )}
        </section>
      ) : (
        <p>{words.notThisLanguage}</p>
      )}
    </main>
  );
}

function Stage({ shown, words, commands }: { readonly shown: Shown; readonly words: EnrolWords; readonly commands: readonly string[] }) {
  const { settings } = useSettings();
  switch (shown.at) {
    case 'start':
      return (
        <>
          <p>{words.about}</p>
          <p className="quiet">{words.where}</p>
          {settings.ear === 'browser' ? <p className="warn">{words.notThisEar}</p> : null}
        </>
      );
    case 'loading':
      return <p>{words.loading(Math.floor(shown.share * 100))}</p>;
    case 'asking': {
      const text = commands[shown.index] ?? '';
      return (
        <>
          <p className="quiet">{(shown.round === 1 ? words.first : words.second)(shown.index + 1, commands.length)}</p>
          <p className="enrol-say">{shown.again === null ? words.say(text) : words[shown.again](text)}</p>
          <p className={shown.listening ? 'good' : 'quiet'}>{shown.listening ? words.listening : words.wait}</p>
        </>
      );
    }
    case 'learning':
    case 'learnt':
      return <p>{words.learning}</p>;
    case 'too-few':
      return (
        <p className="trouble" role="alert">
          {words.tooFew}
        </p>
      );
    case 'failed':
      return (
        <p className="trouble" role="alert">
          {faultText(shown.fault, words)}
        </p>
      );
    case 'done':
      return (
        <>
          <p className={shown.outcome === 'notStored' ? 'trouble' : 'good'}>{words[shown.outcome]}</p>
          <EffectTable effect={shown.effect} />
        </>
      );
  }
}

function told(saying: Saying, words: EnrolWords): string {
  switch (saying.kind) {
    case 'ask':
      return words.say(saying.text);
    case 'unlike':
    case 'silent':
      return words[saying.kind](saying.text);
    case 'skipped':
      return words.skipped;
    case 'second-round':
      return words.secondRound;
    case 'learning':
      return words.learning;
  }
}

function faultText(fault: Extract<RunState, { at: 'failed' }>['fault'], words: EnrolWords): string {
  switch (fault) {
    case 'not-allowed':
    case 'audio-capture':
    case 'network':
      return words.faults[fault];
    default:
      return words.faults.broken;
  }
}

/** Milliseconds within which a voice begins, if it is going to. */
const voiceBegins = 1_500;

/** Resolves when it has been said. */
function spokenOut(speech: SpeechDesk, text: string): Promise<void> {
  const { voice } = speech.status();
  if (voice === 'off' || voice === 'broken') return Promise.resolve();
  return new Promise((resolve) => {
    let begun = false;
    const over = () => {
      clearTimeout(timer);
      off();
      resolve();
    };
    const off = speech.subscribe(() => {
      const now = speech.status().voice;
      if (now === 'speaking') begun = true;
      else if (begun || now === 'broken') over();
    });
    const timer = setTimeout(() => {
      if (!begun) over();
    }, voiceBegins);
    speech.speak(text, null);
  });
}
