import type { TorqueUnit } from '../../torque/quantities.ts';
import type { Lexicon } from '../language.ts';
import { commands } from './commands.ts';
import { numberRules } from './number-rules.ts';

const countWords = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'] as const;
const countWord = (count: number) => countWords[count - 1] ?? '';

export const lexicon: Lexicon = {
  names: ['undertray', 'under tray'],
  commands,
  counts: {
    taught: (count) => `${countWord(count)} done`,
    natural: (count) => [
      `done ${countWord(count)}`,
      `that's ${countWord(count)} done`,
      `${countWord(count)} ${count === 1 ? 'is' : 'are'} done`,
      `${countWord(count)} tight`,
      ...(count === 2 ? ['both done', 'done both', 'both are done', 'both tight'] : [`all ${countWord(count)} done`]),
    ],
    most: countWords.length,
  },
  scopes: {
    this: {
      taught: 'skip this one',
      natural: ['leave this one out', 'leave this out', 'skip that one', 'skip this bolt'],
      button: 'Leave this out',
    },
    step: {
      taught: 'skip the step',
      natural: ['skip this step', 'skip the whole step', 'skip the rest', 'leave the step out'],
      button: 'Skip step',
    },
  },
  reasons: {
    'no-part': {
      taught: 'part missing',
      natural: ['no part', 'the part is missing', 'missing part', 'no spare part'],
      button: 'Part missing',
    },
    'no-tool': { taught: 'need a tool', natural: ['no tool', 'tool missing', 'no such tool', "don't have the tool"], button: 'No tool' },
    'not-fitted': {
      taught: 'not fitted',
      natural: ["it isn't fitted", "it's not fitted", 'not on this one', 'not there'],
      button: 'Not fitted',
    },
    'cannot-reach': {
      taught: 'cannot reach it',
      natural: ["can't reach it", 'cannot reach', "can't reach", 'out of reach', "can't get to it"],
      button: 'Cannot reach',
    },
    damaged: {
      taught: "it's damaged",
      natural: ['thread damaged', 'part damaged', "it's broken", "it's stripped", 'damaged thread'],
      button: 'Damaged',
    },
    'told-to': {
      taught: 'I was told to',
      natural: ['told to', 'told to skip it', 'trainer said so', 'the trainer said so', "boss's orders"],
      button: 'Told to',
    },
    'do-later': {
      taught: 'do it later',
      natural: ['do that later', 'later on', 'will do later', "I'll do it later"],
      button: 'Do it later',
    },
    other: { taught: 'another reason', natural: ['other reason', 'some other reason', 'something else'], button: 'Other reason' },
  },
  units: {
    'N·m': { taught: 'in newton metres', natural: ['newton metres please', 'use newton metres', 'torque in newton metres'], button: 'N·m' },
    'lbf·ft': {
      taught: 'in foot pounds',
      natural: ['foot pounds please', 'use foot pounds', 'torque in foot pounds', 'in pound feet'],
      button: 'lbf·ft',
    },
    'lbf·in': {
      taught: 'in inch pounds',
      natural: ['inch pounds please', 'use inch pounds', 'torque in inch pounds', 'in pound inches'],
      button: 'lbf·in',
    },
    'kgf·m': { taught: 'in kilogram metres', natural: ['use kilogram metres'], button: 'kgf·m' },
    'kgf·cm': { taught: 'in kilogram centimetres', natural: ['use kilogram centimetres'], button: 'kgf·cm' },
    'ozf·in': { taught: 'in inch ounces', natural: ['in ounce inches', 'use inch ounces'], button: 'ozf·in' },
    'daN·m': { taught: 'in deca newton metres', natural: ['use deca newton metres'], button: 'daN·m' },
    source: {
      taught: 'in original units',
      natural: ['in the original units', 'use original units', 'as the procedure says'],
      button: 'As written',
    },
  },
  numberCarriers: [
    'reading',
    "it's",
    'it is',
    'reading is',
    'the reading is',
    'it reads',
    "that's",
    'I get',
    'I have',
    'I measure',
    'measured',
    'I make it',
    'no reading',
    'no it is',
  ],
  signCarriers: ['sign as', 'sign it as', 'signed by'],
  noteCarriers: ['make a note that', 'make a note', 'take a note', 'note that', 'note'],
  numberRules,
  listening: {
    canonical,
    fillers: ['um', 'uh', 'er', 'erm', 'ah', 'eh', 'hm', 'hmm', 'please', 'okay', 'ok', 'well', 'hey'],
    besideQuestions: [
      ...[
        'a',
        'the',
        'this',
        'that',
        'these',
        'those',
        'them',
        'it',
        'one',
        'ones',
        'for',
        'on',
        'of',
        'at',
        'here',
        'there',
        'is',
        'are',
        "that's",
      ],
      ...[
        'me',
        'you',
        'i',
        'we',
        'can',
        'could',
        'would',
        'tell',
        'give',
        'need',
        'want',
        'know',
        'do',
        'have',
        'to',
        'what',
        "what's",
        'so',
        'now',
        'again',
        'just',
        'quickly',
      ],
      ...[
        'bolt',
        'bolts',
        'nut',
        'nuts',
        'screw',
        'screws',
        'stud',
        'studs',
        'fastener',
        'fasteners',
        'step',
        'pass',
        'size',
        'value',
        'setting',
        'spec',
        'my',
      ],
    ],
    besideCommands: ['the', 'a', 'bit', 'little', 'just', 'can', 'could', 'would', 'you', 'now', 'then', 'so', 'me', 'my', "let's"],
    besideStop: ['it', 'that', 'now', 'right', 'wait', 'whoa', 'no', 'stop', 'everything'],
    beforeReason: ['because', 'the', 'a', 'of', 'reason', "it's", 'for'],
    soundAlikes: [
      [/\b(?:tork|torq|talk|torks|torques)\b(?<=\b(?:what|what's|which|the)\s\w+)/gu, 'torque'],
      [/\b(?:tork|torq|torques)\b/gu, 'torque'],
      [/\btorch\b(?<=\b(?:what|what's the)\s\w+)/gu, 'torque'],
      [/\bsock it\b|\bsockets\b|\bsocked\b/gu, 'socket'],
      [/\b(?:dun|don)\b/gu, 'done'],
      [/\b(?:to|too) done\b/gu, 'two done'],
      [/\bfor done\b/gu, 'four done'],
      [/\b(?:ate|eat) done\b/gu, 'eight done'],
      [/\bwon done\b/gu, 'one done'],
      [/\b(?:tree|free) done\b/gu, 'three done'],
      [/\bsex done\b|\bsicks done\b/gu, 'six done'],
      [/\bstepped on\b|\bstep down\b/gu, 'step done'],
      [/\bwitch\b/gu, 'which'],
      [/\bwear\b/gu, 'where'],
      [/\bsay a gain\b/gu, 'say again'],
      [/\bholdon\b/gu, 'hold on'],
      [/\bcarryon\b|\bcarrion\b/gu, 'carry on'],
    ],
  },
  pronunciations: {
    undertray: ['AH N D ER T R EY'],
    nought: ['N AO T'],
    newtons: ['N UW T AH N Z'],
    kilonewton: ['K IH L AH N UW T AH N'],
    kilonewtons: ['K IH L AH N UW T AH N Z'],
  },
};

export const unitName = (unit: TorqueUnit) => lexicon.units[unit].taught.replace(/^in /u, '');

const contractions: readonly (readonly [RegExp, string])[] = [
  [/\b(what|that|it|where|which|who|why|how)(?: is|s)\b(?!')/gu, "$1's"],
  [/\b(can|do|does|is|has|have|are)(?:not| not)\b/gu, "$1n't"],
  [/\bcann't\b|\bcant\b/gu, "can't"],
  [/\bdont\b/gu, "don't"],
  [/\bisnt\b/gu, "isn't"],
];

/** One spelling for what people and recognisers write in several. */
function canonical(text: string): string {
  return contractions.reduce((sofar, [found, plain]) => sofar.replace(found, plain), text);
}
