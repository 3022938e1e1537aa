import { lazy, Suspense, useCallback, useEffect, useMemo, useState } from 'react';
import { Redirect, Route, Router, Switch } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import { Failed } from './failed.tsx';
import { StartPage } from './pages/start-page.tsx';
import type { SettingsAccess } from './settings-context.ts';
import { SettingsContext } from './settings-context.ts';
import type { Settings } from './settings.ts';
import { saveSettings } from './settings.ts';
import type { LoadedWords } from './words/words.ts';
import { useWordsOf, WordsContext } from './words/words.ts';

const WithSpeech = lazy(() => import('./with-speech.tsx').then((module) => ({ default: module.WithSpeech })));
const JobPage = lazy(() => import('./work/job-page.tsx').then((module) => ({ default: module.JobPage })));
const RecordPage = lazy(() => import('./pages/record-page.tsx').then((module) => ({ default: module.RecordPage })));
const HandOverPage = lazy(() => import('./record/hand-over-page.tsx').then((module) => ({ default: module.HandOverPage })));
const TakeInPage = lazy(() => import('./record/take-in-page.tsx').then((module) => ({ default: module.TakeInPage })));
const ToolsPage = lazy(() => import('./pages/tools-page.tsx').then((module) => ({ default: module.ToolsPage })));
const ReviewScreen = lazy(() => import('./review/review-screen.tsx').then((module) => ({ default: module.ReviewScreen })));
const AuthorPage = lazy(() => import('./author/author-page.tsx').then((module) => ({ default: module.AuthorPage })));
const CalculatorPage = lazy(() => import('./calculator/calculator-page.tsx').then((module) => ({ default: module.CalculatorPage })));
const ProcedureKitPage = lazy(() => import('./kit/kit-page.tsx').then((module) => ({ default: module.ProcedureKitPage })));
const JobKitPage = lazy(() => import('./kit/kit-page.tsx').then((module) => ({ default: module.JobKitPage })));
const EnrolPage = lazy(() => import('./enrol/enrol-page.tsx').then((module) => ({ default: module.EnrolPage })));
const SettingsPage = lazy(() => import('./pages/settings-page.tsx').then((module) => ({ default: module.SettingsPage })));

/** The composition root: settings, language, adapters and the way from screen to screen. */
export function App({ first, words }: { readonly first: Settings; readonly words: LoadedWords }) {
  const [settings, setSettings] = useState<Settings>(first);
  const [kept, setKept] = useState(true);
  const change = useCallback((part: Partial<Settings>) => {
    setSettings((before) => {
      const after = { ...before, ...part };
      setKept(saveSettings(localStorage, after));
      return after;
    });
  }, []);
  const access = useMemo<SettingsAccess>(() => ({ settings, change, kept }), [settings, change, kept]);
  const loaded = useWordsOf(settings.language, words);
  useTheme(settings.theme);
  useEffect(() => {
    document.documentElement.lang = loaded.language;
  }, [loaded.language]);
  return (
    <SettingsContext value={access}>
      <WordsContext value={loaded.words}>
        <Failed>
          <Router hook={useHashLocation}>
            <Suspense fallback={<p className="page">…</p>}>
              <Switch>
                <Route path="/">
                  <StartPage />
                </Route>
                <Route>
                  <WithSpeech>
                    <Switch>
                      <Route path="/job/:job">{({ job }) => <JobPage job={job} />}</Route>
                      <Route path="/record/:job">{({ job }) => <RecordPage job={job} />}</Route>
                      <Route path="/hand-over/:job">{({ job }) => <HandOverPage job={job} />}</Route>
                      <Route path="/take-in">
                        <TakeInPage />
                      </Route>
                      <Route path="/tools">
                        <ToolsPage />
                      </Route>
                      <Route path="/review">
                        <ReviewScreen />
                      </Route>
                      <Route path="/author">
                        <AuthorPage name={null} />
                      </Route>
                      <Route path="/author/:name">{({ name }) => <AuthorPage name={name} />}</Route>
                      <Route path="/calculator">
                        <CalculatorPage />
                      </Route>
                      <Route path="/kit/job/:job">{({ job }) => <JobKitPage job={job} />}</Route>
                      <Route path="/kit/:file/:build">{({ file, build }) => <ProcedureKitPage file={file} build={build} />}</Route>
                      <Route path="/enrol">
                        <EnrolPage />
                      </Route>
                      <Route path="/settings">
                        <SettingsPage />
                      </Route>
                      <Route>
                        <Redirect to="/" />
                      </Route>
                    </Switch>
                  </WithSpeech>
                </Route>
              </Switch>
            </Suspense>
          </Router>
        </Failed>
      </WordsContext>
    </SettingsContext>
  );
}

function useTheme(theme: Settings['theme']): void {
  useEffect(() => {
    const query = matchMedia('(prefers-color-scheme: light)');
    const show = () => {
      document.documentElement.dataset['theme'] = theme === 'system' ? (query.matches ? 'light' : 'dark') : theme;
    };
    show();
    query.addEventListener('change', show);
    return () => query.removeEventListener('change', show);
  }, [theme]);
}
