import { describe, expect, it } from 'vitest';
import { defaultSettings, loadSettings, readSettings } from '../../src/app/settings.ts';

const holding = (text: string | null) => ({ getItem: () => text });

describe('the language at the first start', () => {
  it.each([
    [['fr-CA', 'en-US'], 'fr'],
    [['en-GB', 'fr'], 'en'],
    [['de-DE', 'fr-FR', 'en'], 'fr'],
    [['de-DE'], 'en'],
    [[], 'en'],
    [['FR'], 'fr'],
  ])('of a browser that asks for %j is %s', (tags, language) => {
    expect(loadSettings(holding(null), tags).language).toBe(language);
  });

  it('gives way to what somebody chose', () => {
    expect(loadSettings(holding('{"language":"en"}'), ['fr-FR']).language).toBe('en');
  });

  it('is still that of the browser where what is stored cannot be read', () => {
    expect(loadSettings(holding('{"langu'), ['fr-FR'])).toEqual({ ...defaultSettings, language: 'fr' });
  });
});

describe('settings from a file', () => {
  it('are taken field by field, and what is wrong falls back', () => {
    const read = readSettings({ language: 'xx', volume: 7, rate: 1.2, person: 'Alex', keys: { KeyQ: 'done', KeyZ: 'no such thing' } });
    expect(read).toEqual({ ...defaultSettings, rate: 1.2, person: 'Alex', keys: { KeyQ: 'done' } });
  });

  it('that are no object at all are the defaults', () => {
    expect(readSettings(null)).toEqual(defaultSettings);
    expect(readSettings('x')).toEqual(defaultSettings);
  });
});
