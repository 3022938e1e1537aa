import { expect, it } from 'vitest';
import { wholeDraft } from './whole-draft.ts';

const builds = (text: string) => wholeDraft(text).builds.map(({ id }) => id);
/** "K2: 8 × 14, 75" for each row. */
const rows = (text: string) =>
  wholeDraft(text).groups.map(
    ({ build, count, size, torque }) => `${build ?? 'all'}: ${count ?? '?'} x ${size ?? '?'}, ${torque === null ? '?' : String(torque)}`,
  );

it.each([
  [
    'marks',
    'There are two marks. The Mark 1 has eight cradle bolts, nineteen millimeter. The Mark 2 has six, and they are twenty-two millimeter. On the Mark 1 they take eighty-five foot-pounds. On the Mark 2 it is one-fifteen.',
    ['mark-1: 8 x 19, 85', 'mark-2: 6 x 22, 115'],
  ],
  [
    'generations',
    'First gen, the rack has two bolts, 18 mil. Second gen, it is four bolts and they are 15s. Rack bolts. Second gen, 62 newton meters. First gen is 110.',
    ['first-gen: 2 x 18, 110', 'second-gen: 4 x 15, 62'],
  ],
  [
    'engines',
    'If it is the six-cylinder, you have got four converter bolts, thirteen millimeter, and they get forty-four foot-pounds. If it is the V8, there are six of them, fifteen millimeter heads, and they get forty-six.',
    ['six-cylinder: 4 x 13, 44', 'V8: 6 x 15, 46'],
  ],
  [
    'codes',
    'You have got two housings. The R40 and the R46. Eight U-bolt nuts all together. On the R40 it is an 18 mil socket. On the R46 it is a 21. Final is four-fifty foot-pounds on the R40, and five-fifty on the R46.',
    ['R40: 8 x 18, 450', 'R46: 8 x 21, 550'],
  ],
  [
    'surfaces',
    'Sump guard. Gravel guard has ten bolts, the tarmac guard is smaller, it is six. Guard bolts are 8 mil hex. Forty newton metres on all the guard bolts.',
    ['gravel: 10 x 8, 40', 'tarmac: 6 x 8, 40'],
  ],
  [
    'ages',
    'The bellhousing bolts. On the early lorries there are ten of them, nine sixteenths heads, and they want thirty-five pounds foot. On the late ones there are only eight, so it is a fifteen millimetre socket, and you must stop at twenty-eight.',
    ['early: 10 x 9/16, 35', 'later: 8 x 15, 28'],
  ],
  [
    'cabs, each after its number,',
    'Hub bolts. Four on the short cab, six on the crew cab. 19 mil on both. 90 newton metres either way.',
    ['short-cab: 4 x 19, 90', 'crew-cab: 6 x 19, 90'],
  ],
  [
    'beds with the same bolt',
    'The short bed has six skid plate bolts and the long bed has eight of them, same bolt, 13 millimeter, 22 foot pounds either way.',
    ['short-bed: 6 x 13, 22', 'long-bed: 8 x 13, 22'],
  ],
  [
    'engines of which one takes more',
    'The V6 takes four mount bolts, 15 mil, 45 newton metres. The V8 takes six, same size, but those get 60.',
    ['V6: 4 x 15, 45', 'V8: 6 x 15, 60'],
  ],
  [
    'packs, counted by side,',
    'The sill bolts. On the P52 there are seven on each side, so fourteen. On the P78 it is nine on each side, so eighteen. 18 mil. Eighty newton metres. Both packs.',
    ['P52: 14 x 18, 80', 'P78: 18 x 18, 80'],
  ],
])('tells %s apart, and has one group of fasteners of both', (_, talk, expected) => {
  expect(rows(talk)).toEqual(expected);
});

it.each([
  ['beds', 'The short bed has six skid plate bolts. The long bed has eight.', ['short-bed', 'long-bed']],
  [
    'facelifts',
    'If your truck is pre facelift there are eight ring screws. If you have got the facelift there are none.',
    ['pre-facelift', 'facelift'],
  ],
  ['gearboxes', 'With the five-speed it takes four bolts. With the six-speed it takes six.', ['five-speed', 'six-speed']],
  ['driven wheels', 'On the 4x2 there are two stay bolts, on the 4x4 there are four.', ['4x2', '4x4']],
  ['marks written short', 'On the mk1 it has four bolts. The mk2 has six bolts.', ['mark-1', 'mark-2']],
])('knows %s', (_, talk, expected) => {
  expect(builds(talk)).toEqual(expected);
});

it.each([
  ['threads', 'The M10 has eight turns, and the M12 has ten. On the M10 it is 45 newton metres.'],
  ['drives', 'On the T40 use the long bit, and on the T50 the short one. Four cover screws.'],
  ['oils', 'It takes 5W30, or 5W40. Four sump bolts.'],
  ['grades', 'Those are grade 8.8, the others are 10.9. Four bolts.'],
  ['members', 'The first crossmember has two bolts, the second crossmember has four.'],
  ['one alone', 'On the R40 it has eight bolts, 18 mil.'],
  ['the book', 'It is in the manual, and the automatic one is the same.'],
  ['verbs', 'Mark one of them, mark two of the others. Four bolts.'],
  ['ends', 'The upper arm has two bolts, the lower arm has four.'],
])('takes %s for no builds', (_, talk) => {
  expect(builds(talk)).toEqual([]);
});

it('goes on with the build of the sentence before until something else is named', () => {
  const talk =
    'The Mark 1 has no belly plate. Mark 2 only, the belly plate. Ten bolts, sixteen millimeter heads. Forty-five foot-pounds. Now the drain plug, 24 mil, 60 foot-pounds.';
  expect(rows(talk)).toEqual(['mark-2: 10 x 16, 45', 'all: 1 x 24, 60']);
});
