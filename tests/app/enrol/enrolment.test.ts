import { describe, expect, it } from 'vitest';
import { askedCommands, effectOf, trialOf, verdictOf } from '../../../src/app/enrol/commands.ts';
import { EnrolmentRun, type RunState, type Saying } from '../../../src/app/enrol/enrolment-run.ts';
import type { EnrolmentListener } from '../../../src/speech/enrolment/browser-enrolment.ts';
import { en } from '../../../src/app/enrol/words/en.ts';
import { fr } from '../../../src/app/enrol/words/fr.ts';

const commands = askedCommands('en');
const sound = new Float32Array(160);

/** A run whose person, clock and worker are the test. */
function begun() {
  const states: RunState[] = [];
  const said: Saying[][] = [];
  const asked: string[] = [];
  const lessons: { takes: number; trials: number }[] = [];
  const waiting: (() => void)[] = [];
  const told: { listener: EnrolmentListener | null } = { listener: null };
  let ended = 0;
  const run = new EnrolmentRun({
    commands,
    begin: (listener) => {
      told.listener = listener;
      return {
        ask: (text) => void asked.push(text),
        rest: () => undefined,
        learn: (takes, trials) => void lessons.push({ takes: takes.length, trials: trials.length }),
        end: () => void (ended += 1),
      };
    },
    say: (sayings) => {
      said.push([...sayings]);
      return Promise.resolve();
    },
    heard: () => undefined,
    trialOf: (command, take) => trialOf(command, take, 'en'),
    after: (_, act) => {
      waiting.push(act);
      return () => void waiting.splice(waiting.indexOf(act), 1);
    },
    onState: (state) => states.push(state),
  });
  const settled = async () => {
    for (let turn = 0; turn < 5; turn += 1) await Promise.resolve();
  };
  return {
    ...{ run, states, said, asked, lessons },
    listener: told.listener!,
    last: () => states.at(-1)!,
    ended: () => ended,
    /** The command asked for is said, or something else is, or nothing for as long as it waits. */
    async take() {
      told.listener!.found({ kind: 'take', text: asked.at(-1)!, sound });
      await settled();
    },
    async unlike() {
      told.listener!.found({ kind: 'unlike', text: asked.at(-1)! });
      await settled();
    },
    async silence() {
      waiting.at(-1)?.();
      await settled();
    },
    settled,
  };
}

describe('getting used to a voice', () => {
  it('asks for twelve commands twice, learns from the first time and is tried on the second', async () => {
    const one = begun();
    one.listener.ready();
    await one.settled();
    for (let turn = 0; turn < 24; turn += 1) await one.take();
    expect(one.asked).toEqual([...commands, ...commands].map(({ text }) => text));
    expect(one.lessons).toEqual([{ takes: 12, trials: 12 }]);
    expect(one.last().at).toBe('learning');
    expect(one.said[12]).toEqual([{ kind: 'second-round' }, { kind: 'ask', text: commands[0]!.text }]);
  });

  it('asks again for what was said otherwise or not at all, and leaves it out the third time', async () => {
    const one = begun();
    one.listener.ready();
    await one.settled();
    await one.unlike();
    expect(one.last()).toMatchObject({ index: 0, again: 'unlike', listening: true });
    await one.silence();
    expect(one.last()).toMatchObject({ index: 0, again: 'silent' });
    await one.silence();
    expect(one.last()).toMatchObject({ index: 1, again: null });
    for (let turn = 1; turn < 12; turn += 1) await one.take();
    for (let turn = 0; turn < 12; turn += 1) await one.take();
    expect(one.lessons).toEqual([{ takes: 11, trials: 12 }]);
  });

  it('learns nothing from too few, and lets the microphone go', async () => {
    const one = begun();
    one.listener.ready();
    await one.settled();
    for (let turn = 0; turn < 24; turn += 1) {
      one.run.skip();
      await one.settled();
    }
    expect(one.last().at).toBe('too-few');
    expect(one.lessons).toEqual([]);
    expect(one.ended()).toBe(1);
  });

  it('says what failed, and nothing that comes later changes that', async () => {
    const one = begun();
    one.listener.ready();
    await one.settled();
    one.listener.failed('audio-capture');
    await one.take();
    expect(one.last()).toEqual({ at: 'failed', fault: 'audio-capture' });
  });
});

describe('what it is worth', () => {
  const heard = commands.map(({ text }) => text as string | null);
  const without = (from: readonly (string | null)[], ...places: number[]) =>
    from.map((text, index) => (places.includes(index) ? null : text));

  it('is told in commands understood and taken for others, by meaning and not by wording', () => {
    const wrong = heard.map((text, index) => (index === 2 ? commands[3]!.text : text));
    const effect = effectOf(commands, { quiet: without(heard, 0), noisy: wrong }, { quiet: heard, noisy: heard }, 'en');
    expect(effect).toEqual({
      takes: 12,
      quiet: { before: { right: 11, wrong: 0 }, after: { right: 12, wrong: 0 } },
      noisy: { before: { right: 11, wrong: 1 }, after: { right: 12, wrong: 0 } },
    });
  });

  it('is kept only where something is better and nothing is worse', () => {
    const of = (before: readonly (string | null)[], after: readonly (string | null)[]) =>
      verdictOf(effectOf(commands, { quiet: before, noisy: heard }, { quiet: after, noisy: heard }, 'en')) === 'better';
    expect(of(without(heard, 1), heard)).toBe(true);
    expect(of(heard, heard)).toBe(false);
    expect(of(heard, without(heard, 1))).toBe(false);
  });

  it('asks in every language for twelve different commands', () => {
    for (const language of ['en', 'fr'] as const) expect(new Set(askedCommands(language).map(({ text }) => text)).size).toBe(12);
    expect(fr.say('x')).not.toBe(en.say('x'));
  });
});
