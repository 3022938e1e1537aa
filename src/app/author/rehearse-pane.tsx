import { useEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { memoryJournal } from '../../journal/memory.ts';
import { packFor } from '../../phrasing/packs.ts';
import type { ProcedureFile } from '../../procedure/parse.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import { newId, now } from '../platform/clock.ts';
import { useServices } from '../services.ts';
import { useSettings } from '../settings-context.ts';
import { Actions } from '../work/actions.tsx';
import type { Runner } from '../work/runner.ts';
import { startRunner } from '../work/runner.ts';
import { NoteInWords } from '../notes/note-in-words.tsx';
import { useRecordWords } from '../record/use-record-words.ts';
import { OpenMatters } from '../work/open-matters.tsx';
import { StepCard } from '../work/step-card.tsx';
import { BuildPicker } from './build-picker.tsx';
import { planOf } from './planned.ts';
import { advanceTo, hearText } from './rehearsal.ts';
import { useAuthorWords } from './words/words.ts';

/** The real job beside the text: the same core, a journal that forgets, and what would be heard typed in. */
export function RehearsePane({
  file,
  build,
  setBuild,
  wanted,
}: {
  readonly file: ProcedureFile | null;
  readonly build: string;
  readonly setBuild: (build: string) => void;
  /** A step to begin at, at once. */
  readonly wanted: { readonly step: string } | null;
}) {
  const { rehearse: text, hear } = useAuthorWords();
  const { settings } = useSettings();
  const plan = useMemo(() => planOf(file, build, settings.unit), [file, build, settings.unit]);
  const [from, setFrom] = useState('');
  const [run, setRun] = useState<{ readonly plan: Plan; readonly from: number; readonly id: string } | null>(null);
  const start = (step: string) => {
    if (plan === null) return;
    const index = plan.steps.findIndex(({ id, side }) => id === step && side === null);
    setRun({ plan, from: index, id: newId() });
  };
  const granted = useRef<typeof wanted>(null);
  // Begun once for each wish, and not before the text that it was made for has been read.
  useEffect(() => {
    if (wanted === null || granted.current === wanted || plan?.steps.some(({ id }) => id === wanted.step) !== true) return;
    granted.current = wanted;
    setFrom(wanted.step);
    start(wanted.step);
  });
  if (plan === null && run === null) return <p className="quiet">{hear.cannot}</p>;
  return (
    <div className="author-rehearse">
      <p className="quiet small">{text.about}</p>
      <div className="row">
        <BuildPicker file={file} build={build} setBuild={setBuild} />
        <label>
          <span>{text.from}</span>
          <select value={from} onChange={(event) => setFrom(event.target.value)}>
            <option value="">{text.beginning}</option>
            {plan?.steps
              .filter(({ side }) => side === null)
              .map(({ id, number, say }) => (
                <option key={id} value={id}>{`${number}. ${say.slice(0, 60)}`}</option>
              ))}
          </select>
        </label>
        <button type="button" className={run === null ? 'primary' : ''} disabled={plan === null} onClick={() => start(from)}>
          {run === null ? text.start : text.again}
        </button>
      </div>
      {run === null ? null : (
        <>
          {run.plan === plan ? null : (
            <p className="warn small" role="status">
              {text.changed}
            </p>
          )}
          <Rehearsal key={run.id} plan={run.plan} from={run.from} />
        </>
      )}
    </div>
  );
}

function Rehearsal({ plan, from }: { readonly plan: Plan; readonly from: number }) {
  const { settings } = useSettings();
  const { speech } = useServices();
  const [runner, setRunner] = useState<Runner | null>(null);
  const aloud = useRef(false);
  const pack = packFor(settings.language);
  const { person } = settings;
  useEffect(() => {
    const started = startRunner({
      journal: memoryJournal({ session: newId() }),
      job: newId(),
      plan,
      events: [],
      now,
      words: (line) => pack.say(line),
      speak: (said, cue) => {
        if (aloud.current) speech.speak(said, cue);
      },
      hush: () => speech.hush(),
      isSpeaking: () => aloud.current && speech.status().voice === 'speaking',
      set: () => undefined,
    });
    let over = false;
    const begin = async () => {
      await started.begin({ person: person === '' ? null : person, group: null });
      if (from > 0) await advanceTo(started, from);
      if (!over) setRunner(started);
    };
    void begin();
    return () => {
      over = true;
      started.end();
      speech.hush();
    };
  }, [plan, from, pack, speech, person]);
  return runner === null ? <p className="quiet">…</p> : <Rehearsing runner={runner} aloud={aloud} />;
}

interface Turn {
  readonly id: number;
  readonly who: 'you' | 'tool';
  readonly text: string;
}

function Rehearsing({ runner, aloud }: { readonly runner: Runner; readonly aloud: React.RefObject<boolean> }) {
  const { rehearse: text } = useAuthorWords();
  const { settings } = useSettings();
  const { speech } = useServices();
  const view = useSyncExternalStore(runner.subscribe, runner.view);
  const [typed, setTyped] = useState('');
  const [said, setSaid] = useState<readonly (Turn & { readonly after: number })[]>([]);
  const [at, setAt] = useState(now);
  const log = useRef<HTMLDivElement>(null);
  const pack = packFor(settings.language);
  useEffect(() => {
    const tick = setInterval(() => {
      setAt(now());
      if (runner.view().dialogue.job.work.timers.length > 0) void runner.clock();
    }, 1000);
    return () => clearInterval(tick);
  }, [runner]);
  const turns: readonly Turn[] = [
    ...said.filter(({ after }) => after === 0),
    ...view.captions.flatMap((caption): readonly Turn[] => [
      { id: caption.id, who: 'tool', text: caption.text },
      ...said.filter(({ after }) => after === caption.id),
    ]),
  ];
  const { length } = turns;
  useEffect(() => {
    log.current?.scrollTo({ top: log.current.scrollHeight });
  }, [length]);
  const speak = async () => {
    const words = typed.trim();
    if (words === '') return;
    setTyped('');
    const after = runner.view().captions.at(-1)?.id ?? 0;
    setSaid((before) => [...before, { id: -1 - before.length, who: 'you', text: words, after }]);
    await hearText(runner, words, settings.language, settings.person);
  };
  return (
    <div className="author-rehearsing" data-state={view.state}>
      <div className="author-log" ref={log} role="log" aria-live="polite" tabIndex={0} aria-label={text.tool}>
        {turns.map((turn) => (
          <p key={turn.id} className={turn.who === 'you' ? 'author-you' : 'author-tool'}>
            <span className="hidden-visually">{`${turn.who === 'you' ? text.you : text.tool}: `}</span>
            {turn.text}
          </p>
        ))}
      </div>
      <form
        className="author-say"
        onSubmit={(event) => {
          event.preventDefault();
          void speak();
        }}
      >
        <label>
          <span>{text.sayWhat}</span>
          <input value={typed} autoComplete="off" maxLength={200} onChange={(event) => setTyped(event.target.value)} />
        </label>
        <button type="submit" disabled={typed.trim() === ''}>
          {text.say}
        </button>
      </form>
      <label className="check">
        <input
          type="checkbox"
          defaultChecked={aloud.current}
          onChange={(event) => {
            aloud.current = event.target.checked;
            if (event.target.checked) void speech.begin();
            else speech.hush();
          }}
        />
        {text.aloud}
      </label>
      <div className="author-card">
        <StepCard view={view} now={at} words={(line) => pack.say(line)} />
        <OpenMatters view={view} />
      </div>
      <RehearsedWant runner={runner} />
      <Actions
        view={view}
        pack={pack}
        people={settings.person === '' ? [] : [settings.person]}
        send={(intent) => void runner.intent(intent)}
      />
    </div>
  );
}

/** What a job would ask the device for. A rehearsal keeps nothing, so only words are taken, and the rest is explained. */
function RehearsedWant({ runner }: { readonly runner: Runner }) {
  const words = useRecordWords().notes;
  const { wants } = useSyncExternalStore(runner.subscribe, runner.view);
  if (wants === null) return null;
  if (wants === 'note')
    return (
      <NoteInWords
        onKeep={(text) => void runner.note({ text, recording: null, media: null, question: false }).then(() => runner.brought())}
        onRecord={null}
        onDrop={() => runner.brought()}
      />
    );
  return (
    <p className="warn" role="status">
      {words.notRehearsed[wants]}
    </p>
  );
}
