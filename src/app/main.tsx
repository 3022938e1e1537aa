import { startTransition, StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { breath } from './platform/breath.ts';
import { fetchAhead } from './screens.ts';
import { loadSettings } from './settings.ts';
import { loadWords } from './words/words.ts';
import './style.css';

// Not awaited here: what is fetched imports from this file, and would wait for its end.
void begin();

async function begin(): Promise<void> {
  const root = document.getElementById('app');
  if (root === null) throw new Error('index.html has no #app');
  const screen = fetchAhead(location.hash);
  await breath();
  const settings = loadSettings(localStorage, navigator.languages);
  // A language that cannot be fetched must not keep anybody from working: the words in the page serve.
  const words = await loadWords(settings.language).catch(() => loadWords('en'));
  // What index.html shows stands until there is a screen to take its place.
  await screen;
  await breath();
  // As a transition, so that a slow phone can paint and be pressed between two parts of the work.
  startTransition(() => {
    createRoot(root).render(
      <StrictMode>
        <App first={settings} words={words} />
      </StrictMode>,
    );
  });
  // The service worker is made by the build. It fetches a lot, so it lets the first screen go first.
  if (import.meta.env.PROD) setTimeout(() => void import('./device/offline.ts').then(({ theOffline }) => theOffline().start()), 2_000);
}
