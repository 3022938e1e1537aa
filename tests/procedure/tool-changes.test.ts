import { describe, expect, it } from 'vitest';
import { freeSteps, toolChanges } from '../../src/procedure/tool-changes.ts';
import { planOf, read, withSteps } from './written.ts';

const step = (id: string, drive: string, torque: string, more = '') =>
  `- { id: ${id}, do: ${id}., ${more}fasteners: [{ name: ${id} bolt, count: 1, drive: ${drive}, torque: ${torque} }] }`;

function changesOf(...steps: readonly string[]) {
  const text = withSteps(steps.join('\n'));
  return toolChanges(planOf(text), freeSteps(read(text).variants.get('K')!));
}

describe('tool changes', () => {
  it('are counted where socket or setting differ from the last', () => {
    expect(
      changesOf(step('a', 'hex 13', '22 N·m'), step('b', 'hex 13', '22 N·m'), step('c', 'hex 13', '25 N·m'), step('d', 'hex 16', '25 N·m')),
    ).toEqual({
      count: 3,
      suggestion: null,
    });
  });

  it('are none by hand', () => {
    expect(changesOf('- { id: a, do: A., fasteners: [{ name: cap, count: 1, drive: hand }] }').count).toBe(0);
  });

  it('are spared by moving a free step beside its like', () => {
    const { count, suggestion } = changesOf(
      step('a', 'hex 10', '9 N·m', 'free: true, '),
      step('b', 'hex 13', '22 N·m'),
      step('c', 'hex 10', '9 N·m'),
    );
    expect(count).toBe(3);
    expect(suggestion).toEqual({ order: ['b', 'a', 'c'], moved: ['a'], count: 2 });
  });

  it('never move a step that the author ordered', () => {
    expect(changesOf(step('a', 'hex 10', '9 N·m'), step('b', 'hex 13', '22 N·m'), step('c', 'hex 10', '9 N·m')).suggestion).toBeNull();
  });

  it('never move a step out of its stage', () => {
    const text = withSteps(`${step('a', 'hex 10', '9 N·m')}\n${step('b', 'hex 13', '22 N·m')}`).concat(
      `  - id: second\n    title: Second stage\n    steps:\n      ${step('c', 'hex 10', '9 N·m', 'free: true, ')}\n`,
    );
    expect(toolChanges(planOf(text), freeSteps(read(text).variants.get('K')!)).suggestion).toBeNull();
  });
});
