/** How the words of one language sound: every way, in the phones of its model, parted by spaces. */
export interface Pronunciations {
  /** `word`: in lower case. Never empty: a word that nothing knows is spelt out. */
  waysOf(word: string): readonly string[];
}

/** How a word may sound. */
export const pronounce = (word: string, pronunciations: Pronunciations): readonly string[] => pronunciations.waysOf(word.toLowerCase());

/** Reads the CMU dictionary format: a word, then its phones; `word(2)` adds another pronunciation. */
export function readDictionary(text: string): Map<string, string[]> {
  const dictionary = new Map<string, string[]>();
  for (const line of text.split('\n')) {
    const [head, ...phones] = line.trim().split(/\s+/);
    if (head === undefined || phones.length === 0) continue;
    const word = head.replace(/\(\d+\)$/, '');
    const known = dictionary.get(word);
    if (known === undefined) dictionary.set(word, [phones.join(' ')]);
    else known.push(phones.join(' '));
  }
  return dictionary;
}

/** Words of the workshop that the general dictionary lacks or speaks otherwise, from how fitters say them. */
const ownWords: Readonly<Record<string, readonly string[]>> = {
  undertray: ['AH N D ER T R EY'],
  crowfoot: ['K R OW F UH T'],
  circlip: ['S ER K L IH P'],
  grubscrew: ['G R AH B S K R UW'],
  allen: ['AE L AH N'],
  torx: ['T AO R K S'],
  kilo: ['K IY L OW'],
  millimetre: ['M IH L IH M IY T ER', 'M IH L AH M IY T ER'],
  millimetres: ['M IH L IH M IY T ER Z', 'M IH L AH M IY T ER Z'],
  metre: ['M IY T ER'],
  metres: ['M IY T ER Z'],
  newton: ['N UW T AH N', 'N Y UW T AH N'],
  newtons: ['N UW T AH N Z', 'N Y UW T AH N Z'],
  decanewton: ['D EH K AH N UW T AH N'],
  centimetre: ['S EH N T IH M IY T ER', 'S EH N T AH M IY T ER'],
  centimetres: ['S EH N T IH M IY T ER Z', 'S EH N T AH M IY T ER Z'],
  litre: ['L IY T ER'],
  litres: ['L IY T ER Z'],
};

/** Rough English spelling rules, longest first, for a word that nothing else knows: better a near miss than a word that cannot be heard. */
const spelling: readonly (readonly [letters: string, phones: string])[] = [
  ['tion', 'SH AH N'],
  ['igh', 'AY'],
  ['tch', 'CH'],
  ['ch', 'CH'],
  ['sh', 'SH'],
  ['th', 'TH'],
  ['ph', 'F'],
  ['ck', 'K'],
  ['ng', 'NG'],
  ['qu', 'K W'],
  ['wh', 'W'],
  ['ee', 'IY'],
  ['ea', 'IY'],
  ['oo', 'UW'],
  ['ou', 'AW'],
  ['ow', 'OW'],
  ['oa', 'OW'],
  ['oi', 'OY'],
  ['oy', 'OY'],
  ['ai', 'EY'],
  ['ay', 'EY'],
  ['au', 'AO'],
  ['aw', 'AO'],
  ['ar', 'AA R'],
  ['er', 'ER'],
  ['ir', 'ER'],
  ['or', 'AO R'],
  ['ur', 'ER'],
  ['a', 'AE'],
  ['b', 'B'],
  ['c', 'K'],
  ['d', 'D'],
  ['e', 'EH'],
  ['f', 'F'],
  ['g', 'G'],
  ['h', 'HH'],
  ['i', 'IH'],
  ['j', 'JH'],
  ['k', 'K'],
  ['l', 'L'],
  ['m', 'M'],
  ['n', 'N'],
  ['o', 'AA'],
  ['p', 'P'],
  ['q', 'K'],
  ['r', 'R'],
  ['s', 'S'],
  ['t', 'T'],
  ['u', 'AH'],
  ['v', 'V'],
  ['w', 'W'],
  ['x', 'K S'],
  ['y', 'IY'],
  ['z', 'Z'],
];

/** English in ARPAbet without stress: own words first, then the dictionary (CMU format), then two known words in one, then the spelling. */
export function englishPronunciations(dictionaryText: string): Pronunciations {
  return englishFrom(readDictionary(dictionaryText));
}

/** The same from a dictionary that has been read. */
export function englishFrom(dictionary: ReadonlyMap<string, readonly string[]>): Pronunciations {
  return { waysOf: (word) => englishWays(word, dictionary) };
}

function englishWays(bare: string, dictionary: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const own = ownWords[bare] ?? dictionary.get(bare);
  if (own !== undefined) return own;
  for (let cut = bare.length - 3; cut >= 3; cut--) {
    const first = dictionary.get(bare.slice(0, cut))?.[0];
    const second = dictionary.get(bare.slice(cut))?.[0];
    if (first !== undefined && second !== undefined) return [`${first} ${second}`];
  }
  return [spelt(bare)];
}

function spelt(word: string): string {
  const letters = word
    .replace(/[^a-z]/g, '')
    .replace(/([a-z])\1/g, '$1')
    .replace(/(?<=..)e$/, '');
  const phones: string[] = [];
  for (let at = 0; at < letters.length;) {
    const rule = spelling.find(([start]) => letters.startsWith(start, at));
    if (rule === undefined) break;
    phones.push(rule[1]);
    at += rule[0].length;
  }
  return phones.length > 0 ? phones.join(' ') : 'AH';
}
