import { describe, expect, it } from 'vitest';
import { legalIn } from '../../src/job/legal.ts';
import { clockHour, duration, feminine } from '../../src/phrasing/fr/durations.ts';
import { kitName } from '../../src/phrasing/fr/kit-names.ts';
import { text } from '../../src/phrasing/fr/text.ts';
import type { DialogueState, Intent } from '../../src/phrasing/intents.ts';
import { interpret } from '../../src/phrasing/interpret.ts';
import type { Line } from '../../src/phrasing/lines.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import { say } from '../../src/phrasing/say.ts';
import { wordsOf } from '../../src/phrasing/words.ts';
import type { KitItem } from '../../src/procedure/plan-types.ts';
import { group, measure, pass } from './samples.ts';

const { numbers, lexicon } = packFor('fr');
const said = (line: Line) => say(line, 'fr').say;

function intent(state: DialogueState, spoken: string): Intent | string {
  const result = interpret([{ text: spoken, confidence: 0.9 }], {
    state,
    legal: legalIn[state],
    language: 'fr',
    names: ['Ada Lund'],
    measureUnit: 'mm',
    nameFirst: false,
  });
  return result.kind === 'intent' ? result.intent : result.kind === 'not-now' ? `not now: ${result.intent}` : 'not understood';
}

describe('French numbers', () => {
  it.each([
    [21, 'vingt et un'],
    [70, 'soixante-dix'],
    [71, 'soixante et onze'],
    [77, 'soixante-dix-sept'],
    [80, 'quatre-vingts'],
    [81, 'quatre-vingt-un'],
    [91, 'quatre-vingt-onze'],
    [99, 'quatre-vingt-dix-neuf'],
    [100, 'cent'],
    [200, 'deux cents'],
    [201, 'deux cent un'],
    [280, 'deux cent quatre-vingts'],
    [1000, 'mille'],
    [1980, 'mille neuf cent quatre-vingts'],
    [80_000, 'quatre-vingt mille'],
    [200_000, 'deux cent mille'],
    [2_000_000, 'deux millions'],
    [47.5, 'quarante-sept virgule cinq'],
    [-0.05, 'moins zéro virgule zéro cinq'],
  ])('%d is %s', (value, word) => {
    expect(numbers.word(value)).toBe(word);
  });

  it('are spelled, then said as a word, where someone acts on them', () => {
    expect(numbers.critical(47)).toBe('quatre sept : quarante-sept');
    expect(numbers.critical(5.5)).toBe('cinq virgule cinq');
  });

  it('never let a confusable one stand alone', () => {
    for (const value of [13, 16, 30, 60, 63, 73, 76, 80, 83, 93, 160, 13.5]) {
      expect(numbers.plain(value)).toBe(`${numbers.digits(value)}, ${numbers.word(value)}`);
    }
    for (const value of [7, 12, 20, 21, 47, 55, 120]) expect(numbers.plain(value)).toBe(numbers.word(value));
  });

  it.each([
    ['quatre sept virgule cinq', 47.5],
    ['quatre-vingt-dix-sept', 97],
    ['quatre vingt', 80],
    ['septante deux', 72],
    ['nonante', 90],
    ['cent quatre', 104],
    ['deux cents', 200],
    ['mille deux cent cinquante', 1250],
    ['zéro virgule douze', 0.12],
    ['douze et demi', 12.5],
    ['trois quarts', 0.75],
    ['47,5', 47.5],
    ['1 250', 1250],
    ['moins cinq', -5],
    ['huit zéro : quatre-vingts', 80],
    ['moins quatre sept : moins quarante-sept', -47],
    ['soixante et onze', 71],
    ['soixante dix', 70],
    ['dix sept', 17],
    ['cent', 100],
    ['deux cent cinq', 205],
    ['mille deux cents', 1200],
    ['deux mille', 2000],
    ['un million', 1_000_000],
    ['deux millions cinq cents', 2_000_500],
    ['trois virgule douze', 3.12],
    ['trois et demi', 3.5],
    ['trois et un quart', 3.25],
    ['trois trois quarts', 3.75],
    ['un demi', 0.5],
    ['4 7,5', 47.5],
    ['zéro', 0],
    ['moins zéro', 0],
    ['quatre-vingt-dix-neuf', 99],
    ['soixante-dix-neuf', 79],
    ['vingt neuf', 29],
    ['vingt et un mille', 21_000],
    ['cent mille', 100_000],
    ['un quart', 0.25],
    ['1 2 3 4 5 6 7 8 9', 123_456_789],
  ])('"%s" is read', (spoken, value) => {
    expect(numbers.read(wordsOf(spoken, lexicon.listening))).toBe(value);
  });

  it.each([
    'quatre cinquante',
    'zéro cinq',
    'vingt onze',
    'virgule',
    'virgule cinq',
    'trois virgule',
    'cent cent',
    'vingt et deux',
    'moins moins cinq',
    'cinq moins',
    'soixante et douze',
    'soixante vingt',
    'quatre-vingt et un',
    'dix six',
    'dix cinq',
    'soixante deux sept',
    'soixante dix sept huit',
    'vingt zéro',
    'quatre-vingt zéro',
    'quatre-vingt vingt',
    'deux millions zéro',
    'mille mille',
    'trente dix',
    'zéro cent',
    'cent zéro',
    'zéro mille',
    'deux mille zéro',
    'million',
    '4 0,5',
    '12 34',
    '007',
    '1 2 3 4 5 6 7 8 9 0',
  ])('"%s" is not guessed', (spoken) => {
    expect(numbers.read(wordsOf(spoken, lexicon.listening))).toBeNull();
  });
});

describe('written French aloud', () => {
  it.each([
    ['Serrer à 47 N·m ±2.', 'Serrer à quatre sept : quarante-sept newtons mètres plus ou moins deux.'],
    ['un jeu de 0,05 à 0,15 mm', 'un jeu de zéro virgule zéro cinq à zéro virgule un cinq millimètre'],
    ['les vis M10x1,5', 'les vis M dix'],
    ['carré 1/2', 'carré un demi'],
    ['une clé de 9/16 in', 'une clé de neuf seizièmes de pouce'],
    ['tourner de 90°', 'tourner de neuf zéro, quatre-vingt-dix degrés'],
    ['env. 10 min', 'environ dix minutes'],
  ])('"%s" is "%s"', (written, expected) => {
    expect(text(written).say).toBe(expected);
  });

  it('says times', () => {
    expect(duration(150).say).toBe('deux minutes trente');
    expect(duration(61)).toEqual({ say: 'une minute, une seconde', show: '1 min 1 s' });
    expect(duration(21 * 60).say).toBe('vingt et une minutes');
    expect(clockHour(0.5).say).toBe('douze heures et demie');
    expect(clockHour(1)).toEqual({ say: 'une heure', show: '1 h' });
    expect(clockHour(1.5)).toEqual({ say: 'une heure et demie', show: '1 h 30' });
    expect(duration(30).say).toBe('trois zéro, trente secondes');
    expect(duration(90).say).toBe('une minute trente');
    expect(duration(3630).say).toBe('une heure, trois zéro, trente secondes');
    expect(duration(3690)).toEqual({ say: 'une heure, une minute trente', show: '1 h 1 min 30 s' });
    expect(duration(7325)).toEqual({ say: 'deux heures, deux minutes, cinq secondes', show: '2 h 2 min 5 s' });
    expect(duration(0)).toEqual({ say: 'zéro seconde', show: '0 s' });
    expect(duration(-5).show).toBe('0 s');
  });

  it('counts in the feminine where minutes and hours are counted', () => {
    const minutes = [1, 2, 11, 21, 31, 71, 81, 91, 101].map((count) => feminine(count));
    expect(minutes.map((words) => words.split(', ').at(-1))).toEqual([
      'une',
      'deux',
      'onze',
      'vingt et une',
      'trente et une',
      'soixante et onze',
      'quatre-vingt-une',
      'quatre-vingt-onze',
      'cent une',
    ]);
  });

  it('sets the signs of captions apart without a break', () => {
    expect(say({ kind: 'confirm-finish', openSteps: 0 }, 'fr').show).toBe('Passer à la clôture\u00a0? Oui ou non\u00a0?');
  });
});

describe('French answers', () => {
  it('give the torque of the pass, spelled, then as a word', () => {
    expect(said({ kind: 'torque', group: group(), pass: 1, unit: null })).toBe(
      'Deuxième passe sur trois. Six zéro pour cent du couple final. Cinq quatre : cinquante-quatre newtons mètres.',
    );
  });

  it('call a setting a setting, and a conversion a conversion', () => {
    const setting = { fits: true, wrench: 'petite clé', set: { value: 47.5, unit: 'N·m' }, corrected: true, warnings: [] } as const;
    expect(said({ kind: 'torque', group: group({ passes: [pass({ setting })] }), pass: 0, unit: null })).toContain(
      "Réglage de la clé avec l'adaptateur : quatre sept virgule cinq : quarante-sept virgule cinq newtons mètres.",
    );
    expect(said({ kind: 'torque', group: group({ band: null }), pass: null, unit: 'lbf·ft' })).toContain(
      'Converti, six six : soixante-six livres pieds.',
    );
  });

  it('point to the manual where the procedure gives none', () => {
    const bare = group({ torque: null, band: null, passes: [pass({ kind: 'seat', torque: null })] });
    expect(said({ kind: 'torque', group: bare, pass: null, unit: null })).toContain('Voir le manuel du constructeur.');
  });

  it('show decimals with a comma', () => {
    expect(say({ kind: 'measure', measure: measure() }, 'fr').show).toBe(
      'Mesurer\u00a0: flange gap. Admis\u00a0: de 1,8 à 2,2 mm. Dites\u00a0: je lis, et la valeur.',
    );
  });
});

describe('the kit in French', () => {
  const item = (kind: KitItem['kind'], name: string): KitItem => ({
    id: 'x',
    kind,
    name,
    count: 1,
    steps: [],
    singleUse: false,
    owned: null,
    instead: null,
  });

  it.each([
    ['socket', '16 mm deep socket, 1/2 drive', 'douille longue de 16 mm, carré 1/2'],
    ['bit', 'T50 internal-serration bit, 1/2 drive', 'embout six lobes T50, carré 1/2'],
    ['bit', '6 mm hex bit, 3/8 drive', 'embout six pans de 6 mm, carré 3/8'],
    ['bit', 'cross-head 2 screwdriver', 'tournevis cruciforme numéro 2'],
    ['extension', '150 mm extension', 'rallonge de 150 mm'],
    ['joint', 'universal joint, 1/4 drive', 'cardan, carré 1/4'],
    ['drive', '1/2 drive ratchet', 'cliquet carré 1/2'],
    ['wrench', 'torque wrench for 12 N·m to 40 N·m, 1/2 drive', 'clé dynamométrique pour 12 N·m à 40 N·m, carré 1/2'],
    ['wrench', 'ma clé, set to 12 N·m and 40 N·m', 'ma clé, réglée à 12 N·m et 40 N·m'],
    ['part', 'new écrou', 'écrou, pièce neuve'],
    ['part', 'joint plat', 'joint plat'],
  ] as const)('%s "%s"', (kind, name, expected) => {
    expect(kitName(item(kind, name)).show).toBe(expected);
  });
});

describe('free French', () => {
  it.each([
    ["c'est fait", { type: 'done', count: 1 }],
    ["j'en ai fait deux", { type: 'done', count: 2 }],
    ['Deux serrées.', { type: 'done', count: 2 }],
    ["euh, c'est serré", { type: 'done', count: 1 }],
    ['quel est le couple pour ces vis', { type: 'torque' }],
    ["le couple s'il te plaît", { type: 'torque' }],
    ['quel coupe', { type: 'torque' }],
    ['Quelle douille ?', { type: 'socket' }],
    ['stop arrête', { type: 'stop' }],
    ['stop, tout de suite !', { type: 'stop' }],
    ["sauter l'étape", { type: 'skip', scope: 'step', reason: null }],
    ['sauter l’étape, pièce manquante', { type: 'skip', scope: 'step', reason: 'no-part' }],
    ['annulez ça', { type: 'undo' }],
    ['Noter que le filet est rouillé.', { type: 'note', text: 'le filet est rouillé.' }],
    ['pas fait', 'not understood'],
    ["c'est pas fait", 'not understood'],
    ['accepter tel quel', 'not now: accept'],
  ])('"%s"', (spoken, meant) => {
    expect(intent('fastening', spoken)).toEqual(meant);
  });

  it.each([
    ['je lis quatre sept virgule cinq millimètres', 47.5, 'mm'],
    ["c'est 0,12", 0.12, null],
    ['zéro virgule zéro cinq pouces', 0.05, 'in'],
  ])('"%s" is a value', (spoken, value, unit) => {
    expect(intent('measuring', spoken)).toEqual({ type: 'number', value, unit });
  });
});
