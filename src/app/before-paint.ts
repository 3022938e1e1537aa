import { openingAt } from './openings.ts';
import { loadSettings } from './settings.ts';
import { showTheme } from './theme.ts';

/*
 * A small script of its own that the browser runs before it paints anything: what stands in index.html is shown in the person's language and
 * colours from its first moment on, the top of the screen that the address asks for, or that a link is followed to meanwhile.
 */
const { language, theme } = loadSettings(localStorage, navigator.languages);
document.documentElement.lang = language;
showTheme(theme);
const showOpening = () => {
  document.documentElement.dataset['opening'] = openingAt(location.hash);
};
showOpening();
addEventListener('hashchange', showOpening);
