import { describe, expect, it } from 'vitest';
import { rememberedSquareLimits, toolSizes, toolStandards } from '../../src/torque/sockets.ts';
import { parseThread } from '../../src/torque/threads.ts';

// Second-hand: ISO 272, JIS B 1189 and small-hexagon tables, ISO 4762, ISO 10664, reprints. The small hexagon of M16 is memory.
const rows: { thread: string; sizes: (string | null)[] }[] = [
  { thread: 'M3', sizes: ['5.5', '5.5', null, null, '2.5', '2', 'T10', null] },
  { thread: 'M4', sizes: ['7', '7', null, null, '3', '2.5', 'T20', null] },
  { thread: 'M5', sizes: ['8', '8', null, '7', '4', '3', 'T25', null] },
  { thread: 'M6', sizes: ['10', '10', '10', '8', '5', '4', 'T30', null] },
  { thread: 'M8', sizes: ['13', '13', '12', '10', '6', '5', 'T45', 'T40'] },
  { thread: 'M10', sizes: ['16', '17', '14', '13', '8', '6', 'T50', null] },
  { thread: 'M12', sizes: ['18', '19', '17', '15', '10', '8', 'T55', null] },
  { thread: 'M14', sizes: ['21', '22', '19', '18', '12', null, 'T60', null] },
  { thread: 'M16', sizes: ['24', '24', '22', '21', '14', '10', 'T70', null] },
  { thread: 'M20', sizes: ['30', '30', null, null, '17', '12', 'T90', null] },
  { thread: 'M24', sizes: ['36', '36', null, null, '19', '14', null, null] },
];

describe('sockets, keys and serrations by thread and standard', () => {
  it.each(rows)('$thread', ({ thread: size, sizes }) => {
    const thread = parseThread(size);
    if (!thread.ok) throw new Error(thread.problem.code);
    const found = toolSizes(thread.value);
    for (const [column, expected] of sizes.entries()) {
      expect(found.find(({ standard }) => standard === toolStandards[column])?.size ?? null).toBe(expected);
    }
  });

  // ASME B18.2.1, second-hand.
  it.each([
    ['1/4-20 UNC', '7/16'],
    ['5/16-18 UNC', '1/2'],
    ['3/8-16 UNC', '9/16'],
    ['7/16-14 UNC', '5/8'],
    ['1/2-13 UNC', '3/4'],
    ['9/16-12 UNC', '13/16'],
    ['5/8-11 UNC', '15/16'],
    ['3/4-16 UNF', '1-1/8'],
  ])('%s takes %s inch', (size, expected) => {
    const thread = parseThread(size);
    if (!thread.ok) throw new Error(thread.problem.code);
    expect(toolSizes(thread.value).map((tool) => tool.size)).toEqual([expected]);
  });

  it('square drives bear 30, 135, 340 and 1000 N·m (memory; the crib may say otherwise)', () => {
    expect(rememberedSquareLimits).toEqual({ '1/4': 30, '3/8': 135, '1/2': 340, '3/4': 1000, '1': null });
  });
});
