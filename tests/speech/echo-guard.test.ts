import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import type { EchoGuard } from '../../src/speech/echo-guard.ts';
import { createEchoGuard, echoTail } from '../../src/speech/echo-guard.ts';

let guard: EchoGuard;

beforeEach(() => {
  guard = createEchoGuard();
});

const judge = (text: string, from: number, to: number, interrupts = false) => guard.judge({ text, from, to, interrupts });

describe('while the app speaks', () => {
  beforeEach(() => {
    guard.speechBegins('Torque: four seven, forty-seven newton metres.', 1000);
  });

  it('lets through what interrupts and nothing else', () => {
    expect(judge('stop', 1500, 1900, true)).toBe('pass');
    expect(judge('hold on', 1500, 2000, true)).toBe('pass');
    expect(judge('step done', 1500, 2100)).toBe('while-speaking');
    expect(judge('what torque', 900, 1300)).toBe('while-speaking');
  });

  it('takes its own words for its own, however late they are told', () => {
    guard.speechEnds(3000);
    expect(judge('forty seven newton metres', 2000, 3100)).toBe('while-speaking');
    expect(judge('newton metres', 3050, 3400)).toBe('own-words');
  });
});

describe('an interrupting word that the app says itself', () => {
  it('is not obeyed while the stretch with it sounds', () => {
    guard.speechBegins('When it is safe, say: carry on. Stop if it resists.', 0);
    expect(judge('stop', 800, 1200, true)).toBe('own-words');
  });

  it('is not obeyed when a word that sounds like it is being said', () => {
    for (const text of ['Step five of thirty-five.', 'Stopped.']) {
      guard.speechBegins(text, 0);
      expect(judge('stop', 100, 500, true)).toBe('own-words');
      guard.speechEnds(1000);
    }
  });

  it('is obeyed in the other stretches of the same prompt', () => {
    guard.speechBegins('Step five.', 0);
    guard.speechEnds(1000);
    guard.speechBegins('Refit the plug and tighten it.', 1000);
    expect(judge('stop', 1900, 2300, true)).toBe('pass');
  });

  it('is obeyed when only one of its words is being said', () => {
    guard.speechBegins('Hold the housing level.', 0);
    expect(judge('hold on', 500, 900, true)).toBe('pass');
  });
});

describe('just after the app has spoken', () => {
  beforeEach(() => {
    guard.speechBegins('Say: step done.', 0);
    guard.speechEnds(2000);
  });

  it('hears a quick answer', () => {
    expect(judge('what torque', 2150, 2900)).toBe('pass');
  });

  it('drops the end of its own echo', () => {
    expect(judge('done', 2050, 2250)).toBe('own-words');
    expect(judge('gone', 2100, 2400)).toBe('own-words');
    expect(judge('undo', 2100, 2400)).toBe('while-speaking');
  });

  it('hears its own words from somebody else once the echo has died away', () => {
    expect(judge('step done', 2000 + echoTail, 2900)).toBe('pass');
  });

  it('lets stop through at once', () => {
    expect(judge('hold on', 2010, 2300, true)).toBe('pass');
  });
});

it('hears everything when it has said nothing', () => {
  expect(judge('step done', 0, 500)).toBe('pass');
});

it('takes no earcon for a command, but a command over an earcon for one', () => {
  guard.sounds(1000, 1630);
  expect(judge('no', 1050, 1700)).toBe('own-sound');
  expect(judge('step done', 1100, 2100)).toBe('pass');
  expect(judge('step done', 2500, 2900)).toBe('pass');
});

it('never obeys any run of its own words while it says them, whatever they mean', () => {
  const word = fc.constantFrom('stop', 'hold', 'on', 'step', 'done', 'what', 'torque', 'four', 'seven', 'undo', 'back');
  fc.assert(
    fc.property(
      fc.array(word, { minLength: 1, maxLength: 12 }),
      fc.nat(),
      fc.nat(),
      fc.boolean(),
      fc.nat(3000),
      (said, a, b, interrupts, at) => {
        const own = createEchoGuard();
        own.speechBegins(said.join(' '), 0);
        own.speechEnds(2000);
        const start = a % said.length;
        const text = said.slice(start, start + 1 + (b % (said.length - start))).join(' ');
        const verdict = own.judge({ text, from: at, to: at + 400, interrupts });
        expect(verdict === 'pass').toBe(at >= 2000 + echoTail);
      },
    ),
  );
});
