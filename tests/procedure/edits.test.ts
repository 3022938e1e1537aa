import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import { editText, type ProcedureEdit } from '../../src/procedure/edits.ts';
import { type KeyPath, nodeAt, pathAt, plainOf } from '../../src/procedure/plain-tree.ts';
import { readYaml, type YamlNode } from '../../src/procedure/yaml-tree.ts';

const folder = `${import.meta.dirname}/../../procedures`;
const shipped = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => [name, readFileSync(`${folder}/${name}`, 'utf8')] as const);

const sample = `# A head of its own.
undertray: 1
title: Practice   # as said aloud
builds: { K: short, M: long }

stages:
  # The first stage.
  - id: one
    title: First
    steps:
      # What comes first.
      - id: a
        do: Take it off.   # gently

      - id: b
        do: 'Put it back.'
        uses: [rags, cleaner]
        fasteners:
          - name: carrier bolt
            count: 2
            torque: { build K: 40 N·m ±2, build M: 70 N·m ±4 }

  - id: two
    title: >
      Second
      stage
    steps:
      - id: c
        do: Look at it.
`;

function edited(text: string, ...edits: ProcedureEdit[]): string {
  const result = editText(text, edits);
  if (!result.ok) throw new Error(result.code);
  return result.text;
}

/** The lines that differ, old ones with "-", new ones with "+". Enough for texts where few do. */
function difference(before: string, after: string): readonly string[] {
  const [old, now] = [before.split('\n'), after.split('\n')];
  let head = 0;
  while (head < old.length && old[head] === now[head]) head++;
  let tail = 0;
  while (tail < Math.min(old.length, now.length) - head && old.at(-1 - tail) === now.at(-1 - tail)) tail++;
  return [...old.slice(head, old.length - tail).map((line) => `-${line}`), ...now.slice(head, now.length - tail).map((line) => `+${line}`)];
}

const change = (...edits: ProcedureEdit[]) => difference(sample, edited(sample, ...edits));

describe('setting a value', () => {
  it('leaves the comment beside it and every other letter alone', () => {
    expect(change({ kind: 'set', path: ['title'], value: 'Refit the carrier' })).toEqual([
      '-title: Practice   # as said aloud',
      '+title: Refit the carrier   # as said aloud',
    ]);
    expect(change({ kind: 'set', path: ['stages', 0, 'steps', 0, 'do'], value: 'Take it off: slowly.' })).toEqual([
      '-        do: Take it off.   # gently',
      '+        do: "Take it off: slowly."   # gently',
    ]);
  });

  it('keeps the quotes that were there', () => {
    expect(change({ kind: 'set', path: ['stages', 0, 'steps', 1, 'do'], value: 'Hang it.' })[1]).toBe("+        do: 'Hang it.'");
  });

  it('changes one build and leaves the other', () => {
    const path: KeyPath = ['stages', 0, 'steps', 1, 'fasteners', 0, 'torque', 'build M'];
    expect(change({ kind: 'set', path, value: '75 N·m ±4' })[1]).toBe('+            torque: { build K: 40 N·m ±2, build M: 75 N·m ±4 }');
  });

  it('quotes what would break a value in braces', () => {
    const path: KeyPath = ['builds', 'K'];
    expect(parse(edited(sample, { kind: 'set', path, value: 'short, {low}' }))).toMatchObject({ builds: { K: 'short, {low}', M: 'long' } });
  });

  it('writes one value for each build, and one for all again', () => {
    const path: KeyPath = ['stages', 0, 'steps', 1, 'fasteners', 0, 'count'];
    const apart = edited(sample, { kind: 'set', path, value: { 'build K': 2, 'build M': 3 } });
    expect(difference(sample, apart)[1]).toBe('+            count: { build K: 2, build M: 3 }');
    expect(edited(apart, { kind: 'set', path, value: 2 })).toBe(sample);
  });

  it('replaces a folded text by a line', () => {
    expect(change({ kind: 'set', path: ['stages', 1, 'title'], value: 'Second' })).toEqual([
      '-    title: >',
      '-      Second',
      '-      stage',
      '+    title: Second',
    ]);
  });

  it('puts a new key where the format has it', () => {
    const order = ['id', 'do', 'why', 'where', 'cautions', 'uses', 'fasteners'];
    expect(change({ kind: 'set', path: ['stages', 0, 'steps', 1, 'why'], value: 'It holds.', order })).toEqual(['+        why: It holds.']);
    expect(change({ kind: 'set', path: ['stages', 0, 'steps', 0, 'where'], value: 'Behind.', order })).toEqual(['+        where: Behind.']);
  });

  it('fills a key that was left empty', () => {
    expect(edited('a:\nb: 2\n', { kind: 'set', path: ['a'], value: 'x' })).toBe('a: x\nb: 2\n');
  });
});

describe('lists', () => {
  it('takes a new entry at the end, in the manner of the file', () => {
    expect(change({ kind: 'insert', path: ['stages', 0, 'steps'], index: 2, value: { id: 'new', do: 'Look.', uses: ['rags'] } })).toEqual([
      '+      - id: new',
      '+        do: Look.',
      '+        uses: [rags]',
      '+',
    ]);
  });

  it('takes one in between, above the comment of the next', () => {
    expect(change({ kind: 'insert', path: ['stages', 0, 'steps'], index: 0, value: { id: 'new', do: 'Look.' } })).toEqual([
      '+      - id: new',
      '+        do: Look.',
      '+',
    ]);
  });

  it('begins where there was none', () => {
    const order = ['id', 'do', 'cautions'];
    expect(
      change({ kind: 'insert', path: ['stages', 0, 'steps', 0, 'cautions'], index: 0, value: { signal: 'WARNING', text: 'Hot.' }, order }),
    ).toEqual(['+        cautions:', '+          - signal: WARNING', '+            text: Hot.']);
  });

  it('moves an entry with the comment above it', () => {
    const text = edited(sample, { kind: 'move', path: ['stages', 0, 'steps'], from: 0, to: 1 });
    expect(text.slice(text.indexOf('    steps:'), text.indexOf('  - id: two'))).toBe(`    steps:
      - id: b
        do: 'Put it back.'
        uses: [rags, cleaner]
        fasteners:
          - name: carrier bolt
            count: 2
            torque: { build K: 40 N·m ±2, build M: 70 N·m ±4 }

      # What comes first.
      - id: a
        do: Take it off.   # gently

`);
    expect(edited(text, { kind: 'move', path: ['stages', 0, 'steps'], from: 1, to: 0 })).toBe(sample);
  });

  it('loses an entry, and its key with the last one', () => {
    const without = edited(sample, { kind: 'remove', path: ['stages', 0, 'steps', 0] });
    expect(without).not.toContain('What comes first');
    expect(without).toContain('# The first stage.');
    expect(change({ kind: 'remove', path: ['stages', 0, 'steps', 1, 'fasteners', 0] })).toEqual([
      '-        fasteners:',
      '-          - name: carrier bolt',
      '-            count: 2',
      '-            torque: { build K: 40 N·m ±2, build M: 70 N·m ±4 }',
    ]);
  });

  it('edits lists in brackets', () => {
    const path: KeyPath = ['stages', 0, 'steps', 1, 'uses'];
    expect(change({ kind: 'insert', path, index: 2, value: 'grease' })[1]).toBe('+        uses: [rags, cleaner, grease]');
    expect(change({ kind: 'remove', path: [...path, 0] })[1]).toBe('+        uses: [cleaner]');
    expect(change({ kind: 'move', path, from: 1, to: 0 })[1]).toBe('+        uses: [cleaner, rags]');
  });
});

it('refuses a text that is no YAML, and a place that is not there', () => {
  expect(editText('a: [', [{ kind: 'set', path: ['a'], value: 1 }])).toEqual({ ok: false, code: 'not-yaml' });
  expect(editText('a: *b\n', [{ kind: 'set', path: ['a'], value: 1 }])).toEqual({ ok: false, code: 'not-yaml' });
  expect(editText(sample, [{ kind: 'remove', path: ['stages', 7] }])).toEqual({ ok: false, code: 'no-such-place' });
  expect(editText(sample, [{ kind: 'move', path: ['stages'], from: 0, to: 2 }])).toEqual({ ok: false, code: 'no-such-place' });
});

it('writes the whole anew where the text cannot be cut, and keeps the comments', () => {
  const odd = '# Head\nstages:\n- - a\n  - b\n- # in between\n  - c\n';
  const text = edited(odd, { kind: 'move', path: ['stages', 0], from: 0, to: 1 });
  expect(parse(text)).toEqual({ stages: [['b', 'a'], ['c']] });
  expect(text).toContain('# Head');
});

function* places(node: YamlNode, path: KeyPath = []): Generator<readonly [KeyPath, YamlNode]> {
  yield [path, node];
  if (node.kind === 'list') for (const [index, item] of node.items.entries()) yield* places(item, [...path, index]);
  if (node.kind === 'map') for (const { key, value } of node.entries) yield* places(value, [...path, key]);
}

// The short ones: each edit reads the whole file again.
describe.each(shipped.filter(([, text]) => text.length < 16_000))('in %s', (name, text) => {
  const { root } = readYaml(text, name);
  const all = [...places(root!)];
  const scalars = all.filter(([, node]) => node.kind === 'value');
  const lists = all.filter(([, node]) => node.kind === 'list' && node.items.length > 1);
  const values = fc.oneof(
    fc.string(),
    fc.constantFrom('yes', '8', 'a: b', '- x', '# no', "it's", '"', ' x ', '{', '50%', 'null', '~', '*a', '40 N·m ±2, dry'),
    fc.integer({ min: -5, max: 500 }),
    fc.boolean(),
  );

  it('any value can be set, says then what was set, and touches one line', () => {
    fc.assert(
      fc.property(fc.constantFrom(...scalars), values, ([path], value) => {
        const after = edited(text, { kind: 'set', path, value });
        expect(plainOf(nodeAt(readYaml(after, name).root!, path)!)).toBe(value);
        expect(difference(text, after).filter((line) => line.startsWith('-')).length).toBeLessThanOrEqual(1);
      }),
      { numRuns: 12 },
    );
  });

  it('any entry can be moved and moved back, letter by letter', () => {
    fc.assert(
      fc.property(fc.constantFrom(...lists), fc.nat(), fc.nat(), ([path, list], one, other) => {
        const length = list.kind === 'list' ? list.items.length : 1;
        const [from, to] = [one % length, other % length];
        const after = edited(text, { kind: 'move', path, from, to });
        expect(edited(after, { kind: 'move', path, from: to, to: from })).toBe(text);
      }),
      { numRuns: 8 },
    );
  });

  it('any key or entry can be taken away, and every line that stays is as it was', () => {
    fc.assert(
      fc.property(fc.constantFrom(...all.filter(([path]) => path.length > 0)), ([path]) => {
        const after = edited(text, { kind: 'remove', path });
        const lines = new Set(text.split('\n').map((line) => line.trim().replace(/^- /, '')));
        const strange = after.split('\n').filter((line) => !lines.has(line.trim().replace(/^- /, '')) && !/[[{]/.test(line));
        expect(strange).toEqual([]);
      }),
      { numRuns: 12 },
    );
  });

  it('a cursor is found at the value whose text begins there', () => {
    for (const [path, node] of scalars) if (node.kind === 'value' && node.value !== null) expect(pathAt(root!, node.offset)).toEqual(path);
  });
});
