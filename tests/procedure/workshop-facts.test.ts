import { describe, expect, it } from 'vitest';
import { plausibleTorque } from '../../src/torque/plausibility.ts';
import { parseThread } from '../../src/torque/threads.ts';
import { findings, withGroup } from './written.ts';

/*
 * Facts of the trade, common practice without a source: which torque goes with which hexagon. Each must pass the lint.
 */
const facts = [
  { size: 10, thread: 'M6x1', torque: '7 lbf·ft', smaller: 'M5x0.8' },
  { size: 10, thread: 'M6x1', torque: '8 lbf·ft', smaller: 'M5x0.8' },
  { size: 12, thread: 'M8x1.25', torque: '16 lbf·ft', smaller: 'M6x1' },
  { size: 14, thread: 'M10x1.25', torque: '28 lbf·ft', smaller: 'M8x1.25' },
  { size: 14, thread: 'M10x1.25', torque: '33 lbf·ft', smaller: 'M8x1.25' },
  { size: 17, thread: 'M12x1.25', torque: '47 lbf·ft', smaller: 'M10x1.25' },
  { size: 19, thread: 'M14x1.5', torque: '84 lbf·ft', smaller: 'M12x1.25' },
] as const;

const told = (thread: string, size: number, torque: string, strength: string | null) =>
  findings(
    withGroup(
      `name: bolt\ncount: 1\nthread: ${thread}\n${strength === null ? '' : `class: ${strength}\n`}drive: hex ${size}\nsquare: 1/2\ntorque: ${torque}`,
    ),
  )
    .map(({ code }) => code)
    .filter((code) => code.startsWith('torque-') || code === 'socket-misfit');

describe.each(facts)('a $size mm hexagon on $thread at $torque', ({ size, thread, torque, smaller }) => {
  it('is plausible to the lint, with its class and without', () => {
    expect(told(thread, size, torque, null)).toEqual([]);
    expect(told(thread, size, torque, size === 19 || size === 17 ? '10.9' : '8.8')).toEqual([]);
  });

  it('one thread size smaller is beyond the proof load of 8.8 exactly where the calculation says so', () => {
    const read = parseThread(smaller);
    const [value = '', unit = ''] = torque.split(' ');
    const judged = read.ok ? plausibleTorque(read.value, '8.8', { value: Number(value), unit: unit as 'lbf·ft' }) : null;
    expect(judged).not.toBeNull();
    expect(told(smaller, size, torque, '8.8').includes('torque-too-high')).toBe((judged?.share ?? 0) > 1);
  });
});

describe('the same torque one thread size smaller', () => {
  // Proof loads of ISO 898-1 for 8.8: M5 8.23 kN, M6 11.6, M8 21.2, M10x1.25 35.5, M12x1.25 53.4; calculated at friction 0.12.
  it.each([
    ['M5x0.8', 10, '8 lbf·ft'],
    ['M6x1', 12, '16 lbf·ft'],
    ['M8x1.25', 14, '28 lbf·ft'],
    ['M8x1.25', 14, '33 lbf·ft'],
    ['M10x1.25', 17, '60 lbf·ft'],
  ])('is not plausible on %s under a %i mm head at %s', (thread, size, torque) => {
    expect(told(thread, size, torque, '8.8')).toContain('torque-too-high');
  });
});
