import { readDictionary, type Pronunciations } from './pronunciations.ts';

/** The phones of soundswallower's French model, less its silence. */
export const frenchPhones =
  'aa ai an au bb ch dd ee ei eu ff gg gn ii in jj kk ll mm nn oe on oo ou pp rr ss tt un uu uy vv ww yy zz'.split(' ');

/** French spelling, longest first, for words that nothing else knows: mostly people's names. Patterns match where a word has been read up to. */
const spelling: readonly (readonly [letters: RegExp, phones: string])[] = [
  [/eaux?/y, 'au'],
  [/aux?(?!\p{L})|au/uy, 'au'],
  [/oin(?![aeiouyéèêhmn])/y, 'ww in'],
  [/ien(?![aeiouyéèêhmn])/y, 'yy in'],
  [/(?:ain|ein|yn|ym|in|im)(?![aeiouyéèêhmn])/y, 'in'],
  [/(?:an|am|en|em)(?![aeiouyéèêhmn])/y, 'an'],
  [/(?:on|om)(?![aeiouyéèêhmn])/y, 'on'],
  [/un(?![aeiouyéèêhmn])/y, 'un'],
  [/(?:ail|aille)(?!\p{L})/uy, 'aa yy'],
  [/(?:eil|eille)(?!\p{L})/uy, 'ai yy'],
  [/ille/y, 'ii yy'],
  [/oi|oî/y, 'ww aa'],
  [/ou|où|oû/y, 'ou'],
  [/eu|œu|oeu/y, 'oe'],
  [/ai|aî|ei|è|ê|ë/y, 'ai'],
  [/(?:er|ez)(?!\p{L})/uy, 'ei'],
  [/é/y, 'ei'],
  [/e(?=(?:ll|tt|ss|rr|r\P{L}|[rlsxc][^aeiouyéèêh]))/uy, 'ai'],
  [/es?(?!\p{L})/uy, ''],
  [/e/y, 'ee'],
  [/gn/y, 'gn'],
  [/ch|sh/y, 'ch'],
  [/ph/y, 'ff'],
  [/qu|q/y, 'kk'],
  [/gu(?=[eiéè])/y, 'gg'],
  [/g(?=[eiyéè])/y, 'jj'],
  [/c(?=[eiyéè])|ç/y, 'ss'],
  [/th/y, 'tt'],
  [/(?:ck|cc|c|k)/y, 'kk'],
  [/[tdsxpzg](?!\p{L})/uy, ''],
  [/ss/y, 'ss'],
  [/(?<=[aeiouyéèêâîôû])s(?=[aeiouyéèêâîôû])/y, 'zz'],
  [/i(?=[aeouéè])/y, 'yy'],
  [/[iîï]/y, 'ii'],
  [/y(?=[aeiouéè])/y, 'yy'],
  [/y/y, 'ii'],
  [/[aàâ]/y, 'aa'],
  [/[oô]/y, 'oo'],
  [/[uùûü]/y, 'uu'],
  [/x/y, 'kk ss'],
  [/w/y, 'ww'],
  [/h/y, ''],
  [/bb?/y, 'bb'],
  [/dd?/y, 'dd'],
  [/ff?/y, 'ff'],
  [/g+/y, 'gg'],
  [/j/y, 'jj'],
  [/ll?/y, 'll'],
  [/mm?/y, 'mm'],
  [/nn?/y, 'nn'],
  [/pp?/y, 'pp'],
  [/rr?/y, 'rr'],
  [/s/y, 'ss'],
  [/tt?/y, 'tt'],
  [/vv?/y, 'vv'],
  [/zz?/y, 'zz'],
];

/** French in the phones of soundswallower's model, from the list of the words that commands are made of; anything else by its spelling. */
export function frenchPronunciations(words: string): Pronunciations {
  const known = readDictionary(words);
  return { waysOf: (word) => known.get(word) ?? [spelt(word)] };
}

function spelt(word: string): string {
  const phones: string[] = [];
  for (let at = 0; at < word.length;) {
    const start = at;
    for (const [letters, sound] of spelling) {
      letters.lastIndex = at;
      const found = letters.exec(word);
      if (found === null || found[0] === '') continue;
      if (sound !== '') phones.push(sound);
      at += found[0].length;
      break;
    }
    // A sign that is no letter.
    if (at === start) at += 1;
  }
  return phones.length > 0 ? phones.join(' ') : 'ee';
}
