import { describe, expect, it } from 'vitest';
import { soundsAsTheyCome, spokenSounds } from '../../src/speech/spoken-sounds.ts';

describe('how words sound', () => {
  it('is as the dictionary has it, and else by the spelling', () => {
    const sounds = spokenSounds('en', 'one\tW AH N\none(2)\tHH W AH N');
    expect(sounds.phonesOf('one')).toEqual(['W', 'AH', 'N']);
    expect(sounds.phonesOf('stop')).toEqual(['S', 'T', 'AA', 'P']);
    expect(spokenSounds('fr', 'un\tun').phonesOf('filtre')).toEqual(['ff', 'ii', 'll', 'tt', 'rr']);
  });
});

describe('sounds that come later', () => {
  it('are those of the spelling until the dictionary of the language is there', async () => {
    const asked: string[] = [];
    const soundsIn = soundsAsTheyCome((language) => {
      asked.push(language);
      return Promise.resolve(language === 'en' ? 'one\tW AH N' : 'un\tun');
    });
    expect(soundsIn('en-US').phonesOf('one')).toEqual(['AA', 'N']);
    await Promise.resolve();
    expect(soundsIn('en-GB').phonesOf('one')).toEqual(['W', 'AH', 'N']);
    soundsIn('fr-FR');
    await Promise.resolve();
    expect(soundsIn('fr').phonesOf('un')).toEqual(['un']);
    expect(asked).toEqual(['en', 'fr']);
  });

  it('are asked for again when they could not be had', async () => {
    let isOnline = false;
    const soundsIn = soundsAsTheyCome(() => (isOnline ? Promise.resolve('one\tW AH N') : Promise.reject(new Error('offline'))));
    expect(soundsIn('en').phonesOf('one')).toEqual(['AA', 'N']);
    await Promise.resolve();
    isOnline = true;
    soundsIn('en');
    await Promise.resolve();
    expect(soundsIn('en').phonesOf('one')).toEqual(['W', 'AH', 'N']);
  });
});
