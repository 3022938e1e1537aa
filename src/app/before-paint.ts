import { loadSettings } from './settings.ts';
import { showTheme } from './theme.ts';

/*
 * A small script of its own that the browser runs before it paints anything: the opening of index.html stands in the person's language and
 * colours from its first moment on.
 */
const { language, theme } = loadSettings(localStorage, navigator.languages);
document.documentElement.lang = language;
showTheme(theme);
