import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { legalIn } from '../../src/job/legal.ts';
import { dialogueStates, intentNames } from '../../src/phrasing/intents.ts';
import type { DialogueState, Intent } from '../../src/phrasing/intents.ts';
import { interpret } from '../../src/phrasing/interpret.ts';
import type { Interpretation, Listening } from '../../src/phrasing/interpret.ts';
import { languages } from '../../src/phrasing/language.ts';
import { phrasesOf, riskyIntents } from '../../src/phrasing/lexicon.ts';
import { packFor } from '../../src/phrasing/packs.ts';

function listening(state: DialogueState, parts: Partial<Listening> = {}): Listening {
  return { state, legal: legalIn[state], language: 'en', names: ['Ada Lund', 'Bo Ek'], measureUnit: 'mm', nameFirst: false, ...parts };
}

function hear(state: DialogueState, text: string, parts: Partial<Listening> = {}): Interpretation {
  return interpret([{ text, confidence: 0.9 }], listening(state, parts));
}

function intent(state: DialogueState, text: string, parts: Partial<Listening> = {}): Intent | string {
  const result = hear(state, text, parts);
  return result.kind === 'intent' ? result.intent : result.kind === 'not-now' ? `not now: ${result.intent}` : 'not understood';
}

describe.each(languages)('in %s', (language) => {
  it.each(dialogueStates)('every wording that is understood while %s means one thing', (state) => {
    const { lexicon } = packFor(language);
    for (const phrase of phrasesOf(lexicon, state)) {
      if (!legalIn[state].includes(phrase.intent.type) || (phrase.understoodIn !== null && !phrase.understoodIn.includes(state))) continue;
      expect(intent(state, phrase.text, { language }), phrase.text).toEqual(phrase.intent);
      expect(intent(state, `${lexicon.names[0] ?? ''}, ${phrase.text}!`, { language, nameFirst: true }), phrase.text).toEqual(
        phrase.intent,
      );
    }
  });

  it('nothing but exact wordings reaches what is risky', () => {
    const { lexicon } = packFor(language);
    const exact = new Set(
      phrasesOf(lexicon, null)
        .filter(({ intent: { type } }) => riskyIntents.includes(type))
        .map(({ text }) => text.toLowerCase()),
    );
    const words = [...new Set([...exact].flatMap((text) => text.split(' ')).concat('the', 'this', 'not', 'maybe', 'now', 'again'))];
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...words), { minLength: 1, maxLength: 5 }),
        fc.constantFrom(...dialogueStates),
        (said, state) => {
          const result = interpret([{ text: said.join(' '), confidence: 1 }], listening(state, { language, legal: intentNames }));
          if (result.kind !== 'intent' || !riskyIntents.includes(result.intent.type)) return;
          const { intent: meant } = result;
          if (meant.type === 'skip' && meant.reason !== null) return;
          const plain = said.filter((word) => !lexicon.listening.fillers.includes(word)).map((word) => word.toLowerCase());
          const allowed = [...exact].map((text) => lexicon.listening.canonical(text));
          expect(allowed).toContain(lexicon.listening.canonical(plain.join(' ')));
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('never throws, and understands nothing in noise', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), fc.constantFrom(...dialogueStates), (text, state) => {
        const result = interpret([{ text, confidence: 0.5 }], listening(state, { language }));
        expect(result.kind === 'intent' && riskyIntents.includes(result.intent.type)).toBe(false);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('free text', () => {
  it.each([
    ["what's the torque on these", { type: 'torque' }],
    ['What is the torque?', { type: 'torque' }],
    ['torque please', { type: 'torque' }],
    ['can you tell me the torque again', { type: 'torque' }],
    ['what talk', { type: 'torque' }],
    ["what's the size of the socket", { type: 'socket' }],
    ['how many are left', { type: 'how-many-left' }],
    ['which one is next', { type: 'which-next' }],
    ['um done', { type: 'done', count: 1 }],
    ["that's done", { type: 'done', count: 1 }],
    ['next one', { type: 'done', count: 1 }],
    ['two done', { type: 'done', count: 2 }],
    ['done two', { type: 'done', count: 2 }],
    ['both done', { type: 'done', count: 2 }],
    ['too done', { type: 'done', count: 2 }],
    ['Eight done.', { type: 'done', count: 8 }],
    ['say that again', { type: 'repeat' }],
    ['Stop! Stop it now!', { type: 'stop' }],
    ['no stop', { type: 'stop' }],
    ['in foot pounds', { type: 'unit', unit: 'lbf·ft' }],
    ['in original units', { type: 'unit', unit: null }],
    ['skip this one', { type: 'skip', scope: 'this', reason: null }],
    ['skip the step, part missing', { type: 'skip', scope: 'step', reason: 'no-part' }],
    ["skip this step because it's damaged", { type: 'skip', scope: 'step', reason: 'damaged' }],
    ['make a note', { type: 'note', text: null }],
    ['Note that the thread is rusty, top left.', { type: 'note', text: 'the thread is rusty, top left.' }],
    ['Undertray, um, make a note: Rusty.', { type: 'note', text: 'Rusty.' }],
    ['undertray torque', { type: 'torque' }],
  ])('"%s" is understood while fastening', (text, meant) => {
    expect(intent('fastening', text)).toEqual(meant);
  });

  it.each([
    'not done',
    'is it done',
    'nearly done',
    'undone',
    'talk',
    'next',
    'maybe skip this one',
    'finish the job now',
    'torque and socket',
    "don't stop",
    'two',
    'step done',
    'got it',
    'I understand',
    'nice weather',
    '',
  ])('"%s" is not, while fastening', (text) => {
    expect(intent('fastening', text)).toBe('not understood');
  });

  it('says what is known but does not fit now', () => {
    expect(intent('fastening', 'accept as is')).toBe('not now: accept');
    expect(intent('fastening', 'reading four seven')).toBe('not now: number');
    expect(intent('closed', 'what torque')).toBe('not now: torque');
  });

  it('reads the same words by the state', () => {
    expect(intent('kit', 'got it')).toEqual({ type: 'done', count: 1 });
    expect(intent('briefing', 'I understand')).toEqual({ type: 'done', count: 1 });
    expect(intent('reasoning', 'part missing')).toEqual({ type: 'reason', reason: 'no-part', text: null });
    expect(intent('reasoning', 'Another reason: the stud is bent.')).toEqual({
      type: 'reason',
      reason: 'other',
      text: 'the stud is bent.',
    });
  });
});

describe('values', () => {
  it.each([
    ['reading four seven point five millimetres', 47.5, 'mm'],
    ['reading forty-seven', 47, null],
    ["it's zero point one two", 0.12, null],
    ['It is 0.12 mm.', 0.12, 'mm'],
    ['47.5', 47.5, null],
    ['point one two inches', 0.12, 'in'],
    ['no, reading twelve and a half', 12.5, null],
    ['four seven forty seven millimetres', 47, 'mm'],
    ['minus two', -2, null],
  ])('"%s"', (text, value, unit) => {
    expect(intent('measuring', text)).toEqual({ type: 'number', value, unit });
  });

  it('come in the unit as the procedure writes it', () => {
    expect(intent('measuring', 'reading eighty degrees', { measureUnit: '° C' })).toEqual({ type: 'number', value: 80, unit: '°' });
    expect(intent('measuring', 'reading eighty degrees celsius', { measureUnit: '° C' })).toEqual({
      type: 'number',
      value: 80,
      unit: '° C',
    });
    expect(intent('measuring', 'reading five newton metres', { measureUnit: 'Nm' })).toEqual({ type: 'number', value: 5, unit: 'Nm' });
  });

  it('are not guessed', () => {
    for (const text of ['four fifty', 'reading', 'millimetres', 'reading four seven bananas'])
      expect(intent('measuring', text)).toBe('not understood');
  });
});

describe('signing', () => {
  it('takes only names that are known', () => {
    expect(intent('signing', 'sign as ada lund')).toEqual({ type: 'sign', name: 'Ada Lund' });
    expect(intent('signing', 'sign as Ada')).toBe('not understood');
    expect(intent('signing', 'Ada Lund')).toBe('not understood');
    expect(intent('signing', 'please sign as Bo Ek')).toEqual({ type: 'sign', name: 'Bo Ek' });
    expect(intent('signing', 'sign as Bo Ek now')).toBe('not understood');
    expect(intent('signing', 'do not sign as Bo Ek')).toBe('not understood');
  });
});

describe('words of one’s own', () => {
  it('are kept as they were said, without what introduced them', () => {
    expect(intent('fastening', 'Make a note: – M8 thread, RUSTY!')).toEqual({ type: 'note', text: 'M8 thread, RUSTY!' });
    expect(intent('fastening', 'Undertray, make a note, um, dry.')).toEqual({ type: 'note', text: 'um, dry.' });
    expect(intent('fastening', 'make a note ...')).toEqual({ type: 'note', text: null });
  });

  it('are another reason where a reason is asked for, and nothing elsewhere', () => {
    const other = packFor('en').lexicon.reasons.other.taught;
    expect(intent('reasoning', `${other}: the nut is seized`)).toEqual({ type: 'reason', reason: 'other', text: 'the nut is seized' });
    expect(intent('reasoning', other)).toEqual({ type: 'reason', reason: 'other', text: null });
    expect(intent('fastening', `${other}: the nut is seized`)).toBe('not understood');
  });
});

describe('the name first', () => {
  it('is needed for everything but stop', () => {
    expect(intent('fastening', 'what torque', { nameFirst: true })).toBe('not understood');
    expect(intent('fastening', 'under tray what torque', { nameFirst: true })).toEqual({ type: 'torque' });
    expect(intent('fastening', 'stop', { nameFirst: true })).toEqual({ type: 'stop' });
    expect(intent('fastening', 'undertray', { nameFirst: true })).toBe('not understood');
  });
});

describe('several hypotheses', () => {
  const choose = (state: DialogueState, ...guesses: [string, number][]) =>
    interpret(
      guesses.map(([text, confidence]) => ({ text, confidence })),
      listening(state),
    );

  it('takes a lesser guess when the best means nothing', () => {
    expect(choose('fastening', ['what fork', 0.8], ['what torque', 0.7])).toMatchObject({
      kind: 'intent',
      intent: { type: 'torque' },
      confidence: 0.7,
    });
  });

  it('does not when lesser guesses disagree, or are risky', () => {
    expect(choose('fastening', ['what fork', 0.8], ['what torque', 0.7], ['which socket', 0.7]).kind).toBe('not-understood');
    expect(choose('fastening', ['skip to stop', 0.8], ['skip the step', 0.7]).kind).toBe('not-understood');
  });

  it('asks again where something risky is unsure or has a rival', () => {
    expect(choose('fastening', ['undo that', 0.4]).kind).toBe('not-understood');
    expect(choose('fastening', ['undo that', 0.8], ["that's done", 0.75]).kind).toBe('not-understood');
    expect(choose('fastening', ['undo that', 0.8], ["that's done", 0.3]).kind).toBe('intent');
    expect(choose('confirming', ['yes', 0.8], ['no', 0.78]).kind).toBe('not-understood');
    expect(choose('signing', ['yes', 0.4]).kind).toBe('not-understood');
    expect(choose('fastening', ['undo that', 0.5]).kind).toBe('intent');
  });

  it('takes what costs little with a rival, unless the rival was said word for word and it was not', () => {
    expect(choose('fastening', ['what torque', 0.8], ['which socket', 0.78])).toMatchObject({ intent: { type: 'torque' } });
    expect(choose('fastening', ["what's the torque on these", 0.8], ['which socket', 0.78]).kind).toBe('not-understood');
    expect(choose('fastening', ["what's the torque on these", 0.8], ['which socket', 0.6])).toMatchObject({ intent: { type: 'torque' } });
    expect(choose('fastening', ["what's the torque on these", 0.8], ['what torque', 0.79])).toMatchObject({ intent: { type: 'torque' } });
    // A yes to what costs nothing is no risk.
    expect(choose('checking', ['yes', 0.3])).toMatchObject({ intent: { type: 'yes' } });
  });

  it('does not take a rival for one that cannot be done now', () => {
    expect(choose('fastening', ['undo that', 0.8], ['accept as is', 0.79]).kind).toBe('intent');
    expect(choose('fastening', ['undo that', 0.8], ['what fork', 0.79]).kind).toBe('intent');
  });

  it('takes lesser guesses that agree, and none that is not word for word', () => {
    expect(choose('fastening', ['what fork', 0.8], ['what torque', 0.7], ['torque please', 0.6])).toMatchObject({
      intent: { type: 'torque' },
      text: 'what torque',
    });
    expect(choose('fastening', ['what fork', 0.8], ["what's the torque on these", 0.7]).kind).toBe('not-understood');
    expect(choose('fastening', ['what fork', 0.8], ['accept as is', 0.7]).kind).toBe('not-understood');
    expect(choose('confirming', ['yet', 0.8], ['yes', 0.7]).kind).toBe('not-understood');
  });

  it('says what the best guess meant where that cannot be done now', () => {
    expect(choose('fastening', ['accept as is', 0.8], ['what torque', 0.7])).toMatchObject({ kind: 'not-now', intent: 'accept' });
  });

  it('takes a recogniser that tells no confidence at its word', () => {
    expect(choose('fastening', ['undo that', 0]).kind).toBe('intent');
  });

  it('lowers its confidence for what is not word for word', () => {
    expect(hear('fastening', "what's the torque on these")).toMatchObject({ confidence: 0.81 });
    expect(hear('fastening', 'what torque')).toMatchObject({ confidence: 0.9 });
  });

  it('understands nothing from nothing', () => {
    expect(interpret([], listening('fastening'))).toEqual({ kind: 'not-understood', text: '' });
  });
});
