import { expect, it } from 'vitest';
import { oddity } from '../../src/drafting/oddity.ts';
import { hearTalk } from '../../src/drafting/extract.ts';
import { numberText } from '../../src/drafting/reader/lots.ts';
import { viewOf } from '../../src/drafting/reader/view.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { hear, wholeDraft } from './whole-draft.ts';

const groupsOf = (text: string) => wholeDraft(text).groups;

// Common practice: about 10 N·m at a head of 10 mm, and about 85 at one of 19.
it.each([
  ['The cover has four bolts, ten mil, nine newton metres.', 0, 0.3],
  ['The cover has four bolts, nineteen mil, seventy-five newton metres.', 0, 0.3],
  ['The cover has four bolts, ten mil, ninety newton metres.', 1.5, 2.5],
  ['The cover has four bolts, nineteen mil, nine newton metres.', 1.5, 2.5],
  ['The cover has four bolts, nine newton metres.', 0, 0],
])('says how odd a torque is for its head: %s', (text, least, most) => {
  const [group] = hear(text).groups;
  const odd = oddity(group!, null);
  expect(odd).toBeGreaterThanOrEqual(least);
  expect(odd).toBeLessThanOrEqual(most);
});

it('takes kilos for kilogram metres where the talk tightens in them, and for a weight elsewhere', () => {
  const plates = 'The plate has six bolts, 24 mil. Fourteen kilos on those.';
  expect(groupsOf(`${plates} That is kilogram metres.`)[0]).toMatchObject({ torque: 14, unit: 'kgf·m' });
  expect(groupsOf(plates)[0]?.torque ?? null).toBeNull();
});

it('tells foot-pounds from inch-pounds by a head that is too wide for the second, and asks below that', () => {
  const mixed = 'The pan has six bolts, 10 millimeter, 60 inch pounds. The frame has two bolts, 18 millimeter, 55 foot pounds.';
  const after = (head: string) =>
    groupsOf(`${mixed} The cover has four screws, 8 millimeter, 50 inch pounds. The brace has three bolts, ${head}, 35.`).at(-1);
  expect(after('15 millimeter')).toMatchObject({ torque: 35, unit: 'lbf·ft' });
  expect(after('10 millimeter')?.unit ?? null).toBeNull();
});

it('writes the last of several passes, however long after the first it is told', () => {
  const talk =
    'The head has ten bolts, 17 mil. First pass is thirty newton metres on everything. Have a look at the gasket. Now the second pass, eighty-five.';
  expect(groupsOf(talk)[0]).toMatchObject({ count: 10, torque: 85 });
});

it.each([
  ['The sensor has two screws, ten mil, nought point seven kilogram metres.', { count: 2, torque: 0.7, unit: 'kgf·m' }],
  ['The clamp has two bolts, ten mil, oh point eight kilogram metres.', { count: 2, torque: 0.8, unit: 'kgf·m' }],
  ['The beam has two bolts, nineteen mil, one nought five newton metres.', { count: 2, torque: 105 }],
  ['The rail has a half dozen bolts, ten mil, nine newton metres.', { count: 6 }],
  ['The rail has half dozen bolts, ten mil, nine newton metres.', { count: 6 }],
  ['The rail has half a dozen bolts, ten mil, nine newton metres.', { count: 6 }],
])('reads noughts and half dozens: %s', (text, wanted) => {
  expect(groupsOf(text)[0]).toMatchObject(wanted);
});

it.each([
  ['each end has two inch and an eighth nuts', ['1 1/8 width', '2 1/8 width', '2 number']],
  ['it gets nought point seven newton metres', ['0.7 number', '0.7 torque']],
  ['half a dozen of them', ['6 number']],
])('leaves other readings to the net, and none that nobody means: %s', (text, wanted) => {
  const transcript = readTranscript(text);
  const { nodes } = viewOf(hearTalk(transcript), transcript.words);
  const read = nodes.filter(({ kind }) => kind === 'number').map((node) => [numberText(node), node.quantity?.kind].join(' '));
  expect(read.sort()).toEqual(wanted);
});
