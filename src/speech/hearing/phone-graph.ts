import type { Expansion, Grammar } from './jsgf.ts';

/** A word in one place of a grammar, in one of its pronunciations. */
export interface WordArc {
  readonly word: string;
  /** Phones as numbers of the network's outputs. */
  readonly phones: readonly number[];
  readonly from: number;
  readonly to: number;
}

/** A grammar as a graph of words between junctions. Junction 0 is the start, 1 the end. */
export interface PhoneGraph {
  readonly junctions: number;
  readonly arcs: readonly WordArc[];
  /** Ways from junction to junction without a word, in an order in which one pass over them reaches everything. */
  readonly leaps: readonly (readonly [from: number, to: number])[];
}

/** Lays the grammar out flat: every mention of a rule gets its own copy, so rules may not contain themselves. */
export function phoneGraph(grammar: Grammar, phonesOf: (word: string) => readonly (readonly number[])[]): PhoneGraph {
  const arcs: WordArc[] = [];
  const leaps: (readonly [number, number])[] = [];
  let junctions = 2;

  const lay = (expansion: Expansion, from: number, to: number, within: readonly string[]): void => {
    switch (expansion.kind) {
      case 'word':
        for (const phones of phonesOf(expansion.word)) arcs.push({ word: expansion.word, phones, from, to });
        return;
      case 'rule': {
        const body = grammar.rules.get(expansion.name);
        if (body === undefined) throw new Error(`Grammar: no rule <${expansion.name}>.`);
        if (within.includes(expansion.name)) throw new Error(`Grammar: rule <${expansion.name}> contains itself.`);
        lay(body, from, to, [...within, expansion.name]);
        return;
      }
      case 'sequence': {
        let at = from;
        expansion.parts.forEach((part, index) => {
          const next = index === expansion.parts.length - 1 ? to : junctions++;
          lay(part, at, next, within);
          at = next;
        });
        if (expansion.parts.length === 0) leaps.push([from, to]);
        return;
      }
      case 'choice':
        for (const option of expansion.options) lay(option, from, to, within);
        return;
      case 'repeat': {
        if (expansion.once) {
          lay(expansion.of, from, to, within);
          leaps.push([from, to]);
          return;
        }
        const before = junctions++;
        const after = junctions++;
        leaps.push([from, before], [after, to]);
        lay(expansion.of, before, after, within);
        leaps.push([after, before]);
        if (expansion.atLeast === 0) leaps.push([from, to]);
        return;
      }
    }
  };
  lay({ kind: 'rule', name: grammar.start }, 0, 1, []);
  return { junctions, arcs: sharedStarts(arcs), leaps: inOrder(leaps) };
}

/** The same word between the same junctions need be there only once. */
function sharedStarts(arcs: readonly WordArc[]): WordArc[] {
  const seen = new Map<string, WordArc>();
  for (const arc of arcs) seen.set(`${arc.from} ${arc.to} ${arc.word} ${arc.phones.join(' ')}`, arc);
  return [...seen.values()];
}

function inOrder(leaps: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  const ordered: (readonly [number, number])[] = [];
  const done = new Set<number>();
  const visit = (junction: number, path: ReadonlySet<number>): void => {
    if (done.has(junction)) return;
    for (const [from, to] of leaps) if (to === junction && !path.has(from)) visit(from, new Set([...path, from]));
    done.add(junction);
    ordered.push(...leaps.filter(([from]) => from === junction));
  };
  for (const [from, to] of leaps) {
    visit(from, new Set([from]));
    visit(to, new Set([to]));
  }
  return ordered;
}
