import { expect, it } from 'vitest';
import { isAsking } from '../../src/phrasing/questions.ts';

it.each([
  'Is the seal the right one?',
  'is the seal the right one',
  'question the seal looks old',
  'Why is there a second washer',
  'est-ce que le joint est le bon',
  'Quelle rondelle va ici',
  '  pourquoi deux rondelles',
  'the shim is on the left ?',
])('takes for a question: %s', (text) => {
  expect(isAsking(text)).toBe(true);
});

it.each([
  'The thread is rusty.',
  'Island of rust on the flange',
  'does-it-all grease used',
  'questionable thread at bolt 3',
  'when it turns it grinds',
  '',
])('takes for a statement: %s', (text) => {
  expect(isAsking(text)).toBe(false);
});
