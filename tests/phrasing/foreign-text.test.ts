import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { spokenParts } from '../../src/phrasing/foreign-text.ts';
import { isLanguage } from '../../src/phrasing/language.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import { sayOver } from '../../src/phrasing/say.ts';
import { parseProcedure } from '../../src/procedure/parse.ts';
import { planJob } from '../../src/procedure/plan.ts';

function planOf(name: string) {
  const parsed = parseProcedure(readFileSync(new URL(`../../procedures/${name}`, import.meta.url), 'utf8'), name);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  const planned = planJob(parsed.file, { build: 'K', crib: null, today: '2026-01-01', spokenUnit: null });
  if (!planned.ok) throw new Error(JSON.stringify(planned.problems));
  return planned.plan;
}

const english = planOf('bench-flange.yaml');
const flange = english.steps.find(({ id }) => id === 'tighten-flange')!;

describe('an English procedure in a French app', () => {
  it('is read in English, with its numbers, between French words', () => {
    const spoken = sayOver({ kind: 'why', step: { ...flange, why: 'Give the 8 bolts 40 N·m.' } }, packFor('fr'), 'en');
    expect(spokenParts(spoken.say)).toEqual([
      { text: expect.stringMatching(/^Give the eight bolts .*forty newton metres\.$/u) as string, language: 'en' },
    ]);
    expect(spoken.show).toBe('Give the 8 bolts 40 N·m.');
  });

  it('keeps counts, torques and tools in French', () => {
    const said = sayOver({ kind: 'torque', group: flange.groups[0]!, pass: 3, unit: null }, packFor('fr'), 'en').say;
    expect(spokenParts(said).filter(({ language }) => language === 'en')).toEqual([]);
    expect(said).toContain('newtons mètres');
    const socket = sayOver({ kind: 'socket', group: flange.groups[0]! }, packFor('fr'), 'en').say;
    expect(spokenParts(socket)).toEqual([{ text: socket, language: null }]);
  });

  it('names the step in French and then reads it in English', () => {
    const parts = spokenParts(sayOver({ kind: 'where', step: flange, place: null }, packFor('fr'), 'en-GB').say);
    expect(parts.map(({ language }) => language)).toContain('en-GB');
  });

  it('is no different where both are the same language', () => {
    const line = { kind: 'why', step: flange } as const;
    expect(sayOver(line, packFor('en'), 'en-GB')).toEqual(packFor('en').say(line));
  });

  it('is read as it is written where nobody knows its language', () => {
    const spoken = sayOver({ kind: 'why', step: { ...flange, why: 'Acht Schrauben, 40 N·m' } }, packFor('fr'), 'de');
    expect(spokenParts(spoken.say)).toEqual([{ text: 'Acht Schrauben, 40 N·m', language: 'de' }]);
  });
});

describe('cutting where the language changes', () => {
  it('leaves a line of one language whole', () => {
    expect(spokenParts('Step done. Next one.')).toEqual([{ text: 'Step done. Next one.', language: null }]);
    expect(spokenParts('')).toEqual([]);
  });

  it('cuts a line around what is foreign, and drops a full stop left alone', () => {
    expect(spokenParts('Étape un. \ue000en\ue002Tighten it\ue001. Reste : deux.')).toEqual([
      { text: 'Étape un.', language: null },
      { text: 'Tighten it', language: 'en' },
      { text: '. Reste : deux.', language: null },
    ]);
    expect(spokenParts('\ue000en\ue002Tighten it\ue001.')).toEqual([{ text: 'Tighten it', language: 'en' }]);
    expect(spokenParts('\ue000en\ue002One\ue001\ue000de\ue002Zwei\ue001')).toEqual([
      { text: 'One', language: 'en' },
      { text: 'Zwei', language: 'de' },
    ]);
  });

  it('is not misled by marks that an author wrote', () => {
    const spoken = sayOver({ kind: 'why', step: { ...flange, why: 'a \ue001 b \ue000fr\ue002 c' } }, packFor('fr'), 'en');
    expect(spokenParts(spoken.say)).toEqual(
      [{ text: 'a b fr c.', language: 'en' }].map((part) => ({ ...part, text: expect.any(String) as string })),
    );
  });
});

it.each([
  ['fr-CA', 'fr', true],
  ['FR', 'fr', true],
  ['fro', 'fr', false],
  ['en', 'fr', false],
] as const)('the tag %s is %s: %s', (tag, language, is) => {
  expect(isLanguage(tag, language)).toBe(is);
});
