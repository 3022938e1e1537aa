/** What a rule of a grammar may expand to. */
export type Expansion =
  | { readonly kind: 'word'; readonly word: string }
  | { readonly kind: 'rule'; readonly name: string }
  | { readonly kind: 'sequence'; readonly parts: readonly Expansion[] }
  | { readonly kind: 'choice'; readonly options: readonly Expansion[] }
  | { readonly kind: 'repeat'; readonly of: Expansion; readonly atLeast: 0 | 1; readonly once: boolean };

export interface Grammar {
  /** The one public rule. */
  readonly start: string;
  readonly rules: ReadonlyMap<string, Expansion>;
}

/**
 * Reads JSGF (Java Speech Grammar Format 1.0): rules, alternatives, groups, options, `*`, `+`, comments.
 * Weights and tags are read over: nothing here needs them. Imports are not known.
 * A grammar comes from our own code, so one that does not parse is a bug and throws.
 */
export function parseJsgf(text: string): Grammar {
  const body = text
    .replace(/^﻿?#JSGF[^;]*;/, '')
    .replace(/\/\*[\s\S]*?\*\//g, ' ')
    .replace(/\/\/[^\n]*/g, ' ')
    .replace(/\bgrammar\s+[\w.]+\s*;/, ' ');
  const tokens = body.match(/<[^>]+>|"[^"]*"|\{[^}]*\}|\/[\d.eE+-]+\/|[=;|()[\]*+]|[^\s=;|()[\]*+<>{}/"]+/g) ?? [];
  const rules = new Map<string, Expansion>();
  let start: string | null = null;
  let at = 0;

  const next = (): string | undefined => tokens[at];
  const take = (expected: string): void => {
    if (tokens[at] !== expected) throw new Error(`Grammar: "${expected}" expected at "${tokens.slice(at, at + 5).join(' ')}".`);
    at++;
  };

  const choice = (): Expansion => {
    const options = [sequence()];
    while (next() === '|') {
      at++;
      options.push(sequence());
    }
    return options.length === 1 && options[0] !== undefined ? options[0] : { kind: 'choice', options };
  };

  const sequence = (): Expansion => {
    const parts: Expansion[] = [];
    for (;;) {
      const token = next();
      if (token === undefined || token === '|' || token === ')' || token === ']' || token === ';') break;
      if (token.startsWith('{') || token.startsWith('/')) at++;
      else parts.push(item(token));
    }
    return parts.length === 1 && parts[0] !== undefined ? parts[0] : { kind: 'sequence', parts };
  };

  const item = (token: string): Expansion => {
    at++;
    let found: Expansion;
    if (token === '(') {
      found = choice();
      take(')');
    } else if (token === '[') {
      found = { kind: 'repeat', of: choice(), atLeast: 0, once: true };
      take(']');
    } else if (token === '<NULL>') {
      found = { kind: 'sequence', parts: [] };
    } else if (token.startsWith('<')) {
      found = { kind: 'rule', name: token.slice(1, -1) };
    } else {
      const words = token.replaceAll('"', '').toLowerCase().split(/\s+/).filter(Boolean);
      found =
        words.length === 1 && words[0] !== undefined
          ? { kind: 'word', word: words[0] }
          : { kind: 'sequence', parts: words.map((word) => ({ kind: 'word', word })) };
    }
    for (let mark = next(); mark === '*' || mark === '+'; mark = next()) {
      at++;
      found = { kind: 'repeat', of: found, atLeast: mark === '*' ? 0 : 1, once: false };
    }
    return found;
  };

  while (at < tokens.length) {
    const isPublic = next() === 'public';
    if (isPublic) at++;
    const name = next()?.slice(1, -1) ?? '';
    at++;
    take('=');
    rules.set(name, choice());
    take(';');
    if (isPublic) start ??= name;
  }
  if (start === null) throw new Error('Grammar: no public rule.');
  return { start, rules };
}

/** The grammar with one more thing that may be said: a word alone. */
export function orAlone(grammar: Grammar, word: string): Grammar {
  const start = `${grammar.start}-or-${word}`;
  const options: readonly Expansion[] = [
    { kind: 'rule', name: grammar.start },
    { kind: 'word', word },
  ];
  return { start, rules: new Map([...grammar.rules, [start, { kind: 'choice', options }]]) };
}

/** The grammar in which a word with which sentences must begin may be left away. */
export function withOptionalStart(grammar: Grammar, word: string): Grammar {
  const eased = (expansion: Expansion): Expansion => {
    if (expansion.kind === 'choice') return { kind: 'choice', options: expansion.options.map(eased) };
    const [first, ...others] = expansion.kind === 'sequence' ? expansion.parts : [];
    if (first?.kind !== 'word' || first.word !== word) return expansion;
    return { kind: 'sequence', parts: [{ kind: 'repeat', of: first, atLeast: 0, once: true }, ...others] };
  };
  const start = grammar.rules.get(grammar.start);
  return start === undefined ? grammar : { start: grammar.start, rules: new Map([...grammar.rules, [grammar.start, eased(start)]]) };
}

/** The grammar as text again. */
export function printJsgf(grammar: Grammar): string {
  const lines = [...grammar.rules].map(
    ([name, expansion]) => `${name === grammar.start ? 'public ' : ''}<${name}> = ${printed(expansion)};`,
  );
  return `#JSGF V1.0;\ngrammar heard;\n${lines.join('\n')}\n`;
}

function printed(expansion: Expansion): string {
  switch (expansion.kind) {
    case 'word':
      return expansion.word;
    case 'rule':
      return `<${expansion.name}>`;
    case 'sequence':
      return expansion.parts.length === 0 ? '<NULL>' : expansion.parts.map(printed).join(' ');
    case 'choice':
      return `(${expansion.options.map(printed).join(' | ')})`;
    case 'repeat':
      if (expansion.once) return `[${printed(expansion.of)}]`;
      return `(${printed(expansion.of)})${expansion.atLeast === 0 ? '*' : '+'}`;
  }
}

/** Every word that the grammar can produce, in the order of its rules. */
export function wordsOf(grammar: Grammar): string[] {
  const words = new Set<string>();
  const visit = (expansion: Expansion): void => {
    if (expansion.kind === 'word') words.add(expansion.word);
    else if (expansion.kind === 'sequence') expansion.parts.forEach(visit);
    else if (expansion.kind === 'choice') expansion.options.forEach(visit);
    else if (expansion.kind === 'repeat') visit(expansion.of);
  };
  grammar.rules.forEach(visit);
  return [...words];
}
