import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { changeText } from '../../../src/app/author/versions/change-text.ts';
import { compareVersions } from '../../../src/procedure/changes.ts';
import { editText, type ProcedureEdit } from '../../../src/procedure/edits.ts';
import type { Language } from '../../../src/phrasing/language.ts';

const flange = readFileSync(`${import.meta.dirname}/../../../procedures/bench-flange.yaml`, 'utf8');

function told(before: string, after: string, language: Language = 'en'): readonly string[] {
  const compared = compareVersions(before, after);
  if (!compared.ok) throw new Error(compared.unreadable);
  return compared.changes.map((change) => changeText(change, language));
}

function after(...edits: ProcedureEdit[]): string {
  const edited = editText(flange, edits);
  if (!edited.ok) throw new Error(edited.code);
  return edited.text;
}

const group = ['stages', 1, 'steps', 0, 'fasteners', 0] as const;

describe('what changed between two versions, in plain words', () => {
  it('says nothing of comments, spacing and the order of keys', () => {
    expect(told(flange, flange.replace('vehicle:', '# A note.\n\nvehicle:').replace(/^language: en\n/m, '') + '\nlanguage: en\n')).toEqual(
      [],
    );
  });

  it('tells a torque with its unit said once', () => {
    expect(told(flange, after({ kind: 'set', path: [...group, 'torque', 'build K'], value: '45 N·m ±2' }))).toEqual([
      'Step 4: torque of the flange bolts on build K changed from 40 to 45 newton metres (±2).',
    ]);
    const plain = after({ kind: 'set', path: [...group, 'torque'], value: '47 N·m' });
    expect(told(plain, plain.replace('47 N·m', '50 N·m'))).toEqual([
      'Step 4: torque of the flange bolts changed from 47 to 50 newton metres.',
    ]);
    expect(told(plain, plain.replace('47 N·m', '35 lbf·ft'))).toEqual([
      'Step 4: torque of the flange bolts changed from 47 newton metres to 35 foot pounds.',
    ]);
  });

  it('tells a count, a sentence and what came or went', () => {
    expect(told(flange, after({ kind: 'set', path: [...group, 'count'], value: 10 }))).toEqual([
      'Step 4: number of the flange bolts changed from 8 to 10.',
    ]);
    expect(told(flange, after({ kind: 'remove', path: [...group, 'condition'] }))).toEqual([
      'Step 4: condition of the thread of the flange bolts taken away (it was “threads dry”).',
    ]);
    expect(told(flange, after({ kind: 'set', path: ['title'], value: 'Flange' }))).toEqual([
      'Title changed from “Eight-bolt flange exercise” to “Flange”.',
    ]);
    expect(told(flange, after({ kind: 'remove', path: group }))).toEqual(['Step 4: the flange bolts removed.']);
    expect(told(flange, after({ kind: 'remove', path: ['stages', 0, 'steps', 2, 'stop signs', 0] }))).toEqual([
      'Step 3: the stop sign “Does a bolt bind before its fourth turn?” removed.',
    ]);
  });

  it('tells a stage that came with its steps once', () => {
    const stage = { id: 'clear-up', title: 'Clear up', steps: [{ id: 'wipe-down', do: 'Wipe the bench.' }] };
    const more = after({ kind: 'insert', path: ['stages'], index: 2, value: stage });
    expect(told(flange, more)).toEqual(['Stage 3, “Clear up” added with its one step.']);
    expect(told(more, flange)).toEqual(['Stage 3, “Clear up” removed with its one step.']);
  });

  it('knows a step again where it went, and tells the one that moved, not those that made room', () => {
    expect(told(flange, after({ kind: 'move', path: ['stages', 1, 'steps'], from: 0, to: 3 }))).toEqual(['Step 7 moved.']);
    const stepsOf = after({ kind: 'remove', path: ['stages', 0, 'steps', 2] });
    const elsewhere = editText(stepsOf, [
      { kind: 'insert', path: ['stages', 1, 'steps'], index: 0, value: { id: 'start-bolts', do: 'Start all eight bolts by hand.' } },
    ]);
    expect(elsewhere.ok ? told(flange, elsewhere.text).slice(0, 2) : []).toEqual([
      'Step 3 moved.',
      'Step 3: sentence changed from “Start all eight bolts by hand, at least four turns each.” to “Start all eight bolts by hand.”',
    ]);
  });

  it('compares drafts that no job could run', () => {
    expect(
      told('stages:\n  - id: a\n    steps:\n      - id: b\n', 'stages:\n  - id: a\n    steps:\n      - id: b\n        do: Look.\n'),
    ).toEqual(['Step 1: sentence added: “Look.”']);
  });

  it('says which version is no YAML', () => {
    expect(compareVersions('a: [', flange)).toEqual({ ok: false, unreadable: 'before' });
    expect(compareVersions(flange, 'a: *b')).toEqual({ ok: false, unreadable: 'after' });
  });

  it('says it in French too', () => {
    expect(told(flange, after({ kind: 'set', path: [...group, 'torque', 'build K'], value: '45 N·m ±2' }), 'fr')).toEqual([
      'Étape 4: couple (« flange bolt »), version K : 40 devient 45 newtons mètres (±2).',
    ]);
  });
});
