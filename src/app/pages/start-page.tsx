import { lazy, startTransition, Suspense, useCallback, useEffect, useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { Journal } from '../../journal/port.ts';
import { isLanguage } from '../../phrasing/language.ts';
import type { Language } from '../../phrasing/language.ts';
import type { JobSummary } from '../../journal/summary.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import type { Problem } from '../../procedure/problem.ts';
import type { Refused } from '../library.ts';
import { breath } from '../platform/breath.ts';
import { newId, today } from '../platform/clock.ts';
import { holdNewJob } from '../platform/new-jobs.ts';
import { useSettings } from '../settings-context.ts';
import type { Settings } from '../settings.ts';
import { inShelfOrder, type ShelfLabel, shippedLabels } from '../shelf.ts';
import { useWords } from '../words/words.ts';
import { FileButton } from './file-button.tsx';
import { OtherLanguage } from './other-language.tsx';
import { StartOpening } from './start-opening.tsx';

// Its sentences come with everything that is said aloud, which the first screen does without.
const WrenchRemarks = lazy(() => import('../kit/wrench-remarks-panel.tsx').then((module) => ({ default: module.WrenchRemarks })));
// The journal comes right after the first paint: a phone shows what can be begun while it is read.
const openJournal = async (): Promise<Journal> => (await import('../services.ts')).theJournal();
// The reader of procedure files is most of the code here: it comes when a procedure is opened, or where there are files to be read.
const theLibrary = () => import('../library.ts');

// What is due is said in the words of the voice. Only where a job was signed.
const FollowUps = lazy(() => import('../record/follow-ups.tsx').then((module) => ({ default: module.FollowUps })));
// The foot of the page comes after the jobs, a part at a time: none of it is needed to go on with one.
const recordExtras = () => import('../record/home-extras.tsx');
const deviceParts = () => import('../device/device-panel.tsx');
const Damaged = lazy(() => recordExtras().then((module) => ({ default: module.Damaged })));
const HomeFoot = lazy(() => recordExtras().then((module) => ({ default: module.HomeFoot })));
const DevicePanel = lazy(() => deviceParts().then((module) => ({ default: module.DevicePanel })));

/** Choose what to work on: go on with a job, or start a procedure for one build. */
export function StartPage() {
  const words = useWords();
  const { settings } = useSettings();
  const [own, setOwn] = useState<readonly ShelfLabel[]>([]);
  const [refused, setRefused] = useState<readonly Refused[]>([]);
  const [jobs, setJobs] = useState<readonly JobSummary[]>([]);
  const [damaged, setDamaged] = useState<readonly string[]>([]);
  const [isRead, setRead] = useState(false);
  const [message, setMessage] = useState<string | null>(null);
  const readJobs = useCallback(async () => {
    const found = await (await openJournal()).jobs();
    startTransition(() => {
      if (found.ok) {
        setJobs(found.jobs);
        setDamaged(found.damaged);
      } else setMessage(words.trouble[found.code]);
    });
  }, [words]);
  const readOwn = useCallback(async () => {
    const { runnableFiles } = await import('../own-files.ts');
    const files = await runnableFiles().catch(() => []);
    const found = files.length === 0 ? { labels: [], refused: [] } : await (await theLibrary()).ownShelf();
    setOwn(found.labels);
    setRefused(found.refused);
  }, []);
  useEffect(() => {
    // One after the other, with breath between them: a slow phone takes presses meanwhile.
    const inTurn = async () => {
      // A start page without its jobs looks as if there were none: whoever has one open must not begin it anew.
      await readJobs().catch(() => setMessage(`${words.failed.title}. ${words.failed.text}`));
      await breath();
      for (const part of [readOwn, recordExtras, deviceParts]) {
        await part().catch(() => undefined);
        await breath();
      }
      startTransition(() => setRead(true));
    };
    void inTurn();
  }, [readJobs, readOwn, words]);

  const addFile = async (file: File) => {
    const outcome = await (await theLibrary()).shelve(file.name, await file.text());
    if (outcome.ok) setMessage(words.start.added(outcome.title));
    else setRefused([outcome.refused]);
    if (outcome.ok) await readOwn();
  };

  const open = jobs.filter((job) => job.status !== 'signed');
  const closed = jobs.filter((job) => job.status === 'signed');
  return (
    <main className="page">
      <StartOpening />
      {message === null ? null : <p role="status">{message}</p>}
      {damaged.length === 0 ? null : (
        <Suspense fallback={null}>
          <Damaged jobs={damaged} />
        </Suspense>
      )}
      {closed.length === 0 ? null : (
        <Suspense fallback={null}>
          <FollowUps jobs={closed} onLogged={() => void readJobs()} />
        </Suspense>
      )}
      {open.length === 0 ? null : (
        <section className="stack">
          <h2>{words.start.open}</h2>
          <div className="panels">
            {open.map((job) => (
              <JobPanel key={job.job} job={job} onRemoved={() => void readJobs()} />
            ))}
          </div>
        </section>
      )}
      <section className="stack">
        <h2>{words.start.procedures}</h2>
        {open.length === 0 && message === null ? <p className="quiet">{words.start.firstTime}</p> : null}
        <div className="panels">
          {inShelfOrder([...shippedLabels, ...own])
            .toSorted(ownLanguageFirst(settings.language))
            .map((label) => (
              <ProcedurePanel key={label.name} label={label} onRemoved={() => void readOwn()} />
            ))}
        </div>
        {refused.map((one) => (
          <Problems key={one.name} refused={one} />
        ))}
        <FileButton label={words.start.addFile} accept=".yaml,.yml" onFile={(file) => void addFile(file)} />
      </section>
      <section className="stack">
        <h2>{words.start.closed}</h2>
        {closed.length === 0 ? <p className="quiet">{words.start.noneClosed}</p> : null}
        <div className="panels">
          {closed.map((job) => (
            <JobPanel key={job.job} job={job} onRemoved={() => void readJobs()} />
          ))}
        </div>
      </section>
      {isRead ? (
        <Suspense fallback={null}>
          <HomeFoot />
          <DevicePanel />
        </Suspense>
      ) : null}
    </main>
  );
}

/** What somebody can read comes first; the order of the shelf stays otherwise. */
const ownLanguageFirst = (language: Language) => (a: ShelfLabel, b: ShelfLabel) =>
  Number(isLanguage(b.language, language)) - Number(isLanguage(a.language, language));

/** With what was recorded; the reader of recordings is fetched only now. */
async function removeHere(job: string): Promise<void> {
  const [journal, { removeJob }, { theRecordings }] = await Promise.all([
    openJournal(),
    import('../../journal/removal.ts'),
    import('../record/stores.ts'),
  ]);
  await removeJob(journal, theRecordings(), job);
}

function JobPanel({ job, onRemoved }: { readonly job: JobSummary; readonly onRemoved: () => void }) {
  const words = useWords();
  const { settings } = useSettings();
  const newest =
    job.newest === null ? '' : new Date(job.newest.wall).toLocaleString(settings.language, { dateStyle: 'medium', timeStyle: 'short' });
  return (
    <article className="panel">
      <h3>{job.title}</h3>
      <p className="quiet small">
        {[`${job.vehicle} · ${job.build}`, job.person, newest].filter((part) => part !== null && part !== '').join(' · ')}
      </p>
      {job.status === 'handed-over' ? <p className="warn">{words.start.handedOver}</p> : null}
      <div className="row">
        {job.status === 'signed' ? null : (
          <Link className="button primary" href={`/job/${job.job}`}>
            {words.start.goOn}
          </Link>
        )}
        <Link className="button" href={`/record/${job.job}`}>
          {words.start.record}
        </Link>
        <button
          type="button"
          onClick={() => {
            if (confirm(words.start.removeSure)) void removeHere(job.job).then(onRemoved);
          }}
        >
          {words.start.remove}
        </button>
      </div>
    </article>
  );
}

interface Opened {
  readonly plan: Plan;
  readonly fasteners: number;
}

/** The procedure of a label, planned for one build. */
async function planOf(name: string, build: string, settings: Settings): Promise<Opened | readonly Problem[]> {
  const library = await theLibrary();
  const file = await library.shelvedFile(name);
  const planned = file === null ? null : await library.planFor(file, build, settings, today());
  if (planned?.ok !== true) return planned?.problems ?? [];
  return { plan: planned.plan, fasteners: library.countFasteners(planned.plan) };
}

function ProcedurePanel({ label, onRemoved }: { readonly label: ShelfLabel; readonly onRemoved: () => void }) {
  const words = useWords();
  const { settings, change } = useSettings();
  const [, navigate] = useLocation();
  const [opened, setOpened] = useState(false);
  const [build, setBuild] = useState(label.builds[0]?.[0] ?? '');
  const [found, setFound] = useState<Opened | readonly Problem[]>([]);
  useEffect(() => {
    if (!opened) return;
    let current = true;
    void planOf(label.name, build, settings).then((one) => {
      if (current) setFound(one);
    });
    return () => {
      current = false;
    };
  }, [opened, label, build, settings]);
  const { plan, fasteners } = 'plan' in found ? found : { plan: null, fasteners: 0 };
  const problems = 'plan' in found ? [] : found;
  const start = () => {
    if (plan === null) return;
    const job = newId();
    holdNewJob(job, plan);
    navigate(`/job/${job}`);
  };
  return (
    <article className="panel">
      <h3 lang={label.language}>{label.title}</h3>
      <p className="quiet small">{[label.vehicle, label.isOwn ? words.start.own : null].filter((part) => part !== null).join(' · ')}</p>
      <OtherLanguage language={label.language} />
      {!opened ? (
        <div className="row">
          <button type="button" className="primary" onClick={() => setOpened(true)}>
            {words.start.begin}
          </button>
          {label.isOwn ? (
            <Link className="button" href={`/author/${encodeURIComponent(label.name)}`}>
              {words.start.edit}
            </Link>
          ) : null}
          {label.isOwn ? (
            <button
              type="button"
              onClick={() =>
                void theLibrary()
                  .then(({ unshelve }) => unshelve(label.name))
                  .then(onRemoved)
              }
            >
              {words.start.remove}
            </button>
          ) : null}
        </div>
      ) : (
        <form
          className="stack"
          onSubmit={(event) => {
            event.preventDefault();
            start();
          }}
        >
          <label>
            {words.start.build}
            <select value={build} onChange={(event) => setBuild(event.target.value)}>
              {label.builds.map(([id, name]) => (
                <option key={id} value={id}>
                  {`${id}: ${name}`}
                </option>
              ))}
            </select>
          </label>
          <label>
            {words.start.who}
            <input
              value={settings.person}
              maxLength={60}
              autoComplete="name"
              onChange={(event) => change({ person: event.target.value })}
            />
          </label>
          <label>
            {words.start.group}
            <input value={settings.group} maxLength={60} onChange={(event) => change({ group: event.target.value })} />
          </label>
          {plan === null ? null : (
            <p className="quiet small">
              {[
                words.start.steps(plan.steps.filter((step) => step.side === null).length),
                words.start.fasteners(fasteners),
                words.start.revision(plan.procedure.revision),
              ].join(' · ')}
            </p>
          )}
          <Suspense fallback={null}>{plan === null ? null : <WrenchRemarks plan={plan} />}</Suspense>
          {problems.length === 0 ? null : <Problems refused={{ name: label.name, problems }} />}
          <button type="submit" className="primary" disabled={plan === null}>
            {words.start.begin}
          </button>
          <Link className="button" href={`/kit/${encodeURIComponent(label.name)}/${encodeURIComponent(build)}`}>
            {words.start.kitList}
          </Link>
        </form>
      )}
    </article>
  );
}

export function Problems({ refused }: { readonly refused: Refused }) {
  const words = useWords();
  return (
    <div className="trouble" role="alert">
      <p>{words.start.refused(refused.name)}</p>
      <ul>
        {refused.problems.slice(0, 20).map((problem) => (
          <li key={`${problem.line}:${problem.column}:${problem.code}`}>{words.problem(problem.line, problem.column, problem)}</li>
        ))}
      </ul>
    </div>
  );
}
