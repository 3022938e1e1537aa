import { beforeEach, describe, expect, it } from 'vitest';
import { browserVoiceLimits, createCarefulVoice } from '../../../src/speech/voice/careful-voice.ts';
import { pickVoice } from '../../../src/speech/voice/pick-voice.ts';
import { speakingTime } from '../../../src/speech/voice/speaking-time.ts';
import type { SayOutcome } from '../../../src/speech/voice/voice.ts';
import { ManualClock, settle } from '../doubles/manual-clock.ts';
import { PlainUtterance, StrictSynthesis, voice } from '../doubles/strict-synthesis.ts';

let clock: ManualClock;
let synthesis: StrictSynthesis;
let chunks: string[];
let outcome: SayOutcome | null;

beforeEach(() => {
  clock = new ManualClock();
  synthesis = new StrictSynthesis(clock);
  chunks = [];
  outcome = null;
});

function say(text: string, language = 'en-US') {
  const careful = createCarefulVoice({
    synthesis,
    makeUtterance: (words) => new PlainUtterance(words),
    clock,
    remoteAllowed: false,
    limits: browserVoiceLimits,
  });
  const speaking = careful.speak(text, { language, rate: 1.25, volume: 0.8 }, (event) =>
    chunks.push(event.kind === 'begins' ? `begins ${event.text}` : event.kind === 'reaches' ? `reaches ${event.character}` : 'is over'),
  );
  void speaking.done.then((result) => {
    outcome = result;
  });
  return speaking;
}

it('speaks sentence by sentence with the settings, cancelling what was before', async () => {
  say('Bolt three. Forty-seven newton metres.');
  await clock.advance(10_000);
  expect(outcome).toEqual({ kind: 'ended' });
  expect(synthesis.calls).toEqual(['cancel', 'speak Bolt three.', 'speak Forty-seven newton metres.']);
  expect(chunks).toEqual(['begins Bolt three.', 'is over', 'begins Forty-seven newton metres.', 'is over']);
  const [first] = synthesis.spoken;
  expect(first).toMatchObject({ lang: 'en-US', rate: 1.25, volume: 0.8, pitch: 1 });
  expect(first?.voice?.name).toBe('Local');
  expect(clock.pending).toBe(0);
});

it('passes on which word the voice has come to', async () => {
  synthesis.habits.tellsWords = true;
  say('Bolt three.');
  await clock.advance(10_000);
  expect(chunks).toEqual(['begins Bolt three.', 'reaches 0', 'reaches 5', 'is over']);
});

it('keeps each utterance short enough for voices that fall silent after fifteen seconds', async () => {
  synthesis.habits.silentAfter = 15_000;
  synthesis.habits.letterTakes = 100;
  say(
    'Tighten the eight bolts of the flange in a cross, each to the first stage, then go round again for the second stage and mark each head with paint when it is done.',
  );
  await clock.advance(60_000);
  expect(outcome).toEqual({ kind: 'ended' });
});

describe('a voice that misbehaves', () => {
  it('does not hang the dialogue when it never ends', async () => {
    synthesis.habits.letterTakes = null;
    say('Bolt three.');
    await clock.advance(2 * speakingTime('Bolt three.', 1.25) + 3_050 - 1);
    expect(outcome).toBeNull();
    await clock.advance(1);
    expect(outcome).toMatchObject({ kind: 'failed', fault: 'voice-stuck' });
    expect(synthesis.calls.at(-1)).toBe('cancel');
    expect(clock.pending).toBe(0);
  });

  it('is asked once more when it does not begin', async () => {
    synthesis.habits.swallows = 1;
    say('Bolt three.');
    await clock.advance(browserVoiceLimits.startWithin + 2_000);
    expect(outcome).toEqual({ kind: 'ended' });
    expect(synthesis.calls).toEqual(['cancel', 'speak Bolt three.', 'cancel', 'speak Bolt three.']);
  });

  it('fails when it does not begin the second time either', async () => {
    synthesis.habits.startsAfter = null;
    say('Bolt three.');
    await clock.advance(2 * browserVoiceLimits.startWithin);
    expect(outcome).toMatchObject({ kind: 'failed', fault: 'voice-stuck' });
  });

  it('is woken when the page was left paused', async () => {
    synthesis.paused = true;
    say('Bolt three.');
    await clock.advance(2_000);
    expect(outcome).toEqual({ kind: 'ended' });
  });

  it.each([
    ['not-allowed', 'sound-blocked'],
    ['network', 'network'],
    ['voice-unavailable', 'no-voice'],
    ['synthesis-failed', 'voice-failed'],
    ['interrupted', 'voice-failed'],
  ] as const)('fails with %s as %s', async (error, fault) => {
    synthesis.habits.error = error;
    say('Bolt three.');
    await clock.advance(1_000);
    expect(outcome).toMatchObject({ kind: 'failed', fault });
  });

  it('fails when there is no voice at all, after giving the list time to come', async () => {
    synthesis.voices = [];
    say('Bolt three.');
    await clock.advance(browserVoiceLimits.voicesWithin - 1);
    expect(outcome).toBeNull();
    await clock.advance(1);
    expect(outcome).toMatchObject({ kind: 'failed', fault: 'no-voice' });
  });

  it('waits for voices that come late', async () => {
    synthesis.voices = [];
    say('Bolt three.');
    await clock.advance(700);
    synthesis.voices = [voice('Late', 'en-US')];
    synthesis.onvoiceschanged?.({ timeStamp: 0 });
    await clock.advance(2_000);
    expect(outcome).toEqual({ kind: 'ended' });
  });
});

describe('cancelling', () => {
  it('resolves at once and speaks no further sentence', async () => {
    const speaking = say('Bolt three. Forty-seven newton metres.');
    await clock.advance(100);
    speaking.cancel();
    await settle();
    expect(outcome).toEqual({ kind: 'cancelled' });
    await clock.advance(10_000);
    expect(synthesis.spoken).toHaveLength(1);
    expect(clock.pending).toBe(0);
  });

  it('works before the first sound', async () => {
    const speaking = say('Bolt three.');
    speaking.cancel();
    await clock.advance(5_000);
    expect(outcome).toEqual({ kind: 'cancelled' });
    expect(synthesis.spoken).toHaveLength(0);
  });
});

describe('picking a voice', () => {
  const remote = voice('Remote', 'en-US', { localService: false, default: true });
  const british = voice('British', 'en_GB');
  const american = voice('American', 'en-US');
  const french = voice('French', 'fr-FR');

  it('prefers this device, then the region, then the default', () => {
    expect(pickVoice([remote, british, american], 'en-US', true)).toBe(american);
    expect(pickVoice([remote, british], 'en-US', true)).toBe(british);
    expect(pickVoice([british, american], 'en-GB', true)).toBe(british);
    expect(pickVoice([american, voice('Default', 'en-US', { default: true })], 'en-US', false)?.name).toBe('Default');
  });

  it('takes a remote voice only when allowed, and never another language', () => {
    expect(pickVoice([remote], 'en-US', false)).toBeNull();
    expect(pickVoice([remote], 'en-US', true)).toBe(remote);
    expect(pickVoice([french], 'en-US', true)).toBeNull();
  });
});
