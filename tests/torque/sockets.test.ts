import { describe, expect, it } from 'vitest';
import type { NewtonMetres } from '../../src/torque/quantities.ts';
import {
  parseSquareDrive,
  rememberedSquareLimits,
  servesInstead,
  sizeInMillimetres,
  socketFits,
  squareBears,
  threadsForTool,
  toolSizes,
} from '../../src/torque/sockets.ts';
import { threadNamed } from './thread-named.ts';

describe('does a tool fit a thread', () => {
  it.each([
    ['M8', 'hex', '13', ['ISO 272 hexagon', 'older DIN hexagon']],
    ['M8', 'hex', '12', ['small hexagon (JIS)']],
    ['M8', 'bihex', '10', ['small hexagon flange']],
    ['M8x1', 'hex', '13', ['ISO 272 hexagon', 'older DIN hexagon']],
    ['M10', 'hex', '17', ['older DIN hexagon']],
    ['M10', 'hex', '19', []],
    ['M10', 'socket-head hex', '8', ['socket-head cap screw (ISO 4762)']],
    ['M10', 'internal serration', 't50', ['internal serration (ISO 10664)']],
    ['M8', 'internal serration', 'T40', ['internal serration, pan head']],
  ] as const)('%s with %s %s', (thread, drive, size, standards) => {
    expect(socketFits(threadNamed(thread), drive, size, drive === 'internal serration' ? null : 'mm')).toMatchObject({
      known: true,
      standards,
    });
  });

  it('says what would fit', () => {
    const { expected } = socketFits(threadNamed('M10'), 'hex', '19', 'mm');
    expect(expected.map(({ size }) => size)).toEqual(['16', '17', '14', '13']);
  });

  it('knows nothing of threads and drives outside its tables', () => {
    expect(socketFits(threadNamed('M18'), 'hex', '27', 'mm')).toEqual({ known: false, standards: [], expected: [] });
    expect(socketFits(threadNamed('M10'), 'slotted', '6', 'mm').known).toBe(false);
    expect(socketFits(threadNamed('#10-32'), 'hex', '5/16', 'in')).toEqual({ known: false, standards: [], expected: [] });
  });

  it('reads inch sizes', () => {
    expect(socketFits(threadNamed('1/2-13'), 'hex', '3/4', 'in').standards).toEqual(['inch hexagon (ASME B18.2.1)']);
    expect(socketFits(threadNamed('1/2-13'), 'hex', '3/4', null).standards).toEqual(['inch hexagon (ASME B18.2.1)']);
    expect(socketFits(threadNamed('1/2-13'), 'hex', '19', 'mm').standards).toEqual([]);
  });

  it('marks what is only remembered', () => {
    const remembered = toolSizes(threadNamed('M16')).filter(({ provenance }) => provenance === 'memory');
    expect(remembered.map(({ size }) => size)).toEqual(['22']);
    expect(toolSizes(threadNamed('M8')).filter(({ provenance }) => provenance === 'memory')).toEqual([]);
  });

  it('gives keys and sockets in millimetres, and serrations by their number', () => {
    expect(toolSizes(threadNamed('M12')).map(({ size, sizeUnit }) => `${size} ${sizeUnit ?? 'by number'}`)).toEqual([
      '18 mm',
      '19 mm',
      '17 mm',
      '15 mm',
      '10 mm',
      '8 mm',
      'T55 by number',
    ]);
  });
});

describe('which threads a tool is for', () => {
  it('gives every standard', () => {
    expect(threadsForTool('hex', '13', 'mm')).toEqual([
      { diameter: 'M8', standard: 'ISO 272 hexagon' },
      { diameter: 'M8', standard: 'older DIN hexagon' },
      { diameter: 'M10', standard: 'small hexagon flange' },
    ]);
    expect(threadsForTool('internal serration', 'T50', null)).toEqual([{ diameter: 'M10', standard: 'internal serration (ISO 10664)' }]);
    expect(threadsForTool('hex', '9/16', 'in')).toEqual([{ diameter: '3/8 in', standard: 'inch hexagon (ASME B18.2.1)' }]);
    expect(threadsForTool('hex', '1-1/8', 'in')).toEqual([{ diameter: '3/4 in', standard: 'inch hexagon (ASME B18.2.1)' }]);
    expect(threadsForTool('hex', '3/4', 'in')).toEqual([{ diameter: '1/2 in', standard: 'inch hexagon (ASME B18.2.1)' }]);
    expect(threadsForTool('hex', '7/16', 'in')).toEqual([{ diameter: '1/4 in', standard: 'inch hexagon (ASME B18.2.1)' }]);
    expect(threadsForTool('hex', '5/8', 'in')).toEqual([{ diameter: '7/16 in', standard: 'inch hexagon (ASME B18.2.1)' }]);
    expect(threadsForTool('hex', '99', 'mm')).toEqual([]);
    expect(threadsForTool('hex', 'T50', null)).toEqual([]);
  });

  it('is the same relation read from the other side', () => {
    for (const thread of ['M5', 'M6', 'M8', 'M10', 'M12', 'M14', 'M16']) {
      for (const { drive, size, sizeUnit, standard } of toolSizes(threadNamed(thread))) {
        expect(threadsForTool(drive, size, sizeUnit)).toContainEqual({ diameter: thread, standard });
      }
    }
  });
});

describe('what serves instead', () => {
  const hex = (size: string, sizeUnit: 'mm' | 'in') => ({ kind: 'hex' as const, size, sizeUnit });

  it('takes a bihex socket for a hexagon and never the other way', () => {
    expect(servesInstead(hex('13', 'mm'), { kind: 'bihex', size: '13', sizeUnit: 'mm' })).toBe(true);
    expect(servesInstead({ kind: 'bihex', size: '13', sizeUnit: 'mm' }, hex('13', 'mm'))).toBe(false);
  });

  it('takes the other system only where it is barely larger', () => {
    expect(servesInstead(hex('19', 'mm'), hex('3/4', 'in'))).toBe(true);
    expect(servesInstead(hex('5/16', 'in'), hex('8', 'mm'))).toBe(true);
    expect(servesInstead(hex('3/4', 'in'), hex('19', 'mm'))).toBe(false);
    expect(servesInstead(hex('14', 'mm'), hex('9/16', 'in'))).toBe(false);
  });

  it('takes one larger by up to 0.15 mm, and the same size written otherwise', () => {
    expect(servesInstead(hex('13', 'mm'), hex('13.14', 'mm'))).toBe(true);
    expect(servesInstead(hex('13', 'mm'), hex('13.2', 'mm'))).toBe(false);
    expect(servesInstead(hex('13', 'mm'), hex('13.0', 'mm'))).toBe(true);
    expect(servesInstead(hex('13', 'mm'), hex('12.9', 'mm'))).toBe(false);
    expect(servesInstead({ kind: 'socket-head hex', size: '8', sizeUnit: 'mm' }, hex('8', 'mm'))).toBe(false);
    expect(servesInstead({ kind: 'square', size: '8', sizeUnit: 'mm' }, { kind: 'bihex', size: '8', sizeUnit: 'mm' })).toBe(false);
  });

  it('takes the same serration and blade, and no other', () => {
    const serration = (size: string) => ({ kind: 'internal serration' as const, size, sizeUnit: null });
    expect(servesInstead(serration('T50'), serration('t50'))).toBe(true);
    expect(servesInstead(serration('T50'), serration('T45'))).toBe(false);
    expect(servesInstead({ kind: 'cross-head', size: 'PH2', sizeUnit: null }, { kind: 'cross-head', size: 'PH2', sizeUnit: null })).toBe(
      true,
    );
    expect(servesInstead({ kind: 'cross-head', size: 'PH2', sizeUnit: null }, { kind: 'cross-head', size: 'PH3', sizeUnit: null })).toBe(
      false,
    );
    expect(servesInstead({ kind: 'slotted', size: '6', sizeUnit: 'mm' }, { kind: 'slotted', size: 'wide', sizeUnit: null })).toBe(false);
  });

  it('measures sizes in millimetres', () => {
    expect(sizeInMillimetres('13', 'mm')).toBe(13);
    expect(sizeInMillimetres('13 mm', null)).toBe(13);
    expect(sizeInMillimetres('1-1/8', 'in')).toBeCloseTo(28.575, 12);
    expect(sizeInMillimetres('3/4', null)).toBeCloseTo(19.05, 12);
    expect(sizeInMillimetres('1/2"', null)).toBe(12.7);
    expect(sizeInMillimetres('1/2 inch', 'in')).toBe(12.7);
    expect(sizeInMillimetres('1/2in', 'in')).toBe(12.7);
    expect(sizeInMillimetres(' 13mm ', null)).toBe(13);
    expect(sizeInMillimetres('13 mm long', 'mm')).toBeNull();
    expect(sizeInMillimetres('T50', null)).toBeNull();
  });
});

describe('square drives', () => {
  it('bear what their limit says, and the crib may set another', () => {
    expect(squareBears('1/4', { value: 25, unit: 'N·m' })).toBe(true);
    expect(squareBears('1/4', { value: 30, unit: 'N·m' })).toBe(true);
    expect(squareBears('1/4', { value: 30, unit: 'lbf·ft' })).toBe(false);
    expect(squareBears('1/4', { value: 30, unit: 'lbf·ft' }, { ...rememberedSquareLimits, '1/4': 50 as NewtonMetres })).toBe(true);
    expect(squareBears('1', { value: 30, unit: 'lbf·ft' })).toBeNull();
  });

  it.each([
    ['1/2', '1/2'],
    ['1/2"', '1/2'],
    ['1/2 inch', '1/2'],
    ['3/8 in', '3/8'],
    ['12.5 mm', '1/2'],
    ['12.5mm', '1/2'],
    ['1/2 inches', '1/2'],
    [' 1/2IN ', '1/2'],
    ['6.3 mm', '1/4'],
    ['10mm', '3/8'],
    ['20 mm', '3/4'],
    ['25 mm', '1'],
    ['1', '1'],
    ['5/8', null],
    ['13 mm', null],
    ['1/2 in deep', null],
    ['mm', null],
    ['', null],
  ])('%j is %s', (text, square) => {
    expect(parseSquareDrive(text)).toBe(square);
  });
});
