/**
 * The screens whose top stands in index.html before any script has come, by the whole of their address; openings-in-page.ts draws them when
 * the app is built. Any other address shows the start page's until its screen is there.
 */
export const openingNames = ['start', 'tools', 'calculator', 'author', 'review', 'settings'] as const;
export type OpeningName = (typeof openingNames)[number];

export function openingAt(hash: string): OpeningName {
  const [, path] = /^#\/(\w+)\/?$/u.exec(hash) ?? [];
  return openingNames.find((name) => name === path) ?? 'start';
}
