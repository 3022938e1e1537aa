import { Suspense, useCallback, useEffect, useMemo, useState } from 'react';
import { Redirect, Route, Router, Switch } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import { Failed } from './failed.tsx';
import { StartPage } from './pages/start-page.tsx';
import {
  BenchPage,
  CalculatorPage,
  EnrolPage,
  HandOverPage,
  JobKitPage,
  JobPage,
  LibraryView,
  ProcedureKitPage,
  RecordPage,
  ReviewScreen,
  SettingsPage,
  TakeInPage,
  ToolsPage,
  WithSpeech,
} from './screens.ts';
import type { SettingsAccess } from './settings-context.ts';
import { SettingsContext } from './settings-context.ts';
import type { Settings } from './settings.ts';
import { saveSettings } from './settings.ts';
import { lightWanted, showTheme } from './theme.ts';
import type { LoadedWords } from './words/words.ts';
import { useWordsOf, WordsContext } from './words/words.ts';

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
                <Route path="/tools">
                  <ToolsPage />
                </Route>
                <Route path="/calculator">
                  <CalculatorPage />
                </Route>
                <Route path="/author">
                  <LibraryView />
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
                      <Route path="/review">
                        <ReviewScreen />
                      </Route>
                      <Route path="/author/:name">{({ name }) => <BenchPage key={name} name={name} />}</Route>
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
    const show = () => showTheme(theme);
    show();
    const query = matchMedia(lightWanted);
    query.addEventListener('change', show);
    return () => query.removeEventListener('change', show);
  }, [theme]);
}
