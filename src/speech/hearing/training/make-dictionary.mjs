// Writes models/dictionary.txt from the dictionary of the package soundswallower: npx tsx src/speech/hearing/training/make-dictionary.mjs
import { readFileSync, writeFileSync } from 'node:fs';
import { neededDictionary } from './dictionary.ts';

const read = (path) => readFileSync(new URL(path, import.meta.url), 'utf8');
const whole = read('../../../../node_modules/soundswallower/model/en-us/dict.txt');
writeFileSync(new URL('../models/dictionary.txt', import.meta.url), neededDictionary(whole, read('names.txt').trim().split('\n')));
