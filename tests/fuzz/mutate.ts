/** A small seeded generator (mulberry32, public domain): the same seed gives the same inputs on every machine. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Carries a mark that must never come out of anything as markup. */
export const markup = '"><img src=x onerror=fuzzed(1)><script>fuzzed(2)</script>';

const hostile = [
  markup,
  '__proto__',
  'constructor',
  'prototype',
  '{"__proto__":{"fuzzed":1}}',
  '__proto__: {fuzzed: 1}\n',
  'constructor: {prototype: {fuzzed: 1}}\n',
  '"constructor":{"prototype":{"fuzzed":1}},',
  'javascript:fuzzed(3)',
  '${7*7}',
  '<!--',
  ']]>',
  '&a [*a, *a]',
  '*a',
  '!!js/function "function(){}"',
  '!!binary AAAA',
  '- - - - - - - - ',
  '[[[[[[[[[[[[[[[[',
  '{{{{{{{{{{{{{{{{',
  '((((((((((((((((',
  '\u0000',
  '\ufeff',
  '\u2028',
  '\ud800',
  '\ue000fr\ue002',
  '😀'.repeat(20),
  'a'.repeat(400),
  '9'.repeat(400),
  '-0',
  '1e999',
  '-1e999',
  'NaN',
  '.inf',
  '0x7fffffff',
  '9007199254740993',
  'null',
  'true',
  '\n',
  '\r\n',
  '\t',
  '  ',
  ': ',
  '- ',
  ',',
  '"',
  "'",
  '\\',
  '%',
  'T',
  'build K: ',
  '00:00:01.000 --> 00:00:00.000\n',
  '999999:99:99,999 --> x\n',
  '<00:00:01.000><c>',
  '47 N·m, no, 74, no, 47',
];

/** A text changed in one to six places: pieces taken out, doubled, moved, bytes flipped, hostile pieces put in. */
export function mutated(text: string, others: readonly string[], random: () => number): string {
  let changed = text;
  const at = (length: number) => Math.floor(random() * (length + 1));
  const pick = <T>(from: readonly T[]): T | undefined => from[Math.floor(random() * from.length)];
  for (let count = 1 + Math.floor(random() * 6); count > 0; count -= 1) {
    const from = at(changed.length);
    const length = Math.floor(random() ** 3 * 200);
    const piece = changed.slice(from, from + length);
    const rest = changed.slice(from + length);
    const before = changed.slice(0, from);
    switch (Math.floor(random() * 7)) {
      case 0:
        changed = before + rest;
        break;
      case 1:
        changed = before + piece + piece + rest;
        break;
      case 2:
        changed = before + (pick(hostile) ?? '') + changed.slice(from);
        break;
      case 3:
        changed = before + (pick(hostile) ?? '') + rest;
        break;
      case 4:
        changed = before + String.fromCharCode(Math.floor(random() * 256)) + changed.slice(from + 1);
        break;
      case 5: {
        const other = pick(others) ?? '';
        const start = at(other.length);
        changed = before + other.slice(start, start + length) + rest;
        break;
      }
      default: {
        // A word of the file itself in another place: right in form, wrong in sense.
        const words = changed.slice(from, from + 2000).split(/(?<=[\s,:])/u);
        changed = before + (pick(words) ?? '') + changed.slice(from);
      }
    }
  }
  return changed;
}
