import { beforeEach, describe, expect, it } from 'vitest';
import type { EarEvent } from '../../../src/speech/ear/ear.ts';
import type { EarLimits } from '../../../src/speech/ear/supervised-ear.ts';
import { browserEarLimits, createSupervisedEar } from '../../../src/speech/ear/supervised-ear.ts';
import { ManualClock } from '../doubles/manual-clock.ts';
import { strictRecognition } from '../doubles/strict-recognition.ts';

let clock: ManualClock;
let browser: ReturnType<typeof strictRecognition>;
let events: EarEvent[];
let permissionOpen: boolean;

beforeEach(() => {
  clock = new ManualClock();
  browser = strictRecognition(clock);
  events = [];
  permissionOpen = false;
});

function ear(limits: Partial<EarLimits> = {}) {
  return createSupervisedEar({
    makeRecognition: () => new browser.Recognition(),
    configure: (recognition, withPhrases) => {
      recognition.lang = 'en-US';
      if (withPhrases) recognition.phrases = [{ phrase: 'step done', boost: 2 }];
    },
    clock,
    onEvent: (event) => events.push(event),
    isPermissionOpen: () => Promise.resolve(permissionOpen),
    limits: { ...browserEarLimits, ...limits },
  });
}

const heard = () => events.flatMap((event) => (event.kind === 'heard' ? [event.alternatives[0]?.text] : []));
const faults = () => events.flatMap((event) => (event.kind === 'broken' ? [event.fault] : []));

describe('listening', () => {
  it('asks for continuous results with alternatives and tells what is heard', async () => {
    ear().listen();
    await clock.advance(0);
    const { continuous, interimResults, maxAlternatives, lang } = browser.last;
    expect({ continuous, interimResults, maxAlternatives, lang }).toEqual({
      continuous: true,
      interimResults: true,
      maxAlternatives: 5,
      lang: 'en-US',
    });
    await clock.advance(1000);
    browser.last.speechStart(700);
    browser.last.interim('what');
    await clock.advance(500);
    browser.last.final(' what torque ');
    expect(events).toEqual([
      { kind: 'listening' },
      { kind: 'speech-start', time: 700 },
      { kind: 'partial', text: 'what', from: 700 },
      { kind: 'heard', alternatives: [{ text: 'what torque', confidence: 0.9 }], from: 700, to: 1500 },
    ]);
  });

  it('starts again only after the end, with a new recogniser', async () => {
    ear().listen();
    await clock.advance(5000);
    browser.last.fail('no-speech');
    expect(browser.made).toHaveLength(1);
    await clock.advance(0);
    expect(browser.made).toHaveLength(1);
    await clock.advance(browserEarLimits.restartAfter);
    expect(browser.made).toHaveLength(2);
    expect(browser.last.running).toBe(true);
    expect(faults()).toEqual([]);
  });

  it('goes on for hours of silence, told by no-speech every few seconds', async () => {
    ear().listen();
    for (let times = 0; times < 400; times++) {
      await clock.advance(8000);
      browser.last.fail('no-speech');
      await clock.advance(browserEarLimits.restartAfter);
    }
    expect(faults()).toEqual([]);
    expect(browser.made).toHaveLength(401);
  });

  it('does not start twice when asked twice', async () => {
    const listening = ear();
    listening.listen();
    listening.listen();
    await clock.advance(0);
    expect(browser.made).toHaveLength(1);
  });

  it('leaves phrases out once they were refused', async () => {
    browser.habits.refusesPhrases = true;
    ear().listen();
    await clock.advance(10_000);
    expect(browser.made).toHaveLength(2);
    expect(browser.last.phrases).toEqual([]);
    expect(faults()).toEqual([]);
    expect(events).toContainEqual({ kind: 'listening' });
  });
});

describe('what browsers do wrong', () => {
  it('drops a result that is told twice under the same index, and the same words at once under another', async () => {
    ear().listen();
    await clock.advance(10);
    browser.last.final('done');
    browser.last.repeatLast();
    browser.last.final('done');
    expect(heard()).toEqual(['done']);
    await clock.advance(1500);
    browser.last.final('done');
    expect(heard()).toEqual(['done', 'done']);
  });

  it('drops results that come late from an earlier session', async () => {
    ear().listen();
    await clock.advance(5000);
    const first = browser.last;
    first.end();
    await clock.advance(1000);
    expect(browser.made).toHaveLength(2);
    first.final('done');
    first.fail('network');
    expect(heard()).toEqual([]);
    expect(faults()).toEqual([]);
  });

  it('goes on when an error is not followed by an end', async () => {
    browser.habits.endsAfterError = false;
    ear().listen();
    await clock.advance(5000);
    browser.last.fail('no-speech');
    browser.last.running = false;
    await clock.advance(browserEarLimits.endWithin + browserEarLimits.restartAfter);
    expect(browser.made).toHaveLength(2);
    expect(browser.last.running).toBe(true);
  });

  it('takes a language that is not supported as final although no end follows, and once although it comes twice', async () => {
    browser.habits.endsAfterError = false;
    ear().listen();
    await clock.advance(10);
    browser.last.fail('language-not-supported');
    browser.last.fail('language-not-supported');
    await clock.advance(60_000);
    expect(faults()).toEqual(['language-missing']);
    expect(browser.made).toHaveLength(1);
  });

  it('says that it is stuck when recognition never starts, unless the person is still being asked', async () => {
    browser.habits.startsAfter = null;
    permissionOpen = true;
    ear().listen();
    await clock.advance(55_000);
    expect(faults()).toEqual([]);
    permissionOpen = false;
    await clock.advance(browserEarLimits.startWithin);
    expect(faults()).toEqual(['stuck']);
  });

  it('throws away a session that has fallen silent and begins another', async () => {
    ear().listen();
    await clock.advance(59_000);
    browser.last.interim('he');
    await clock.advance(59_000);
    expect(browser.made).toHaveLength(1);
    await clock.advance(2_000);
    expect(browser.made[0]?.calls).toEqual(['start', 'abort']);
    expect(browser.made).toHaveLength(2);
  });

  it('gives up a session that does not end when told to, and begins another', async () => {
    const listening = ear();
    listening.listen();
    await clock.advance(10);
    browser.habits.endsWhenTold = false;
    listening.rest();
    listening.listen();
    browser.last.running = false;
    await clock.advance(browserEarLimits.endWithin + browserEarLimits.backoffFrom);
    expect(browser.made).toHaveLength(2);
  });

  it('survives a start that throws because the browser still holds another session', async () => {
    const other = new browser.Recognition();
    other.start();
    ear().listen();
    await clock.advance(0);
    expect(faults()).toEqual([]);
    other.end();
    await clock.advance(browserEarLimits.backoffFrom);
    expect(browser.last.running).toBe(true);
    expect(browser.last).not.toBe(other);
  });
});

describe('giving up', () => {
  it.each([
    ['network', 'network'],
    ['not-allowed', 'microphone-denied'],
    ['service-not-allowed', 'service-refused'],
    ['audio-capture', 'no-microphone'],
    ['language-not-supported', 'language-missing'],
  ] as const)('takes %s as final and says %s', async (error, fault) => {
    ear().listen();
    await clock.advance(10);
    browser.last.fail(error);
    await clock.advance(60_000);
    expect(faults()).toEqual([fault]);
    expect(browser.made).toHaveLength(1);
  });

  it('waits longer after each bad session and stops after too many', async () => {
    ear().listen();
    const starts: number[] = [];
    for (let times = 0; times < 200 && faults().length === 0; times++) {
      await clock.advance(50);
      if (browser.last.running) {
        starts.push(clock.now());
        browser.last.fail('aborted');
      }
    }
    expect(faults()).toEqual(['keeps-stopping']);
    expect(starts).toHaveLength(browserEarLimits.badSessions);
    const gaps = starts.slice(1).map((at, index) => at - (starts[index] ?? 0));
    expect(gaps).toEqual(gaps.toSorted((a, b) => a - b));
    expect(gaps.at(-1)).toBeGreaterThan(gaps[0]! * 4);
  });

  it('counts afresh after a session that heard something', async () => {
    ear().listen();
    for (let times = 0; times < 3 * browserEarLimits.badSessions; times++) {
      await clock.advance(6000);
      if (times % 3 === 2) browser.last.final('done');
      browser.last.end();
    }
    expect(faults()).toEqual([]);
  });
});

describe('resting and finishing', () => {
  it('tells nothing more after rest, and does not start again', async () => {
    const listening = ear();
    listening.listen();
    await clock.advance(10);
    listening.rest();
    browser.last.final('done');
    browser.last.noMatch();
    await clock.advance(60_000);
    expect(heard()).toEqual([]);
    expect(browser.made).toHaveLength(1);
    expect(browser.last.calls).toEqual(['start', 'abort']);
  });

  it('tells what was said when finished, then stays quiet', async () => {
    const listening = ear();
    listening.listen();
    await clock.advance(10);
    listening.finish();
    browser.last.final('what torque');
    await clock.advance(60_000);
    expect(heard()).toEqual(['what torque']);
    expect(browser.made).toHaveLength(1);
    expect(browser.last.calls).toEqual(['start', 'stop']);
  });

  it('listens again after a rest once the old session has ended', async () => {
    const listening = ear();
    listening.listen();
    await clock.advance(5000);
    listening.rest();
    listening.listen();
    expect(browser.made).toHaveLength(1);
    await clock.advance(browserEarLimits.restartAfter);
    expect(browser.made).toHaveLength(2);
    expect(browser.last.running).toBe(true);
  });

  it('leaves no timer behind', async () => {
    const listening = ear();
    listening.listen();
    await clock.advance(5000);
    listening.rest();
    await clock.advance(0);
    expect(clock.pending).toBe(0);
  });
});
