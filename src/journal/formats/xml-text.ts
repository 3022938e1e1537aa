/** What XML 1.0 cannot carry at all, escaped or not: most control characters, halves of surrogate pairs, two non-characters. */
const impossible = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;

const escapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
  // A parser turns these into spaces in an attribute unless they are written as numbers.
  '\t': '&#9;',
  '\n': '&#10;',
  '\r': '&#13;',
};

/** Text as the contents of an attribute or an element, in XML and in HTML alike. */
export function markupText(text: string): string {
  return text.replace(impossible, '\uFFFD').replace(/[&<>"'\t\n\r]/gu, (character) => escapes[character] ?? '');
}
