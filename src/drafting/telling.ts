import { aim, aimed, fastenersOf } from './aim.ts';
import { buildGoesOn, isToldByBuild, noteBuild, shareAmongBuilds } from './build-scope.ts';
import { storyFrom } from './chatter.ts';
import { recall, swapLast } from './corrections.ts';
import { countsAtLast, hearEach, hearEachOne } from './counting.ts';
import { hearFasteners } from './fasteners.ts';
import { countOf, type Group } from './groups.ts';
import { Hearing } from './hearing.ts';
import { type FindBuild, type Item, itemsOf } from './items.ts';
import { everything, meansWholeLot, widened } from './lots.ts';
import { hearSame } from './sameness.ts';
import type { QuantitySpan } from './quantities.ts';
import type { SaidSentence } from './sentences.ts';
import { tell, type Talk } from './talk.ts';
import { tellFocus } from './tell-values.ts';
import { hearThing, thingOf } from './things.ts';
import { hearQuantity, negates } from './values.ts';

/** Listens to one sentence: what is named, what is told of it, what is taken back. */
export function listen(talk: Talk, sentence: SaidSentence, findBuild: FindBuild, following: SaidSentence | null): void {
  talk.lengths[sentence.index] = sentence.tokens.length;
  const story = storyFrom(sentence);
  const items = itemsOf(sentence, findBuild).filter(({ from }) => story === null || from < story);
  const hearing = new Hearing(talk, sentence, items, following);
  const said = hearing.words(0, sentence.tokens.length);
  noteStage(talk, said);
  if (!lists.test(said) && sentence.quantities.some((one) => isSizeSaid(hearing, one))) talk.listing = false;
  if (isRecap(hearing)) return;
  if (talk.correctedIn === sentence.index - 1) hearing.correctedAt = -1;
  if (/\b(?:first (?:pass|stage|time|round|step|go)|in (?:two|three) (?:passes|stages|steps|goes)|to start|first)\b/.test(said))
    talk.passIn = sentence.index;
  if (/\bfirst (?:pass|stage|round|time round)\b/.test(said)) talk.firstPasses.add(sentence.index);
  // "there's a left one and a right one"
  const paired =
    /^(?:there 's |they 're |so |and )*one (?:on the |at the |each )?(?:left|front|top|upper|side|end|driver 's side|nearside)(?: side)?(?: (?:and )?one (?:on the |at the )?(?:right|rear|back|bottom|lower|passenger 's side|offside)(?: side)?)?$/.test(
      said,
    );
  if (paired && talk.topic !== null && talk.topicAt > talk.focusAt) talk.topic.count ??= 2;
  const two = /\ba (?:left|front|upper|top|driver 's side) one and a (?:right|rear|back|lower|bottom|passenger 's side) one\b/.test(said);
  if (two && talk.topic !== null) talk.topic.count ??= 2;
  if (/\?/.test(sentence.tokens.at(-1)?.mark ?? '')) talk.askedIn = sentence.index;
  noteOneSide(hearing);
  recall(hearing);
  if (talk.correctingUntil >= sentence.index) hearing.correcting = true;
  leaveOthers(hearing);
  const carried = buildGoesOn(hearing);
  if (carried !== null) hearing.builds = [carried];
  for (const [index, item] of items.entries()) if (!hearing.skipped.has(item)) hear(hearing, item, index);
  noteBuild(hearing, carried);
  shareAmongBuilds({ talk, sentence, words: said });
  talk.lately.push({ sentence: sentence.index, items });
  if (talk.lately.length > 3) talk.lately.shift();
  const pair = hearing.pairOfThings(sentence.tokens.length);
  if (pair.length === 2) talk.pair = { things: pair, sentence: sentence.index };
  // "no, hang on | I'm thinking of the rear | it's 80": what is put right may come a sentence later.
  const ends = items.at(-1)?.kind === 'correction' || takesBack.test(hearing.words(0, sentence.tokens.length));
  if (ends) talk.correctedIn = sentence.index;
  if ((hearing.correcting || ends) && (ends || hearing.correctedAt !== null)) talk.correctingUntil = sentence.index + (ends ? 2 : 1);
  else if (!hearing.correcting || items.some(({ kind }) => kind === 'quantity')) talk.correctingUntil = -1;
}

/** "no, I'm wrong, five-eighths, the three-quarter's the carrier": whose the wrong one was. */
function leaveOthers(hearing: Hearing): void {
  const { items } = hearing;
  const corrected = items.findIndex(({ kind }) => kind === 'correction');
  const first = items.findIndex(({ kind }, index) => kind === 'quantity' && index > corrected);
  if (corrected < 0 || first < 0) return;
  for (const [index, item] of items.entries()) {
    const next = items[index + 1];
    if (index <= first || item.kind !== 'quantity' || (next?.kind !== 'component' && next?.kind !== 'mention')) continue;
    if (hearing.word(item.from - 1) !== 'the' || !/^(?:'s|is|was) (?:the|for)$/.test(hearing.words(item.to, item.to + 2))) continue;
    hearing.skip(item);
    hearing.skip(next);
  }
}

/** "hold on. | No. | They're 16s.": a sentence that only takes back. */
const takesBack = /^(?:(?:no|nope|wait|sorry|oh|hang on|hold on|hmm|actually|scratch that|not that|wrong|i lie|i tell a lie) ?)+$/;

const recaps =
  /\b(?:recap|double check|tot up|(?:go|run) (?:over|through) (?:it|that|them|those|these|all that|all of that|the torques|the numbers|everything) (?:all )?(?:again|once more|one more time|real quick|quick)|over (?:it|that|them|those) one more time|once more (?:then|from the top)|so again|one more time)\b/;

const lists =
  /\b(?:now|so|here are|here 's|these are|those are|okay|alright|then) (?:all )?(?:the|your|for the) (?:torque |torques? )?(?:numbers|torques|specs|specifications|figures|torque specs)\b(?! (?:at the end|later|after|in the))/;

/** "Sizes first, so you can pull the sockets. Torques after … Torques.": in which of two rounds the talk is. */
function noteStage(talk: Talk, words: string): void {
  if (lists.test(words) || torquesNow.test(words)) {
    talk.listing = true;
    talk.sizesFirst = false;
  } else if (sizesNow.test(words)) talk.sizesFirst = true;
}

const sizesNow =
  /\b(?:(?:sizes|sockets|heads|spanners|wrenches) (?:and counts? )?first|(?:torques|torque figures|torque numbers|tightening|numbers) (?:come |are |at the end|after(?:wards)?|later|last|then|in (?:a |the )?second)(?:$| ))/;
const torquesNow =
  /^(?:(?:okay|ok|right|so|now|and|then|next|good|all right|alright|on to|that 's|here come|here are|for|your|the|all|my) )*(?:torques?|tightening torques|torque (?:figures|values|numbers|specs)|tightening)(?: now| then| next| for (?:all )?(?:of )?(?:those|them|these))?$/;

/** Not "the three thirteens are twenty-one", which names them. */
const isSizeSaid = (hearing: Hearing, { kind, from, ...quantity }: QuantitySpan) =>
  kind === 'width' ||
  kind === 'serration' ||
  ('plural' in quantity && quantity.plural && !(hearing.open(from - 1) && /\bthe(?: \w+)?$/.test(hearing.words(from - 2, from))));

/** "let me go over those again": what was told is told once more, and a short second telling settles nothing. */
function isRecap({ talk, sentence, items }: Hearing): boolean {
  const words = sentence.tokens.map(({ bare }) => bare).join(' ');
  const told = talk.groups.filter((group) => group.whole === null && group.told.torque.length > 0).length;
  const sized = items.filter(
    (item) => item.kind === 'mention' && (item.mention.bySize !== null || item.mention.byText !== null) && item.mention.count !== null,
  );
  if (recaps.test(words) && told >= 4) talk.recapFrom = sentence.index;
  // "so you've got two 14s, two 18s, one 13, three tens": the tools once more.
  else if (sized.length >= 4 && told >= 4) return true;
  // "I count four on the beam, two nuts, one tail bolt and eight on the shaft. That's seventeen.": what was marked, once more.
  const counted = items.filter((item) => item.kind === 'mention' && item.mention.count !== null).length;
  const isRecital = counted >= 4 && told >= 4 && sentence.quantities.every(({ kind }) => kind === 'number');
  if (isRecital) talk.recitedIn = sentence.index;
  if (isRecital || (talk.recitedIn === sentence.index - 1 && /^(?:so )?(?:that|it) (?:'s|is|makes) \S+(?: \S+)?$/.test(words))) return true;
  if (talk.recapFrom === null) return false;
  const news = items.some(({ kind }) => kind === 'mention') && sentence.quantities.some(({ kind }) => /^(?:width|serration)$/.test(kind));
  if (news) talk.recapFrom = null;
  return !news;
}

const declares =
  /\b(?:everything|all|every torque|torques?|always|(?:always|all|only) (?:mean|speak|talk(?:ing)?|work(?:ing)?))\b(?:.*\b(?:in|is|are))? (foot pounds|inch pounds|newton met(?:er|re)s|nm)\b/;
const declaresAfter =
  /\b(foot pounds|inch pounds|newton met(?:er|re)s|nm) (?:throughout|all (?:the way|through)|all round|for (?:everything|all of (?:it|them|these|those)|the (?:lot|whole))|on everything|across the board|unless i)\b/;

/** Which units the talk uses, and whether it says that all are in one. */
export function noteUnits(talk: Talk, sentence: SaidSentence): void {
  const words = sentence.tokens.map(({ bare }) => bare).join(' ');
  const declared = declares.exec(words) ?? declaresAfter.exec(words);
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
            (hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 4 &&
              (group.thing === (hearing.talk.focus[0]?.thing ?? null) || group.thing?.noun === hearing.talk.focus[0]?.thing?.noun)));
        // One of each of two kinds, where it is said of what nobody spoke of in the plural.
        if (near && (item.count > 1 ? (countOf(group) ?? 1) === 1 : countOf(group) === null && !group.saidPlural))
          tell(hearing.talk, [group], 'count', item.count, [], hearing.evidence(item.from, item.to, 0.85), { replace: true });
      }
      return;
    case 'pronoun':
      if (hearLeftOver(hearing, item, index)) return;
      meansWholeLot(hearing, item.word);
      return;
    case 'aside':
      return;
    case 'same':
      hearSame(hearing, item, index);
      return;
    case 'swap':
      swapLast(hearing);
      hearing.correcting = false;
      return;
    case 'correction':
      hearing.correcting = true;
      hearing.correctedAt = item.from;
      hearing.talk.correctedIn = hearing.sentence.index;
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
      if (hearing.thing !== null && hearing.thingAt > hearing.freshAt && hearing.sentence.quantities.some(({ from }) => from === item.to))
        aim(hearing, item.from, 'size');
      if (item.from > hearing.heldUntil) tellFocus(hearing, 'drive', item.text, item.from, item.to, 0.9);
      return;
    case 'condition':
      tellFocus(hearing, 'condition', item.text, item.from, item.to, 0.8);
      return;
    case 'feature':
      if (item.feature === 'single') tellFocus(hearing, 'single', true, item.from, item.to, 0.85);
      else if (item.feature === 'snug') tellFocus(hearing, 'snug', true, item.from, item.to, 0.8);
      else if (item.feature === 'untouched') leaveAlone(hearing, item, index);
      else if (item.feature !== 'loose') tellFocus(hearing, 'order', item.feature, item.from, item.to, 0.85);
      return;
  }
}

/** "the big one, don't touch that", "don't touch the big one" */
function leaveAlone(hearing: Hearing, item: Item, index: number): void {
  const next = hearing.items[index + 1];
  if (next?.kind === 'mention' && next.from <= item.to + 1) hearing.skip(next);
  else if (hearing.freshAt >= 0) for (const group of hearing.talk.focus) group.untouched = true;
}

/** "that rubber has to be square, then you run those two up to sixty": the only two that were named and never torqued. */
function hearLeftOver(hearing: Hearing, item: Item & { kind: 'pronoun' }, index: number): boolean {
  const { talk, sentence } = hearing;
  const next = hearing.items[index + 1];
  if (!/^(?:those|these)$/.test(item.word) || next?.kind !== 'quantity' || next.from !== item.to || hearing.freshAt >= 0) return false;
  const { quantity } = next;
  if (quantity.kind !== 'number' || quantity.value < 2 || quantity.value > 12 || aimed(hearing, item.from) !== null) return false;
  const left = talk.groups.filter(
    (group) => group.head !== null && countOf(group) === quantity.value && group.told.torque.length === 0 && group.told.size.length > 0,
  );
  const [only] = left;
  if (only === undefined || left.length > 1) return false;
  talk.focus = [only];
  talk.focusSentence = sentence.index;
  hearing.freshAt = item.from;
  talk.focusAt = hearing.now(item.from);
  hearing.skip(next);
  return true;
}

/** "all seven of them", "both", "everything": the lot, or those just named that make up the number. */
function hearAll(hearing: Hearing, item: Item & { kind: 'all' }): void {
  const { talk } = hearing;
  const count = hearing.countAt(item.from, item.to);
  const here = hearing.word(item.from) === 'both' ? hearing.pairOfThings(item.from) : [];
  // "backup switch and neutral switch | they're both 22"
  const before =
    hearing.word(item.from) === 'both' &&
    hearing.freshAt < 0 &&
    hearing.thing === null &&
    talk.pair?.sentence === hearing.sentence.index - 1;
  const things = here.length === 2 ? here : before ? (talk.pair?.things ?? []) : [];
  if (things.length === 2) {
    talk.focus = things.flatMap((component) => [...fastenersOf(hearing, thingOf(talk, component, hearing.sentence.index), 'torque')]);
    talk.focusSentence = hearing.sentence.index;
    hearing.freshAt = item.from;
    talk.focusAt = hearing.now(item.from);
    return;
  }
  const whole = /^every/.test(hearing.word(item.from));
  const groups = hearing.freshAt >= 0 ? talk.focus : whole ? (aimed(hearing, item.from) ?? []) : aim(hearing, item.from, 'count');
  const [only] = groups;
  // "ten millimetre heads on both": of both builds, and no two.
  const ofBuilds = hearing.word(item.from) === 'both' && groups.length === 1 && only !== undefined && isToldByBuild(only);
  if (ofBuilds) {
    hearing.builds = [];
    talk.focus = [only];
    talk.focusSentence = hearing.sentence.index;
    hearing.freshAt = item.from;
    talk.focusAt = hearing.now(item.from);
    return;
  }
  if (/^(?:both|'re|they)$/.test(hearing.word(item.from)) && count === 2 && focusOnPair(hearing, groups)) return;
  // "put in the bolts, all seven of them"
  // "fill plug the same, and new washers on both of them": the two plugs, not two fill plugs.
  const single =
    count === 2 &&
    only?.head === 'plug' &&
    !only.saidPlural &&
    talk.groups.some((other) => other !== only && other.head === 'plug' && hearing.sentence.index - (other.sentences.at(-1) ?? -99) <= 2);
  const ofOthers = hearing.items.some((one) => one.kind === 'component' && one.from === item.to);
  if (
    count !== null &&
    only !== undefined &&
    groups.length === 1 &&
    countOf(only) === null &&
    only.parts.length === 0 &&
    !single &&
    !ofOthers
  ) {
    tell(talk, [only], 'count', count, [], hearing.evidence(item.from, item.to, 0.9), { to: item.to });
    only.perUnknown = null;
  }
  talk.focus = whole ? everything(hearing) : widened(hearing, count);
  if (!whole && item.from === 0 && hearing.sentence.quantities.every(({ to }) => to <= item.to)) shareLastTorque(hearing);
  talk.focusSentence = hearing.sentence.index;
  hearing.freshAt = item.from;
  talk.focusAt = hearing.now(item.from);
}

/** "Forty newton metres. All four.": what was just told of some of them is told of all. */
function shareLastTorque({ talk, sentence }: Hearing): void {
  const last = talk.tells.at(-1);
  if (last?.field !== 'torque' || sentence.index - last.sentence > 1 || !last.groups.every((group) => talk.focus.includes(group))) return;
  const told = last.groups[0]?.told.torque.at(-1);
  if (told === undefined || told.evidence.sentence !== last.sentence) return;
  for (const group of talk.focus)
    if (group.told.torque.length === 0) tell(talk, [group], 'torque', told.value, told.build === null ? [] : [told.build], told.evidence);
}

/** "the drain plug's the same and they both get 26": of two single ones named one after the other, both. */
function focusOnPair(hearing: Hearing, groups: readonly Group[]): boolean {
  const { talk, sentence } = hearing;
  const [second] = groups;
  if (groups.length !== 1 || second === undefined || second.saidPlural || (countOf(second) ?? 1) !== 1) return false;
  const first = talk.groups.findLast(
    (group) => group !== second && group.whole === null && sentence.index - (group.sentences.at(-1) ?? -99) <= 2,
  );
  if (first === undefined || (first.head !== second.head && !second.implied) || first.saidPlural || (countOf(first) ?? 1) !== 1)
    return false;
  if (first.told.torque.length > 0 || second.told.torque.length > 0) return false;
  talk.focus = [first, second];
  talk.focusSentence = sentence.index;
  hearing.freshAt = Math.max(hearing.freshAt, 0);
  return true;
}

function hearBuild(hearing: Hearing, item: Item & { kind: 'build' }): void {
  const next = hearing.word(item.to);
  const told = hearing.lastTelling;
  const closes =
    told !== null &&
    told.to >= item.from - 1 &&
    hearing.sentence.tokens.slice(told.to - 1, item.from).every(({ mark }) => mark === '') &&
    !(
      hearing.open(item.to - 1) &&
      /^(?:it|that|they|those|these|there|the|you|this|has|have|had|takes?|gets?|is|are|'s|uses?|needs?|wants?|got|runs?|went|comes?)$/.test(
        next,
      )
    );
  if (closes && item.builds.length > 0) {
    told.undo(item.builds);
    return;
  }
  if (!closes) hearing.builds = item.builds;
}
