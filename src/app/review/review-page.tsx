import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { ReactNode } from 'react';
import type { Plan } from '../../procedure/plan-types.ts';
import type { ReviewNotes, TrainerNotes } from '../../review/notes.ts';
import { noNotes } from '../../review/notes.ts';
import type { Filter } from '../../review/questions/selection.ts';
import { everyRun } from '../../review/questions/selection.ts';
import type { Facts } from '../../review/review.ts';
import type { ReviewClient } from './client.ts';
import { makeReviewClient } from './client.ts';
import type { Place, ReviewDesk } from './desk.ts';
import { DeskContext, viewNames } from './desk.ts';
import { Choice, Filters } from './filters.tsx';
import type { LogDoors } from './log-buttons.tsx';
import { LogButtons } from './log-buttons.tsx';
import { plotLibrary } from './picture.tsx';
import type { Reader } from './read-aloud.ts';
import type { LogSource, Progress } from './protocol.ts';
import { ReviewAbout } from './review-opening.tsx';
import { FairView } from './views/fair-view.tsx';
import { GlanceView } from './views/glance-view.tsx';
import { GroupsView } from './views/groups-view.tsx';
import { LearningView } from './views/learning-view.tsx';
import { LogsView } from './views/logs-view.tsx';
import { OrdersView } from './views/orders-view.tsx';
import { PeopleView } from './views/people-view.tsx';
import { RunsView } from './views/runs-view.tsx';
import { SheetView } from './views/sheet-view.tsx';
import { StepsView } from './views/steps-view.tsx';
import { useWording } from './words/words.ts';
import './review.css';

interface ReviewPageProps {
  /** The jobs of this device, each written out as JSON Lines; read anew each time it is called. */
  readonly loadLogs: () => AsyncIterable<LogSource>;
  /** Plans to grow the invented workshop from; asked for only when somebody wants to see it. */
  readonly loadPlans: () => Promise<readonly Plan[]>;
  readonly notes: ReviewNotes;
  readonly reader: Reader;
  /** What stands at the top of the page: the app's own head. */
  readonly top?: ReactNode;
}

type Stage =
  /** Not known yet whether this device has jobs. */
  | { readonly kind: 'looking' }
  | { readonly kind: 'empty' }
  | { readonly kind: 'reading'; readonly progress: Progress | null }
  | { readonly kind: 'failed'; readonly message: string }
  | { readonly kind: 'ready'; readonly facts: Facts };

/** The trainer's review: everything is computed in a worker, so that the page stays at hand while millions of events are read. */
export function ReviewPage({ loadLogs, loadPlans, notes: store, reader, top }: ReviewPageProps) {
  const [stage, setStage] = useState<Stage>({ kind: 'looking' });
  const { page } = useWording();
  const [isDemonstration, setDemonstration] = useState(false);
  const client = useClient(setStage);
  const picked = useRef<readonly LogSource[]>([]);
  const { notes, changeNotes, trouble } = useNotes(store, client, isDemonstration);

  const readSources = useCallback(
    async (more: readonly LogSource[]) => {
      picked.current = [...picked.current, ...more];
      setDemonstration(false);
      // A device without jobs of its own goes on showing what can be opened.
      if (picked.current.length > 0) setStage({ kind: 'reading', progress: null });
      const own: LogSource[] = [];
      try {
        for await (const source of loadLogs()) own.push(source);
      } catch (error) {
        setStage({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
        return;
      }
      if (own.length + picked.current.length === 0) setStage({ kind: 'empty' });
      else client?.read([...own, ...picked.current]);
    },
    [client, loadLogs],
  );
  useEffect(() => {
    if (client !== null) void readSources([]);
  }, [client, readSources]);

  const demonstrate = useCallback(() => {
    setDemonstration(true);
    setStage({ kind: 'reading', progress: null });
    loadPlans().then(
      (plans) => client?.demonstrate(plans),
      (error: unknown) => setStage({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }),
    );
  }, [client, loadPlans]);

  const doors: LogDoors = {
    onFiles: (files) => void readSources(files),
    onDemonstrate: demonstrate,
    onOwn: () => void readSources([]),
  };
  return (
    <main className="page at-desk review">
      {top}
      {trouble === null ? null : (
        <p className="bad" role="alert">
          {page.notes[trouble]}
        </p>
      )}
      {stage.kind !== 'ready' ? (
        <>
          <ReviewAbout />
          <Opening stage={stage} doors={doors} />
        </>
      ) : client !== null ? (
        <Ready
          client={client}
          facts={stage.facts}
          notes={notes}
          changeNotes={changeNotes}
          reader={reader}
          isDemonstration={isDemonstration}
          doors={doors}
        />
      ) : null}
    </main>
  );
}

function useClient(setStage: (stage: Stage) => void): ReviewClient | null {
  const [client, setClient] = useState<ReviewClient | null>(null);
  useEffect(() => {
    const made = makeReviewClient({
      onProgress: (progress) => setStage({ kind: 'reading', progress }),
      onFacts: (facts) => setStage({ kind: 'ready', facts }),
      onFailed: (message) => setStage({ kind: 'failed', message }),
    });
    setClient(made);
    return () => made.close();
  }, [setStage]);
  return client;
}

type NotesTrouble = 'notRead' | 'notStored';

/** Notes as they stand, stored with every change. Those on the invented workshop are forgotten with it. */
function useNotes(
  store: ReviewNotes,
  client: ReviewClient | null,
  isDemonstration: boolean,
): { readonly notes: TrainerNotes; readonly changeNotes: (notes: TrainerNotes) => void; readonly trouble: NotesTrouble | null } {
  const [notes, setNotes] = useState<TrainerNotes>(noNotes);
  const [trouble, setTrouble] = useState<NotesTrouble | null>(null);
  useEffect(() => {
    let isCurrent = true;
    const show = (read: TrainerNotes): void => {
      if (!isCurrent) return;
      setNotes(read);
      client?.takeNotes(read);
    };
    if (isDemonstration) show(noNotes);
    else store.read().then(show, () => setTrouble('notRead'));
    return () => {
      isCurrent = false;
    };
  }, [store, client, isDemonstration]);
  const changeNotes = useCallback(
    (changed: TrainerNotes) => {
      setNotes(changed);
      client?.takeNotes(changed);
      if (isDemonstration) return;
      store.write(changed).then(
        () => setTrouble(null),
        () => setTrouble('notStored'),
      );
    },
    [store, client, isDemonstration],
  );
  return { notes, changeNotes, trouble };
}

function Opening({ stage, doors }: { readonly stage: Exclude<Stage, { kind: 'ready' }>; readonly doors: LogDoors }) {
  const words = useWording().page.logs;
  return (
    <section className="review-opening stack no-print" aria-label={words.label}>
      {/* Its place is kept while the device is asked, so that nothing jumps under a finger. */}
      {stage.kind === 'looking' || stage.kind === 'empty' ? (
        <p style={stage.kind === 'looking' ? { visibility: 'hidden' } : {}}>{words.empty}</p>
      ) : null}
      {stage.kind === 'reading' ? <Reading progress={stage.progress} /> : null}
      {stage.kind === 'failed' ? (
        <p className="bad" role="alert">
          {words.failed(stage.message)}
        </p>
      ) : null}
      <LogButtons {...doors} />
    </section>
  );
}

function Reading({ progress }: { readonly progress: Progress | null }) {
  const words = useWording().page.logs;
  // Fetched while there is nothing to draw yet.
  useEffect(() => void plotLibrary(), []);
  if (progress === null) return <p role="status">{words.readingThem}</p>;
  const { bytes, of, lines } = progress;
  return (
    <div role="status">
      <p>{of === 0 ? words.growing(lines) : words.reading(lines, bytes / of)}</p>
      <progress max={1} {...(of === 0 ? {} : { value: bytes / of })} aria-label={words.readingThem} />
    </div>
  );
}

interface ReadyProps {
  readonly client: ReviewClient;
  readonly facts: Facts;
  readonly notes: TrainerNotes;
  readonly changeNotes: (notes: TrainerNotes) => void;
  readonly reader: Reader;
  readonly isDemonstration: boolean;
  readonly doors: LogDoors;
}

function Ready({ client, facts, notes, changeNotes, reader, isDemonstration, doors }: ReadyProps) {
  const { page, language } = useWording();
  const [filter, setFilter] = useState<Filter>(everyRun);
  const [codes, setCodes] = useState(false);
  const [place, setPlace] = useState<Place>({ view: 'glance' });
  const heading = useRef<HTMLHeadingElement>(null);
  const busiest = facts.procedures.toSorted((one, other) => other.runs * other.steps.length - one.runs * one.steps.length)[0]?.id ?? '';
  const [chosen, chooseProcedure] = useState<string | null>(null);
  const [only] = filter.procedures;
  const procedure = only ?? (facts.procedures.some(({ id }) => id === chosen) ? (chosen ?? busiest) : busiest);
  const terms = useMemo(() => ({ filter, codes, language }), [filter, codes, language]);
  const go = useCallback((to: Place) => {
    setPlace(to);
    if (to.procedure !== undefined) {
      chooseProcedure(to.procedure);
      setFilter((before) =>
        before.procedures.length > 0 && !before.procedures.includes(to.procedure ?? '') ? { ...before, procedures: [] } : before,
      );
    }
    heading.current?.focus();
  }, []);
  const showCodes = (show: boolean): void => {
    setCodes(show);
    // Whoever is shown by a code from now on keeps it, whoever else joins later.
    if (show)
      changeNotes({
        ...notes,
        codeNames: {
          ...Object.fromEntries(facts.people.flatMap(({ name, code }) => (name === null ? [] : [[name, code]]))),
          ...notes.codeNames,
        },
      });
  };
  const desk = useMemo<ReviewDesk>(
    () => ({ client, facts, terms, notes, changeNotes, reader, procedure, chooseProcedure, go }),
    [client, facts, terms, notes, changeNotes, reader, procedure, go],
  );
  if (facts.runs === 0)
    return (
      <DeskContext value={desk}>
        <p>{page.logs.noRun}</p>
        <LogsView doors={doors} />
      </DeskContext>
    );
  return (
    <DeskContext value={desk}>
      {isDemonstration ? (
        <div className="review-demo row">
          <p>{page.logs.invented}</p>
          <button type="button" className="no-print" onClick={doors.onOwn}>
            {page.logs.back}
          </button>
        </div>
      ) : null}
      <LogTrouble facts={facts} onLook={() => go({ view: 'logs' })} isShown={place.view !== 'logs'} />
      <Filters filter={filter} onChange={setFilter} codes={codes} onCodes={showCodes} />
      <nav className="review-views no-print" aria-label={page.views.label}>
        {viewNames.map((view) => (
          <button key={view} type="button" aria-current={place.view === view ? 'page' : undefined} onClick={() => go({ view })}>
            {page.views[view]}
          </button>
        ))}
      </nav>
      <div className="review-view-choice no-print">
        <Choice
          label={page.views.label}
          all={null}
          value={place.view}
          options={viewNames.map((view) => [view, page.views[view]])}
          onChoose={(chosenView) => go({ view: viewNames.find((view) => view === chosenView) ?? 'glance' })}
        />
      </div>
      <h2 ref={heading} tabIndex={-1} className="hidden-visually">
        {page.views[place.view]}
      </h2>
      <View place={place} doors={doors} />
    </DeskContext>
  );
}

/** That something was wrong with the logs must not wait until somebody asks. */
function LogTrouble({ facts, onLook, isShown }: { readonly facts: Facts; readonly onLook: () => void; readonly isShown: boolean }) {
  const words = useWording().page.logs;
  const { lines, missing, marked } = facts.faults;
  if (!isShown || (Object.keys(lines).length === 0 && missing === 0 && marked === 0)) return null;
  return (
    <div className="row review-caution">
      <p>{words.faulty}</p>
      <button type="button" className="no-print" onClick={onLook}>
        {words.look}
      </button>
    </div>
  );
}

/** Always the same one: another would close the runs that are open, with every note that is written. */
const noJobs: readonly string[] = [];

function View({ place, doors }: { readonly place: Place; readonly doors: LogDoors }) {
  switch (place.view) {
    case 'glance':
      return <GlanceView />;
    case 'steps':
      return <StepsView step={place.step ?? null} />;
    case 'people':
      return <PeopleView />;
    case 'learning':
      return <LearningView />;
    case 'orders':
      return <OrdersView />;
    case 'runs':
      return <RunsView jobs={place.jobs ?? noJobs} />;
    case 'fair':
      return <FairView />;
    case 'groups':
      return <GroupsView />;
    case 'sheet':
      return <SheetView person={place.person ?? null} />;
    case 'logs':
      return <LogsView doors={doors} />;
  }
}
