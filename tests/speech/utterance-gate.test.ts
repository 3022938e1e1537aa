import { beforeEach, describe, expect, it } from 'vitest';
import type { EchoGuard } from '../../src/speech/echo-guard.ts';
import { createEchoGuard } from '../../src/speech/echo-guard.ts';
import { afterName } from '../../src/speech/name-first.ts';
import type { GateRules, UtteranceGate } from '../../src/speech/utterance-gate.ts';
import { createUtteranceGate } from '../../src/speech/utterance-gate.ts';
import { englishSounds } from './doubles/english-sounds.ts';

let guard: EchoGuard;
let gate: UtteranceGate;

beforeEach(() => {
  guard = createEchoGuard(() => englishSounds);
  gate = createUtteranceGate(guard);
});

const rules: GateRules = {
  turnBegan: 0,
  nameFirst: false,
  names: ['undertray', 'under tray'],
  isInterrupting: (text) => text === 'stop' || text === 'hold on',
};

function judge(texts: readonly string[], from: number, ear: 'local' | 'browser-remote' = 'local', change: Partial<GateRules> = {}) {
  const alternatives = texts.map((text, index) => ({ text, confidence: 0.95 - index / 20 }));
  const verdict = gate.judge({ alternatives, from, to: from + 500, ear }, { ...rules, ...change });
  if (verdict.kind === 'pass') return verdict.alternatives.map(({ text }) => text);
  return verdict.kind === 'drop' ? verdict.why : verdict.kind;
}

describe('what is said to the app', () => {
  it('passes with all its alternatives', () => {
    expect(judge(['what torque', 'what socket'], 1000)).toEqual(['what torque', 'what socket']);
  });

  it('is dropped when it began in an earlier turn, unless it interrupts', () => {
    expect(judge(['step done'], 600, 'local', { turnBegan: 1000 })).toBe('late');
    expect(judge(['step done'], 750, 'local', { turnBegan: 1000 })).toEqual(['step done']);
    expect(judge(['stop'], 100, 'local', { turnBegan: 1000 })).toEqual(['stop']);
  });
});

describe('over the app’s own voice', () => {
  beforeEach(() => guard.speechBegins('Forty-seven newton metres.', 0, 1));

  it('only the guesses that interrupt are left, even lesser ones', () => {
    expect(judge(['top', 'stop'], 300)).toEqual(['stop']);
    expect(judge(['step done', 'what torque'], 300)).toBe('while-speaking');
    expect(judge(['newton metres'], 300)).toBe('while-speaking');
  });

  it('no guess is left at a sound that is most likely its own', () => {
    guard.speechBegins('Hold on, or what torque.', 2000, 1);
    expect(judge(['hold on', 'stop'], 2000)).toBe('own-words');
  });

  it('the fit of the ear on this device counts, and that of others does not', () => {
    guard.speechBegins('Start the wait.', 2000, 1);
    expect(judge(['stop'], 2050)).toEqual(['stop']);
    expect(judge(['stop'], 2050, 'browser-remote')).toBe('own-words');
  });
});

describe('the name', () => {
  it('is taken off whatever a browser heard after it', () => {
    expect(judge(['Undertray, what torque?'], 1000, 'browser-remote')).toEqual(['what torque']);
    expect(afterName('under tray step done', rules.names)).toBe('step done');
    expect(afterName('undertrays step done', rules.names)).toBeNull();
  });

  it('must come first when that is how the person listens, but not for stop', () => {
    const nameFirst = { nameFirst: true };
    expect(judge(['what torque'], 1000, 'browser-remote', nameFirst)).toBe('no-name');
    expect(judge(['stop'], 2000, 'browser-remote', nameFirst)).toEqual(['stop']);
  });

  it('alone lets one command follow within four seconds', () => {
    const nameFirst = { nameFirst: true };
    expect(judge(['undertray'], 1000, 'browser-remote', nameFirst)).toBe('name-only');
    expect(judge(['what torque'], 3000, 'browser-remote', nameFirst)).toEqual(['what torque']);
    expect(judge(['step done'], 4000, 'browser-remote', nameFirst)).toBe('no-name');
    expect(judge(['undertray'], 5000, 'browser-remote', nameFirst)).toBe('name-only');
    expect(judge(['what torque'], 9600, 'browser-remote', nameFirst)).toBe('no-name');
  });

  it('is the local recogniser’s own business', () => {
    expect(judge(['what torque'], 1000, 'local', { nameFirst: true })).toEqual(['what torque']);
  });
});
