import { storyFrom } from './chatter.ts';
import { recalls } from './corrections.ts';
import { hearEach } from './counting.ts';
import { countOf } from './groups.ts';
import { Hearing } from './hearing.ts';
import { type FindBuild, type Item, itemsOf } from './items.ts';
import { widened, everything, meansWholeLot } from './lots.ts';
import { hearMention } from './names.ts';
import { hearSame } from './sameness.ts';
import type { SaidSentence } from './sentences.ts';
import { tell, type Talk } from './talk.ts';
import { tellFocus } from './tell-values.ts';
import { hearComponent, pairedThings } from './things.ts';
import { hearQuantity, negates } from './values.ts';
import { stemOf } from './word-classes.ts';

/** Listens to one sentence: what is named, what is told of it, what is taken back. */
export function listen(talk: Talk, sentence: SaidSentence, findBuild: FindBuild): void {
  const story = storyFrom(sentence);
  const items = itemsOf(sentence, findBuild).filter(({ from }) => story === null || from < story);
  run(new Hearing(talk, sentence, items));
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

function run(hearing: Hearing): void {
  if (recalls(hearing)) return;
  for (const [index, item] of hearing.items.entries()) if (!hearing.skipped.has(item)) hear(hearing, item, index);
  const main = hearing.components.filter(({ inPlace }) => !inPlace);
  const trailing = hearing.items.at(-1);
  const first =
    trailing?.kind === 'component' &&
    (!trailing.inPlace || (/^(?:on|at|for)$/.test(hearing.word(trailing.from - 1)) && hearing.open(trailing.to - 1))) &&
    hearing.valueEnd >= 0 &&
    trailing.from >= hearing.valueEnd
      ? trailing
      : main[0];
  if (first === undefined) return;
  hearing.talk.topic = first.words.slice(-4);
  hearing.talk.topicSentence = hearing.sentence.index;
  hearing.talk.topicAlone =
    hearing.items.every((item) => item.kind === 'component') && hearing.sentence.tokens.length - (first.to - first.from) <= 5;
}

function hear(hearing: Hearing, item: Item, index: number): void {
  switch (item.kind) {
    case 'component': {
      hearComponent(hearing, item);
      return;
    }
    case 'mention': {
      hearMention(hearing, item.mention, index);
      return;
    }
    case 'quantity': {
      hearQuantity(hearing, item.quantity, index);
      return;
    }
    case 'each': {
      hearEach(hearing, item);
      return;
    }
    case 'all': {
      const count = hearing.countBefore(item.from, item.to);
      const [only] = hearing.talk.focus;
      // "put in the bolts, all seven of them"
      if (
        count !== null &&
        only !== undefined &&
        hearing.talk.focus.length === 1 &&
        countOf(only) === null &&
        only.parts.length === 0 &&
        only.head !== null
      ) {
        tell(hearing.talk, [only], 'count', count, [], hearing.evidence(item.from, item.to, 0.9), { to: item.to });
        only.perUnknown = null;
      }
      const pair = hearing.word(item.from) === 'both' ? pairedThings(hearing, index) : null;
      hearing.talk.focus =
        pair !== null ? [...pair] : /^every/.test(hearing.word(item.from)) ? everything(hearing) : widened(hearing, count);
      hearing.freshAt = item.from;
      return;
    }
    case 'eachOne': {
      const paired = /^(?:side|end)$/.test(hearing.word(item.to - 1)) ? 2 : hearing.word(item.to - 1) === 'corner' ? 4 : null;
      if (paired !== null) {
        hearing.times = { by: paired, of: hearing.word(item.to - 1) };
        return;
      }
      const of = hearing.components.at(-1)?.words.at(-1) ?? hearing.talk.topic.at(-1) ?? '';
      const by = hearing.talk.counts.get(stemOf(of)) ?? null;
      if (by !== null || (of !== '' && /^(?:has|have|'s|gets?|takes?|with|needs?)$/.test(hearing.word(item.to))))
        hearing.times = { by, of: stemOf(of) };
      hearing.timesAt = item.from;
      return;
    }
    case 'oneOfEach':
      for (const group of hearing.talk.groups) {
        const near =
          !group.bothSides &&
          (hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 1 ||
            (hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 4 && group.topic.join() === hearing.talk.focus[0]?.topic.join()));
        if (near && (countOf(group) ?? 1) === 1)
          tell(hearing.talk, [group], 'count', 2, [], hearing.evidence(item.from, item.to, 0.85), { replace: true });
      }
      return;
    case 'pronoun':
      meansWholeLot(hearing, item.word);
      return;
    case 'aside':
      return;
    case 'same': {
      hearSame(hearing, item, index);
      return;
    }
    case 'correction':
      hearing.correcting = true;
      return;
    case 'not':
      hearing.negated = negates(hearing, item.to, index);
      return;
    case 'build': {
      hearBuild(hearing, item);
      return;
    }
    case 'counterhold':
      hearing.holding = true;
      return;
    case 'reach':
      tellFocus(hearing, 'reach', item.text, item.from, item.to, 0.7);
      return;
    case 'drive':
      tellFocus(hearing, 'drive', item.text, item.from, item.to, 0.9);
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
