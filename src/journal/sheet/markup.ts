import { markupText } from '../formats/xml-text.ts';

/** HTML that is safe to be put into a page. Made by `html`, which escapes whatever is not markup already; by hand only of what is written in the code. */
export class Markup {
  readonly text: string;

  constructor(text: string) {
    this.text = text;
  }
}

export type Insert = Markup | string | number | null | readonly Insert[];

/** A template whose inserts are text unless they are markup themselves. Null is nothing; a list is its members. */
export function html(strings: TemplateStringsArray, ...inserts: readonly Insert[]): Markup {
  return new Markup(strings.reduce((before, string, index) => before + inserted(inserts[index - 1] ?? null) + string));
}

function inserted(insert: Insert): string {
  if (insert === null) return '';
  if (insert instanceof Markup) return insert.text;
  if (typeof insert === 'object') return insert.map(inserted).join('');
  return markupText(String(insert));
}
