import { toDOMString } from '../idl-types.ts';

/** Kept because the standard keeps it; the standard says that it has no effect, and it has none here. */
export class LocalSpeechGrammar {
  #src = '';
  #weight = 1;

  get src(): string {
    return this.#src;
  }

  set src(value: string) {
    this.#src = toDOMString(value);
  }

  get weight(): number {
    return this.#weight;
  }

  set weight(value: number) {
    this.#weight = Math.fround(value);
  }
}

export class LocalSpeechGrammarList {
  [index: number]: LocalSpeechGrammar;
  readonly #grammars: LocalSpeechGrammar[] = [];

  get length(): number {
    return this.#grammars.length;
  }

  item(index: number): LocalSpeechGrammar | null {
    return this.#grammars[index] ?? null;
  }

  addFromUri(src: string, weight = 1): void {
    const grammar = new LocalSpeechGrammar();
    grammar.src = src;
    grammar.weight = weight;
    this[this.#grammars.length] = grammar;
    this.#grammars.push(grammar);
  }

  addFromString(string: string, weight = 1): void {
    this.addFromUri(`data:application/xml,${encodeURIComponent(toDOMString(string))}`, weight);
  }
}
