import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import type { EchoGuard } from '../../src/speech/echo-guard.ts';
import { createEchoGuard, echoTail } from '../../src/speech/echo-guard.ts';
import { englishSounds } from './doubles/english-sounds.ts';

let guard: EchoGuard;

beforeEach(() => {
  guard = createEchoGuard(() => englishSounds);
});

/** `fit`: 0.95 is what the ear is sure of, 0.7 what it only just believes over the app's voice. */
const judge = (text: string, from: number, to: number, interrupts = false, fit: number | null = 0.95) =>
  guard.judge({ text, from, to, interrupts, fit });

/** A text said from one time to another. */
function said(text: string, from: number, to: number): void {
  guard.speechBegins(text, from, 1);
  guard.speechEnds(to);
}

describe('while the app speaks', () => {
  beforeEach(() => {
    guard.speechBegins('Torque: four seven, forty-seven newton metres.', 1000, 1);
  });

  it('lets through what interrupts and nothing else', () => {
    expect(judge('stop', 1500, 1900, true)).toBe('pass');
    expect(judge('hold on', 1500, 2000, true)).toBe('pass');
    expect(judge('step done', 1500, 2100)).toBe('while-speaking');
    expect(judge('what torque', 900, 1300)).toBe('while-speaking');
  });

  it('takes its own words for its own, however late they are told', () => {
    guard.speechEnds(3500);
    expect(judge('forty seven newton metres', 2000, 3600)).toBe('while-speaking');
    expect(judge('metres', 3450, 3750)).toBe('own-words');
  });

  it('believes no interruption that hardly fits', () => {
    expect(judge('stop', 1500, 1900, true, 0.3)).toBe('while-speaking');
  });
});

describe('an interrupting word that the app says itself', () => {
  it('is not obeyed at the time at which it sounds', () => {
    said('When it is safe, say: carry on. Stop if it resists.', 0, 4500);
    expect(judge('stop', 2500, 2900, true, 1)).toBe('own-words');
  });

  it('is obeyed at another time, even of the same clause', () => {
    said('Stop if it resists on the way along the second rail.', 0, 4500);
    expect(judge('stop', 200, 560, true)).toBe('own-words');
    expect(judge('stop', 2500, 2860, true)).toBe('pass');
  });

  it('is obeyed when only one of its words is being said', () => {
    guard.speechBegins('Hold the housing level.', 0, 1);
    expect(judge('hold on', 500, 900, true)).toBe('pass');
  });
});

describe('a word of the app that sounds like an interruption', () => {
  // Each of these was taken for "stop" by the ear that ships, in the app's own voice and as loud as anybody's.
  it.each([
    ['Step one three of four one.', 60, 420],
    ['Before you start, about your wrenches.', 550, 910],
    ['Seventeen millimetre socket.', 1150, 1510],
    ['Steps still open:', 90, 450],
  ])('is not obeyed where it sounds: "%s"', (text, from, to) => {
    said(text, 0, 1900);
    expect(judge('stop', from, to, true, 0.72)).toBe('own-words');
  });

  it('is told from somebody who says it at that time by how well it fits', () => {
    said('Before you start, about your wrenches.', 0, 1900);
    expect(judge('stop', 550, 910, true, 0.7)).toBe('own-words');
    expect(judge('stop', 550, 910, true, 0.97)).toBe('pass');
  });

  it('is not obeyed from an ear that cannot tell how well it fits', () => {
    said('Step one three of four one.', 0, 1900);
    expect(judge('stop', 60, 420, true, null)).toBe('own-words');
    expect(judge('hold on', 60, 420, true, null)).toBe('pass');
  });
});

describe('the time at which a word sounds', () => {
  const long = 'Refit the plug and the washer to the lower end of the rear housing, then stop and look at the seal.';

  it('is what the voice tells', () => {
    guard.speechBegins(long, 0, 1);
    guard.speechReaches(long.indexOf('then'), 9000);
    guard.speechEnds(11_000);
    expect(judge('stop', 9200, 9560, true)).toBe('own-words');
    expect(judge('stop', 6000, 6360, true)).toBe('pass');
  });

  it('is guessed from the length of what came before while nobody tells', () => {
    guard.speechBegins(long, 0, 1);
    // Sixty sounds before it take five seconds and more.
    expect(judge('stop', 5200, 5560, true)).toBe('own-words');
    expect(judge('stop', 1000, 1360, true)).toBe('pass');
  });

  it('comes sooner when the voice is quicker', () => {
    guard.speechBegins(long, 0, 1.6);
    expect(judge('stop', 2000, 2360, true)).toBe('own-words');
    guard.speechBegins(long, 20_000, 1);
    expect(judge('stop', 22_000, 22_360, true)).toBe('pass');
  });

  it('is not put together in what was broken off before it', () => {
    guard.speechBegins(long, 0, 1);
    guard.speechEnds(900);
    expect(judge('stop', 700, 1060, true)).toBe('pass');
  });

  it('is not moved by a voice that tells of an earlier word again', () => {
    guard.speechBegins(long, 0, 1);
    guard.speechReaches(long.indexOf('then'), 9000);
    guard.speechReaches(long.indexOf('plug'), 9100);
    guard.speechEnds(11_000);
    expect(judge('stop', 9200, 9560, true)).toBe('own-words');
  });

  it('may span two stretches', () => {
    said('Then say hold.', 0, 1200);
    said('On the left there are three.', 1300, 3000);
    expect(judge('hold on', 900, 1500, true, 1)).toBe('own-words');
  });
});

describe('just after the app has spoken', () => {
  beforeEach(() => said('Say: step done.', 0, 2000));

  it('hears a quick answer', () => {
    expect(judge('what torque', 2150, 2900)).toBe('pass');
  });

  it('drops the end of its own echo', () => {
    expect(judge('done', 2050, 2250)).toBe('own-words');
    expect(judge('gone', 2100, 2400)).toBe('while-speaking');
    expect(judge('undo', 2100, 2400)).toBe('while-speaking');
  });

  it('hears a quick answer that sounds a little like what was said', () => {
    expect(judge('gone', 2100, 2800)).toBe('pass');
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

it('never obeys any run of its own words at the time at which it says them, whatever they mean', () => {
  const word = fc.constantFrom('stop', 'hold', 'on', 'step', 'done', 'what', 'torque', 'four', 'seven', 'undo', 'back');
  fc.assert(
    fc.property(
      fc.array(word, { minLength: 1, maxLength: 12 }),
      fc.nat(),
      fc.nat(),
      fc.boolean(),
      fc.integer({ min: -250, max: 250 }),
      (words, a, b, interrupts, late) => {
        const own = createEchoGuard(() => englishSounds);
        own.speechBegins(words.join(' '), 0, 1);
        const ends = words.map((_, index) => 90 * words.slice(0, index + 1).flatMap((one) => englishSounds.phonesOf(one)).length);
        own.speechEnds(ends.at(-1) ?? 0);
        const first = a % words.length;
        const past = first + 1 + (b % (words.length - first));
        const from = (ends[first - 1] ?? 0) + late;
        const to = (ends[past - 1] ?? 0) + late;
        const verdict = own.judge({ text: words.slice(first, past).join(' '), from, to, interrupts, fit: 1 });
        // What would be over before it began was not said by the app.
        expect(verdict === 'pass').toBe(to <= 0);
      },
    ),
  );
});
