import { describe, expect, it } from 'vitest';
import { packFor } from '../../src/phrasing/packs.ts';
import type { Language } from '../../src/phrasing/language.ts';
import { languages } from '../../src/phrasing/language.ts';
import { say } from '../../src/phrasing/say.ts';
import type { KitItem, PlannedTool, WrenchMisfit, WrenchNote } from '../../src/procedure/plan-types.ts';
import type { WrenchRemark } from '../../src/procedure/wrench-remarks.ts';
import type { Degrees } from '../../src/torque/quantities.ts';
import { everyLine, group } from './samples.ts';

const bare: PlannedTool = { kind: 'hex', size: '13', sizeUnit: 'mm', square: null, reach: [] };
const socket = (language: Language, tool: Partial<PlannedTool>) =>
  say({ kind: 'socket', group: group({ tool: { ...bare, ...tool } }) }, language);
const inch = (size: string): Partial<PlannedTool> => ({ size, sizeUnit: 'in' });
const serration = (size: string): Partial<PlannedTool> => ({ kind: 'internal serration', size, sizeUnit: null, square: '1/4' });
const reach = (...kinds: readonly PlannedTool['reach'][number][]): Partial<PlannedTool> => ({ reach: kinds });

describe('a tool', () => {
  it.each<[Partial<PlannedTool>, string, string]>([
    [inch('1'), 'One inch socket.', 'Douille de un pouce.'],
    [inch('2'), 'Two inch socket.', 'Douille de deux pouces.'],
    [inch('12'), 'Twelve inch socket.', 'Douille de douze pouces.'],
    [inch('3/8'), 'Three eighths inch socket.', 'Douille de trois huitièmes de pouce.'],
    [inch('7/16'), 'Seven sixteenths socket.', 'Douille de sept seizièmes de pouce.'],
    [inch('11/16'), 'Eleven sixteenths socket.', 'Douille de onze seizièmes de pouce.'],
    [inch('1 1/8'), 'One and one eighth inch socket.', 'Douille de un et un huitième de pouce.'],
    [inch('1-1/8'), 'One and one eighth inch socket.', 'Douille de un et un huitième de pouce.'],
    [inch(' 3/4 '), 'Three quarter inch socket.', 'Douille de trois quarts de pouce.'],
    [{ size: '5.5' }, 'Five point five millimetre socket.', 'Douille de cinq virgule cinq millimètres.'],
    [{ size: null }, 'Socket.', 'Douille.'],
    [{ kind: 'slotted', size: null }, 'Slotted screwdriver.', 'Tournevis à fente.'],
    [{ kind: 'slotted', size: null, square: '1/4' }, 'Slotted bit, quarter inch drive.', 'Embout à fente, carré un quart.'],
    [{ kind: 'cross-head', size: '2', sizeUnit: null }, 'Number two cross-head screwdriver.', 'Tournevis cruciforme numéro deux.'],
    // What is not letters and a number is left as the procedure has it, all of it.
    [serration('T50H'), 'T50H serrated bit, quarter inch drive.', 'Embout six lobes T50H, carré un quart.'],
    [serration('T50-55'), 'T50-55 serrated bit, quarter inch drive.', 'Embout six lobes T50-55, carré un quart.'],
    [serration('small'), 'Small serrated bit, quarter inch drive.', 'Embout six lobes small, carré un quart.'],
    [
      reach({ kind: 'extension', length: null }),
      'One three, thirteen millimetre socket, extension.',
      'Douille de un trois, treize millimètres, rallonge.',
    ],
    [
      reach({ kind: 'extension', length: 150, angle: 15 as Degrees }),
      'One three, thirteen millimetre socket, one five zero millimetre extension at one five, fifteen degrees.',
      'Douille de un trois, treize millimètres, rallonge de un cinq zéro millimètres à un cinq, quinze degrés.',
    ],
    [
      reach({ kind: 'universal joint' }, { kind: 'other', text: 'a magnet' }),
      'One three, thirteen millimetre socket, universal joint, with a magnet.',
      'Douille de un trois, treize millimètres, cardan, avec a magnet.',
    ],
  ])('%o is "%s" and "%s"', (tool, english, french) => {
    expect(socket('en', tool).say).toBe(english);
    expect(socket('fr', tool).say).toBe(french);
  });

  it('is written as it is stamped', () => {
    expect(socket('en', { ...inch('3/8'), square: '1/2' }).show).toBe('3/8 in socket, 1/2 drive.');
    expect(socket('fr', { ...inch('3/8'), square: '1/2' }).show).toBe('Douille de 3/8 po, carré 1/2.');
    expect(socket('en', { size: '5.5' }).show).toBe('5.5 mm socket.');
    expect(socket('fr', { size: '5.5' }).show).toBe('Douille de 5,5 mm.');
    expect(socket('fr', reach({ kind: 'extension', length: 75, angle: 7.5 as Degrees })).show).toBe(
      'Douille de 13 mm, rallonge de 75 mm à 7,5°.',
    );
  });
});

const noRemarks: readonly WrenchRemark[] = [1, 2, 3, 4, 5].map((one) => ({
  kind: 'mind',
  wrench: `wrench ${'abcde'[one - 1] ?? ''}`,
  note: { code: 'suspect' },
  steps: one === 1 ? ['1'] : ['1', '4'],
}));

describe('remarks about the wrenches', () => {
  it.each([
    [2, null, null],
    [3, null, null],
    [4, 'And one more, on the screen.', 'Et encore un, à l’écran.'],
    [5, 'And two more, on the screen.', 'Et encore deux, à l’écran.'],
  ])('%d are said up to the third, the rest counted', (many, english, french) => {
    for (const [language, rest] of [
      ['en', english],
      ['fr', french],
    ] as const) {
      const { say: aloud } = say({ kind: 'wrench-remarks', remarks: noRemarks.slice(0, many) }, language);
      expect(aloud.match(/wrench [a-e]/giu)).toHaveLength(Math.min(many, 3));
      if (rest === null) expect(aloud).not.toMatch(/screen|écran/u);
      else expect(aloud.endsWith(rest), aloud).toBe(true);
    }
  });

  it('show the steps, and the reason why no wrench fits', () => {
    const remark = (language: Language, of: WrenchRemark) => packFor(language).tools.remark(of);
    const none: WrenchRemark = {
      kind: 'none-fits',
      torque: { value: 300, unit: 'N·m' },
      fastener: 'hub nut',
      reasons: [{ code: 'over-range', wrench: 'Long', needed: { value: 300, unit: 'N·m' }, max: { value: 200, unit: 'N·m' } }],
      steps: ['3', '7'],
    };
    expect(remark('en', none)).toBe(
      'None of your wrenches fits 300 N·m for the hub nut. Long ends at 200 N·m; it would have to be set to 300 N·m. (steps 3, 7)',
    );
    expect(remark('fr', none)).toBe(
      "Aucune de vos clés ne convient pour 300 N·m (hub nut). Long s'arrête à 200 N·m ; il faudrait la régler à 300 N·m. (étapes 3, 7)",
    );
    expect(remark('en', { ...none, reasons: [{ code: 'no-wrench' }], steps: ['3'] })).toMatch(/^You have no torque wrench\..*\(step 3\)$/u);
    expect(remark('fr', { ...none, reasons: [{ code: 'no-wrench' }], steps: ['3'] })).toMatch(
      /^Vous n'avez pas de clé dynamométrique\..*\(étape 3\)$/u,
    );
    expect(remark('en', noRemarks[0]!)).toMatch(/^wrench a: .*\(step 1\)$/u);
    expect(remark('fr', noRemarks[1]!)).toMatch(/^wrench b : .*\(étapes 1, 4\)$/u);
  });
});

describe('what to mind with a wrench', () => {
  const torque = (value: number) => ({ value, unit: 'N·m' }) as const;
  it.each<[WrenchNote | WrenchMisfit, readonly string[]]>([
    [{ code: 'calibration-overdue', calibrated: '2024-03-01', due: '2025-03-01' }, ['2025-03-01']],
    [{ code: 'operations-overdue', operations: 5200, limit: 5000 }, ['5200', '5000']],
    [{ code: 'under-usable-range', percentOfMax: 12.345, usableFrom: 20 }, ['12.3 %', '20 %']],
    [{ code: 'rounding-beyond-tolerance', deviation: -4.1666, tolerance: 3 }, [' 4.17 %', '3 %']],
    [{ code: 'spread-outside-band', low: torque(18.04), high: torque(23.5) }, ['18', '23.5']],
    [{ code: 'square-overloaded', limit: torque(70), square: '1/4' }, ['70 N·m', '1/4']],
    [{ code: 'coarse-graduation', graduation: torque(2.5) }, ['2.5 N·m']],
    [{ code: 'under-range', wrench: 'Long', needed: torque(9), min: torque(40) }, ['Long', '9 N·m', '40 N·m']],
    [{ code: 'rounding-outside-band', wrench: 'Long', nearest: torque(45), deviation: -6.25 }, ['Long', '45 N·m', ' 6.25 %']],
    [{ code: 'square-differs', wrench: 'Long', has: '1/2', needs: '3/8' }, ['1/2', '3/8']],
  ])('%o is told with its figures', (note, figures) => {
    for (const language of languages) {
      const told = packFor(language)
        .tools.note(note)
        .replaceAll(/(?<=\d),(?=\d)/gu, '.');
      for (const figure of figures) expect(told).toContain(figure);
    }
  });
});

it('tells what stands in for a tool, and nothing where nothing does', () => {
  const item: KitItem = {
    id: 'x',
    kind: 'socket',
    name: '14 mm socket',
    count: 1,
    steps: [],
    singleUse: false,
    owned: false,
    instead: null,
  };
  for (const language of languages) {
    const { tools } = packFor(language);
    expect(tools.instead(item)).toBeNull();
    expect(tools.instead({ ...item, instead: '9/16 inch socket' })).toContain('9/16');
  }
});

describe.each(languages)('lines in %s', (language) => {
  it('of different kinds never say the same, so that the ear alone can tell what happened', () => {
    const kindsByText = new Map<string, Set<string>>();
    for (const line of everyLine) {
      const text = say(line, language).say;
      kindsByText.set(text, (kindsByText.get(text) ?? new Set()).add(line.kind));
    }
    expect([...kindsByText].filter(([, kinds]) => kinds.size > 1)).toEqual([]);
  });
});

it('says when the buttons are the better way, in every language, at the third miss and no sooner', () => {
  for (const [language, buttons] of [
    ['en', /buttons/u],
    ['fr', /boutons/u],
  ] as const) {
    const miss = (times: number) =>
      say({ kind: 'not-understood', legal: ['done', 'torque', 'socket', 'stop', 'where'], times }, language).say;
    expect(miss(2)).not.toMatch(buttons);
    expect(miss(2).length).toBeGreaterThan(miss(1).length);
    expect([miss(3), miss(4)].every((text) => buttons.test(text))).toBe(true);
  }
});
