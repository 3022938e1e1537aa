/** No line breaks before the signs that French parts from the word by a space. */
export function typeset(shown: string): string {
  return shown
    .replace(/[ \u00a0]?([?!;:])(?=[\s»]|$)/gu, '\u00a0$1')
    .replace(/« /gu, '«\u00a0')
    .replace(/ »/gu, '\u00a0»');
}
