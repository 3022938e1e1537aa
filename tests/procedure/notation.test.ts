import { describe, expect, it } from 'vitest';
import {
  readAfter,
  readAngle,
  readDrive,
  readDuration,
  readLayout,
  readPass,
  readReach,
  readTorque,
} from '../../src/procedure/notation.ts';

describe('a torque as written', () => {
  it.each([
    ['90 N·m', 90, 'N·m', null],
    ['90 Nm', 90, 'N·m', null],
    ['90 N·m ±5', 90, 'N·m', { minus: 5, plus: 5 }],
    ['90 N·m ±10%', 90, 'N·m', { minus: 9, plus: 9 }],
    ['90 N·m +5 -0', 90, 'N·m', { minus: 0, plus: 5 }],
    ['47 lbf·ft ±2', 47, 'lbf·ft', { minus: 2, plus: 2 }],
  ])('%s keeps its own unit', (text, value, unit, band) => {
    expect(readTorque(text)).toEqual({ torque: { value, unit }, band });
  });

  it.each(['90', 'N·m', '-5 N·m', '0 N·m', '90 N', '90 N·m ±90', 'about 90 N·m'])('%s is none', (text) => {
    expect(readTorque(text)).toBeNull();
  });
});

describe('a drive as written', () => {
  it.each([
    ['hex 17', 'hex', '17', 'mm'],
    ['hex 17 mm', 'hex', '17', 'mm'],
    ['hex 3/4 in', 'hex', '3/4', 'in'],
    ['hex 1 1/8 in', 'hex', '1 1/8', 'in'],
    ['socket-head hex 8', 'socket-head hex', '8', 'mm'],
    ['internal serration T50', 'internal serration', 'T50', null],
    ['bihex 12', 'bihex', '12', 'mm'],
    ['cross-head 2', 'cross-head', '2', null],
    ['slotted', 'slotted', null, null],
    ['hand', 'hand', null, null],
  ])('%s', (text, kind, size, sizeUnit) => {
    expect(readDrive(text)).toEqual({ kind, size, sizeUnit });
  });

  it.each(['hex', '17', 'hexagon 17', 'hand 3', 'internal serration 50', 'hex seventeen', 'square'])('%s is none', (text) => {
    expect(readDrive(text)).toBeNull();
  });
});

describe('a reach as written', () => {
  it.each([
    ['extension', { kind: 'extension', length: null }],
    ['extension 150 mm', { kind: 'extension', length: 150 }],
    ['extension 300 at 45', { kind: 'extension', length: 300, angle: 45 }],
    ['universal joint', { kind: 'universal joint' }],
    ['deep socket', { kind: 'deep socket' }],
    ['crowfoot 50 at 45°', { kind: 'crowfoot', centre: 50, angle: 45 }],
    ['crowfoot 50', { kind: 'crowfoot', centre: 50, angle: null }],
    ['with a mirror', { kind: 'other', text: 'a mirror' }],
  ])('%s', (text, reach) => {
    expect(readReach(text)).toEqual(reach);
  });

  it.each(['crowfoot 50 at 200', 'extension 300 at 200', 'extension at 45', 'extension long', 'mirror', 'with '])('%s is none', (text) => {
    expect(readReach(text)).toBeNull();
  });
});

describe('a layout as written', () => {
  it.each([
    ['circle from 12', { kind: 'circle', from: 12 }],
    ['circle from 1:30', { kind: 'circle', from: 1.5 }],
    ['clock 12 3 6 9:30', { kind: 'clock', hours: [12, 3, 6, 9.5] }],
    ['clock 12:30', { kind: 'clock', hours: [0.5] }],
    ['grid 2 x 5', { kind: 'grid', rows: 2, columns: 5 }],
    ['grid 2×5', { kind: 'grid', rows: 2, columns: 5 }],
    ['line', { kind: 'line', down: false }],
    ['line down', { kind: 'line', down: true }],
  ])('%s', (text, layout) => {
    expect(readLayout(text)).toEqual(layout);
  });

  it.each(['circle', 'circle from 13', 'circle from 1:15', 'clock', 'grid 0 x 4', 'grid 2', 'line up', ''])('%s is none', (text) => {
    expect(readLayout(text)).toBeNull();
  });
});

describe('a pass as written', () => {
  it.each([
    ['snug', { kind: 'seat' }],
    ['30%', { kind: 'share', percent: 30 }],
    ['40 N·m', { kind: 'torque', torque: { value: 40, unit: 'N·m' } }],
    ['90°', { kind: 'angle', angle: 90 }],
    ['check', { kind: 'check' }],
  ])('%s', (text, pass) => {
    expect(readPass(text)).toEqual(pass);
  });

  it.each(['120%', '0%', '90', 'tight', '900°'])('%s is none', (text) => {
    expect(readPass(text)).toBeNull();
  });
});

it('reads angles with and without their sign', () => {
  expect(['90', '90°', '+60 degrees', '0', '721', 'x'].map(readAngle)).toEqual([90, 90, 60, null, null, null]);
});

it('reads times in seconds, minutes and hours, alone and together', () => {
  expect(['90 s', '10 min', '1 h', '1 h 30 min', '0.5 h', '10', '0 s', '200 h', 'soon'].map(readDuration)).toEqual([
    90,
    600,
    3600,
    5400,
    1800,
    null,
    null,
    null,
    null,
  ]);
});

it('reads when a follow-up is due', () => {
  expect(['50 km', '30 mi', '24 h', '2 days', '5 heat cycles', '1.5 heat cycles', 'km', '0 km'].map(readAfter)).toEqual([
    { kind: 'distance', value: 50, unit: 'km' },
    { kind: 'distance', value: 30, unit: 'mi' },
    { kind: 'time', hours: 24 },
    { kind: 'time', hours: 48 },
    { kind: 'count', count: 5, of: 'heat cycles' },
    null,
    null,
    null,
  ]);
});
