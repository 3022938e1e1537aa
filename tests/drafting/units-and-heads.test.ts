import { expect, it } from 'vitest';
import { oddity } from '../../src/drafting/oddity.ts';
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
