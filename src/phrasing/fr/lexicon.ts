import type { TorqueUnit } from '../../torque/quantities.ts';
import type { Lexicon } from '../language.ts';
import { commands } from './commands.ts';
import { numberRules } from './number-rules.ts';

const countWords = ['un', 'deux', 'trois', 'quatre', 'cinq', 'six', 'sept', 'huit', 'neuf', 'dix', 'onze', 'douze'] as const;
const countWord = (count: number) => countWords[count - 1] ?? '';

export const lexicon: Lexicon = {
  names: ['undertray', 'under tray'],
  commands,
  // The figure comes last: before a consonant "six", "huit" and "cinq" lose the sound that tells them apart.
  counts: {
    taught: (count) => `et de ${countWord(count)}`,
    natural: (count) => [`j'en ai fait ${countWord(count)}`, ...(count === 2 ? ['les deux sont faits', 'les deux sont serrés'] : [])],
    written: (count) => [
      `${countWord(count)} serré${count === 1 ? '' : 's'}`,
      `${countWord(count)} de fait`,
      `${countWord(count)} fait`,
      `fait ${countWord(count)}`,
      `j'en ai ${countWord(count)} de fait`,
      ...(count > 2 ? [`les ${countWord(count)} sont faits`] : []),
    ],
    most: countWords.length,
  },
  scopes: {
    this: {
      taught: 'on laisse celle ci',
      natural: ['on laisse celui ci', 'laisser de côté', 'laisser celle ci', 'laisser celui ci', 'laisser cette vis'],
      button: 'Laisser celle-ci',
    },
    step: {
      taught: "sauter l'étape",
      natural: ['sauter cette étape', "sauter toute l'étape", 'sauter le reste'],
      button: "Sauter l'étape",
    },
  },
  reasons: {
    'no-part': { taught: 'pièce manquante', natural: ['il manque la pièce', 'la pièce manque'], button: 'Pièce manquante' },
    'no-tool': {
      taught: "pas d'outil",
      natural: ["je n'ai pas l'outil", "sans l'outil"],
      written: ['outil manquant'],
      button: "Pas d'outil",
    },
    'not-fitted': {
      taught: 'non monté ici',
      natural: ['pas monté ici', 'pas sur ce véhicule'],
      written: ['pas monté'],
      button: 'Non monté',
    },
    'cannot-reach': {
      taught: "hors d'atteinte",
      natural: ["je n'y arrive pas", 'pas accessible', 'impossible à atteindre'],
      button: "Hors d'atteinte",
    },
    damaged: { taught: "c'est abîmé", natural: ['filet abîmé', "c'est cassé", 'la pièce est abîmée'], button: 'Abîmé' },
    'told-to': { taught: 'sur consigne', natural: ["le formateur l'a dit", "on me l'a dit"], button: 'Sur consigne' },
    'do-later': {
      taught: 'faire plus tard',
      natural: ['je le ferai plus tard', 'à faire plus tard'],
      written: ['plus tard'],
      button: 'Plus tard',
    },
    other: { taught: 'une autre raison', natural: ['autre raison', 'pour autre chose'], button: 'Autre raison' },
  },
  units: {
    'N·m': { taught: 'en newtons mètres', natural: [], written: ['couple en newtons mètres', 'en newton mètres'], button: 'N·m' },
    'lbf·ft': { taught: 'en livres pieds', natural: ['en pieds livres'], written: ['couple en livres pieds'], button: 'lbf·ft' },
    'lbf·in': { taught: 'en livres pouces', natural: ['en pouces livres'], written: ['couple en livres pouces'], button: 'lbf·in' },
    'kgf·m': { taught: 'en mètres kilos', natural: ['en kilogrammes mètres'], button: 'kgf·m' },
    'kgf·cm': { taught: 'en kilogrammes centimètres', natural: [], button: 'kgf·cm' },
    'ozf·in': { taught: 'en onces pouces', natural: [], button: 'ozf·in' },
    'daN·m': { taught: 'en décanewtons mètres', natural: [], written: ['en déca newtons mètres'], button: 'daN·m' },
    source: { taught: "unités d'origine", natural: ['dans les unités de la procédure'], button: 'Comme écrit' },
  },
  numberCarriers: ['je lis', 'je mesure', "c'est", 'la valeur est', 'valeur', "j'ai", 'je trouve', 'ça fait', 'non je lis', "non c'est"],
  signCarriers: ['signer comme', 'signer au nom de', 'signé par'],
  noteCarriers: ['prendre une note', 'ajouter une note', 'noter que', 'note que', 'noter', 'note'],
  numberRules,
  listening: {
    canonical,
    fillers: ['euh', 'heu', 'hein', 'bon', 'ben', 'bah', 'alors', 'ah', 'oh', 'hé', 'ok', "d'accord", 'svp'],
    besideQuestions: [
      ...[
        'le',
        'la',
        'les',
        'de',
        'des',
        'du',
        'ce',
        'ces',
        'cette',
        'ça',
        'là',
        'ici',
        'pour',
        'sur',
        'à',
        'au',
        'est',
        'sont',
        "c'est",
        'et',
      ],
      ...[
        'moi',
        'tu',
        'je',
        'me',
        'dis',
        'dire',
        'donne',
        'donner',
        'peux',
        'peut',
        'voudrais',
        'veux',
        'quel',
        'que',
        'donc',
        'déjà',
        'encore',
        'vite',
      ],
      ...[
        'vis',
        'boulon',
        'boulons',
        'écrou',
        'écrous',
        'goujon',
        'goujons',
        'fixation',
        'fixations',
        'étape',
        'passe',
        'valeur',
        'serrage',
        'plaît',
        "s'il",
        'te',
        'vous',
      ],
    ],
    besideCommands: ['un', 'peu', 'tu', 'peux', 'me', 'moi', 'le', 'la', 'maintenant', 'donc', "s'il", 'te', 'vous', 'plaît', 'encore'],
    besideStop: ['ça', 'tout', 'suite', 'de', 'non', 'attends', 'stop', 'là', 'maintenant'],
    beforeReason: ['parce', 'que', "qu'il", 'car', 'la', 'le', "c'est", 'pour', 'raison', 'à', 'cause', 'de'],
    soundAlikes: [
      [/(?<= )(?:coupe|coupes|couples|cou)(?!\p{L})(?<=(?:quel|le) \p{L}+)/gu, 'couple'],
      [/(?<!\p{L})(?:douilles|d'ouille|douie)(?!\p{L})/gu, 'douille'],
      [/(?<!\p{L})(?:cet|sète|cette) serrer(?!\p{L})/gu, 'sept serrer'],
      [/(?<!\p{L})(?:si|scie) serrer(?!\p{L})/gu, 'six serrer'],
      [/(?<!\p{L})(?:de|d'eux) serrer(?!\p{L})/gu, 'deux serrer'],
      [/(?<!\p{L})(?:saint|sein|sain) serrer(?!\p{L})/gu, 'cinq serrer'],
      [/(?<!\p{L})(?:ces|ses|sait) fait(?!\p{L})/gu, "c'est fait"],
    ],
  },
  pronunciations: {
    undertray: ['oo nn dd ai rr tt rr ei', 'un dd ai rr tt rr ai'],
    "c'est": ['ss ai', 'ss ei'],
    "l'étape": ['ll ei tt aa pp', 'll ai tt aa pp'],
    "l'ai": ['ll ai', 'll ei'],
    "s'il": ['ss ii ll'],
    "j'en": ['jj an'],
    "j'ai": ['jj ei', 'jj ai'],
    "d'outil": ['dd ou tt ii'],
    "l'outil": ['ll ou tt ii'],
    "d'atteinte": ['dd aa tt in tt'],
    "d'aide": ['dd ai dd'],
    "d'avant": ['dd aa vv an'],
    "d'origine": ['dd oo rr ii jj ii nn'],
    "n'est": ['nn ai', 'nn ei'],
    "n'ai": ['nn ei', 'nn ai'],
    "n'y": ['nn ii'],
    "l'a": ['ll aa'],
    "l'attente": ['ll aa tt an tt'],
    "j'accepte": ['jj aa kk ss ai pp tt'],
    serrage: ['ss ai rr aa jj'],
    vingts: ['vv in', 'vv in tt'],
    minuteur: ['mm ii nn uu tt oe rr'],
    newtons: ['nn yy ou tt oo nn', 'nn eu tt oo nn'],
    décanewtons: ['dd ei kk aa nn yy ou tt oo nn', 'dd ei kk aa nn eu tt oo nn'],
  },
};

export const unitName = (unit: TorqueUnit) => lexicon.units[unit].taught.replace(/^en /u, '');

/** Endings that are written differently and sound the same. */
const homophones: readonly (readonly [RegExp, string])[] = [
  [
    /(?<![\p{L}'])(annul|répét|pass|saut|laiss|accept|termin|serr|abîm|mont|sign|cass|not|continu|ajout)(?:ez|é|és|ée|ées)(?![\p{L}'])/gu,
    '$1er',
  ],
  [/(?<![\p{L}'])(?:faits|faites?)(?![\p{L}'])/gu, 'fait'],
  [/(?<![\p{L}'])(?:quelle|quels|quelles)(?![\p{L}'])/gu, 'quel'],
  [/(?<![\p{L}'])une(?![\p{L}'])/gu, 'un'],
  [/(?<![\p{L}'])(c|j|l|d|n|s|qu) (?=(?:est|ai|a|en|étape|outil|origine|aide|avant|atteinte|y|il)(?!\p{L}))/gu, "$1'"],
];

/** One spelling for what people and recognisers write in several. */
function canonical(text: string): string {
  return homophones.reduce((sofar, [found, plain]) => sofar.replace(found, plain), text);
}
