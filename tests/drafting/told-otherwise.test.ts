import { expect, it } from 'vitest';
import { wholeDraft } from './whole-draft.ts';

const groupsOf = (text: string) => wholeDraft(text).groups;

it('takes how long bolts are for no torque', () => {
  const talk =
    'Cover bolts, nine of them, 18 mil, 60 newton metres. The top two are the long ones, a hundred and ten long, and the rest are seventy.';
  expect(groupsOf(talk).map(({ torque }) => torque)).toEqual(groupsOf(talk).map(() => 60));
});

it('takes a torque that is said once more for no count', () => {
  const [group] = groupsOf('The flange bolts are 18 mil, fifty-five newton metres. The old sheet said seventy. So fifty-five.');
  expect(group).toMatchObject({ count: null, torque: 55 });
});

it('gives bolts that were counted without a name the name that is told after it', () => {
  const groups = groupsOf(
    'Slide it up on the flange. Four bolts, 14 mil. Put a drop of oil on those front flange bolts. 55 newton metres.',
  );
  expect(groups).toHaveLength(1);
  expect(groups[0]).toMatchObject({ count: 4, size: '14', torque: 55 });
});

it('keeps studs that are torqued themselves apart from the nuts on them', () => {
  const talk =
    'There are twelve manifold studs, E8, fifteen newton metres. Then the manifold nuts, twelve of them, thirteen mil, twenty-five newton metres.';
  expect(groupsOf(talk).map(({ size, torque }) => [size, torque])).toEqual([
    ['E8', 15],
    ['13', 25],
  ]);
});

it('takes no head for a hexagon that is turned by a triple square', () => {
  const [group] = groupsOf("Joint bolts, twelve of them. They're a ten mil triple square. Forty-five newton metres.");
  expect(group).toMatchObject({ size: '10', drive: null });
});

it('knows builds by a name of their own, and by the one part that they have differently', () => {
  const towing = 'If yours is the tow pack build there are four tow brace bolts, 18 mil, 90 newton metres.';
  expect(wholeDraft(towing).builds.map(({ id }) => id)).toEqual(['tow-pack']);
  const axles = "If it's the light axle there are four strap bolts. If it's the heavy axle there are eight flange bolts.";
  expect(wholeDraft(axles).builds.map(({ id }) => id)).toEqual(['light-axle', 'heavy-axle']);
  const ends = "If it's the front axle there are four strap bolts. If it's the rear axle there are eight flange bolts.";
  expect(wholeDraft(ends).builds).toEqual([]);
});

it('finds the only two that were never torqued, whatever was spoken of since', () => {
  const talk =
    "The carrier bolts, there's two of 'em, 19 mil. Four plate bolts, 13 mil, 20 newton metres. That rubber has to be square to the shaft. When it's square, then you run those two up to sixty newton metres.";
  expect(groupsOf(talk)[0]).toMatchObject({ count: 2, size: '19', torque: 60 });
});
