import { describe, expect, it } from 'vitest';
import type { PlannedGroup, PlannedPosition, PlannedTool } from '../../src/procedure/plan-types.ts';
import { languages } from '../../src/phrasing/language.ts';
import type { Language } from '../../src/phrasing/language.ts';
import type { Line } from '../../src/phrasing/lines.ts';
import { say } from '../../src/phrasing/say.ts';
import type { Degrees, TorqueUnit } from '../../src/torque/quantities.ts';
import { group, pass } from './samples.ts';

// Tools, places and torques as a person hears them: every kind, and what is left out where something is not given.

const english = { arm: 'the long arm', hour: "the one at four o'clock", bolt: 'carrier bolt', oiled: 'threads oiled' };
type Words = typeof english;
const french: Words = { arm: 'le long bras', hour: 'celle de quatre heures', bolt: 'vis du support', oiled: 'filets huilés' };

const thirteen: PlannedTool = { kind: 'hex', size: '13', sizeUnit: 'mm', square: null, reach: [] };
const tool = (parts: Partial<PlannedTool>): Line => ({ kind: 'socket', group: group({ tool: { ...thirteen, ...parts } }) });
const place: PlannedPosition = { name: '1', clock: null, x: 0.5, y: 0.5 };
const next = (at: Pick<PlannedPosition, 'name' | 'clock'> | null): Line => ({
  kind: 'which-next',
  place: { group: group({ positions: at === null ? [] : [{ ...place, ...at }] }), pass: 0, position: 0, left: 1 },
});
const torque = (parts: Partial<PlannedGroup>, of: number | null, unit: TorqueUnit | null = null): Line => ({
  kind: 'torque',
  group: group(parts),
  pass: of,
  unit,
});
const begins = (parts: Partial<PlannedGroup>, left: number): Line => ({
  kind: 'group',
  place: { group: group(parts), pass: 0, position: 0, left },
  unit: null,
});

const rows: readonly (readonly [what: string, line: (w: Words) => Line, en: string, fr: string])[] = [
  ['a hexagon', () => tool({}), 'One three, thirteen millimetre socket.', 'Douille de un trois, treize millimètres.'],
  [
    'a double hexagon',
    () => tool({ kind: 'bihex' }),
    'One three, thirteen millimetre double-hex socket.',
    'Douille douze pans de un trois, treize millimètres.',
  ],
  ['a square head', () => tool({ kind: 'square', size: '8' }), 'Eight millimetre square socket.', 'Douille carrée de huit millimètres.'],
  [
    'a key, where there is no drive',
    () => tool({ kind: 'socket-head hex', size: '8' }),
    'Eight millimetre hex key.',
    'Clé six pans de huit millimètres.',
  ],
  [
    'a bit, where there is one',
    () => tool({ kind: 'socket-head hex', size: '8', square: '3/8' }),
    'Eight millimetre hex bit, three eighths inch drive.',
    'Embout six pans de huit millimètres, carré trois huitièmes.',
  ],
  [
    'a serration by its number',
    () => tool({ kind: 'internal serration', size: 'T50', sizeUnit: null, square: '1/2' }),
    'T five zero serrated bit, half inch drive.',
    'Embout six lobes T cinq zéro, carré un demi.',
  ],
  [
    'a slotted screwdriver',
    () => tool({ kind: 'slotted', size: '6' }),
    'Six millimetre slotted screwdriver.',
    'Tournevis à fente de six millimètres.',
  ],
  [
    'a slotted bit',
    () => tool({ kind: 'slotted', size: '6', square: '1/4' }),
    'Six millimetre slotted bit, quarter inch drive.',
    'Embout à fente de six millimètres, carré un quart.',
  ],
  [
    'a cross-head of no known size',
    () => tool({ kind: 'cross-head', size: null, sizeUnit: null }),
    'Cross-head screwdriver.',
    'Tournevis cruciforme.',
  ],
  [
    'a cross-head by its number',
    () => tool({ kind: 'cross-head', size: 'PH2', sizeUnit: null }),
    'Number PH two cross-head screwdriver.',
    'Tournevis cruciforme numéro PH deux.',
  ],
  ['hands', () => tool({ kind: 'hand', size: null, sizeUnit: null }), 'By hand.', 'À la main.'],
  [
    'a tool that is not given',
    () => tool({ kind: 'not given', size: null, sizeUnit: null }),
    'A socket that the procedure does not name.',
    'Une douille que la procédure ne nomme pas.',
  ],
  [
    'a deep socket',
    () => tool({ reach: [{ kind: 'deep socket' }] }),
    'One three, thirteen millimetre deep socket.',
    'Douille longue de un trois, treize millimètres.',
  ],
  [
    'a crowfoot instead of a socket',
    () => tool({ reach: [{ kind: 'crowfoot', centre: null, angle: null }] }),
    'One three, thirteen millimetre crowfoot.',
    'Embout à fourche de un trois, treize millimètres.',
  ],
  [
    'an extension of any length, and something else',
    (w) =>
      tool({
        square: '1/2',
        reach: [
          { kind: 'extension', length: null },
          { kind: 'other', text: w.arm },
        ],
      }),
    'One three, thirteen millimetre socket, half inch drive, extension, with the long arm.',
    'Douille de un trois, treize millimètres, carré un demi, rallonge, avec le long bras.',
  ],
  [
    'an extension that is bent',
    () => tool({ reach: [{ kind: 'extension', length: 75, angle: 45 as Degrees }] }),
    'One three, thirteen millimetre socket, seven five millimetre extension at forty-five degrees.',
    'Douille de un trois, treize millimètres, rallonge de sept cinq millimètres à quarante-cinq degrés.',
  ],
  [
    'a drive of a whole inch',
    () => tool({ square: '1' }),
    'One three, thirteen millimetre socket, one inch drive.',
    'Douille de un trois, treize millimètres, carré un pouce.',
  ],
  [
    'an inch and a drive of three quarters',
    () => tool({ size: '1', sizeUnit: 'in', square: '3/4' }),
    'One inch socket, three quarter inch drive.',
    'Douille de un pouce, carré trois quarts.',
  ],
  [
    'an inch and an eighth',
    () => tool({ size: '1-1/8', sizeUnit: 'in' }),
    'One and one eighth inch socket.',
    'Douille de un et un huitième de pouce.',
  ],
  ['sixteenths', () => tool({ size: '11/16', sizeUnit: 'in' }), 'Eleven sixteenths socket.', 'Douille de onze seizièmes de pouce.'],
  ['eighths', () => tool({ size: '5/8', sizeUnit: 'in' }), 'Five eighths inch socket.', 'Douille de cinq huitièmes de pouce.'],
  ['a place by number', () => next({ name: '3', clock: null }), 'Next: number three.', 'Suivante : numéro trois.'],
  ['a place that the plan names', () => next({ name: 'top left', clock: null }), 'Next: top left.', 'Suivante : en haut à gauche.'],
  [
    'a place by half an hour',
    () => next({ name: 'top left', clock: 4.5 }),
    'Next: top left, at half past four.',
    'Suivante : en haut à gauche, à quatre heures et demie.',
  ],
  [
    'the hour before one',
    () => next({ name: '2', clock: 0.5 }),
    'Next: number two, at half past twelve.',
    'Suivante : numéro deux, à douze heures et demie.',
  ],
  [
    "an author's place that tells the hour itself",
    (w) => next({ name: w.hour, clock: 4 }),
    "Next: the one at four o'clock.",
    'Suivante : celle de quatre heures.',
  ],
  ['a place that the group does not have', () => next(null), 'Next: the next one.', 'Suivante : la suivante.'],
  [
    'no band',
    (w) => torque({ name: w.bolt, band: null }, null),
    'Carrier bolt. Nine zero: ninety newton metres.',
    'Vis du support. Neuf zéro : quatre-vingt-dix newtons mètres.',
  ],
  [
    'a band of nothing',
    (w) => torque({ name: w.bolt, band: { minus: 0, plus: 0 } }, null),
    'Carrier bolt. Nine zero: ninety newton metres.',
    'Vis du support. Neuf zéro : quatre-vingt-dix newtons mètres.',
  ],
  [
    'a band to one side',
    (w) => torque({ name: w.bolt, band: { minus: 0, plus: 10 } }, null),
    'Carrier bolt. Nine zero: ninety newton metres, plus ten, minus zero.',
    'Vis du support. Neuf zéro : quatre-vingt-dix newtons mètres, plus dix, moins zéro.',
  ],
  [
    'a band in another unit, not wider than it was',
    (w) => torque({ name: w.bolt, band: { minus: 4, plus: 4 } }, null, 'lbf·ft'),
    'Carrier bolt. Converted, six six: sixty-six foot pounds, plus or minus two point nine.',
    'Vis du support. Converti, six six : soixante-six livres pieds, plus ou moins deux virgule neuf.',
  ],
  [
    'one newton metre',
    (w) => torque({ name: w.bolt, torque: { value: 1, unit: 'N·m' }, band: null }, null),
    'Carrier bolt. One newton metre.',
    'Vis du support. Un newton mètre.',
  ],
  [
    'drawing on',
    () => torque({ passes: [pass({ kind: 'draw', torque: null })] }, 0),
    'Draw on in small even turns, not past snug. No torque in this pass.',
    "Tirer par petits tours égaux, sans dépasser l'approche. Pas de couple dans cette passe.",
  ],
  [
    'a check of the final torque',
    () => torque({ passes: [pass({ kind: 'check', torque: null })] }, 0),
    'Check each, one after the other. Nine zero: ninety newton metres, plus or minus five.',
    "Contrôler l'une après l'autre. Neuf zéro : quatre-vingt-dix newtons mètres, plus ou moins cinq.",
  ],
  [
    'a check of a torque of its own',
    () => torque({ passes: [pass({ kind: 'check', torque: { value: 54, unit: 'N·m' } })] }, 0),
    'Check each, one after the other. Five four: fifty-four newton metres.',
    "Contrôler l'une après l'autre. Cinq quatre : cinquante-quatre newtons mètres.",
  ],
  [
    'an angle that is not given',
    () => torque({ passes: [pass({ kind: 'angle', torque: null })] }, 0),
    "This procedure gives no torque. See the maker's manual.",
    'La procédure ne donne pas de couple. Voir le manuel du constructeur.',
  ],
  [
    'a torque that is not given',
    () => torque({ passes: [pass({ torque: null })] }, 0),
    "This procedure gives no torque. See the maker's manual.",
    'La procédure ne donne pas de couple. Voir le manuel du constructeur.',
  ],
  [
    'an angle without a torque',
    (w) => torque({ name: w.bolt, torque: null, band: null, angle: 90 as Degrees }, null),
    "Carrier bolt. This procedure gives no torque. See the maker's manual. Then turn nine zero: ninety degrees.",
    'Vis du support. La procédure ne donne pas de couple. Voir le manuel du constructeur. Puis tourner de neuf zéro : quatre-vingt-dix degrés.',
  ],
  [
    'a second pass where nothing at all is given',
    () => torque({ torque: null, band: null, passes: [pass({ kind: 'seat', torque: null }), pass({ kind: 'draw', torque: null })] }, 1),
    'Last of two passes. Draw on in small even turns, not past snug. No torque is given.',
    "Dernière passe sur deux. Tirer par petits tours égaux, sans dépasser l'approche. Aucun couple donné.",
  ],
  [
    'a share that is the whole',
    () => torque({ passes: [pass({ share: 100 })] }, 0),
    'Nine zero: ninety newton metres, plus or minus five.',
    'Neuf zéro : quatre-vingt-dix newtons mètres, plus ou moins cinq.',
  ],
  [
    'a pass that the group does not have',
    (w) => torque({ name: w.bolt }, 9),
    'Carrier bolt. Nine zero: ninety newton metres, plus or minus five.',
    'Vis du support. Neuf zéro : quatre-vingt-dix newtons mètres, plus ou moins cinq.',
  ],
  [
    'new fasteners, and their condition',
    (w) => begins({ name: w.bolt, condition: w.oiled, singleUse: true }, 3),
    "Three new carrier bolts. One seven, seventeen millimetre socket. Threads oiled. Start: number one, at twelve o'clock. First pass of three. Snug, no more. No torque in this pass.",
    'Vis du support : trois pièces neuves. Douille de un sept, dix-sept millimètres. Filets huilés. Début : numéro un, à douze heures. Première passe sur trois. Approcher, sans serrer plus. Pas de couple dans cette passe.',
  ],
  [
    'a single fastener of one pass',
    (w) => begins({ name: w.bolt, condition: null, positions: [place], passes: [pass()] }, 1),
    'One carrier bolt. One seven, seventeen millimetre socket. Nine zero: ninety newton metres.',
    'Vis du support : un. Douille de un sept, dix-sept millimètres. Neuf zéro : quatre-vingt-dix newtons mètres.',
  ],
  [
    'the last pass',
    () => ({ kind: 'pass', place: { group: group(), pass: 2, position: 0, left: 3 }, unit: null }),
    "Last of three passes. Start: number one, at twelve o'clock. Nine zero: ninety newton metres.",
    'Dernière passe sur trois. Début : numéro un, à douze heures. Neuf zéro : quatre-vingt-dix newtons mètres.',
  ],
  [
    'a pass over a single fastener',
    () => ({ kind: 'pass', place: { group: group({ positions: [place] }), pass: 1, position: 0, left: 1 }, unit: null }),
    'Second pass of three. Six zero percent of the final torque. Five four: fifty-four newton metres.',
    'Deuxième passe sur trois. Six zéro pour cent du couple final. Cinq quatre : cinquante-quatre newtons mètres.',
  ],
];

const words: Readonly<Record<Language, Words>> = { en: english, fr: french };

describe.each(languages)('what is said in %s of', (language) => {
  it.each(rows)('%s', (_, line, en, fr) => {
    expect(say(line(words[language]), language).say).toBe(language === 'en' ? en : fr);
  });
});
