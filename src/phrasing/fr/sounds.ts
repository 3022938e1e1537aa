import type { AlikePhones } from '../sounds.ts';

/** By place and manner, in the phones of the French model. */
export const alikePhones: AlikePhones = [
  ['pp', 'bb'],
  ['tt', 'dd'],
  ['kk', 'gg'],
  ['pp', 'tt', 'kk'],
  ['bb', 'dd', 'gg'],
  ['mm', 'nn', 'gn'],
  ['ff', 'ss', 'ch'],
  ['vv', 'zz', 'jj'],
  ['ff', 'vv'],
  ['ss', 'zz'],
  ['ch', 'jj'],
  ['ll', 'rr'],
  ['ii', 'ei', 'yy'],
  ['ei', 'ai', 'ee'],
  ['ai', 'aa', 'oe'],
  ['ee', 'eu', 'oe'],
  ['oo', 'au', 'ou'],
  ['uu', 'uy', 'ii', 'eu'],
  ['ou', 'ww'],
  ['an', 'on', 'aa'],
  ['in', 'un', 'ai'],
  ['on', 'oo', 'au'],
];
