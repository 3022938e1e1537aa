import { createElement } from 'react';
import type { FunctionComponent } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { Router } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import type { Language } from '../phrasing/language.ts';
import { languages } from '../phrasing/language.ts';
import { LibraryOpening } from './author/library-opening.tsx';
import { CalculatorOpening } from './calculator/calculator-opening.tsx';
import type { OpeningName } from './openings.ts';
import { openingNames } from './openings.ts';
import { SettingsOpening } from './pages/settings-opening.tsx';
import { StartOpening } from './pages/start-opening.tsx';
import { ReviewOpening } from './review/review-opening.tsx';
import { SettingsContext } from './settings-context.ts';
import { defaultSettings } from './settings.ts';
import { ToolsOpening } from './tools/tools-opening.tsx';
import { loadWords, WordsContext } from './words/words.ts';

/** Each by the class of its own page, so that nothing moves when the page takes its place. */
const openings: Readonly<Record<OpeningName, readonly [FunctionComponent, string]>> = {
  start: [StartOpening, 'page'],
  tools: [ToolsOpening, 'page'],
  calculator: [CalculatorOpening, 'page'],
  author: [LibraryOpening, 'page at-desk'],
  review: [ReviewOpening, 'page at-desk'],
  settings: [SettingsOpening, 'page'],
};

/**
 * What index.html shows until the script has come, drawn by the screens' own parts when the app is built: a `main` for each screen and
 * language, of which only the one that the root element names is shown (before-paint.ts).
 */
export async function openingsInPage(): Promise<string> {
  const drawn = await Promise.all(languages.flatMap((language) => openingNames.map((name) => drawnOpening(name, language))));
  const shown = languages.flatMap((language) =>
    openingNames.map((name) => `[lang="${language}"][data-opening="${name}"] > body main[lang="${language}"][data-opening="${name}"]`),
  );
  return [`<style>main[data-opening] { display: none; } ${shown.join(', ')} { display: grid; }</style>`, ...drawn].join('\n      ');
}

async function drawnOpening(name: OpeningName, language: Language): Promise<string> {
  const { words } = await loadWords(language);
  const [opening, className] = openings[name];
  const settings = { settings: { ...defaultSettings, language }, change: () => undefined, kept: true };
  const routed = createElement(Router, { hook: useHashLocation, ssrPath: '/', children: createElement(opening) });
  const inWords = createElement(WordsContext, { value: words }, routed);
  const markup = renderToStaticMarkup(createElement(SettingsContext, { value: settings }, inWords));
  return `<main class="${className}" lang="${language}" data-opening="${name}">${markup}</main>`;
}
