import { aim, fastenersOf } from './aim.ts';
import { storyFrom } from './chatter.ts';
import { recall } from './corrections.ts';
import { countsAtLast, hearEach, hearEachOne } from './counting.ts';
import { hearFasteners } from './fasteners.ts';
import { countOf } from './groups.ts';
import { Hearing } from './hearing.ts';
import { type FindBuild, type Item, itemsOf } from './items.ts';
import { everything, meansWholeLot, widened } from './lots.ts';
import { hearSame } from './sameness.ts';
import type { SaidSentence } from './sentences.ts';
import { tell, type Talk } from './talk.ts';
import { tellFocus } from './tell-values.ts';
import { hearThing, thingOf } from './things.ts';
import { hearQuantity, negates } from './values.ts';

/** Listens to one sentence: what is named, what is told of it, what is taken back. */
export function listen(talk: Talk, sentence: SaidSentence, findBuild: FindBuild, following: SaidSentence | null): void {
  const story = storyFrom(sentence);
  const items = itemsOf(sentence, findBuild).filter(({ from }) => story === null || from < story);
  const hearing = new Hearing(talk, sentence, items, following);
  noteOneSide(hearing);
  recall(hearing);
  for (const [index, item] of items.entries()) if (!hearing.skipped.has(item)) hear(hearing, item, index);
}

/** Which units the talk uses, and whether it says that all are in one. */
export function noteUnits(talk: Talk, sentence: SaidSentence): void {
  const words = sentence.tokens.map(({ bare }) => bare).join(' ');
  const declared =
    /\b(?:everything|all|every torque|torques?|always)\b.*\b(?:in|is|are) (foot pounds|inch pounds|newton met(?:er|re)s|nm)\b/.exec(words);
  if (declared !== null && !/\d/.test(words)) {
    const unit = declared[1] ?? '';
    talk.declaredUnit = unit.startsWith('foot') ? 'lbf·ft' : unit.startsWith('inch') ? 'lbf·in' : 'N·m';
  }
  for (const quantity of sentence.quantities) {
    if (quantity.kind === 'torque' && quantity.unit !== null) talk.units.set(quantity.unit, (talk.units.get(quantity.unit) ?? 0) + 1);
  }
}

/** "Front hub, right hand side.": what follows is told of one side until the other is said to be the same. */
function noteOneSide(hearing: Hearing): void {
  const words = hearing.words(0, hearing.sentence.tokens.length);
  if (!/\b(?:right|left|driver 's|passenger 's|near|off) ?(?:hand )?side\b(?! (?:is|'s))/.test(words)) return;
  if (hearing.sentence.quantities.length === 0 && hearing.items.every(({ kind }) => kind === 'component' || kind === 'pronoun'))
    hearing.talk.oneSideFrom = hearing.talk.groups.length;
}

function hear(hearing: Hearing, item: Item, index: number): void {
  switch (item.kind) {
    case 'component':
      hearThing(hearing, item);
      if (hearing.counted !== null && item.count !== null) countsAtLast(hearing, hearing.counted.noun, hearing.counted.count ?? 1);
      return;
    case 'mention':
      hearFasteners(hearing, item.mention, index);
      return;
    case 'quantity':
      hearQuantity(hearing, item.quantity, index);
      return;
    case 'each':
      hearEach(hearing, item);
      return;
    case 'all':
      hearAll(hearing, item);
      return;
    case 'eachOne':
      hearEachOne(hearing, item.from, item.to);
      return;
    case 'oneOfEach':
      for (const group of hearing.talk.groups) {
        const near =
          !group.bothSides &&
          (hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 1 ||
            (hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 4 && group.thing === (hearing.talk.focus[0]?.thing ?? null)));
        if (near && (countOf(group) ?? 1) === 1)
          tell(hearing.talk, [group], 'count', 2, [], hearing.evidence(item.from, item.to, 0.85), { replace: true });
      }
      return;
    case 'pronoun':
      meansWholeLot(hearing, item.word);
      return;
    case 'aside':
      return;
    case 'same':
      hearSame(hearing, item, index);
      return;
    case 'correction':
      hearing.correcting = true;
      return;
    case 'not':
      hearing.negated = negates(hearing, item.to, index);
      return;
    case 'build':
      hearBuild(hearing, item);
      return;
    case 'counterhold':
      hearing.holding = true;
      return;
    case 'reach':
      tellFocus(hearing, 'reach', item.text, item.from, item.to, 0.7);
      return;
    case 'drive':
      if (item.from > hearing.heldUntil) tellFocus(hearing, 'drive', item.text, item.from, item.to, 0.9);
      return;
    case 'condition':
      tellFocus(hearing, 'condition', item.text, item.from, item.to, 0.8);
      return;
    case 'feature':
      if (item.feature === 'single') tellFocus(hearing, 'single', true, item.from, item.to, 0.85);
      else if (item.feature === 'snug') tellFocus(hearing, 'snug', true, item.from, item.to, 0.8);
      else if (item.feature === 'untouched')
        for (const group of hearing.talk.focus) group.untouched = hearing.freshAt >= 0 || group.untouched;
      else if (item.feature !== 'loose') tellFocus(hearing, 'order', item.feature, item.from, item.to, 0.85);
      return;
  }
}

/** "all seven of them", "both", "everything": the lot, or those just named that make up the number. */
function hearAll(hearing: Hearing, item: Item & { kind: 'all' }): void {
  const { talk } = hearing;
  const count = hearing.countAt(item.from, item.to);
  const things = hearing.word(item.from) === 'both' ? hearing.pairOfThings(item.from) : [];
  if (things.length === 2) {
    talk.focus = things.flatMap((component) => [...fastenersOf(hearing, thingOf(talk, component, hearing.sentence.index), 'torque')]);
    talk.focusSentence = hearing.sentence.index;
    hearing.freshAt = item.from;
    talk.focusAt = hearing.now(item.from);
    return;
  }
  const groups = hearing.freshAt < 0 ? aim(hearing, item.from, 'count') : talk.focus;
  const [only] = groups;
  // "put in the bolts, all seven of them"
  if (count !== null && only !== undefined && groups.length === 1 && countOf(only) === null && only.parts.length === 0) {
    tell(talk, [only], 'count', count, [], hearing.evidence(item.from, item.to, 0.9), { to: item.to });
    only.perUnknown = null;
  }
  talk.focus = /^every/.test(hearing.word(item.from)) ? everything(hearing) : widened(hearing, count);
  talk.focusSentence = hearing.sentence.index;
  hearing.freshAt = item.from;
  talk.focusAt = hearing.now(item.from);
}

function hearBuild(hearing: Hearing, item: Item & { kind: 'build' }): void {
  const next = hearing.word(item.to);
  const told = hearing.lastTelling;
  const closes =
    told !== null &&
    told.to >= item.from - 1 &&
    hearing.sentence.tokens.slice(told.to - 1, item.from).every(({ mark }) => mark === '') &&
    !(hearing.open(item.to - 1) && /^(?:it|that|they|those|these|there|the|you|this)$/.test(next));
  if (closes && item.builds.length > 0) {
    told.undo(item.builds);
    return;
  }
  if (!closes) hearing.builds = item.builds;
}
