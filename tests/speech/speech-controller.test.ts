import { describe, expect, it } from 'vitest';
import { activityOf } from '../../src/speech/speech-state.ts';
import type { SayOutcome } from '../../src/speech/voice/voice.ts';
import { grammar, speechBench, whileSpeaking } from './doubles/speech-bench.ts';

const listening = { grammar: grammar('stating'), whileSpeaking };

/** Begun, on the local ear and voice, listening. */
async function localBench(change: Parameters<typeof speechBench>[0] = {}) {
  const bench = speechBench({ ear: 'local', voice: 'local', ...change });
  await bench.controller.begin();
  bench.controller.listen(listening);
  await bench.clock.advance(1000);
  return bench;
}

function sayOn(bench: Awaited<ReturnType<typeof localBench>>, text: string): { outcome: SayOutcome | null } {
  const box: { outcome: SayOutcome | null } = { outcome: null };
  void bench.controller.say(text).then((outcome) => {
    box.outcome = outcome;
  });
  return box;
}

describe('choosing an ear', () => {
  it('takes the browser on the device where it can', async () => {
    const { controller, clock, browser } = speechBench();
    controller.listen(listening);
    const begun = controller.begin();
    await clock.advance(0);
    await begun;
    await clock.advance(0);
    expect(controller.state.ear).toMatchObject({ kind: 'browser-on-device', status: 'listening', audioLeavesDevice: false });
    expect(browser.last.processLocally).toBe(true);
    expect(browser.last.phrases.map(({ phrase }) => phrase)).toEqual(['step done', 'what torque', 'stop']);
    expect(browser.habits.installed).toEqual([]);
  });

  it.each(['downloadable', 'unavailable'] as const)(
    'takes the local one where the browser would have to fetch first (%s)',
    async (availability) => {
      const { controller, clock, browser, engine } = speechBench();
      browser.habits.availability = availability;
      controller.listen(listening);
      await controller.begin();
      await clock.advance(0);
      expect(controller.state.ear).toMatchObject({ kind: 'local', status: 'listening', audioLeavesDevice: false });
      expect(engine.isOpen).toBe(true);
      expect(browser.made).toHaveLength(0);
    },
  );

  it('fetches for the browser on the device when that is chosen by hand', async () => {
    const { controller, clock, browser } = speechBench({ ear: 'browser' });
    browser.habits.availability = 'downloadable';
    await controller.begin();
    await clock.advance(0);
    expect(controller.state.ear.kind).toBe('browser-on-device');
    expect(browser.habits.installed).toEqual([{ langs: ['en-US'], processLocally: true }]);
  });

  it('never lets audio leave the device without consent, whatever fails', async () => {
    const { controller, clock, browser, engine, troubles } = speechBench({ ear: 'browser' });
    browser.habits.availability = 'unavailable';
    engine.nextLoad = { kind: 'refused', error: 'network', message: 'offline' };
    controller.listen(listening);
    await controller.begin();
    await clock.advance(0);
    expect(controller.state.ear).toMatchObject({ status: 'broken', fault: 'network', kind: null });
    expect(troubles).toEqual([{ kind: 'ear-broken', fault: 'network' }]);
    expect(browser.made).toHaveLength(0);
  });

  it('goes remote with consent, last of all, and says that audio leaves the device', async () => {
    const { controller, clock, browser, engine } = speechBench({ remoteAllowed: true });
    browser.habits.availability = 'unavailable';
    engine.nextLoad = { kind: 'refused', error: 'network', message: 'offline' };
    controller.listen(listening);
    await controller.begin();
    await clock.advance(0);
    expect(controller.state.ear).toMatchObject({ kind: 'browser-remote', audioLeavesDevice: true });
    expect(browser.last.processLocally).toBe(false);
  });

  it('does not wait for a browser that never answers', async () => {
    const { controller, clock, browser } = speechBench();
    browser.Recognition.available = () => new Promise(() => undefined);
    void controller.begin();
    await clock.advance(3_000);
    expect(controller.state.ear.kind).toBe('local');
  });

  it('shows how far loading is, and what is in use changes by hand', async () => {
    const { controller, clock, engine, progress } = speechBench({ ear: 'local' });
    let loaded: () => void = () => undefined;
    engine.load = () =>
      new Promise((resolve) => {
        loaded = () => resolve({ kind: 'loaded' });
      });
    const begun = controller.begin();
    await clock.advance(0);
    progress.listener?.(0.4);
    expect(controller.state.ear).toMatchObject({ status: 'loading', kind: 'local', progress: 0.4 });
    expect(activityOf(controller.state)).toBe('loading');
    loaded();
    await begun;
    expect(controller.state.ear).toMatchObject({ status: 'ready', progress: null });
    await controller.apply({ ...controller.settings, ear: 'browser' });
    expect(controller.state.ear.kind).toBe('browser-on-device');
  });
});

describe('when an ear fails', () => {
  it('the local one takes over, tells why, and goes on hearing', async () => {
    const { controller, clock, browser, engine, troubles, texts } = speechBench();
    controller.listen(listening);
    await controller.begin();
    await clock.advance(500);
    browser.last.fail('network');
    await clock.advance(500);
    expect(troubles).toEqual([{ kind: 'ear-switched', from: 'browser-on-device', to: 'local', fault: 'network' }]);
    expect(controller.state.ear).toMatchObject({ kind: 'local', status: 'listening' });
    browser.last.final('what torque');
    engine.say('step done', 0.9, clock.now());
    expect(texts()).toEqual(['step done']);
  });

  it.each([
    ['not-allowed', 'microphone-denied'],
    ['audio-capture', 'no-microphone'],
  ] as const)('without a microphone (%s) it ends as a state with a code, and begins afresh when asked', async (error, fault) => {
    const { controller, clock, browser, engine, troubles } = speechBench();
    engine.nextOpen = { kind: 'refused', error, message: '' };
    controller.listen(listening);
    await controller.begin();
    await clock.advance(100);
    browser.last.fail(error);
    await clock.advance(1000);
    expect(controller.state.ear).toMatchObject({ status: 'broken', fault });
    expect(activityOf(controller.state)).toBe('broken');
    expect(troubles.at(-1)).toEqual({ kind: 'ear-broken', fault });
    engine.nextOpen = null;
    browser.habits.availability = 'unavailable';
    await controller.begin();
    await clock.advance(100);
    expect(controller.state.ear).toMatchObject({ status: 'listening', kind: 'local', fault: null });
  });
});

describe('choosing a voice', () => {
  it('takes the local voice of the browser first, and the app’s own where there is none', async () => {
    const first = speechBench();
    await first.controller.begin();
    expect(first.controller.state.voice).toMatchObject({ kind: 'browser', status: 'ready' });
    const second = speechBench();
    second.synthesis.voices = second.synthesis.voices.map((voice) => ({ ...voice, localService: false }));
    await second.controller.begin();
    expect(second.controller.state.voice.kind).toBe('local');
  });

  it('says the text again with the app’s own voice when the browser’s is stuck, and tells', async () => {
    const bench = speechBench();
    const { controller, clock, synthesis, source, troubles } = bench;
    await controller.begin();
    synthesis.habits.letterTakes = null;
    const box = sayOn(bench, 'Bolt three.');
    await clock.advance(20_000);
    expect(box.outcome).toEqual({ kind: 'ended' });
    expect(source.log).toEqual(['play Bolt three. at 1', 'end Bolt three.']);
    expect(troubles).toEqual([{ kind: 'voice-switched', from: 'browser', to: 'local', fault: 'voice-stuck' }]);
    expect(controller.state.voice.kind).toBe('local');
  });

  it('ends as a state with a code when no voice is left, and every say resolves', async () => {
    const bench = speechBench();
    const { controller, clock, synthesis, source, troubles } = bench;
    source.refusal = { kind: 'refused', error: 'synthesis-unavailable', message: '' };
    synthesis.habits.error = 'synthesis-failed';
    await controller.begin();
    controller.listen(listening);
    const first = sayOn(bench, 'Bolt three.');
    await clock.advance(5_000);
    expect(first.outcome).toMatchObject({ kind: 'failed', fault: 'no-voice' });
    expect(controller.state.voice).toMatchObject({ status: 'broken', fault: 'no-voice', saying: null });
    expect(troubles.at(-1)).toEqual({ kind: 'voice-broken', fault: 'no-voice' });
    const second = sayOn(bench, 'Bolt four.');
    await clock.advance(0);
    expect(second.outcome).toMatchObject({ kind: 'failed' });
  });

  it('tells that sound is blocked before the page is touched, without giving the voice up', async () => {
    const bench = await localBench();
    bench.source.playRefusal = { kind: 'refused', error: 'not-allowed', message: '' };
    const blocked = sayOn(bench, 'Bolt three.');
    await bench.clock.advance(10);
    expect(blocked.outcome).toMatchObject({ kind: 'failed', fault: 'sound-blocked' });
    expect(bench.controller.state.voice).toMatchObject({ status: 'ready', kind: 'local', fault: 'sound-blocked' });
    bench.source.playRefusal = null;
    const heard = sayOn(bench, 'Bolt three.');
    await bench.clock.advance(2_000);
    expect(heard.outcome).toEqual({ kind: 'ended' });
  });

  it('says nothing when the voice is switched off', async () => {
    const bench = await localBench({ voice: 'off' });
    const box = sayOn(bench, 'Bolt three.');
    await bench.clock.advance(0);
    expect(box.outcome).toEqual({ kind: 'ended' });
    expect(bench.source.log).toEqual([]);
  });
});

describe('speaking', () => {
  it('cancels what was being said for what is said next, and resolves both', async () => {
    const bench = await localBench();
    const first = sayOn(bench, 'First.');
    await bench.clock.advance(300);
    const second = sayOn(bench, 'Second.');
    await bench.clock.advance(300);
    expect(first.outcome).toEqual({ kind: 'cancelled' });
    expect(bench.controller.state.voice).toMatchObject({ status: 'speaking', saying: 'Second.' });
    await bench.clock.advance(1_000);
    expect(second.outcome).toEqual({ kind: 'ended' });
    expect(bench.source.log).toEqual(['play First. at 1', 'stop First.', 'play Second. at 1', 'end Second.']);
  });

  it('falls silent at once when told', async () => {
    const bench = await localBench();
    const box = sayOn(bench, 'First.');
    await bench.clock.advance(300);
    bench.controller.cancel();
    expect(bench.controller.state.voice).toMatchObject({ status: 'ready', saying: null });
    await bench.clock.advance(0);
    expect(box.outcome).toEqual({ kind: 'cancelled' });
  });

  it('follows slower and quieter from the next prompt on', async () => {
    const bench = await localBench();
    await bench.controller.apply({ ...bench.controller.settings, rate: 0.75, volume: 0.5 });
    sayOn(bench, 'First.');
    await bench.clock.advance(10);
    expect(bench.source.prepared.at(-1)?.style.rate).toBe(0.75);
    expect(bench.source.log).toEqual(['play First. at 0.5']);
  });
});

describe('one at a time, with a way in', () => {
  it('listens for the interrupting words only while sound comes, and for all again after', async () => {
    const bench = await localBench();
    sayOn(bench, 'Forty-seven newton metres.');
    expect(bench.engine.grammars.at(-1)).toBe(listening.grammar);
    await bench.clock.advance(100);
    expect(bench.engine.grammars.at(-1)).toBe(whileSpeaking);
    expect(activityOf(bench.controller.state)).toBe('speaking');
    await bench.clock.advance(1_000);
    expect(bench.engine.grammars.at(-1)).toBe(listening.grammar);
    expect(activityOf(bench.controller.state)).toBe('listening');
  });

  it('is silenced by stop, which is then heard', async () => {
    const bench = await localBench();
    const box = sayOn(bench, 'Forty-seven newton metres.');
    await bench.clock.advance(800);
    bench.engine.say('stop', 0.9, bench.clock.now() - 400);
    expect(bench.heard).toMatchObject([{ interrupted: true, ear: 'local' }]);
    expect(bench.texts()).toEqual(['stop']);
    await bench.clock.advance(0);
    expect(box.outcome).toEqual({ kind: 'cancelled' });
    expect(bench.source.log.at(-1)).toBe('stop Forty-seven newton metres.');
  });

  it('obeys nothing else said over its own voice, and none of its own words', async () => {
    const bench = await localBench();
    sayOn(bench, 'If it resists, stop.');
    await bench.clock.advance(900);
    bench.engine.say('step done', 0.99, bench.clock.now() - 300);
    bench.engine.say('stop', 0.99, bench.clock.now() - 300);
    bench.engine.tell({ kind: 'rejected', why: 'not-a-command', text: '', from: bench.clock.now() - 200, to: bench.clock.now() });
    expect(bench.heard).toEqual([]);
    expect(bench.drops()).toEqual(['while-speaking: step done', 'own-words: stop', 'while-speaking: ']);
  });

  it('obeys a stop over a sentence that has the word in another clause, as its voice tells where it is', async () => {
    const bench = await localBench();
    sayOn(bench, 'Turn it by hand, then let it rest: if it resists, stop.');
    await bench.clock.advance(500);
    bench.engine.say('stop', 0.95, bench.clock.now() - 300);
    expect(bench.texts()).toEqual(['stop']);
    sayOn(bench, 'Turn it by hand, then let it rest: if it resists, stop.');
    // The second clause begins after 1,000 ms.
    await bench.clock.advance(1_900);
    bench.engine.say('stop', 0.95, bench.clock.now() - 300);
    expect(bench.texts()).toEqual(['stop']);
    expect(bench.drops()).toEqual(['own-words: stop']);
  });

  it('hears an answer that comes right after the prompt', async () => {
    const bench = await localBench();
    sayOn(bench, 'Bolt three.');
    await bench.clock.advance(1_900);
    bench.engine.say('step done', 0.9, 2_200);
    expect(bench.texts()).toEqual(['step done']);
  });

  it('takes no earcon of its own for a command', async () => {
    const bench = await localBench();
    bench.controller.play('not-understood');
    expect(bench.played).toEqual(['not-understood']);
    const at = bench.clock.now();
    bench.engine.tell({ kind: 'heard', alternatives: [{ text: 'no', confidence: 0.9 }], from: at, to: at + 500 });
    expect(bench.drops()).toEqual(['own-sound: no']);
  });
});

describe('turns', () => {
  it('drops what began in an earlier turn, but never "stop"', async () => {
    const bench = await localBench();
    const began = bench.clock.now();
    await bench.clock.advance(600);
    bench.controller.listen({ grammar: grammar('confirming'), whileSpeaking });
    bench.engine.say('step done', 0.9, began);
    bench.engine.say('stop', 0.9, began);
    expect(bench.drops()).toEqual(['late: step done']);
    expect(bench.texts()).toEqual(['stop']);
  });

  it('numbers them, and keeps the number while the state stays', async () => {
    const bench = await localBench();
    bench.engine.say('step done', 0.9, bench.clock.now());
    await bench.clock.advance(1_000);
    bench.controller.listen({ grammar: grammar('stating'), whileSpeaking });
    bench.engine.say('step done', 0.9, bench.clock.now());
    await bench.clock.advance(1_000);
    bench.controller.listen({ grammar: grammar('fastening'), whileSpeaking });
    bench.engine.say('step done', 0.9, bench.clock.now());
    expect(bench.heard.map(({ turn }) => turn)).toEqual([1, 1, 2]);
  });

  it('rests when nothing may be said', async () => {
    const bench = await localBench();
    bench.controller.listen(null);
    await bench.clock.advance(0);
    expect(bench.engine.isOpen).toBe(false);
    expect(bench.controller.state.ear.status).toBe('ready');
  });
});

describe('ways to listen', () => {
  it('held: takes sound only while the key is down, and a little longer', async () => {
    const bench = await localBench({ way: 'held' });
    expect(bench.engine.isOpen).toBe(false);
    expect(bench.controller.state.ear.status).toBe('waiting-for-key');
    expect(bench.kept.at(-1)).toBe(true);
    bench.controller.press();
    await bench.clock.advance(10);
    expect(bench.engine.isOpen).toBe(true);
    expect(bench.controller.state.ear.status).toBe('listening');
    bench.controller.release();
    await bench.clock.advance(200);
    expect(bench.engine.isOpen).toBe(true);
    const at = bench.clock.now();
    bench.engine.leftOver = [{ kind: 'heard', alternatives: [{ text: 'what torque', confidence: 0.9 }], from: at - 200, to: at }];
    await bench.clock.advance(100);
    expect(bench.texts()).toEqual(['what torque']);
    expect(bench.engine.isOpen).toBe(false);
    expect(bench.controller.state.ear.status).toBe('waiting-for-key');
  });

  it('held: a new prompt right after the release does not lose what was said', async () => {
    const bench = await localBench({ way: 'held' });
    bench.controller.press();
    await bench.clock.advance(500);
    bench.controller.release();
    const at = bench.clock.now();
    bench.engine.leftOver = [{ kind: 'heard', alternatives: [{ text: 'what torque', confidence: 0.9 }], from: at - 400, to: at }];
    await bench.clock.advance(249);
    sayOn(bench, '');
    bench.controller.listen(listening);
    await bench.clock.advance(10);
    expect(bench.texts()).toEqual(['what torque']);
  });

  it('held: the key silences the app', async () => {
    const bench = await localBench({ way: 'held' });
    const box = sayOn(bench, 'Bolt three.');
    await bench.clock.advance(300);
    bench.controller.press();
    await bench.clock.advance(0);
    expect(box.outcome).toEqual({ kind: 'cancelled' });
    expect(bench.engine.grammars.at(-1)).toBe(listening.grammar);
  });

  it('name first: with a browser’s ear only what follows the name counts, and "stop"', async () => {
    const bench = speechBench({ way: 'name-first' });
    bench.controller.listen(listening);
    await bench.controller.begin();
    await bench.clock.advance(1_000);
    const { last } = bench.browser;
    for (const text of ['what torque', 'Undertray, what torque?', 'stop', 'under tray']) {
      last.speechStart();
      last.final(text);
      await bench.clock.advance(1_000);
    }
    last.speechStart();
    last.final('step done');
    expect(bench.texts()).toEqual(['what torque', 'stop', 'step done']);
    expect(bench.drops()).toEqual(['no-name: what torque']);
  });

  it('changes by hand while it listens', async () => {
    const bench = await localBench();
    await bench.controller.apply({ ...bench.controller.settings, way: 'held' });
    await bench.clock.advance(0);
    expect(bench.engine.isOpen).toBe(false);
    await bench.controller.apply({ ...bench.controller.settings, way: 'open' });
    await bench.clock.advance(500);
    expect(bench.engine.isOpen).toBe(true);
    await bench.controller.apply({ ...bench.controller.settings, way: 'off' });
    await bench.clock.advance(0);
    expect(bench.engine.isOpen).toBe(false);
    expect(bench.controller.state.ear.status).toBe('ready');
  });
});

it('tells once when the surroundings become too loud', async () => {
  const bench = await localBench();
  bench.controller.tellSurroundings({ tooLoud: true, noise: -20, speech: -18 });
  bench.controller.tellSurroundings({ tooLoud: true, noise: -19, speech: -18 });
  bench.controller.tellSurroundings({ tooLoud: false, noise: -40, speech: -18 });
  expect(bench.troubles).toEqual([{ kind: 'too-loud' }]);
  expect(bench.controller.state.ear.tooLoud).toBe(false);
});

it('wakes the sound within the tap that began it', () => {
  const { controller, wake } = speechBench();
  void controller.begin();
  expect(wake.calls).toBe(1);
});

it('leaves nothing running when it is put away', async () => {
  const bench = await localBench();
  sayOn(bench, 'Bolt three.');
  await bench.clock.advance(100);
  bench.controller.dispose();
  await bench.clock.advance(0);
  expect(bench.engine.isOpen).toBe(false);
  expect(bench.clock.pending).toBe(0);
  expect(bench.kept.at(-1)).toBe(false);
});
