import { isToolTalk, storyFrom, weighs } from './chatter.ts';
import { countOf, lastTold, likeness, type Evidence, type Group, type SaidSize, type SaidTorque } from './groups.ts';
import type { Component, FindBuild, Item } from './items.ts';
import { itemsOf } from './items.ts';
import { readPlace, type Mention } from './mentions.ts';
import { roleOfNumber } from './number-roles.ts';
import type { QuantitySpan } from './quantities.ts';
import { resolveMention, type Resolved } from './resolve.ts';
import type { SaidSentence } from './sentences.ts';
import { addGroup, noteSentence, tell, type Talk } from './talk.ts';
import { areOpposite, prepositions, stemOf, tellingApart } from './word-classes.ts';

const copula = /^(?:is|are|'s|'re|was|were|be|being)$/;

/** Listens to one sentence: what is named, what is told of it, what is taken back. */
export function listen(talk: Talk, sentence: SaidSentence, findBuild: FindBuild): void {
  const story = storyFrom(sentence);
  const items = itemsOf(sentence, findBuild).filter(({ from }) => story === null || from < story);
  new Listener(talk, sentence, items).run();
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

class Listener {
  private readonly talk: Talk;
  private readonly sentence: SaidSentence;
  private readonly items: readonly Item[];
  private builds: readonly string[] = [];
  private components: Component[] = [];
  /** "each bracket has …": what is counted next is there so many times. */
  private times: { readonly by: number | null; readonly of: string } | null = null;
  private sideCount: number | null = null;
  private correcting = false;
  private negated = false;
  private holding = false;
  private onMate = false;
  private freshAt = -1;
  private readonly pending: QuantitySpan[] = [];
  /** Where the last torque or name ended: what was named before it belongs to that. */
  private valueEnd = -1;
  private timesAt = -1;
  private lastTelling: { readonly to: number; readonly undo: (builds: readonly string[]) => void } | null = null;

  constructor(talk: Talk, sentence: SaidSentence, items: readonly Item[]) {
    this.talk = talk;
    this.sentence = sentence;
    this.items = items;
  }

  run(): void {
    if (this.recalls()) return;
    for (const [index, item] of this.items.entries()) if (!this.skipped.has(item)) this.hear(item, index);
    const main = this.components.filter(({ inPlace }) => !inPlace);
    const trailing = this.items.at(-1);
    const first =
      trailing?.kind === 'component' &&
      (!trailing.inPlace || (/^(?:on|at|for)$/.test(this.word(trailing.from - 1)) && this.open(trailing.to - 1))) &&
      this.valueEnd >= 0 &&
      trailing.from >= this.valueEnd
        ? trailing
        : main[0];
    if (first === undefined) return;
    this.talk.topic = first.words.slice(-4);
    this.talk.topicSentence = this.sentence.index;
    this.talk.topicAlone =
      this.items.every((item) => item.kind === 'component') && this.sentence.tokens.length - (first.to - first.from) <= 5;
  }

  /** "I gave 45 for the tie rod ends": finds what was told then; the value that follows replaces it. */
  private recalls(): boolean {
    const words = this.sentence.tokens.map(({ bare }) => bare).join(' ');
    if (
      !/\b(?:i|we) (?:gave|said|told you|called|quoted|had you)\b(?! (?:that|it|to|you|before))/.test(words) &&
      !/\b(?:i|we) (?:gave|told) you\b/.test(words)
    )
      return false;
    const old = this.items.find((item) => item.kind === 'quantity' && /^(?:torque|number|width)$/.test(item.quantity.kind));
    if (old?.kind !== 'quantity') return false;
    const { quantity } = old;
    const value =
      quantity.kind === 'torque' ? quantity.low : quantity.kind === 'number' || quantity.kind === 'width' ? quantity.value : Number.NaN;
    const named = this.items.flatMap((item) =>
      item.kind === 'component' ? item.words : item.kind === 'mention' ? [...item.mention.names, ...item.mention.place] : [],
    );
    const candidates = this.talk.groups.flatMap((group) => [
      ...(quantity.kind !== 'width' && group.told.torque.some((told) => told.value.value === value)
        ? [{ group, field: 'torque' as const }]
        : []),
      ...(quantity.kind !== 'torque' && group.told.size.some((told) => Number(told.value.text) === value)
        ? [{ group, field: 'size' as const }]
        : []),
    ]);
    let best = candidates.at(-1);
    let most = 0;
    for (const candidate of candidates) {
      const score = named.length === 0 ? 0 : likeness(candidate.group, named, null);
      if (score > most) [best, most] = [candidate, score];
    }
    if (best === undefined || (named.length > 0 && most === 0)) return false;
    this.talk.recall = { ...best, sentence: this.sentence.index };
    const rest = this.items.filter((item) => item.kind === 'quantity' && item.from > old.from);
    for (const item of rest) if (item.kind === 'quantity' && this.amend(item.quantity)) break;
    return true;
  }

  /** The value that takes the place of the one recalled. */
  private amend(quantity: QuantitySpan): boolean {
    const { recall } = this.talk;
    if (recall === null || this.sentence.index - recall.sentence > 2) return false;
    const fits = quantity.kind === 'number' || quantity.kind === (recall.field === 'torque' ? 'torque' : 'width');
    if (!fits || (quantity.kind === 'number' && quantity.value < 2)) return false;
    this.talk.recall = null;
    this.correcting = true;
    this.talk.tells.push({ groups: [recall.group], field: recall.field, sentence: this.sentence.index, to: 0 });
    return this.correct(quantity);
  }

  private word(at: number): string {
    return this.sentence.tokens[at]?.bare ?? '';
  }

  private open(at: number): boolean {
    return (this.sentence.tokens[at]?.mark ?? '') === '';
  }

  private evidence(from: number, to: number, confidence: number): Evidence {
    const words = this.sentence.tokens
      .slice(from, to)
      .map(({ bare }) => bare)
      .join(' ');
    return { sentence: this.sentence.index, confidence, words };
  }

  private hear(item: Item, index: number): void {
    switch (item.kind) {
      case 'component': {
        this.hearComponent(item);
        return;
      }
      case 'mention': {
        this.hearMention(item.mention, index);
        return;
      }
      case 'quantity': {
        this.hearQuantity(item.quantity, index);
        return;
      }
      case 'each': {
        this.hearEach(item);
        return;
      }
      case 'all': {
        const count = this.countBefore(item.from, item.to);
        const [only] = this.talk.focus;
        // "put in the bolts, all seven of them"
        if (
          count !== null &&
          only !== undefined &&
          this.talk.focus.length === 1 &&
          countOf(only) === null &&
          only.parts.length === 0 &&
          only.head !== null
        ) {
          tell(this.talk, [only], 'count', count, [], this.evidence(item.from, item.to, 0.9), { to: item.to });
          only.perUnknown = null;
        }
        this.talk.focus = /^every/.test(this.word(item.from)) ? this.everything() : this.widened(count);
        this.freshAt = item.from;
        return;
      }
      case 'eachOne': {
        const paired = /^(?:side|end)$/.test(this.word(item.to - 1)) ? 2 : this.word(item.to - 1) === 'corner' ? 4 : null;
        if (paired !== null) {
          this.times = { by: paired, of: this.word(item.to - 1) };
          return;
        }
        const of = this.components.at(-1)?.words.at(-1) ?? this.talk.topic.at(-1) ?? '';
        const by = this.talk.counts.get(stemOf(of)) ?? null;
        if (by !== null || (of !== '' && /^(?:has|have|'s|gets?|takes?|with|needs?)$/.test(this.word(item.to))))
          this.times = { by, of: stemOf(of) };
        this.timesAt = item.from;
        return;
      }
      case 'oneOfEach':
        for (const group of this.talk.groups) {
          const near =
            !group.bothSides &&
            (this.sentence.index - (group.sentences.at(-1) ?? -99) <= 1 ||
              (this.sentence.index - (group.sentences.at(-1) ?? -99) <= 4 && group.topic.join() === this.talk.focus[0]?.topic.join()));
          if (near && (countOf(group) ?? 1) === 1)
            tell(this.talk, [group], 'count', 2, [], this.evidence(item.from, item.to, 0.85), { replace: true });
        }
        return;
      case 'pronoun':
        this.meansWholeLot(item.word);
        return;
      case 'aside':
        return;
      case 'same': {
        this.hearSame(item, index);
        return;
      }
      case 'correction':
        this.correcting = true;
        return;
      case 'not':
        this.negated = this.negates(item.to, index);
        return;
      case 'build': {
        this.hearBuild(item);
        return;
      }
      case 'counterhold':
        this.holding = true;
        return;
      case 'reach':
        this.tellFocus('reach', item.text, item.from, item.to, 0.7);
        return;
      case 'drive':
        this.tellFocus('drive', item.text, item.from, item.to, 0.9);
        return;
      case 'condition':
        this.tellFocus('condition', item.text, item.from, item.to, 0.8);
        return;
      case 'feature':
        if (item.feature === 'single') this.tellFocus('single', true, item.from, item.to, 0.85);
        else if (item.feature === 'snug') this.tellFocus('snug', true, item.from, item.to, 0.8);
        else if (item.feature === 'untouched') for (const group of this.talk.focus) group.untouched = this.freshAt >= 0 || group.untouched;
        else if (item.feature !== 'loose') this.tellFocus('order', item.feature, item.from, item.to, 0.85);
        return;
    }
  }

  /** "everything is 14 millimeter": all of this thing's that still lack a torque. */
  private everything(): Group[] {
    const [first] = this.talk.focus;
    const open = this.talk.groups.filter(
      (group) =>
        group.whole === null &&
        this.sentence.index - (group.sentences.at(-1) ?? -99) <= 3 &&
        group.topic.join() === first?.topic.join() &&
        (lastTold(group, 'torque') === null || group.sentences.at(-1) === this.sentence.index),
    );
    return first !== undefined && open.includes(first) ? open : this.widened(null);
  }

  /** "five on top, five below and two at the ends; they are 13": once a lot is told in full, "they" are all of it. */
  private meansWholeLot(word: string): void {
    const lot = this.talk.focus[0]?.whole ?? null;
    if (lot === null || !/^(?:they|those|these|them)$/.test(word) || lot.parts.length < 2) return;
    const bare = lot.parts.every((part) => part.told.size.length + part.told.torque.length === 0);
    const sum = lot.parts.reduce((all, part) => all + (countOf(part) ?? 0), 0);
    if (bare && sum === countOf(lot)) this.talk.focus = [lot, ...lot.parts];
  }

  /** "not 45", "isn't 45": only what comes at once. */
  private negates(to: number, index: number): boolean {
    const next = this.items[index + 1];
    return next?.kind === 'quantity' && next.from - to <= 2;
  }

  private countBefore(from: number, to: number): number | null {
    const quantity = this.sentence.quantities.find((one) => one.from >= from && one.to <= to);
    return quantity?.kind === 'number' ? quantity.value : this.word(from) === 'both' ? 2 : null;
  }

  /** "all of them": the lot with its parts, or those just named that make up the number. */
  private widened(count: number | null): Group[] {
    const { focus, groups } = this.talk;
    const [first] = focus;
    if (first === undefined) return focus;
    if (count === null && first.whole === null && focus.length > 1) return focus;
    if (count !== null) {
      const sum = focus.reduce((all, group) => all + (countOf(group) ?? 0), 0);
      if (sum === count) return focus;
      const lot = first.whole ?? (first.parts.length > 0 ? first : null);
      if (lot !== null && countOf(lot) === count) return [lot, ...lot.parts];
      const recent = groups.filter((group) => this.sentence.index - (group.sentences.at(-1) ?? -99) <= 3 && group.whole === null);
      for (let from = recent.length - 1; from >= 0; from--) {
        const last = recent.slice(from);
        if (last.reduce((all, group) => all + (countOf(group) ?? 0), 0) === count) return last;
      }
      return focus;
    }
    const lot = first.whole;
    if (lot !== null) return [lot, ...lot.parts];
    const together = groups.filter(
      (group) =>
        group.sentences.at(-1) === first.sentences.at(-1) &&
        group.topic.join(' ') === first.topic.join(' ') &&
        group.whole === null &&
        group.head === first.head &&
        (lastTold(group, 'torque') === null || group.sentences.at(-1) === this.sentence.index),
    );
    return together.includes(first) ? together : focus;
  }

  private hearComponent(item: Component): void {
    if (this.opensOtherEnd(item)) return;
    const last = stemOf(item.words.at(-1) ?? '');
    const pair = this.word(item.from - 1) === 'of' && this.word(item.from - 2) === 'pair' ? 2 : null;
    const count = item.count ?? pair;
    const place = count === null ? null : readPlace(this.sentence, item.to);
    // "two brackets, left and right" are two.
    const each = place === null || (place.words.length > 1 && count !== 1) ? null : place.each;
    const bySide = this.times !== null && /^sides?$/.test(this.times.of) && !item.each ? this.times.by : null;
    const many = count === null ? null : count * (each?.times ?? bySide ?? 1);
    if (many !== null && many > 1) {
      this.talk.counts.set(last, many);
      this.countsAtLast(last, many);
    }
    // "three clamps on each side with a bolt": so many bolts.
    if (many !== null && each?.times != null) {
      this.times = { by: many, of: last };
      this.timesAt = item.from;
    }
    // What was counted by each bracket ends where something else is spoken of.
    if (!item.each && !item.inPlace && this.times !== null && this.valueEnd > this.timesAt && item.from >= this.valueEnd) this.times = null;
    if (item.each) this.timesAt = item.from;
    if (item.each)
      this.times = {
        by: this.talk.counts.get(last) ?? ({ side: 2, end: 2, corner: 4 } as Record<string, number>)[last] ?? this.ownerCount(item.words),
        of: last,
      };
    this.components.push(item);
  }

  /** "two bolts on each bracket, and two brackets": now it is known how many. */
  private countsAtLast(thing: string, many: number): void {
    for (const group of this.talk.groups) {
      if (group.perUnknown?.of !== thing || this.sentence.index - (group.sentences.at(-1) ?? -99) > 3) continue;
      const total = group.perUnknown.count * many;
      group.perUnknown = null;
      tell(this.talk, [group], 'count', total, [], { sentence: this.sentence.index, confidence: 0.85, words: `${many} ${thing}` });
    }
  }

  /** "then at the knuckle end it's the same": another one like the last, at the other end. */
  private opensOtherEnd(item: Component): boolean {
    const [focus] = this.talk.focus;
    const before = this.sentence.tokens.slice(0, item.from).map(({ bare }) => bare);
    if (
      !item.inPlace ||
      focus === undefined ||
      this.freshAt >= 0 ||
      this.sentence.index - this.talk.focusSentence > 1 ||
      !/^(?:end|side)$/.test(item.words.at(-1) ?? '')
    )
      return false;
    if (
      !before.every((word) => /^(?:then|and|at|on|now|the|over)$/.test(word)) ||
      !/^it$/.test(this.word(item.to)) ||
      !/^(?:the|same|a|an)$/.test(this.word(item.to + 2))
    )
      return false;
    const group = addGroup(this.talk, this.sentence, {
      head: focus.head,
      sure: focus.sure,
      names: [...item.words, ...focus.names],
      places: [],
      topic: focus.topic,
      beside: focus,
    });
    const count = countOf(focus);
    if (count !== null) tell(this.talk, [group], 'count', count, [], this.evidence(item.from, item.to, 0.7));
    this.talk.focus = [group];
    this.talk.focusSentence = this.sentence.index;
    this.freshAt = item.from;
    return true;
  }

  /** "every U-bolt has two nuts": how many U-bolts there are. */
  private ownerCount(words: readonly string[]): number | null {
    const owner = this.talk.groups.findLast((group) => likeness(group, words, null) >= 0.8);
    return owner === undefined ? null : countOf(owner);
  }

  private hearMention(mention: Mention, index: number, forward = false): void {
    if (mention.article === 'each' && this.hearOwner(mention)) return;
    if (this.countsComponent(mention)) return;
    if (this.isTotal(mention) || this.addsOtherSide(mention)) return;
    // "I broke two bolts getting it out"
    if (/^(?:broke|snapped|stripped|lost|sheared|rounded|ruined)$/.test(this.word(mention.from - 1))) return;
    const before = this.items[index - 1];
    const previous = mention.from > 0 && this.open(mention.from - 1) ? this.word(mention.from - 1) : '';
    if (this.describesFocus(mention, previous, before)) return;
    if (this.standsForThing(mention, index)) {
      if (this.items[index] !== undefined) this.things.add(this.items[index]);
      return;
    }
    // "two nuts that come down on studs"
    if (mention.head === 'stud' && mention.count === null && this.talk.focus.some(({ head }) => head === 'nut') && this.freshAt >= 0)
      return;
    // "you might have a bracket on one of the top ones"
    if (!forward && mention.head === null && mention.share === 'some' && /^(?:on|over|under|with|behind)$/.test(previous)) return;
    // "the ground strap goes under the front one"
    if (mention.head === null && /^(?:under|over|behind|above|below|between|beside|beneath|past|around|against|near)$/.test(previous))
      return;
    const around = {
      sentence: this.sentence,
      components: this.components
        .filter(
          ({ inPlace, from, to }) => (!inPlace || /^(?:there|you|we)$/.test(this.word(to))) && to <= mention.from && from >= this.valueEnd,
        )
        .map(({ words }) => words),
      leading:
        this.components.find(
          ({ inPlace, from }) =>
            !inPlace &&
            this.sentence.tokens
              .slice(0, from)
              .every(({ bare }) => /^(?:so|okay|now|then|next|and|well|right|alright|uh|um|first|also|the|thing|up|is|'s)$/.test(bare)),
        )?.words ?? null,
      accompanies:
        previous === 'and' || (before?.kind === 'mention' && before.to === mention.from)
          ? ('and' as const)
          : previous === 'with' ||
              (this.talk.focus[0]?.head === 'stud' && this.freshAt >= 0 && /^(?:takes?|gets?|uses?|has|got)$/.test(previous)) ||
              (/^(?:got|has|have)$/.test(previous) &&
                /^(?:it|'s|they|'ve|bolt)$/.test(this.word(mention.from - 2)) &&
                before?.kind === 'pronoun')
            ? ('with' as const)
            : null,
      focusIsFresh: this.freshAt >= 0,
      afterCount: before?.kind === 'quantity' && before.quantity.kind === 'number' && before.to === mention.from,
    };
    const joins = before?.kind === 'mention' && (previous === 'and' || this.word(mention.from - 1) === 'and') && this.freshAt >= 0;
    const focusBefore = this.talk.focus;
    const [current] = this.talk.focus;
    // "three bolts, no, four bolts"
    if (
      this.correcting &&
      this.freshAt >= 0 &&
      current !== undefined &&
      mention.head !== null &&
      mention.head === current.head &&
      mention.count !== null &&
      current.told.size.length + current.told.torque.length === 0
    ) {
      this.correcting = false;
      tell(this.talk, [current], 'count', mention.count, [], this.evidence(mention.from, mention.end, 0.9), {
        replace: true,
        to: mention.end,
      });
      for (const place of mention.place) {
        current.own.add(stemOf(place));
        current.places.push(place);
      }
      this.freshAt = mention.from;
      return;
    }
    const resolved = resolveMention(this.talk, mention, around);
    if (resolved.groups.length === 0) return;
    this.onMate = resolved.mate;
    this.valueEnd = mention.end;
    if (resolved.mate) {
      this.freshAt = mention.from;
      const [group] = resolved.groups;
      // "one bolt and nut each side"
      if (mention.each !== null && group !== undefined && countOf(group) === 1) this.multiply(group, mention.each, mention);
      const before = this.sentence.tokens.slice(Math.max(0, mention.from - 2), mention.from);
      const turned = before.some(({ bare }) => /^(?:torque|torqued|tighten|tightened|turn|turning|spin)$/.test(bare));
      if (group !== undefined && turned && mention.head !== group.head) group.turnsMate = true;
      this.tellInside(mention, resolved, []);
      return;
    }
    this.talk.focus =
      joins && !resolved.groups.some((group) => focusBefore.includes(group)) ? [...focusBefore, ...resolved.groups] : [...resolved.groups];
    this.talk.focusSentence = this.sentence.index;
    this.freshAt = mention.from;
    for (const group of resolved.groups) {
      if (mention.plural) group.saidPlural = true;
      else if (mention.head !== null) group.saidSingular = true;
      if (mention.article === 'definite') group.saidDefinite = true;
      if (mention.article !== 'indefinite' || mention.names.length > 0) group.saidVaguely = false;
    }
    this.tellInside(mention, resolved, resolved.groups);
    this.tellWhatIsFor(mention, resolved.groups);
    this.tellPending(resolved.groups);
    if (resolved.isNew && this.isShopping(mention)) for (const group of resolved.groups) group.listed = true;
    else for (const group of resolved.groups) group.listed = false;
    if (resolved.isNew) this.placeBefore(mention, resolved.groups);
    if (resolved.isNew && this.builds.length === 1) for (const group of resolved.groups) group.only = this.builds[0] ?? null;
  }

  /** "spark plugs, four of them", "you need two of them": the count of a thing just named. */
  private countsComponent(mention: Mention): boolean {
    if (mention.head !== null || mention.names.length > 0 || mention.share !== 'some' || mention.count === null || mention.place.length > 0)
      return false;
    const component = this.components.findLast(({ inPlace }) => !inPlace);
    const stale = this.talk.focus.length === 0 || this.sentence.index - this.talk.focusSentence > 1;
    if (component === undefined ? !stale : component.from < this.freshAt) return false;
    if (component !== undefined) this.talk.counts.set(stemOf(component.words.at(-1) ?? ''), mention.count);
    return true;
  }

  /** "engine mounts: the left one is three bolts": the one is a mount. */
  private standsForThing(mention: Mention, index: number): boolean {
    const next = this.items[index + 1];
    if (mention.head !== null || next?.kind !== 'mention' || next.mention.head === null || next.mention.count === null || mention.plural)
      return false;
    const between = this.sentence.tokens.slice(mention.end, next.from).map(({ bare }) => bare);
    if (between.length === 0 || !between.every((word) => /^(?:is|has|have|'s|got|takes|uses|gets|just|also)$/.test(word))) return false;
    const thing = this.components.findLast(({ inPlace }) => !inPlace)?.words ?? this.talk.topic;
    this.components.push({
      kind: 'component',
      words: [...mention.names, ...thing.filter((word) => !tellingApart.has(word)), ...mention.place],
      inPlace: false,
      count: null,
      each: false,
      leads: true,
      from: mention.from,
      to: mention.end,
    });
    return true;
  }

  /** "every U-bolt has two nuts". */
  private hearOwner(mention: Mention): boolean {
    const owner = this.talk.groups.findLast((group) => likeness(group, mention.names, mention.head) >= 0.7);
    const next = this.word(mention.end);
    if (owner === undefined || !/^(?:has|have|'s|gets|takes|needs|comes|got)$/.test(next)) return false;
    const following = this.items.find((item) => item.kind === 'mention' && item.from > mention.from);
    if (following === undefined) return false;
    this.times = { by: countOf(owner), of: mention.names.at(-1) ?? '' };
    owner.carriesOthers = true;
    return true;
  }

  /** "so that's eight nuts and four bolts", "two links, four nuts": checks what was counted, names nothing new. */
  private isTotal(mention: Mention): boolean {
    const { count, head } = mention;
    if (count === null || count < 2 || head === null || mention.each !== null || mention.another) return this.isMoreInAll(mention);
    const alike = this.talk.groups.filter(
      (group) => group.head === head && group.whole === null && this.sentence.index - (group.sentences.at(-1) ?? -99) <= 6,
    );
    const match = alike.at(-1);
    if (match === undefined || !mention.names.every((name) => match.own.has(stemOf(name)))) return false;
    if (mention.article !== 'none' && mention.share === null) return false;
    if (!this.sumsUp(mention, match) || this.turnedFrom(match)) return false;
    this.setTotal([match], count, mention.from, mention.to);
    if (!this.talk.focus.includes(match)) this.talk.focus = [match];
    this.talk.focusSentence = this.sentence.index;
    this.freshAt = mention.from;
    return true;
  }

  /** "so that's four more bolts between the two braces". */
  private isMoreInAll(mention: Mention): boolean {
    if (mention.count === null || !mention.another || !/(?:^|\s)(?:so|that|is|'s)$/.test(this.textBefore(mention.from))) return false;
    const match = this.talk.groups.findLast((group) => group.head === mention.head && group.whole === null);
    if (match === undefined || this.sentence.index - (match.sentences.at(-1) ?? -99) > 2) return false;
    this.setTotal([match], mention.count, mention.from, mention.to);
    return true;
  }

  private sumsUp(mention: Mention, match: Group): boolean {
    const start = this.textBefore(mention.from);
    const after = this.sentence.tokens
      .slice(mention.end, mention.end + 2)
      .map(({ bare }) => bare)
      .join(' ');
    if (/^(?:total|altogether|in all|in total|all told|all together)/.test(after)) return true;
    if (/\b(?:looking at|for a total of|total of|that makes|making|comes to)(?: \S+ (?:bolts|nuts|screws|studs) and)?$/.test(start))
      return true;
    const known = countOf(match) ?? match.perUnknown?.count ?? 0;
    const multiple = known > 0 && (mention.count ?? 0) % known === 0;
    const near = this.sentence.index - (match.sentences.at(-1) ?? -99) <= 1;
    if (/\b(?:so that 's|so that is|so you 've got|so there 's|so there are|that 's)(?: \S+ (?:bolts|nuts|screws|studs) and)?$/.test(start))
      return multiple || this.adding(mention.count ?? 0, match) !== null;
    if (/\bso$/.test(start)) return near && multiple;
    // "Two links, four nuts."
    const things = this.components.filter(({ count }) => count !== null);
    return (
      near &&
      multiple &&
      known < (mention.count ?? 0) &&
      things.length > 0 &&
      this.sentence.tokens.length <= 6 &&
      mention.names.length === 0
    );
  }

  private textBefore(at: number): string {
    return this.sentence.tokens
      .slice(0, at)
      .map(({ bare }) => bare)
      .join(' ');
  }

  /** "two bolts on this side, two on the other side": as many again. */
  private addsOtherSide(mention: Mention): boolean {
    const [focus] = this.talk.focus;
    const place = mention.place.join(' ');
    const names = mention.names.join(' ');
    const other = /^(?:other|opposite) side$/.test(place) && (names === '' || names === 'same');
    if (!other || focus === undefined || mention.count === null || this.sentence.index - this.talk.focusSentence > 1) return false;
    if (mention.head !== null && mention.head !== focus.head) return false;
    const known = countOf(focus);
    if (known === null || focus.bothSides) return false;
    tell(this.talk, [focus], 'count', known + mention.count, [], this.evidence(mention.from, mention.end, 0.85), {
      replace: true,
      to: mention.end,
    });
    focus.bothSides = true;
    this.freshAt = mention.from;
    this.tellInside(mention, { groups: [focus], isNew: false, mate: false }, []);
    return true;
  }

  /** Something else was named since. */
  private turnedFrom(group: Group): boolean {
    const words = new Set([...group.own, ...group.topic.map(stemOf)]);
    const thing =
      this.components.findLast(({ inPlace }) => !inPlace)?.words ??
      (this.talk.topicSentence > (group.sentences.at(-1) ?? -1) ? this.talk.topic : null);
    return thing !== null && !thing.some((word) => words.has(stemOf(word)));
  }

  /** "the four on top are the long ones": says more of what is in focus, names nothing new. */
  private describesFocus(mention: Mention, previous: string, before: Item | undefined): boolean {
    if (
      !copula.test(previous) ||
      this.talk.focus.length === 0 ||
      before === undefined ||
      before.to < mention.from - 2 ||
      this.things.has(before)
    )
      return false;
    const subject =
      before?.kind === 'pronoun' || (before?.kind === 'build' && this.freshAt >= 0)
        ? before
        : before?.kind === 'mention' || before?.kind === 'all'
          ? before
          : null;
    if (subject === null) return false;
    const [focus] = this.talk.focus;
    if (focus === undefined) return false;
    if (before?.kind === 'pronoun' && /^(?:that|this|it)$/.test(before.word)) {
      const previousItem = this.items[this.items.indexOf(before) - 1];
      // "the cable bracket, that's two bolts" begins something new; "the pinch bolt, that's one bolt" does not.
      if (previousItem?.kind === 'component' && previousItem.to >= this.freshAt) return false;
      if (
        mention.head !== null &&
        (focus.head !== mention.head || (countOf(focus) !== null && mention.count !== null && countOf(focus) !== mention.count))
      )
        return false;
    }
    if (before?.kind === 'pronoun' && before.word === 'there') return false;
    if (mention.head !== null && mention.count !== null && countOf(focus) !== null && mention.count !== countOf(focus)) return false;
    for (const group of this.talk.focus) {
      for (const name of mention.names) {
        if (group.own.has(stemOf(name))) continue;
        group.own.add(stemOf(name));
        group.names.push(name);
      }
      noteSentence(group, this.sentence);
    }
    this.freshAt = mention.from;
    this.tellInside(mention, { groups: this.talk.focus, isNew: false, mate: false }, this.talk.focus);
    return true;
  }

  /** "you need eight new driveshaft bolts": what to have at hand. */
  private isShopping(mention: Mention): boolean {
    const words = this.sentence.tokens
      .slice(0, mention.from)
      .map(({ bare }) => bare)
      .join(' ');
    const after = this.sentence.tokens
      .slice(mention.end, mention.end + 5)
      .map(({ bare }) => bare)
      .join(' ');
    if (/^(?:just )?to hold (?:it|them|that|things|everything)\b/.test(after)) return true;
    return (
      /\b(?:you(?: 'll| will)? need|get the|get your|order|buy|have ready|kit|you 'll want|pick up)\b/.test(words) &&
      !this.sentence.quantities.some(({ kind }) => /^(?:torque|width|serration)$/.test(kind))
    );
  }

  /** "at the front there's a horizontal bolt", "inner end: a nut": the place may come first. */
  private placeBefore(mention: Mention, groups: readonly Group[]): void {
    const head = /^(?:(?:and|the|then|on|at) )*(\w+)(?: (?:end|side|one|mount))?$/.exec(
      this.sentence.tokens
        .slice(Math.max(0, mention.from - 4), mention.from)
        .map(({ bare }) => bare)
        .join(' '),
    )?.[1];
    const closed = /[:,]/.test(this.sentence.tokens[mention.from - 1]?.mark ?? '');
    if (head !== undefined && closed && tellingApart.has(head) && !/^(?:side|end|one)$/.test(head)) {
      for (const group of groups) {
        group.own.add(stemOf(head));
        group.names.unshift(head);
      }
    }
    // "both ends, castle nuts"
    const both = /\bboth (?:ends|sides)$/.test(
      this.sentence.tokens
        .slice(0, mention.from)
        .map(({ bare }) => bare)
        .join(' '),
    );
    const [only] = groups;
    if (both && only !== undefined && mention.count === null && countOf(only) === null)
      tell(this.talk, [only], 'count', 2, [], this.evidence(Math.max(0, mention.from - 2), mention.end, 0.85));
    const words = this.sentence.tokens
      .slice(Math.max(0, mention.from - 8), mention.from)
      .map(({ bare }) => bare)
      .join(' ');
    const place =
      /\b(?:at|on|in|down|up) the (front|rear|back|top|bottom|sides?|left|right|middle|inside|outside|center|centre)(?: of (?:the )?\w+)? ?(?:there 's|there is|there are|you 've got|you got|you have|it 's|is|are|we 've got)?(?: also| only| just)?$/.exec(
        words,
      )?.[1];
    if (place === undefined) return;
    for (const group of groups) {
      group.own.add(stemOf(place));
      group.places.push(place);
    }
  }

  /** Count, sizes and the like inside the name itself. */
  private tellInside(mention: Mention, resolved: Resolved, countFor: readonly Group[]): void {
    const targets = resolved.mate ? this.talk.focus : resolved.groups;
    for (const quantity of mention.inside) {
      if (resolved.mate && (quantity.kind === 'width' || quantity.kind === 'number')) continue;
      if (quantity.kind === 'number') this.tellSize(targets, { text: String(quantity.value), unit: 'mm' }, quantity, 0.85);
      else this.tellMeasured(targets, quantity);
    }
    if (mention.isNew && !resolved.mate) this.tellTo(targets, 'single', true, mention.from, mention.to, 0.75);
    if (
      /^(?:allen|allens)$/.test(this.word(mention.to - 1)) ||
      this.sentence.tokens
        .slice(mention.from, mention.to)
        .some(({ bare }, at) => /^allens?$/.test(bare) || (bare === 'socket' && this.word(mention.from + at + 1) === 'head'))
    )
      this.tellTo(targets, 'drive', 'socket-head hex', mention.from, mention.to, 0.9);
    if (this.sentence.tokens.slice(mention.from, mention.to).some(({ bare }) => bare === 'torx'))
      this.tellTo(targets, 'drive', 'internal serration', mention.from, mention.to, 0.9);
    const [group] = countFor;
    if (group === undefined || countFor.length !== 1) return;
    // "the upper", "the front one" of a lot is one of it.
    const one = mention.count === null && !mention.plural && group.whole !== null && countOf(group) === null;
    if (mention.count !== null || one || (mention.each !== null && mention.head !== null && !mention.plural))
      this.tellCount(group, mention.count === null ? { ...mention, count: 1 } : mention);
  }

  private tellCount(group: Group, mention: Mention): void {
    const { count, each } = mention;
    if (count === null) return;
    const all = countOf(group);
    const one =
      mention.article === 'indefinite' ||
      mention.article === 'each' ||
      this.word(mention.from) === 'one' ||
      this.word(mention.from) === 'single';
    const pairs = each?.times === 2 && each.of[0] === 'end' && count > 1 && mention.place.length > 1 ? null : each;
    const own = pairs === null || each === null ? null : { by: each.times ?? this.multiplicity(each.of), of: this.thingOf(each.of) };
    // "every link has a bolt at each end"
    const nested = own !== null && own.of === 'end' && this.times?.by != null && own.by !== null;
    const factor = nested ? { by: own.by * this.times.by, of: this.times.of } : (own ?? this.times);
    const sided =
      each === null && this.times === null && this.sideCount !== null && one && group.sentences[0] === this.sentence.index
        ? this.sideCount
        : null;
    const evidence = this.evidence(mention.from, mention.end, mention.vague ? 0.5 : 0.92);
    if (factor !== null) {
      if (all !== null && !this.correcting) return;
      if (factor.by === null) {
        group.perUnknown ??= { count, of: factor.of };
        return;
      }
      if (factor.of === 'side' || factor.of === 'sides') group.bothSides = true;
      tell(this.talk, [group], 'count', count * factor.by, [], { ...evidence, confidence: 0.85 }, { replace: true, to: mention.end });
      return;
    }
    if (all === null || (this.correcting && all !== count)) {
      if (sided !== null) group.bothSides = true;
      tell(this.talk, [group], 'count', count * (sided ?? 1), [], evidence, { replace: true, to: mention.end });
      this.correcting = false;
      if (group.perUnknown !== null && count > group.perUnknown.count) group.perUnknown = null;
    }
  }

  private multiply(
    group: Group,
    each: { readonly of: readonly string[]; readonly times: number | null },
    span: { readonly from: number; readonly end: number },
  ): void {
    const times = each.times ?? this.multiplicity(each.of);
    const count = countOf(group) ?? 1;
    if (times === null) {
      group.told.count.length = 0;
      group.perUnknown = { count, of: this.thingOf(each.of) };
    } else {
      if (/^sides?$/.test(each.of.at(-1) ?? '')) group.bothSides = true;
      tell(this.talk, [group], 'count', count * times, [], this.evidence(span.from, span.end, 0.85), { replace: true });
    }
  }

  /** What "each" alone is said of: the thing named last. */
  private thingOf(of: readonly string[]): string {
    return of.at(-1) ?? stemOf(this.components.findLast(({ inPlace }) => !inPlace)?.words.at(-1) ?? this.talk.topic.at(-1) ?? '');
  }

  /** How many of what is counted by: brackets, straps, or whatever the talk was at. */
  private multiplicity(of: readonly string[]): number | null {
    const last = of.at(-1);
    if (last !== undefined) return this.talk.counts.get(last) ?? this.ownerCount(of);
    const component = this.components.findLast(({ inPlace }) => !inPlace);
    if (component !== undefined) return component.count ?? this.talk.counts.get(stemOf(component.words.at(-1) ?? '')) ?? null;
    const topic = this.talk.topic.at(-1);
    return topic === undefined ? null : (this.talk.counts.get(stemOf(topic)) ?? null);
  }

  private hearEach(item: Item & { kind: 'each' }): void {
    const component = this.components.findLast(({ inPlace }) => !inPlace);
    const [focus] = this.talk.focus;
    const times = item.each.times ?? this.multiplicity(item.each.of);
    const mentioned = this.freshAt >= 0 && (component === undefined || component.from <= this.freshAt);
    const nearby = focus !== undefined && this.sentence.index - this.talk.focusSentence <= 1;
    if (focus !== undefined && (mentioned || (component === undefined && nearby))) {
      if (countOf(focus) !== null) {
        if (this.addsToLot(item, times)) return;
        // "one bolt, and there's one on each side"
        if (countOf(focus) === item.count && times !== null && !focus.bothSides)
          this.multiply(focus, item.each, { from: item.from, end: item.to });
        focus.bothSides = true;
        return;
      }
      const evidence = this.evidence(item.from, item.to, 0.85);
      if (times === null) focus.perUnknown ??= { count: item.count, of: this.thingOf(item.each.of) };
      else {
        focus.bothSides = true;
        tell(this.talk, [focus], 'count', item.count * times, [], evidence, { to: item.to });
      }
      return;
    }
    if (times === null) return;
    const total = item.count * times;
    if (component !== undefined) this.talk.counts.set(stemOf(component.words.at(-1) ?? ''), total);
    else if (this.talk.topic.length > 0) this.talk.counts.set(stemOf(this.talk.topic.at(-1) ?? ''), total);
    this.sideCount = total;
  }

  /** "five across the top and one at each end": more of the same lot. */
  private addsToLot(item: Item & { kind: 'each' }, times: number | null): boolean {
    const lot = this.talk.focus[0]?.whole ?? null;
    const all = lot === null ? null : countOf(lot);
    if (lot === null || all === null || times === null) return false;
    const sum = lot.parts.reduce((total, part) => total + (countOf(part) ?? 0), 0);
    if (sum + item.count * times > all) return false;
    const part = addGroup(this.talk, this.sentence, {
      head: lot.head,
      sure: lot.sure,
      names: [],
      places: [...item.each.of],
      topic: lot.topic,
      whole: lot,
    });
    tell(this.talk, [part], 'count', item.count * times, [], this.evidence(item.from, item.to, 0.85));
    this.talk.focus = [part];
    return true;
  }

  private hearBuild(item: Item & { kind: 'build' }): void {
    const next = this.word(item.to);
    const told = this.lastTelling;
    const closes =
      told !== null &&
      told.to >= item.from - 1 &&
      this.sentence.tokens.slice(told.to - 1, item.from).every(({ mark }) => mark === '') &&
      !(this.open(item.to - 1) && /^(?:it|that|they|those|these|there|the|you|this)$/.test(next));
    if (closes && item.builds.length > 0) {
      told.undo(item.builds);
      return;
    }
    if (!closes) this.builds = item.builds;
  }

  private hearSame(item: Item & { kind: 'same' }, index: number): void {
    if (item.side) {
      this.double(item);
      return;
    }
    const next = this.items[index + 1];
    // "tie rod ends, same deal, castle nut …": what is named next has its own values.
    if (!item.as && next?.kind === 'mention' && next.from <= item.to + 1) return;
    const targets = this.target(item, index);
    if (targets.length === 0) return;
    const from = this.sameAs(item, index, targets);
    if (from === null) return;
    const evidence = this.evidence(item.from, item.to, 0.8);
    for (const to of targets) this.talk.copies.push({ to, from, what: item.what, evidence });
  }

  private sameAs(item: Item & { kind: 'same' }, index: number, targets: readonly Group[]): Group | null {
    const next = this.items[index + 1];
    if (item.as && next !== undefined && next.from - item.to <= 1) {
      const words = next.kind === 'component' ? next.words : next.kind === 'mention' ? [...next.mention.names, ...next.mention.place] : [];
      let best: { group: Group; score: number } | null = null;
      for (const group of this.talk.groups) {
        if (targets.includes(group)) continue;
        const score = likeness(group, words, next.kind === 'mention' ? next.mention.head : null);
        if (score > 0.4 && (best === null || score >= best.score)) best = { group, score };
      }
      // What it is compared with is not what the sentence is about.
      if (best !== null) {
        this.skip(next);
        return best.group;
      }
    }
    return (
      this.talk.groups.findLast(
        (group) =>
          !targets.includes(group) &&
          group.id < (targets[0]?.id ?? Infinity) &&
          (lastTold(group, 'torque') !== null || lastTold(group, 'size') !== null),
      ) ?? null
    );
  }

  private readonly skipped = new Set<Item>();
  /** Mentions that turned out to stand for a thing, not for fasteners. */
  private readonly things = new Set<Item>();
  private skip(item: Item): void {
    this.skipped.add(item);
  }

  /** "do the same on the other side". */
  private double(item: Item & { kind: 'same' }): void {
    const from = item.wholeSide
      ? this.talk.doubledUpTo
      : Math.max(
          this.talk.doubledUpTo,
          this.talk.groups.findIndex((group) => this.sentence.index - (group.sentences.at(-1) ?? -99) <= 3),
        );
    const groups = this.talk.groups
      .slice(Math.max(0, from))
      .filter((group) => !group.bothSides && !group.carriesOthers && group.whole === null);
    for (const group of groups) {
      const count = countOf(group) ?? (group.head !== null ? 1 : null);
      if (count === null) continue;
      tell(
        this.talk,
        [group],
        'count',
        count * 2,
        [],
        { sentence: this.sentence.index, confidence: 0.75, words: 'the same on the other side' },
        { replace: true },
      );
      for (const part of group.parts) {
        const some = countOf(part);
        if (some !== null)
          tell(
            this.talk,
            [part],
            'count',
            some * 2,
            [],
            { sentence: this.sentence.index, confidence: 0.7, words: 'the same on the other side' },
            { replace: true },
          );
      }
      group.bothSides = true;
    }
    this.talk.doubledUpTo = this.talk.groups.length;
  }

  private hearQuantity(quantity: QuantitySpan, index: number): void {
    const negated = this.negated;
    this.negated = false;
    // "I use a 7/8 to back up the fitting"
    if (
      quantity.kind === 'width' &&
      this.word(quantity.to) === 'to' &&
      /^(?:hold|back|keep|steady|counter)$/.test(this.word(quantity.to + 1))
    ) {
      const next = this.items[index + 1];
      if (next?.kind === 'mention' && next.from - quantity.to <= 4) this.skip(next);
      return;
    }
    // "11 would snap it", "a nine-sixteenths will fit the older ones"
    if (/^(?:would|will|might|could|may)$/.test(this.word(quantity.to)) && this.open(quantity.to - 1)) return;
    if (negated) {
      this.forget(quantity);
      return;
    }
    const holding = this.holding && (quantity.kind === 'width' || quantity.kind === 'number' || quantity.kind === 'serration');
    if (holding) {
      this.holding = false;
      return;
    }
    if (this.talk.recall !== null && this.amend(quantity)) return;
    if (this.correcting && this.correct(quantity)) return;
    const targets = this.forwardTarget(quantity, index);
    if (targets === null && this.waitsForName(quantity, index)) return;
    if (quantity.kind === 'number') {
      this.hearNumber(quantity, index, targets);
      return;
    }
    if (quantity.kind === 'torque') {
      if (isToolTalk(this.sentence, quantity)) return;
      if (quantity.unit === null && weighs(this.sentence, quantity)) return;
    }
    if (
      !/^(?:torque|width|square|serration|cross-head|thread|angle)$/.test(quantity.kind) &&
      !(quantity.kind === 'length' && quantity.of === 'extension')
    )
      return;
    if (quantity.kind === 'angle' && !quantity.further) return;
    if ((quantity.kind === 'width' || quantity.kind === 'serration') && targets === null && this.isAtMate(quantity)) return;
    const groups =
      targets ??
      (quantity.kind === 'torque' ? this.placedAt(quantity, index) : null) ??
      this.target({ from: quantity.from, to: quantity.to }, index);
    if (groups.length === 0) {
      if (quantity.kind === 'torque')
        this.talk.doubts.push({
          kind: 'unassigned',
          group: null,
          field: 'torque',
          evidence: this.evidence(quantity.from, quantity.to, 0.4),
          said: this.evidence(quantity.from, quantity.to, 0).words,
          torque: this.torqueFrom(quantity.low, quantity.high, quantity.unit, quantity, quantity.plusMinus),
        });
      return;
    }
    this.tellMeasured(groups, quantity);
  }

  /** "18 on the nut": where the group is a bolt, the nut's size is not its own. */
  private isAtMate(quantity: QuantitySpan): boolean {
    const after = [this.word(quantity.to), this.word(quantity.to + 1), this.word(quantity.to + 2)];
    const said = after[0] === 'on' && after[1] === 'the' ? (after[2] ?? '') : '';
    const [focus] = this.talk.focus;
    if (focus === undefined) return false;
    const component = this.components.at(-1);
    if (component !== undefined && component.from > this.freshAt && !component.inPlace) return false;
    if (/^(?:nuts?|bolts?)$/.test(said)) {
      const head = said.replace(/s$/, '');
      const atMate = focus.head !== null && focus.head !== head && (focus.head === 'bolt' || focus.head === 'nut');
      const size: SaidSize | null =
        quantity.kind === 'width'
          ? { text: quantity.written, unit: quantity.unit }
          : quantity.kind === 'number'
            ? { text: String(quantity.value), unit: 'mm' }
            : null;
      if (atMate && size !== null)
        focus.mateSizes.push({ value: size, build: this.builds[0] ?? null, evidence: this.evidence(quantity.from, quantity.to, 0.85) });
      return atMate;
    }
    return this.onMate && lastTold(focus, 'size') !== null;
  }

  /** "grab a 17 socket and tighten the bracket bolts": the value is told before the name. */
  private waitsForName(quantity: QuantitySpan, index: number): boolean {
    if (this.freshAt >= 0 || !/^(?:width|serration|torque)$/.test(quantity.kind)) return false;
    const later = this.items
      .slice(index + 1)
      .find(
        (item) =>
          item.kind === 'mention' ||
          item.kind === 'component' ||
          item.kind === 'quantity' ||
          item.kind === 'all' ||
          (item.kind === 'pronoun' && /^(?:they|those|these|them|it)$/.test(item.word)),
      );
    const named = later?.kind === 'mention' ? later : null;
    if (named === null || (named.mention.head === null && named.mention.names.length === 0)) return false;
    if (quantity.kind === 'torque') {
      if (this.talk.focus.length > 0 || this.components.some(({ inPlace }) => !inPlace)) return false;
    } else {
      const before = this.sentence.tokens
        .slice(Math.max(0, quantity.from - 4), quantity.from)
        .map(({ bare }) => bare)
        .join(' ');
      const tool = /^(?:sockets?|wrench|spanner|key|bit|deep|impact|allen|hex|swivel)$/.test(this.word(quantity.to));
      if (!tool || !/\b(?:with|using|use|grab|take|get|need|want|your|my|a)\b/.test(before)) return false;
      if (this.components.some(({ inPlace, to }) => !inPlace && to <= quantity.from)) return false;
    }
    this.pending.push(quantity);
    return true;
  }

  /** "54 foot-pounds. That's for the bracket bolts.": the value just told belongs here. */
  private tellWhatIsFor(mention: Mention, groups: readonly Group[]): void {
    const words = this.sentence.tokens
      .slice(0, mention.from)
      .map(({ bare }) => bare)
      .join(' ');
    if (!/^(?:and |so |now )?(?:that|this|those) (?:'s|is|are|one 's) (?:just |only )?(?:for|on)$/.test(words)) return;
    const last = this.talk.tells.findLast(({ field }) => field === 'torque');
    const doubt = this.talk.doubts.findLastIndex(
      ({ kind, evidence }) => kind === 'unassigned' && evidence.sentence >= this.sentence.index - 1,
    );
    const moved = last !== undefined && last.sentence >= this.sentence.index - 1 ? last.groups[0]?.told.torque.pop() : undefined;
    if (moved !== undefined)
      for (const group of groups)
        tell(this.talk, [group], 'torque', moved.value, moved.build === null ? [] : [moved.build], moved.evidence);
    else if (doubt >= 0) {
      const [said] = this.talk.doubts.splice(doubt, 1);
      if (said?.torque !== undefined) tell(this.talk, groups, 'torque', said.torque, [], said.evidence);
    }
  }

  private tellPending(groups: readonly Group[]): void {
    for (const quantity of this.pending.splice(0)) {
      const open = groups.filter((group) => quantity.kind === 'torque' || group.told.size.length === 0);
      if (open.length > 0) this.tellMeasured(open, quantity);
    }
  }

  /** "47 on the front bolts": what is named right after the value. */
  private forwardTarget(quantity: QuantitySpan, index: number): readonly Group[] | null {
    const next = this.items[index + 1];
    const end = this.items[index]?.to ?? quantity.to;
    // "27 foot-pounds on both of those"
    const thing = this.components.findLast(({ inPlace }) => !inPlace);
    if (
      next?.kind === 'all' &&
      (thing === undefined || thing.from < this.freshAt) &&
      /^(?:on|for)$/.test(this.word(end)) &&
      next.from === end + 1 &&
      quantity.kind !== 'number'
    ) {
      this.talk.focus = this.widened(this.countBefore(next.from, next.to));
      this.skip(next);
      return this.talk.focus;
    }
    if (next?.kind !== 'mention' || !/^(?:on|for)$/.test(this.word(end)) || next.from !== end + 1 || !this.open(end - 1)) return null;
    if (
      /^(?:nut|bolt)$/.test(next.mention.head ?? '') &&
      next.mention.names.length === 0 &&
      next.mention.article === 'definite' &&
      this.talk.focus.length > 0
    ) {
      if (quantity.kind === 'width' || quantity.kind === 'number') this.skip(next);
      return null;
    }
    // "an inch and an eighth head on a three-quarter bolt": the bolt's own width is no socket's.
    if (quantity.kind === 'width' && end > quantity.to && next.mention.article === 'indefinite' && this.talk.focus.length > 0) {
      this.skip(next);
      return null;
    }
    if (this.skipped.has(next)) return null;
    const role = quantity.kind === 'number' || quantity.kind === 'torque' || quantity.kind === 'width' || quantity.kind === 'serration';
    if (!role) return null;
    this.hearMention(next.mention, index + 1, true);
    this.skip(next);
    return this.talk.focus;
  }

  /** What an attribute is about: what was named last, or the thing that leads the clause where no fastener was named. */
  private target(span: { readonly from: number; readonly to: number }, _index: number): readonly Group[] {
    const component = this.components.findLast(({ to }) => to <= span.from);
    const { focus } = this.talk;
    const fresh = this.freshAt >= 0;
    if (component !== undefined && (!fresh || component.from > this.freshAt)) {
      const within = this.items.filter((item) => item.from >= component.to && item.to <= span.from && item.kind !== 'pronoun');
      const counted = within.every(
        (item) =>
          item.kind === 'each' || item.kind === 'quantity' || item.kind === 'mention' || item.kind === 'drive' || item.kind === 'feature',
      );
      const between = this.sentence.tokens
        .slice(component.to, span.from)
        .filter((_, offset) => !within.some((item) => component.to + offset >= item.from && component.to + offset < item.to));
      const verb = between.some(({ bare }) => /^(?:is|are|'s|'re|gets?|takes?|goes|go)$/.test(bare));
      const directly =
        counted &&
        between.every(({ bare }) =>
          /^(?:is|are|'s|'re|a|an|gets?|takes?|the|at|to|goes|go|torques?|just|also|only|with|uses?|needs?|wants?|of|them|it|they|those|these|that|this|and|both|have|has|i|think|uh|um|like)$/.test(
            bare,
          ),
        );
      // "new gasket, 32": said in passing while the fastener still lacks its torque.
      const passing = fresh && !verb && !this.focusIsFull(span);
      const torqueOf =
        component.inPlace &&
        /^(?:on|for|of)$/.test(this.word(component.from - 1)) &&
        /^(?:torques?|spec|specs)$/.test(this.word(component.from - 2));
      if (torqueOf && !fresh) return this.implied(component);
      const side = directly && !component.inPlace ? this.sideOf(component) : null;
      if (side !== null) return side;
      const about = !component.inPlace && (component.leads || directly);
      const named = component.words.filter((word) => !tellingApart.has(word)).map(stemOf);
      const telling = component.words.filter((word) => tellingApart.has(word)).map(stemOf);
      const overlap = focus.some(
        (group) =>
          !telling.some((word) => [...group.own, ...group.topic.map(stemOf)].some((other) => areOpposite(word, other))) &&
          named.filter((word) => group.own.has(word) || group.topic.map(stemOf).includes(word)).length > named.length / 2,
      );
      if (
        about &&
        directly &&
        !passing &&
        !(overlap && this.sentence.index - this.talk.focusSentence <= 2) &&
        (!fresh || !this.open(component.from - 1) || component.leads || this.focusIsFull(span))
      ) {
        const before = this.items[this.items.indexOf(component) - 1];
        // "both the fill and the drain are 18"
        const paired =
          before?.kind === 'component' &&
          (before.count === 2 || within.some((item) => item.kind === 'all' && this.word(item.from) === 'both')) &&
          this.sentence.tokens
            .slice(before.to, component.from)
            .map(({ bare }) => bare)
            .join(' ') === 'and';
        const first = paired ? this.implied(before) : [];
        const groups = [...first, ...this.implied(component)];
        this.talk.focus = groups;
        return groups;
      }
      if (component.inPlace && !fresh && !overlap) {
        const match = this.talk.groups.findLast((group) => likeness(group, component.words, null) >= 0.8);
        if (match !== undefined) return [match];
      }
      if (
        about &&
        !fresh &&
        !overlap &&
        this.sentence.index - this.talk.focusSentence > 0 &&
        component.leads &&
        focus.every((group) => lastTold(group, 'torque') !== null)
      )
        return this.implied(component);
    }
    const leading = this.components.find(({ inPlace, leads }) => !inPlace && leads);
    if (
      !fresh &&
      leading !== undefined &&
      leading.from <= 3 &&
      this.focusIsFull(span) &&
      !focus.some((group) =>
        leading.words.some(
          (word) => !tellingApart.has(word) && (group.own.has(stemOf(word)) || group.topic.map(stemOf).includes(stemOf(word))),
        ),
      )
    )
      return this.implied(leading);
    if (this.sentence.index - this.talk.focusSentence > 4)
      return component !== undefined && !component.inPlace ? this.implied(component) : [];
    return focus;
  }

  private focusIsFull(_span: { readonly from: number; readonly to: number }): boolean {
    return this.talk.focus.every((group) => lastTold(group, 'torque') !== null && lastTold(group, 'size') !== null);
  }

  /** "idler pulley 14 millimeter": the thing stands for what fixes it. */
  private implied(component: Component): readonly Group[] {
    const near = this.sideOf(component);
    if (near !== null) return near;
    const known = this.namedBy(component);
    const group =
      known ??
      addGroup(this.talk, this.sentence, { head: null, sure: false, names: component.words, places: [], topic: [], implied: true });
    if (known === undefined) {
      const count = component.count ?? this.talk.counts.get(stemOf(component.words.at(-1) ?? '')) ?? null;
      if (count !== null) tell(this.talk, [group], 'count', count, [], this.evidence(component.from, component.to, 0.75));
    }
    noteSentence(group, this.sentence);
    this.talk.focus = [group];
    this.talk.focusSentence = this.sentence.index;
    this.freshAt = component.from;
    return [group];
  }

  /** The group that a thing's name stands for, where there is one already. */
  private namedBy(component: Component): Group | undefined {
    let best: { group: Group; score: number } | undefined;
    for (const group of this.talk.groups) {
      const score = likeness(group, component.words, null);
      if (score >= 0.85 && score >= (best?.score ?? 0)) best = { group, score };
    }
    return best?.group;
  }

  /** "30 into the block, and 26 into the case": told apart by where they go. */
  private placedAt(quantity: QuantitySpan, index: number): readonly Group[] | null {
    const next = this.items[index + 1];
    if (
      next?.kind !== 'component' ||
      !next.inPlace ||
      !this.open(quantity.to - 1) ||
      !/^(?:on|in|into|at|for|to)$/.test(this.word(quantity.to)) ||
      next.from !== quantity.to + 1
    )
      return null;
    const topic = new Set(
      this.components.filter(({ to, inPlace }) => to <= quantity.from && !inPlace).flatMap(({ words }) => words.map(stemOf)),
    );
    const words = next.words.map(stemOf);
    const candidates = this.talk.groups.filter(
      (group) =>
        group.places.some((place) => words.includes(stemOf(place))) &&
        (topic.size > 0
          ? [...group.topic.map(stemOf), ...group.own].some((word) => topic.has(word))
          : this.sentence.index - (group.sentences.at(-1) ?? -99) <= 3),
    );
    const match = candidates.findLast((group) => lastTold(group, 'torque', this.builds[0] ?? null) === null);
    if (match === undefined) return null;
    noteSentence(match, this.sentence);
    this.talk.focus = [match];
    this.talk.focusSentence = this.sentence.index;
    this.freshAt = quantity.from;
    return [match];
  }

  /** "the engine side gets 48": those just named that go into the engine. */
  private sideOf(component: Component): readonly Group[] | null {
    if (!/^(?:side|end)$/.test(component.words.at(-1) ?? '')) return null;
    const words = component.words.slice(0, -1);
    const recent = this.talk.groups.filter((group) => this.sentence.index - (group.sentences.at(-1) ?? -99) <= 3);
    const fits = recent.filter((group) => words.length > 0 && likeness(group, words, null) >= 0.8);
    const match = fits.findLast(({ whole }) => whole === null) ?? fits.at(-1);
    if (match === undefined) return null;
    const count = countOf(match);
    const own = words.some((word) => match.own.has(stemOf(word)));
    // "one bolt at each end": what is told of one end is told of half of them.
    const half = !own && match.whole === null && count !== null && count % 2 === 0;
    const group = half
      ? addGroup(this.talk, this.sentence, {
          head: match.head,
          sure: match.sure,
          names: component.words,
          places: [],
          topic: match.topic,
          whole: match,
        })
      : match;
    if (half) tell(this.talk, [group], 'count', count / 2, [], this.evidence(component.from, component.to, 0.8));
    this.talk.focus = [group];
    this.talk.focusSentence = this.sentence.index;
    this.freshAt = component.from;
    return [group];
  }

  private hearNumber(quantity: QuantitySpan & { kind: 'number' }, index: number, forward: readonly Group[] | null): void {
    if (isToolTalk(this.sentence, quantity)) return;
    const before = this.items[index - 1];
    const groups = forward ?? this.talk.focus;
    const focus = groups.at(-1);
    const follows =
      before !== undefined &&
      before.to >= quantity.from - 1 &&
      (before.kind === 'mention' ||
        before.kind === 'quantity' ||
        before.kind === 'component' ||
        before.kind === 'all' ||
        before.kind === 'pronoun' ||
        before.kind === 'build');
    const component = this.components.at(-1);
    const elsewhere =
      forward === null &&
      component !== undefined &&
      component.from > this.freshAt &&
      !component.inPlace &&
      follows &&
      before.kind === 'component';
    const subject = elsewhere ? this.namedBy(component) : focus;
    const known = {
      size: subject !== undefined && lastTold(subject, 'size', this.builds[0] ?? null) !== null,
      scoped: this.builds.length > 0,
      sizeHere: subject !== undefined && subject.told.size.some(({ build }) => build === (this.builds[0] ?? null)),
      lastWasTorque: this.talk.tells.at(-1)?.field === 'torque' && this.talk.tells.at(-1)?.sentence === this.sentence.index,
      torque: subject !== undefined && lastTold(subject, 'torque', this.builds[0] ?? null) !== null,
      count: subject === undefined ? null : countOf(subject),
      per: subject?.perUnknown?.count ?? null,
      follows,
      sizeFollows:
        this.items
          .slice(index + 1)
          .find((item) => item.kind === 'mention' || (item.kind === 'quantity' && /^(?:width|serration)$/.test(item.quantity.kind)))
          ?.kind === 'quantity',
      sizeNext: this.sentence.quantities.some((one) => one.from === quantity.to && (one.kind === 'width' || one.kind === 'serration')),
      named: before?.kind === 'mention' && before.to === quantity.from - 1,
    };
    const role = roleOfNumber(this.sentence, quantity, known);
    if (role === 'size') {
      if (forward === null && this.isAtMate(quantity)) return;
      const targets = forward ?? this.target(quantity, index);
      this.tellSize(targets, { text: String(quantity.value), unit: 'mm' }, quantity, 0.75);
    } else if (role === 'torque') {
      const targets = forward ?? this.placedAt(quantity, index) ?? this.target(quantity, index);
      if (targets.length > 0) this.tellTorque(targets, quantity.value, quantity.high, null, quantity, null);
    } else if (role === 'total' && focus !== undefined) this.setTotal(this.talk.focus, quantity.value, quantity.from, quantity.to);
    else if (role === 'count') this.hearCount(quantity, index);
    else if (elsewhere && Number.isInteger(quantity.value) && quantity.value <= 12 && before.kind === 'component') {
      // "o2 sensors, two", "skid plate: six."
      if (/^(?:number|part|step|stage|rule|page|type|build|model|figure|video|speed|section|gear|line)$/.test(before.words.at(-1) ?? ''))
        return;
      this.talk.counts.set(stemOf(before.words.at(-1) ?? ''), quantity.value);
      const [group] = this.implied(before);
      if (group !== undefined && countOf(group) === null)
        tell(this.talk, [group], 'count', quantity.value, [], this.evidence(quantity.from, quantity.to, 0.75), { to: quantity.to });
    }
  }

  /** "there's eleven of those". */
  private hearCount(quantity: QuantitySpan & { kind: 'number' }, index: number): void {
    const component = this.components.findLast(({ to }) => to <= quantity.from);
    if (component !== undefined && component.from > this.freshAt && !component.inPlace) {
      this.talk.counts.set(stemOf(component.words.at(-1) ?? ''), quantity.value);
      const before = this.items[index - 1];
      if (
        before?.kind === 'component' &&
        before.to === quantity.from &&
        this.word(quantity.to) !== 'places' &&
        !/^(?:number|part|step|stage|rule|page|type|build|model|figure|video|speed|section|gear|line)$/.test(before.words.at(-1) ?? '')
      ) {
        const [group] = this.implied(before);
        if (group !== undefined && countOf(group) === null)
          tell(this.talk, [group], 'count', quantity.value, [], this.evidence(quantity.from, quantity.to, 0.75), { to: quantity.to });
      }
      return;
    }
    const [focus] = this.target(quantity, index);
    if (focus === undefined || !Number.isInteger(quantity.value)) return;
    if (countOf(focus) !== null && (this.builds.length === 0 || focus.told.count.some(({ build }) => build === this.builds[0]))) return;
    tell(this.talk, [focus], 'count', quantity.value, this.builds, this.evidence(quantity.from, quantity.to, 0.85), { to: quantity.to });
  }

  private setTotal(groups: readonly Group[], value: number, from: number, to: number): void {
    const [first] = groups;
    if (first === undefined || !Number.isInteger(value)) return;
    const group = groups.length === 1 ? (first.whole !== null && countOf(first) !== value ? first.whole : first) : first;
    const together = this.adding(value, first);
    if (together !== null) {
      this.talk.focus = [...together];
      for (const one of together) one.summed = true;
      return;
    }
    const over = first.whole === null ? this.timesOver(value, first) : null;
    if (over !== null) {
      for (const one of over.groups) {
        const each = countOf(one) ?? one.perUnknown?.count ?? 1;
        one.perUnknown = null;
        one.bothSides = true;
        one.summed = true;
        tell(this.talk, [one], 'count', each * over.times, [], this.evidence(from, to, 0.85), { replace: true, to });
      }
      this.talk.focus = [...over.groups];
      return;
    }
    if (groups.length > 1 && groups.reduce((sum, one) => sum + (countOf(one) ?? 0), 0) === value) return;
    const known = countOf(group);
    if (known === value || groups.length > 1) {
      group.bothSides = true;
      return;
    }
    const evidence = this.evidence(from, to, 0.93);
    if (known !== null && value % known !== 0 && group.perUnknown === null)
      this.talk.doubts.push({ kind: 'total', group, field: 'count', evidence, said: `${known}, and then ${value} in all` });
    group.perUnknown = null;
    group.bothSides = true;
    tell(this.talk, [group], 'count', value, [], evidence, { replace: true, to });
  }

  /** "three bolts … three bolts … that's six": the last ones that make up the sum. */
  private adding(value: number, last: Group): readonly Group[] | null {
    const recent = this.recentLike(last);
    for (let from = recent.length - 2; from >= 0; from--) {
      const groups = recent.slice(from);
      if (groups.reduce((sum, group) => sum + (countOf(group) ?? 0), 0) === value) return groups;
    }
    return null;
  }

  private recentLike(last: Group): readonly Group[] {
    return this.talk.groups.filter(
      (group) =>
        group.whole === null &&
        group.head === last.head &&
        !group.carriesOthers &&
        this.sentence.index - (group.sentences.at(-1) ?? -99) <= 2,
    );
  }

  /** "a nut on top and a nut below; two links, four nuts": each of the last ones, so many times over. */
  private timesOver(value: number, last: Group): { readonly groups: readonly Group[]; readonly times: number } | null {
    const recent = this.recentLike(last).filter(
      (group) => group.topic.join() === last.topic.join() && group.sentences.at(-1) === last.sentences.at(-1),
    );
    const sum = recent.reduce((all, group) => all + (countOf(group) ?? group.perUnknown?.count ?? 0), 0);
    return recent.length > 1 && sum > 0 && value > sum && value % sum === 0 ? { groups: recent, times: value / sum } : null;
  }

  private tellMeasured(groups: readonly Group[], quantity: QuantitySpan): void {
    switch (quantity.kind) {
      case 'torque': {
        this.tellTorque(groups, quantity.low, quantity.high, quantity.unit, quantity, quantity.plusMinus);
        return;
      }
      case 'width':
        if (quantity.high === null) this.tellSize(groups, { text: quantity.written, unit: quantity.unit }, quantity, 0.92);
        return;
      case 'serration': {
        this.tellSize(groups, { text: quantity.text, unit: null }, quantity, 0.95);
        return;
      }
      case 'cross-head':
        this.tellTo(
          groups,
          'drive',
          quantity.number === null ? 'cross-head' : `cross-head ${quantity.number}`,
          quantity.from,
          quantity.to,
          0.9,
        );
        return;
      case 'thread':
        this.tellTo(groups, 'thread', quantity.text, quantity.from, quantity.to, 0.95);
        return;
      case 'square':
        this.tellTo(groups, 'square', quantity.size, quantity.from, quantity.to, 0.8);
        return;
      case 'length':
        this.tellTo(groups, 'reach', `extension ${quantity.millimetres}`, quantity.from, quantity.to, 0.8);
        return;
      case 'angle':
        this.tellTo(groups, 'angle', quantity.degrees, quantity.from, quantity.to, 0.9);
        return;
      default:
        return;
    }
  }

  private tellSize(
    groups: readonly Group[],
    size: SaidSize,
    span: { readonly from: number; readonly to: number },
    confidence: number,
  ): void {
    const open = groups.filter((group) => {
      const told = group.told.size.find(({ build }) => build === (this.builds[0] ?? null));
      // A second size for the same fasteners is another tool's, unless it was a correction or is for another build.
      return told === undefined || (told.value.text === size.text && told.value.unit === size.unit);
    });
    const evidence = this.evidence(span.from, span.to, confidence);
    tell(this.talk, open, 'size', size, this.builds, evidence, { to: span.to });
    this.noteTelling(open, 'size', span.to);
    for (const group of groups)
      if (!open.includes(group)) this.talk.doubts.push({ kind: 'contradiction', group, field: 'size', evidence, said: evidence.words });
  }

  private tellTorque(
    groups: readonly Group[],
    low: number,
    high: number | null,
    unit: SaidTorque['unit'],
    span: QuantitySpan,
    plusMinus: { readonly amount: number; readonly percent: boolean } | null,
  ): void {
    const torque = this.torqueFrom(low, high, unit, span, plusMinus);
    if (unit !== null) this.talk.lastUnit = unit;
    const confidence = unit !== null ? 0.93 : torque.doubt === null ? 0.75 : 0.5;
    for (const group of groups) this.tellOneTorque(group, torque, this.evidence(span.from, span.to, confidence), span);
    this.noteTelling(groups, 'torque', span.to);
    this.valueEnd = span.to;
  }

  /** A torque with the unit that it was said in, or that it shares with its neighbours. */
  private torqueFrom(
    low: number,
    high: number | null,
    unit: SaidTorque['unit'],
    span: QuantitySpan,
    plusMinus: { readonly amount: number; readonly percent: boolean } | null,
  ): SaidTorque {
    const { talk } = this;
    const pounds = span.kind === 'torque' && unit === null;
    const beside = this.sentence.quantities.find((one) => one.kind === 'torque' && one.unit !== null);
    const [only] = talk.units.size === 1 ? talk.units.keys() : [null];
    const carried = [unit, beside?.kind === 'torque' ? beside.unit : null, talk.declaredUnit, talk.lastUnit, only ?? null];
    const fitting = carried.find((one) => one !== null && (!pounds || one.startsWith('lbf'))) ?? null;
    const sure =
      unit !== null ||
      (!pounds && (fitting === talk.declaredUnit || fitting === only || (beside?.kind === 'torque' && beside.unit === fitting)));
    const half = high === null ? null : (high - low) / 2;
    const amount = plusMinus === null ? null : plusMinus.percent ? (low * plusMinus.amount) / 100 : plusMinus.amount;
    const band = half ?? amount;
    return {
      value: high === null ? low : (low + high) / 2,
      unit: fitting,
      range: high === null ? null : [low, high],
      band: band === null ? null : { minus: band, plus: band },
      doubt: sure && fitting !== null ? null : pounds ? 'pounds' : 'no unit',
    };
  }

  private tellOneTorque(group: Group, torque: SaidTorque, evidence: Evidence, span: QuantitySpan): void {
    const build = this.builds[0] ?? null;
    const told = group.told.torque.find((one) => one.build === build);
    if (told === undefined || (told.value.value === torque.value && (told.value.unit === torque.unit || torque.doubt !== null))) {
      if (told === undefined) tell(this.talk, [group], 'torque', torque, this.builds, evidence, { to: span.to });
      return;
    }
    if (this.isNextPass(told.value, torque, told.evidence, span)) {
      tell(this.talk, [group], 'passes', told.value, this.builds, told.evidence);
      tell(this.talk, [group], 'torque', torque, this.builds, evidence, { replace: true, to: span.to });
      return;
    }
    // "Forty newton metres, four zero": the same again in other words.
    if (torque.doubt !== null || (span.kind === 'number' && told.evidence.sentence === this.sentence.index)) return;
    this.talk.doubts.push({ kind: 'contradiction', group, field: 'torque', evidence, said: evidence.words });
  }

  /** "to 30 first, then 60, and the final is 90". */
  private isNextPass(before: SaidTorque, next: SaidTorque, evidence: Evidence, span: QuantitySpan): boolean {
    if (next.value <= before.value || this.sentence.index - evidence.sentence > 1) return false;
    const words = this.sentence.tokens
      .slice(Math.max(0, span.from - 9), span.from)
      .map(({ bare }) => bare)
      .join(' ');
    return /\b(?:then|final|finally|second|next|last|third|pass|stage|step|after that|up to|round|again)\b/.test(words);
  }

  private noteTelling(groups: readonly Group[], field: 'size' | 'torque', to: number): void {
    const scoped = this.builds;
    this.lastTelling = {
      to,
      undo: (builds) => {
        for (const group of groups) {
          const list: { build: string | null; value: unknown; evidence: Evidence }[] = group.told[field];
          const at = list.findLastIndex((told) => told.build === (scoped[0] ?? null) && told.evidence.sentence === this.sentence.index);
          const told = list[at];
          if (told === undefined) continue;
          list.splice(at, 1, ...builds.map((build) => ({ ...told, build })));
        }
      },
    };
  }

  private tellTo(
    groups: readonly Group[],
    field: 'drive' | 'square' | 'thread' | 'reach',
    value: string,
    from: number,
    to: number,
    confidence: number,
  ): void;
  private tellTo(groups: readonly Group[], field: 'angle', value: number, from: number, to: number, confidence: number): void;
  private tellTo(groups: readonly Group[], field: 'single', value: true, from: number, to: number, confidence: number): void;
  private tellTo(
    groups: readonly Group[],
    field: 'drive' | 'square' | 'thread' | 'reach' | 'angle' | 'single',
    value: string | number | true,
    from: number,
    to: number,
    confidence: number,
  ): void {
    tell(this.talk, groups, field, value as never, this.builds, this.evidence(from, to, confidence), { to });
  }

  private tellFocus(
    field: 'reach' | 'drive' | 'condition' | 'order' | 'single' | 'snug',
    value: string | true,
    from: number,
    to: number,
    confidence: number,
  ): void {
    if (this.sentence.index - this.talk.focusSentence > 1 || this.talk.focus.length === 0) return;
    tell(this.talk, this.talk.focus, field, value as never, this.builds, this.evidence(from, to, confidence), { to });
  }

  /** "not 45": takes back a 45 that was told before. */
  private forget(quantity: QuantitySpan): void {
    const value =
      quantity.kind === 'torque' ? quantity.low : quantity.kind === 'number' || quantity.kind === 'width' ? quantity.value : null;
    if (value === null) return;
    for (const group of this.talk.focus) {
      const at = group.told.torque.findIndex((told) => told.value.value === value && this.sentence.index - told.evidence.sentence <= 2);
      if (at >= 0 && group.told.torque.length > 1) group.told.torque.splice(at, 1);
    }
  }

  /** "no, sorry, seventeen": the last value of that kind is replaced wherever it was put. */
  private correct(quantity: QuantitySpan): boolean {
    const kinds: Partial<Record<QuantitySpan['kind'], 'torque' | 'size' | 'angle'>> = {
      torque: 'torque',
      width: 'size',
      serration: 'size',
      angle: 'angle',
    };
    const field =
      quantity.kind === 'number'
        ? this.talk.tells.findLast(({ field: told }) => /^(?:torque|size|count)$/.test(told))?.field
        : kinds[quantity.kind];
    const last =
      field === undefined
        ? undefined
        : this.talk.tells.findLast((told) => told.field === field && this.sentence.index - told.sentence <= 3);
    if (last === undefined || field === undefined) return false;
    this.correcting = false;
    const next = this.word(quantity.to);
    // "no wait the front ones are 17" names what it is about.
    if (quantity.kind === 'number' && quantity.plural && /^(?:is|are|get|go|take)$/.test(next)) return false;
    const evidence = this.evidence(quantity.from, quantity.to, 0.9);
    if (field === 'torque' && (quantity.kind === 'torque' || quantity.kind === 'number')) {
      const value = quantity.kind === 'torque' ? quantity.low : quantity.value;
      for (const group of last.groups) {
        const told = group.told.torque.at(-1);
        if (told === undefined) continue;
        const unit = quantity.kind === 'torque' ? (quantity.unit ?? told.value.unit) : told.value.unit;
        const high = quantity.high;
        const corrected: SaidTorque = {
          ...told.value,
          value: high === null ? value : (value + high) / 2,
          unit,
          range: high === null ? null : [value, high],
          band: high === null ? null : { minus: (high - value) / 2, plus: (high - value) / 2 },
        };
        tell(this.talk, [group], 'torque', corrected, told.build === null ? [] : [told.build], evidence, {
          replace: true,
          to: quantity.to,
        });
      }
      return true;
    }
    if (field === 'size') {
      const mentioned = this.items.find((item) => item.kind === 'mention' && item.from > quantity.to && item.from <= quantity.to + 3);
      if (
        mentioned !== undefined &&
        /^(?:a|an)$/.test(this.word(mentioned.from)) &&
        this.sentence.tokens.slice(quantity.to, mentioned.from).some(({ bare }) => bare === 'on')
      )
        this.skip(mentioned);
    }
    if (field === 'size' && (quantity.kind === 'width' || quantity.kind === 'serration' || quantity.kind === 'number')) {
      const size: SaidSize =
        quantity.kind === 'width'
          ? { text: quantity.written, unit: quantity.unit }
          : quantity.kind === 'serration'
            ? { text: quantity.text, unit: null }
            : { text: String(quantity.value), unit: 'mm' };
      for (const group of last.groups) {
        const told = group.told.size.at(-1);
        if (told !== undefined)
          tell(this.talk, [group], 'size', size, told.build === null ? [] : [told.build], evidence, { replace: true, to: quantity.to });
      }
      return true;
    }
    if (field === 'count' && quantity.kind === 'number' && !prepositions.has(next) && Number.isInteger(quantity.value)) {
      tell(this.talk, last.groups, 'count', quantity.value, [], evidence, { replace: true, to: quantity.to });
      return true;
    }
    return false;
  }
}
