import type { AlikePhones } from '../sounds.ts';

/** By place and manner; the pairs that a recogniser of US English confuses most. */
export const alikePhones: AlikePhones = [
  ['P', 'B'],
  ['T', 'D'],
  ['K', 'G'],
  ['P', 'T', 'K'],
  ['B', 'D', 'G'],
  ['M', 'N', 'NG'],
  ['F', 'TH', 'S'],
  ['V', 'DH', 'Z'],
  ['S', 'Z'],
  ['SH', 'ZH', 'CH', 'JH'],
  ['L', 'W', 'R'],
  ['F', 'V'],
  ['TH', 'DH'],
  ['DH', 'D'],
  ['IY', 'IH', 'EY'],
  ['IH', 'EH', 'AH'],
  ['EH', 'AE', 'EY'],
  ['AE', 'AH', 'AA'],
  ['AA', 'AO', 'OW', 'AH'],
  ['UW', 'UH', 'OW'],
  ['AW', 'AA', 'OW'],
  ['AY', 'AA', 'OY'],
  ['ER', 'AH', 'R'],
];
