/** What is left of an utterance when the tool's name is taken off its beginning, or null when it does not begin with a name. */
export function afterName(text: string, names: readonly string[]): string | null {
  const words = text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}' ]/gu, ' ')
    .replace(/\s+/gu, ' ')
    .trim();
  for (const name of names) {
    if (words === name) return '';
    if (words.startsWith(`${name} `)) return words.slice(name.length + 1);
  }
  return null;
}
