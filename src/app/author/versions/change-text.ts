import type { Language } from '../../../phrasing/language.ts';
import { packFor } from '../../../phrasing/packs.ts';
import type { Change, ChangedThing } from '../../../procedure/changes.ts';
import { readTorque } from '../../../procedure/notation.ts';
import type { Plain } from '../../../procedure/plain-tree.ts';
import type { ChangeWords } from './change-words-en.ts';
import { changeWordsEn } from './change-words-en.ts';
import { changeWordsFr } from './change-words-fr.ts';

const all: Readonly<Record<Language, ChangeWords>> = { en: changeWordsEn, fr: changeWordsFr };

/** A change in plain words: "Step 7: torque of the bracket bolts changed from 47 to 50 newton metres." */
export function changeText(change: Change, language: Language): string {
  const words = all[language];
  const { thing } = change;
  if (change.what !== 'changed') {
    const [place, what] = split(thing, words);
    return sentence(place, words.happened(what, change.what, change.steps));
  }
  const [place, of] = thing.kind === 'entry' ? split(thing, words) : [placeOf(thing, words), null];
  const field = words.field(change.key, of);
  const build = change.build === null ? '' : change.build === 'other builds' ? words.otherBuilds : words.onBuild(change.build);
  const values = torques(change.from, change.to, language, words) ?? {
    from: change.from === undefined || change.from === null ? null : shown(change.from, words),
    to: change.to === undefined || change.to === null ? null : shown(change.to, words),
  };
  return sentence(place, words.changed(`${field}${build}`, values.from, values.to));
}

/** Where it happened, and what it happened to. */
function split(thing: ChangedThing, words: ChangeWords): readonly [string | null, string] {
  if (thing.kind !== 'entry') return [null, placeOf(thing, words) ?? words.procedure];
  const [outer, inner] = thing.of.kind === 'entry' ? split(thing.of, words) : [placeOf(thing.of, words), null];
  const own = words.entry(thing.list, thing.name, thing.count);
  return [outer, inner === null ? own : words.within(own, inner)];
}

function placeOf(thing: ChangedThing, words: ChangeWords): string | null {
  switch (thing.kind) {
    case 'procedure':
      return null;
    case 'stage':
      return words.stage(thing.number, thing.title);
    case 'side':
      return words.side(thing.title);
    case 'step':
      return words.step(thing.number, thing.side);
    case 'entry':
      return placeOf(thing.of, words);
  }
}

function sentence(place: string | null, text: string): string {
  // A sentence that is quoted brings its own stop.
  const stop = /[.?!…][”»)]?(?: »)?$/.test(text) ? '' : '.';
  return place === null ? `${text.slice(0, 1).toUpperCase()}${text.slice(1)}${stop}` : `${place}: ${text}${stop}`;
}

/** "47" and "50 newton metres" where both are torques in one unit and differ by the figure alone. */
function torques(from: Plain | undefined, to: Plain | undefined, language: Language, words: ChangeWords) {
  const [old, now] = [torqueIn(from), torqueIn(to)];
  if (now === null && old === null) return null;
  if ((old === null && from !== undefined) || (now === null && to !== undefined)) return null;
  const spoken = (one: NonNullable<typeof now>) =>
    `${words.number(one.torque.value)} ${packFor(language).units.after(one.torque.value, one.torque.unit)}${one.rest}`;
  const alike = old !== null && now !== null && old.torque.unit === now.torque.unit && old.rest === now.rest;
  return {
    from: old === null ? null : alike ? words.number(old.torque.value) : spoken(old),
    to: now === null ? null : spoken(now),
  };
}

function torqueIn(value: Plain | undefined) {
  if (typeof value !== 'string') return null;
  const torque = readTorque(value)?.torque;
  if (torque === undefined) return null;
  const band = /[±+].*$/.exec(value)?.[0];
  return { torque, rest: band === undefined ? '' : ` (${band})` };
}

function shown(value: Plain, words: ChangeWords): string {
  if (typeof value === 'boolean') return value ? words.yes : words.no;
  if (typeof value === 'number') return words.number(value);
  if (typeof value === 'string') return words.quoted(value.length > 160 ? `${value.slice(0, 159)}…` : value);
  if (value === null) return words.nothing;
  if (Array.isArray(value))
    return words.quoted((value as readonly Plain[]).map((item) => (typeof item === 'object' ? '…' : String(item))).join(', '));
  return words.quoted(
    Object.entries(value)
      .map(([key, one]) => `${key}: ${typeof one === 'object' ? '…' : String(one)}`)
      .join(', '),
  );
}
