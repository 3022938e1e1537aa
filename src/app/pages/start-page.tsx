import { lazy, Suspense, useCallback, useEffect, useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { Journal } from '../../journal/port.ts';
import { isLanguage } from '../../phrasing/language.ts';
import type { Language } from '../../phrasing/language.ts';
import type { JobSummary } from '../../journal/summary.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import type { Problem } from '../../procedure/problem.ts';
import type { Refused, Shelved } from '../library.ts';
import { newId, today } from '../platform/clock.ts';
import { holdNewJob } from '../platform/new-jobs.ts';
import { theJournal, useSettings } from '../services.ts';
import { useWords } from '../words/words.ts';
import { FileButton } from './file-button.tsx';
import { OtherLanguage } from './other-language.tsx';
import { PageTop } from './page-top.tsx';

// Its sentences come with everything that is said aloud, which the first screen does without.
const WrenchRemarks = lazy(() => import('../kit/wrench-remarks-panel.tsx').then((module) => ({ default: module.WrenchRemarks })));
const DevicePanel = lazy(() => import('../device/device-panel.tsx').then((module) => ({ default: module.DevicePanel })));

type Library = typeof import('../library.ts');

// What is due and the foot of the page come after the jobs: neither is needed to go on with one.
const Due = lazy(() => import('../record/home-extras.tsx').then((module) => ({ default: module.Due })));
const Damaged = lazy(() => import('../record/home-extras.tsx').then((module) => ({ default: module.Damaged })));
const HomeFoot = lazy(() => import('../record/home-extras.tsx').then((module) => ({ default: module.HomeFoot })));

/** Choose what to work on: go on with a job, or start a procedure for one build. */
export function StartPage() {
  const words = useWords();
  const { settings } = useSettings();
  const journal = theJournal();
  const [library, setLibrary] = useState<Library | null>(null);
  const [shelf, setShelf] = useState<readonly Shelved[] | null>(null);
  const [refused, setRefused] = useState<readonly Refused[]>([]);
  const [jobs, setJobs] = useState<readonly JobSummary[]>([]);
  const [damaged, setDamaged] = useState<readonly string[]>([]);
  const [message, setMessage] = useState<string | null>(null);
  const readJobs = useCallback(async () => {
    const found = await journal.jobs();
    if (found.ok) {
      setJobs(found.jobs);
      setDamaged(found.damaged);
    } else setMessage(words.trouble[found.code]);
  }, [journal, words]);
  const readShelf = useCallback(async (from: Library) => {
    const found = await from.loadShelf();
    setShelf(found.shelf);
    setRefused(found.refused);
  }, []);
  useEffect(() => {
    void readJobs();
    // The reader of procedure files is most of the code here; the jobs under way need none of it.
    void import('../library.ts').then((module) => {
      setLibrary(module);
      return readShelf(module);
    });
  }, [readJobs, readShelf]);

  const addFile = async (file: File) => {
    if (library === null) return;
    const outcome = await library.shelve(file.name, await file.text());
    if (outcome.ok) setMessage(words.start.added(outcome.title));
    else setRefused([outcome.refused]);
    if (outcome.ok) await readShelf(library);
  };

  const open = jobs.filter((job) => job.status !== 'signed');
  const closed = jobs.filter((job) => job.status === 'signed');
  return (
    <main className="page">
      <PageTop title={words.name} home />
      <p>{words.tagline}</p>
      <p className="warn">{words.safety}</p>
      {message === null ? null : <p role="status">{message}</p>}
      {damaged.length === 0 ? null : (
        <Suspense fallback={null}>
          <Damaged jobs={damaged} />
        </Suspense>
      )}
      {closed.length === 0 ? null : (
        <Suspense fallback={null}>
          <Due jobs={closed} onChanged={() => void readJobs()} />
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
        {open.length === 0 ? <p className="quiet">{words.start.firstTime}</p> : null}
        {shelf === null ? <p className="quiet">{words.start.loading}</p> : null}
        <div className="panels">
          {shelf
            ?.toSorted(ownLanguageFirst(settings.language))
            .map((shelved) =>
              library === null ? null : (
                <ProcedurePanel key={shelved.file.name} shelved={shelved} library={library} onRemoved={() => void readShelf(library)} />
              ),
            )}
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
      <Suspense fallback={null}>
        <HomeFoot />
        <DevicePanel />
      </Suspense>
    </main>
  );
}

/** What somebody can read comes first; the order of the shelf stays otherwise. */
const ownLanguageFirst = (language: Language) => (a: Shelved, b: Shelved) =>
  Number(isLanguage(b.file.language, language)) - Number(isLanguage(a.file.language, language));

/** With what was recorded; the reader of recordings is fetched only now. */
async function removeHere(journal: Journal, job: string): Promise<void> {
  const [{ removeJob }, { theRecordings }] = await Promise.all([import('../../journal/removal.ts'), import('../record/stores.ts')]);
  await removeJob(journal, theRecordings(), job);
}

function JobPanel({ job, onRemoved }: { readonly job: JobSummary; readonly onRemoved: () => void }) {
  const words = useWords();
  const journal = theJournal();
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
            if (confirm(words.start.removeSure)) void removeHere(journal, job.job).then(onRemoved);
          }}
        >
          {words.start.remove}
        </button>
      </div>
    </article>
  );
}

function ProcedurePanel({
  shelved,
  library,
  onRemoved,
}: {
  readonly shelved: Shelved;
  readonly library: Library;
  readonly onRemoved: () => void;
}) {
  const words = useWords();
  const { settings, change } = useSettings();
  const [, navigate] = useLocation();
  const [opened, setOpened] = useState(false);
  const [build, setBuild] = useState([...shelved.file.builds.keys()][0] ?? '');
  const [plan, setPlan] = useState<Plan | null>(null);
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  useEffect(() => {
    if (!opened) return;
    let current = true;
    void library.planFor(shelved.file, build, settings, today()).then((planned) => {
      if (!current) return;
      setPlan(planned.ok ? planned.plan : null);
      setProblems(planned.ok ? [] : planned.problems);
    });
    return () => {
      current = false;
    };
  }, [opened, library, shelved, build, settings]);
  const start = () => {
    if (plan === null) return;
    const job = newId();
    holdNewJob(job, plan);
    navigate(`/job/${job}`);
  };
  return (
    <article className="panel">
      <h3 lang={shelved.file.language}>{shelved.file.title}</h3>
      <p className="quiet small">
        {[shelved.file.vehicle, shelved.isOwn ? words.start.own : null].filter((part) => part !== null).join(' · ')}
      </p>
      <OtherLanguage language={shelved.file.language} />
      {!opened ? (
        <div className="row">
          <button type="button" className="primary" onClick={() => setOpened(true)}>
            {words.start.begin}
          </button>
          {shelved.isOwn ? (
            <Link className="button" href={`/author/${encodeURIComponent(shelved.file.name)}`}>
              {words.start.edit}
            </Link>
          ) : null}
          {shelved.isOwn ? (
            <button type="button" onClick={() => void library.unshelve(shelved.file.name).then(onRemoved)}>
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
              {[...shelved.file.builds].map(([id, name]) => (
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
                words.start.fasteners(library.countFasteners(plan)),
                words.start.revision(plan.procedure.revision),
              ].join(' · ')}
            </p>
          )}
          <Suspense fallback={null}>{plan === null ? null : <WrenchRemarks plan={plan} />}</Suspense>
          {problems.length === 0 ? null : <Problems refused={{ name: shelved.file.name, problems }} />}
          <button type="submit" className="primary" disabled={plan === null}>
            {words.start.begin}
          </button>
          <Link className="button" href={`/kit/${encodeURIComponent(shelved.file.name)}/${encodeURIComponent(build)}`}>
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
