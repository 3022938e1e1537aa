import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  advanceOfTurn,
  assemblyPreload,
  assemblyTorque,
  effectOfCondition,
  frictionDiameter,
  preloadByNutFactor,
  preloadFromTorque,
  proofLoadShare,
  surfaceConditions,
  torqueByNutFactor,
  torqueForPreload,
  turnForAdvance,
} from '../../src/torque/preload.ts';
import { parsePropertyClass } from '../../src/torque/strength.ts';
import type { Degrees, Megapascals, Millimetres, NewtonMetres, Newtons } from '../../src/torque/quantities.ts';
import { coarseMetricThreads } from '../../src/torque/threads.ts';
import { threadNamed } from './thread-named.ts';

const anyThread = fc.constantFrom(...coarseMetricThreads);
const friction = fc.record({
  thread: fc.double({ min: 0.04, max: 0.4, noNaN: true }),
  head: fc.double({ min: 0.04, max: 0.4, noNaN: true }),
});
const newtonMetres = fc.double({ min: 0.1, max: 2000, noNaN: true }).map((value) => value as NewtonMetres);

describe('preload', () => {
  it('of a torque takes that torque again', () => {
    fc.assert(
      fc.property(anyThread, friction, newtonMetres, (thread, of, torque) => {
        expect(torqueForPreload(thread, preloadFromTorque(thread, torque, of), of) / torque).toBeCloseTo(1, 12);
      }),
    );
  });

  it('falls as friction rises', () => {
    fc.assert(
      fc.property(anyThread, friction, newtonMetres, (thread, of, torque) => {
        const rougher = { thread: of.thread + 0.02, head: of.head };
        expect(preloadFromTorque(thread, torque, rougher)).toBeLessThan(preloadFromTorque(thread, torque, of));
      }),
    );
  });

  it('in assembly grows with the thread, the yield stress and the share used', () => {
    const of = { thread: 0.12, head: 0.12 };
    const m10 = threadNamed('M10');
    expect(assemblyPreload(m10, 940 as Megapascals, of)).toBeGreaterThan(assemblyPreload(m10, 640 as Megapascals, of));
    expect(assemblyPreload(m10, 640 as Megapascals, of, 0.7)).toBeCloseTo((assemblyPreload(m10, 640 as Megapascals, of) * 0.7) / 0.9, 6);
    const torques = coarseMetricThreads.map((thread) => assemblyTorque(thread, 640 as Megapascals, of));
    expect(torques).toEqual([...torques].sort((a, b) => a - b));
  });

  it('by VDI 2230 uses most of the proof load and not more', () => {
    const m10 = threadNamed('M10');
    const strength = parsePropertyClass('8.8', m10);
    if (!strength.ok) throw new Error('8.8');
    const share = proofLoadShare(m10, strength.value, assemblyPreload(m10, strength.value.yieldStress, { thread: 0.12, head: 0.12 }));
    expect(share).toBeGreaterThan(0.75);
    expect(share).toBeLessThan(0.9);
  });

  it('by nut factor goes both ways', () => {
    fc.assert(
      fc.property(newtonMetres, fc.double({ min: 0.1, max: 0.4, noNaN: true }), (torque, factor) => {
        expect(torqueByNutFactor(factor, preloadByNutFactor(factor, torque, 10 as Millimetres), 10 as Millimetres) / torque).toBeCloseTo(
          1,
          12,
        );
      }),
    );
    expect(preloadByNutFactor(0.2, 40 as NewtonMetres, 10 as Millimetres) satisfies Newtons).toBeCloseTo(20000, 6);
  });
});

describe('the head', () => {
  it('rubs at the middle of its ring', () => {
    expect(frictionDiameter(threadNamed('M10'))).toBeCloseTo(12.8, 12);
    expect(frictionDiameter(threadNamed('M10x1.25'))).toBeCloseTo(12.8, 12);
  });

  it('rubs at 1.3 d where no table has it', () => {
    expect(frictionDiameter(threadNamed('M30'))).toBeCloseTo(39, 12);
    expect(frictionDiameter(threadNamed('1/2-13'))).toBeCloseTo(16.51, 12);
  });
});

describe('the condition of the thread', () => {
  it('loads an oiled thread two thirds more than the black one that the torque was for', () => {
    const { preload, torque } = effectOfCondition('black', 'lubricated');
    expect(preload).toBeCloseTo(5 / 3, 12);
    expect(torque).toBeCloseTo(0.6, 12);
  });

  it('changes nothing when nothing changes, and undoes itself', () => {
    for (const one of surfaceConditions) {
      expect(effectOfCondition(one, one)).toEqual({ preload: 1, torque: 1 });
      for (const other of surfaceConditions) {
        expect(effectOfCondition(one, other).preload * effectOfCondition(other, one).preload).toBeCloseTo(1, 12);
      }
    }
  });
});

describe('the turn of the nut', () => {
  it('goes both ways', () => {
    fc.assert(
      fc.property(anyThread, fc.integer({ min: 1, max: 720 }), (thread, turn) => {
        expect(turnForAdvance(thread, advanceOfTurn(thread, turn as Degrees))).toBeCloseTo(turn, 9);
      }),
    );
  });
});
