import { countOf, likeness } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Component } from './items.ts';
import { addGroup, noteSentence, tell } from './talk.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** "the engine side gets 48": those just named that go into the engine; of "one bolt at each end", half of them. */
export function hearSide(hearing: Hearing, component: Component): boolean {
  const { talk, sentence } = hearing;
  const words = component.words.slice(0, -1);
  // A track rod end is a thing, not an end of something.
  if (words.length === 0 || /^(?:rod|rods|ball)$/.test(words.at(-1) ?? '')) return false;
  const recent = talk.groups.filter((group) => sentence.index - (group.sentences.at(-1) ?? -99) <= 3);
  const fits = recent.filter(
    (group) => likeness(group, words, null) >= 0.8 || words.every((word) => group.places.map(stemOf).includes(stemOf(word))),
  );
  const [focus] = talk.focus;
  const lot = focus?.whole ?? focus;
  // "the crossmember end is 100" of "one bolt at each end"
  const ofEnds = component.words.at(-1) === 'end' && lot?.bothSides === true && recent.includes(lot) ? lot : undefined;
  const placed = fits.filter((group) => words.every((word) => group.places.map(stemOf).includes(stemOf(word))));
  const match = placed.findLast(({ whole }) => whole === null) ?? fits.findLast(({ whole }) => whole === null) ?? fits.at(-1) ?? ofEnds;
  if (match === undefined) return false;
  const count = countOf(match);
  const own = words.some((word) => match.own.has(stemOf(word)));
  const half =
    (match.bothSides || words.every((word) => tellingApart.has(word))) && !own && match.whole === null && count !== null && count % 2 === 0;
  const known = match.parts.find((part) => words.every((word) => part.own.has(stemOf(word))));
  const group =
    known ??
    (half
      ? addGroup(talk, sentence, {
          head: match.head,
          sure: match.sure,
          names: component.words,
          places: [],
          thing: match.thing,
          whole: match,
        })
      : match);
  if (half && known === undefined) tell(talk, [group], 'count', count / 2, [], hearing.evidence(component.from, component.to, 0.8));
  noteSentence(group, sentence);
  talk.focus = [group];
  talk.focusSentence = sentence.index;
  hearing.freshAt = component.from;
  talk.focusAt = hearing.now(component.from);
  return true;
}
