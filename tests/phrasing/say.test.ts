import { describe, expect, it } from 'vitest';
import { languages } from '../../src/phrasing/language.ts';
import type { Line } from '../../src/phrasing/lines.ts';
import { say } from '../../src/phrasing/say.ts';
import type { Degrees } from '../../src/torque/quantities.ts';
import { everyLine, group, measure, pass, step } from './samples.ts';

const said = (line: Line) => say(line, 'en').say;

describe.each(languages)('every line in %s', (language) => {
  it.each(everyLine.map((line) => [line.kind, line] as const))('says %s in whole sentences without figures or signs', (_, line) => {
    const { say: aloud, show } = say(line, language);
    expect(aloud).toMatch(/^\p{Lu}.*[.?!]$/u);
    expect(show).toMatch(/^[\p{Lu}\d].*[.?!]$/u);
    expect(aloud).not.toMatch(/[\d·°%±/()<>=&+]|undefined|null|NaN|\s{2}|\s[.,?]|\.\./u);
    expect(show).not.toMatch(/undefined|null|NaN|\s{2}|\.\./u);
  });
});

describe('torque answers', () => {
  it('give the number digit by digit, then as a word', () => {
    expect(said({ kind: 'torque', group: group(), pass: 2, unit: null })).toBe(
      'Last of three passes. Nine zero: ninety newton metres, plus or minus five.',
    );
  });

  it('name the pass and its share, and leave the final value out of it', () => {
    const answer = said({ kind: 'torque', group: group(), pass: 1, unit: null });
    expect(answer).toBe('Second pass of three. Six zero percent of the final torque. Five four: fifty-four newton metres.');
    expect(answer).not.toContain('ninety');
  });

  it('call a wrench setting a setting, after the torque', () => {
    const setting = { fits: true, wrench: 'small click wrench', set: { value: 47.5, unit: 'N·m' }, corrected: true, warnings: [] } as const;
    const line = {
      kind: 'torque',
      group: group({ passes: [pass({ torque: { value: 54, unit: 'N·m' }, setting }), pass()] }),
      pass: 0,
      unit: null,
    } as const;
    expect(said(line)).toBe(
      'First pass of two. Five four: fifty-four newton metres. Wrench: small click wrench. Wrench setting with the adapter: four seven point five: forty-seven point five newton metres.',
    );
    expect(say(line, 'en').show).toContain('Wrench setting with the adapter: 47.5 N·m');
  });

  it('do not repeat a setting that is the torque itself', () => {
    const setting = {
      fits: true,
      wrench: 'big wrench',
      set: { value: 90, unit: 'N·m' },
      corrected: false,
      warnings: ['Calibration was due on 2025-03-01.'],
    } as const;
    const answer = said({ kind: 'torque', group: group({ passes: [pass({ setting })], band: null }), pass: 0, unit: null });
    expect(answer).toMatch(/^Nine zero: ninety newton metres\. Wrench: big wrench\. Calibration was due on/u);
    expect(answer).not.toContain('setting');
  });

  it('say which wrenches do not fit, and why', () => {
    const setting = { fits: false, reasons: ['The small one ends at 60 N·m.'] } as const;
    expect(said({ kind: 'torque', group: group({ passes: [pass({ setting })] }), pass: 0, unit: null })).toContain(
      'None of your wrenches fits. The small one ends at six zero: sixty newton metres.',
    );
  });

  it('tell doubts about a wrench when asked, not again at each pass; how to hold a crowfoot at every pass', () => {
    const setting = {
      fits: true,
      wrench: 'big wrench',
      set: { value: 90, unit: 'N·m' },
      corrected: false,
      warnings: [{ code: 'keep-square' }, { code: 'suspect' }],
    } as const;
    const doubtful = group({ passes: [pass({ setting })] });
    const begins = said({ kind: 'group', place: { group: doubtful, pass: 0, position: 0, left: 3 }, unit: null });
    expect(begins).toContain('Keep the crowfoot square');
    expect(begins).not.toContain('dropped');
    expect(said({ kind: 'torque', group: doubtful, pass: 0, unit: null })).toContain('It was dropped or overloaded');
    const none = group({ passes: [pass({ setting: { fits: false, reasons: [{ code: 'no-wrench' }] } })] });
    expect(said({ kind: 'group', place: { group: none, pass: 0, position: 0, left: 3 }, unit: null })).toMatch(
      /None of your wrenches fits\.$/u,
    );
  });

  it('point to the manual where the procedure gives none', () => {
    const bare = group({ torque: null, band: null, passes: [pass({ kind: 'seat', torque: null })] });
    expect(said({ kind: 'torque', group: bare, pass: null, unit: null })).toBe(
      "Carrier bolt. This procedure gives no torque. See the maker's manual.",
    );
    expect(said({ kind: 'torque', group: bare, pass: 0, unit: null })).toContain("This procedure gives no torque. See the maker's manual.");
  });

  it('call a conversion so, from the source value, and never widen its tolerance', () => {
    const line = {
      kind: 'torque',
      group: group({ torque: { value: 47, unit: 'lbf·ft' }, band: { minus: 3, plus: 5 } }),
      pass: null,
      unit: 'N·m',
    } as const;
    expect(said(line)).toBe('Carrier bolt. Converted, six four: sixty-four newton metres, plus six point seven, minus four.');
    expect(say(line, 'en').show).toBe('Carrier bolt. Converted, 64 N·m, +6.7, −4.');
  });

  it('give the angle after the torque', () => {
    const angled = group({
      angle: 90 as Degrees,
      band: null,
      passes: [pass(), pass({ kind: 'angle', torque: null, angle: 90 as Degrees })],
    });
    expect(said({ kind: 'torque', group: angled, pass: null, unit: null })).toBe(
      'Carrier bolt. Nine zero: ninety newton metres. Then turn nine zero: ninety degrees.',
    );
    expect(said({ kind: 'torque', group: angled, pass: 1, unit: null })).toBe('Last of two passes. Turn nine zero: ninety degrees.');
  });
});

describe('prompts', () => {
  it('begin a group with the number last', () => {
    expect(said({ kind: 'group', place: { group: group(), pass: 1, position: 0, left: 3 }, unit: null })).toBe(
      "Three carrier bolts. One seven, seventeen millimetre socket. Threads oiled. Start: number one, at twelve o'clock. Second pass of three. Six zero percent of the final torque. Five four: fifty-four newton metres.",
    );
  });

  it('keep the next fastener short', () => {
    expect(said({ kind: 'next-fastener', place: { group: group(), pass: 0, position: 1, left: 2 } })).toBe(
      "Next: number two, at four o'clock. Left: two.",
    );
  });

  it('say the whole tool from the socket outward, and leave the thread out', () => {
    const answer = said({ kind: 'socket', group: group() });
    expect(answer).toBe('One seven, seventeen millimetre socket, half inch drive, one five zero millimetre extension, universal joint.');
    expect(answer).not.toMatch(/\bM\b/u);
  });

  it.each([
    [{ kind: 'hex', size: '9/16', sizeUnit: 'in' }, 'Nine sixteenths socket, half inch drive.'],
    [{ kind: 'hex', size: '3/4', sizeUnit: 'in' }, 'Three quarter inch socket, half inch drive.'],
    [{ kind: 'hex', size: '1 1/8', sizeUnit: 'in' }, 'One and one eighth inch socket, half inch drive.'],
    [{ kind: 'internal serration', size: 'T50', sizeUnit: null }, 'T five zero serrated bit, half inch drive.'],
    [{ kind: 'socket-head hex', size: '8', sizeUnit: 'mm' }, 'Eight millimetre hex bit, half inch drive.'],
    [{ kind: 'cross-head', size: '2', sizeUnit: null }, 'Number two cross-head bit, half inch drive.'],
  ] as const)('name the tool for %o', (tool, expected) => {
    expect(said({ kind: 'socket', group: group({ tool: { ...tool, square: '1/2', reach: [] } }) })).toBe(expected);
  });

  it('spell step numbers', () => {
    expect(said({ kind: 'step', step: step({ helper: null, optional: null }), mainSteps: 41 })).toBe(
      'Step one three. Tighten the eight carrier bolts crosswise.',
    );
    expect(said({ kind: 'step-done', step: step({ number: 'A3' }) })).toBe('Step A three done.');
  });

  it('end questions with what may be answered', () => {
    for (const kind of [
      'before',
      'hold',
      'stop-sign',
      'measure-read-back',
      'confirm-skip-step',
      'confirm-finish',
      'confirm-sign',
      'confirm-cut-wait',
      'confirm-reopen',
    ] as const) {
      for (const line of everyLine.filter((one) => one.kind === kind)) expect(said(line)).toMatch(/Yes or no\?$/u);
    }
    expect(said({ kind: 'measure', measure: measure() })).toMatch(/Say reading, and the value\.$/u);
  });

  it('read a measure back both ways', () => {
    expect(said({ kind: 'measure-read-back', measure: measure(), value: 15, saidUnit: null })).toBe(
      'I heard one five: fifteen millimetres. Yes or no?',
    );
    expect(said({ kind: 'measure-read-back', measure: measure(), value: 0.12, saidUnit: null })).toBe(
      'I heard zero point one two millimetres. Yes or no?',
    );
  });

  it('give two or three hints at first, more the second time, then the buttons', () => {
    const legal = ['stop', 'done', 'torque', 'socket', 'repeat', 'where', 'why', 'help'] as const;
    const hint = (times: number) => said({ kind: 'not-understood', legal, times });
    expect(hint(1)).toBe("Not understood. Say that's done or what torque or which socket.");
    expect(hint(2).length).toBeGreaterThan(hint(1).length);
    expect(hint(3)).toContain('buttons');
  });

  it('stay within about fifteen words where nobody asked for more', () => {
    const short = [
      'next-fastener',
      'step-done',
      'hold',
      'too-many',
      'paused',
      'stopped',
      'dropped',
      'undone',
      'confirm-skip-step',
      'confirm-finish',
      'wait-over',
      'measure-within',
      'failure',
      'sign-asked',
    ];
    for (const line of everyLine.filter(({ kind }) => short.includes(kind)))
      expect(said(line).split(' ').length, said(line)).toBeLessThanOrEqual(16);
  });
});
