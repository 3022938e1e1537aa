import type { Settings } from './settings.ts';

/** The media query of whoever wants light pages from their system. */
export const lightWanted = '(prefers-color-scheme: light)';

/** Gives the page its colours. */
export function showTheme(theme: Settings['theme']): void {
  document.documentElement.dataset['theme'] = theme === 'system' ? (matchMedia(lightWanted).matches ? 'light' : 'dark') : theme;
}
