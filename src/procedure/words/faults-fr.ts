import type { FaultWords } from '../problem.ts';

/**
 * The same fault in French. The readers tell faults as English phrases, so this is a phrase book: what it does not know stays
 * English rather than being left out. A test holds that it knows whatever the readers tell of broken files.
 */
export function faultInFrench({ found, expected }: FaultWords): FaultWords {
  // What the YAML library complains of is told in its own words.
  if (expected === 'YAML') return { found: `${found} (message de la bibliothèque YAML)`, expected: 'du YAML' };
  return { found: phraseInFrench(found) ?? found, expected: phraseInFrench(expected) ?? expected };
}

/** One phrase of a fault in French; null where the phrase book has none. */
export function phraseInFrench(phrase: string): string | null {
  const fixed = phrases.get(phrase);
  if (fixed !== undefined) return fixed;
  for (const [form, say] of forms) {
    const match = form.exec(phrase);
    if (match !== null) return say(...match.slice(1).map((part: string | undefined) => part ?? ''));
  }
  return null;
}

const phrases: ReadonlyMap<string, string> = new Map([
  // What was found.
  ['nothing', 'rien'],
  ['a list', 'une liste'],
  ['an empty list', 'une liste vide'],
  ['an object', 'un objet'],
  ['an entry with keys of its own', 'une entrée qui a ses propres clés'],
  ['more levels than that', 'plus de niveaux'],
  ['a key that is not a word', 'une clé qui n’est pas un mot'],
  ['no pass with a torque', 'aucune passe avec un couple'],
  ['no torque', 'aucun couple'],
  ['check', 'check'],
  ['null', 'null'],
  ['true', 'true'],
  ['false', 'false'],
  // What a procedure expects.
  ['none', 'aucun'],
  ['a name', 'un nom'],
  ['a number', 'un nombre'],
  ['a name for each', 'un nom pour chacune'],
  ['true or false', 'true ou false'],
  ['one for all builds', 'le même pour toutes les versions'],
  ['a list of steps', 'une liste d’étapes'],
  ['a list of stages', 'une liste de phases'],
  ['at least one step', 'au moins une étape'],
  ['at least one stage', 'au moins une phase'],
  ['a number from 0 to 1', 'un nombre de 0 à 1'],
  ['a picture file', 'un fichier d’image'],
  ['text without control characters', 'un texte sans caractères de commande'],
  ['everything written out, without aliases', 'tout écrit en toutes lettres, sans alias'],
  ['everything written out, without anchors', 'tout écrit en toutes lettres, sans ancres'],
  ['no tags', 'pas d’étiquettes YAML'],
  ['a plain word as key', 'un mot simple comme clé'],
  ['an id of its own', 'un id à lui'],
  ['side procedures that come back', 'des procédures annexes qui reviennent'],
  ['builds by name, such as "K: short wheelbase"', 'les versions par leur nom, comme "K: short wheelbase"'],
  ['a procedure that begins with "undertray: 1"', 'une procédure qui commence par "undertray: 1"'],
  ['only keys such as "build K" and "other builds" together', 'seulement des clés comme "build K" et "other builds" ensemble'],
  ['1, the version of the format', '1, la version du format'],
  ['a language such as "en"', 'une langue, comme "fr"'],
  ['a language such as "en" or "en-GB"', 'une langue, comme "fr" ou "fr-CA"'],
  ['DANGER, WARNING, CAUTION or NOTICE', 'DANGER, WARNING, CAUTION ou NOTICE'],
  ['mark, part, support, removed or condition', 'mark, part, support, removed ou condition'],
  [
    'an id of lower-case letters, digits and single hyphens, such as "fit-carrier-bolts"',
    'un id en minuscules, chiffres et traits d’union simples, comme "fit-carrier-bolts"',
  ],
  [
    'a build name of letters, digits, dots and hyphens, such as "K"',
    'un nom de version en lettres, chiffres, points et traits d’union, comme "K"',
  ],
  [
    'advice as a text, or an entry with go (a step) or see (a side procedure), and advice',
    'un conseil en texte, ou une entrée avec go (une étape) ou see (une procédure annexe), et advice',
  ],
  [
    'an answer, which may be "look it up in the maker\'s manual"',
    'une réponse, qui peut être "look it up in the maker\'s manual" (à chercher dans le manuel du constructeur)',
  ],
  [
    'a torque with its unit, such as "90 N·m", "90 N·m ±5", "90 N·m ±5%" or "90 N·m +5 -0"',
    'un couple avec son unité, comme "90 N·m", "90 N·m ±5", "90 N·m ±5%" ou "90 N·m +5 -0"',
  ],
  [
    'a drive and size, such as "hex 17", "hex 3/4 in", "socket-head hex 8", "internal serration T50", "bihex 12", "square 10", "slotted", "cross-head 2" or "hand"',
    'une empreinte et sa taille, comme "hex 17", "hex 3/4 in", "socket-head hex 8", "internal serration T50", "bihex 12", "square 10", "slotted", "cross-head 2" ou "hand"',
  ],
  ['a square drive: 1/4, 3/8, 1/2, 3/4 or 1', 'un carré d’entraînement : 1/4, 3/8, 1/2, 3/4 ou 1'],
  [
    '"extension", "extension 150", "universal joint", "deep socket", "crowfoot", "crowfoot 50", "crowfoot 50 at 45", "extension 300 at 45" for one that leads aside, lengths in millimetres, or "with …" for anything else',
    '"extension", "extension 150", "universal joint", "deep socket", "crowfoot", "crowfoot 50", "crowfoot 50 at 45", "extension 300 at 45" pour une qui part de côté, longueurs en millimètres, ou "with …" pour toute autre chose',
  ],
  [
    '"circle from 12", "circle from 1:30", "clock 1 3 5 7 9 11", "grid 2 x 4" (rows x columns), "line" or "line down", or a list of [x, y] points between 0 and 1',
    '"circle from 12", "circle from 1:30", "clock 1 3 5 7 9 11", "grid 2 x 4" (rangées x colonnes), "line" ou "line down", ou une liste de points [x, y] entre 0 et 1',
  ],
  [
    '"snug", "draw", a share such as "30%", a torque such as "40 N·m", an angle such as "90°", or "check"',
    '"snug", "draw", une part comme "30%", un couple comme "40 N·m", un angle comme "90°", ou "check"',
  ],
  ['an angle in degrees above 0, up to 720, such as 90 or "90°"', 'un angle en degrés, de plus de 0 à 720, comme 90 ou "90°"'],
  ['a time such as "90 s", "10 min", "1 h" or "1 h 30 min"', 'une durée comme "90 s", "10 min", "1 h" ou "1 h 30 min"'],
  [
    'a distance, time or count such as "50 km", "30 mi", "24 h", "2 days" or "5 heat cycles"',
    'une distance, une durée ou un nombre comme "50 km", "30 mi", "24 h", "2 days" ou "5 heat cycles"',
  ],
  ['"cross", "circular", "spiral", "draw-up" or "listed"', '"cross", "circular", "spiral", "draw-up" ou "listed"'],
  ['a final torque to take the share of', 'un couple final dont prendre la part'],
  ['more than 0 and at most 100 %', 'plus de 0 et au plus 100 %'],
  ['all torques before the first angle', 'tous les couples avant le premier angle'],
  ['a torque before it, and no angle in between', 'un couple avant, et aucun angle entre les deux'],
  // A thread.
  ['a thread such as M10, M10x1.25 or 3/4-16 UNF', 'un filetage comme M10, M10x1.25 ou 3/4-16 UNF'],
  ['a pitch after the diameter, such as M15x1.5', 'un pas après le diamètre, comme M15x1.5'],
  ['a pitch under a quarter of the diameter', 'un pas de moins d’un quart du diamètre'],
  ['a size with its threads to the inch, such as 3/4-16 UNF', 'une taille avec ses filets au pouce, comme 3/4-16 UNF'],
  // What a tool crib expects.
  ['a tool crib', 'un inventaire d’outils'],
  ['a tool crib as JSON', 'un inventaire d’outils en JSON'],
  ['no such field', 'pas de champ de ce nom'],
  ['an id', 'un id'],
  ['an id of letters, digits, dots and dashes', 'un id en lettres, chiffres, points et tirets'],
  ['a name of at most 200 characters', 'un nom d’au plus 200 caractères'],
  ['a size, such as "13" or "T50"', 'une taille, comme "13" ou "T50"'],
  ['a short size', 'une taille courte'],
  ['a length above 0, in mm', 'une longueur de plus de 0, en mm'],
  ['"mm" or "in"', '"mm" ou "in"'],
  ['a date such as 2026-02-28', 'une date comme 2026-02-28'],
  ['a whole number', 'un nombre entier'],
  ['a number from 0', 'un nombre à partir de 0'],
  ['a torque above 0', 'un couple de plus de 0'],
  ['a graduation above 0, or null for a display', 'une graduation de plus de 0, ou null pour un afficheur'],
  ['more than the lowest value', 'plus que la valeur la plus basse'],
  ['a graduation that fits into the range', 'une graduation qui tient dans l’étendue'],
  ['"crowfoot" or "extension"', '"crowfoot" ou "extension"'],
  ['an angle from 0 to 180°', 'un angle de 0 à 180°'],
  ['"hex", "bihex" or "square"', '"hex", "bihex" ou "square"'],
  [
    '"socket-head hex", "internal serration", "slotted" or "cross-head"',
    '"socket-head hex", "internal serration", "slotted" ou "cross-head"',
  ],
  ['a torque above 0 in N·m, or null', 'un couple de plus de 0 en N·m, ou null'],
  ['a number of months', 'un nombre de mois'],
  ['a number of operations', 'un nombre de déclenchements'],
  ['a percentage from 0 to 90', 'un pourcentage de 0 à 90'],
  ['a limit for each square drive', 'une limite pour chaque carré'],
  ['"ratchet" or "bar"', '"ratchet" ou "bar"'],
]);

/** Phrases that carry something of the file; quoted texts, keys and numbers stay as they are. */
const forms: readonly (readonly [RegExp, (...parts: readonly string[]) => string])[] = [
  [/^the text (".*")$/su, (text) => `le texte ${text}`],
  [/^the number (.+)$/u, (value) => `le nombre ${value}`],
  [/^the key (".*")$/su, (key) => `la clé ${key}`],
  [/^the alias (.+)$/su, (alias) => `l’alias ${alias}`],
  [/^the anchor (.+)$/su, (anchor) => `l’ancre ${anchor}`],
  [/^the tag (.+)$/su, (tag) => `l’étiquette ${tag}`],
  [/^build (".*")$/su, (build) => `la version ${build}`],
  [/^(".*") beside build keys$/su, (key) => `${key} à côté de clés de version`],
  [/^(".*") a second time$/su, (text) => `${text} une deuxième fois`],
  [/^(".*") elsewhere$/su, (id) => `${id} ailleurs`],
  [/^(".*") called from within itself$/su, (id) => `${id} appelée de l’intérieur d’elle-même`],
  [/^(".*"), as in (.+)$/su, (id, first) => `${id}, comme dans ${first}`],
  [/^(\d+) more problems$/u, (count) => `${count} autres défauts`],
  [/^(\d+) characters$/u, (count) => `${count} caractères`],
  [/^(\d+) entries$/u, (count) => `${count} entrées`],
  [/^(\d+) steps$/u, (count) => `${count} étapes`],
  [/^(\d+) positions$/u, (count) => `${count} positions`],
  [/^(\d+) places$/u, (count) => `${count} places`],
  [/^at most (\d+) levels$/u, (count) => `au plus ${count} niveaux`],
  [/^at most (\d+) stages$/u, (count) => `au plus ${count} phases`],
  [/^at most (\d+) steps$/u, (count) => `au plus ${count} étapes`],
  [/^at most (\d+) entries$/u, (count) => `au plus ${count} entrées`],
  [/^at most (\d+) characters$/u, (count) => `au plus ${count} caractères`],
  [/^at most (\d+)$/u, (count) => `au plus ${count}`],
  [/^at most (\d+); this file comes from a later version$/u, (count) => `au plus ${count} ; ce fichier vient d’une version plus récente`],
  [/^a format from 1 to (\d+)$/u, (last) => `un format de 1 à ${last}`],
  [/^text of 1 to (\d+) characters$/u, (count) => `un texte de 1 à ${count} caractères`],
  [/^a whole number from (\d+) to (\d+)$/u, (from, to) => `un nombre entier de ${from} à ${to}`],
  [/^(\d+), as many as the count$/u, (count) => `${count}, autant que le nombre`],
  [/^one that reaches (.+)$/u, (torque) => `une qui atteint ${torque}`],
  [/^more than (\S+ \S+)$/u, (torque) => `plus de ${torque}`],
  [/^the last torque to be (.+)$/u, (torque) => `que le dernier couple soit ${torque}`],
  [/^(.+)°, the sum of the passes$/u, (angle) => `${angle}°, la somme des passes`],
  [/^a pitch of (\S+) mm or finer$/u, (pitch) => `un pas de ${pitch} mm ou plus fin`],
  [/^(\S+) threads to the inch or finer$/u, (count) => `${count === 'more' ? 'plus de' : count} filets au pouce ou plus fin`],
  [/^it once \(first in line (\d+)\)$/u, (line) => `une seule fois (d’abord à la ligne ${line})`],
  [/^(".*"): did you mean that\?$/su, (key) => `${key} : est-ce cela ?`],
  [/^one of (.+); did you mean (.+)\?$/su, (known, meant) => `l’un de ${known} ; serait-ce ${meant} ?`],
  [/^one of (.+)$/su, (known) => `l’un de ${known}`],
  [/^an entry with (.+)$/su, (keys) => `une entrée avec ${keys}`],
  [
    /^builds by name, such as "K: short wheelbase", 1 to (\d+) of them$/u,
    (count) => `les versions par leur nom, comme "K: short wheelbase", de 1 à ${count}`,
  ],
  [
    /^(a step of the main line|a step of the same side procedure|a side procedure|an entry of parts, consumables or supports|an entry of parts)(?:; did you mean (".*")\?)?$/su,
    (what, meant) => `${targets[what] ?? what}${meant === '' ? '' : ` ; serait-ce ${meant} ?`}`,
  ],
  [/^a square drive: (.+)$/u, (known) => `un carré d’entraînement : ${known}`],
  [/^a torque unit: (.+)$/u, (known) => `une unité de couple : ${known}`],
  [
    /^a percentage above 0 and under 50, or a class of ISO 6789:2003: (.+)$/u,
    (classes) => `un pourcentage de plus de 0 et de moins de 50, ou une classe de l’ISO 6789:2003 : ${classes}`,
  ],
  // Quoted pieces, numbers and torques say the same in both languages.
  [/^(".*"…?|-?[\d.]+(?:e[+-]?\d+)?(?: ?(?:%|°|mm))?|[\d.]+ (?:N·m|lbf·ft|lbf·in|kgf·m|kgf·cm|ozf·in|daN·m))$/su, (text) => text],
];

const targets: Readonly<Record<string, string>> = {
  'a step of the main line': 'une étape de la ligne principale',
  'a step of the same side procedure': 'une étape de la même procédure annexe',
  'a side procedure': 'une procédure annexe',
  'an entry of parts, consumables or supports': 'une entrée de parts, consumables ou supports',
  'an entry of parts': 'une entrée de parts',
};
