import type { Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import { isPart, nounOf } from './parts.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** The build that the last sentence spoke of, and what it named. */
export interface BuildScope {
  readonly build: string;
  readonly sentence: number;
  readonly words: ReadonlySet<string>;
}

const forAll = /\b(?:both|either|all|every|everything|same|whichever|regardless|too|as well|now|next|then|after that|meanwhile)\b/;

/**
 * "Mark 2 only, the belly plate. Ten bolts. 45 foot-pounds.": what a sentence says of one build goes on to the next until another build,
 * both of them or another thing is spoken of. "First gen, two bolts. Second gen, four. 45 newton metres." leaves open whose the last is:
 * it goes on only where they are that build's alone, or where the other build has been told the same.
 */
export function buildGoesOn(hearing: Hearing): string | null {
  const { talk, sentence, items } = hearing;
  const scope = talk.buildScope;
  if (scope === null || scope.sentence !== sentence.index - 1 || sentence.opensParagraph) return null;
  if (items.some(({ kind }) => kind === 'build') || forAll.test(hearing.words(0, sentence.tokens.length))) return null;
  if (!items.every((item) => staysAt(item, scope))) return null;
  const [focus] = talk.focus;
  const atTopic = talk.topicAt > talk.focusAt || focus === undefined;
  const alone = atTopic ? talk.topic?.only === scope.build : focus.only === scope.build;
  if (alone || sentence.quantities.length === 0) return scope.build;
  return focus !== undefined && sentence.quantities.some(({ kind }) => isOwed(focus, scope, kind)) ? scope.build : null;
}

/** No other part is named. */
function staysAt(item: Hearing['items'][number], scope: BuildScope): boolean {
  const isKnown = (word: string) => tellingApart.has(word) || scope.words.has(stemOf(word));
  if (item.kind === 'component') return !isPart(nounOf(item.words)) || item.words.every(isKnown);
  return item.kind !== 'mention' || [...item.mention.names, ...item.mention.place].every(isKnown);
}

/** The other build has been told it and this one has not, or this one just now: then it is put right. */
function isOwed(group: Group, { build, sentence }: BuildScope, kind: string): boolean {
  const fields =
    kind === 'torque' ? (['torque'] as const) : kind === 'number' ? (['count', 'size', 'torque'] as const) : (['size'] as const);
  return fields.some((field) => {
    const told = group.told[field] as readonly { readonly build: string | null; readonly evidence: { readonly sentence: number } }[];
    const own = told.filter((one) => one.build === build);
    if (own.length > 0) return own.some(({ evidence }) => sentence - evidence.sentence <= 1);
    return told.some((one) => one.build !== null);
  });
}

/** What the next sentence may go on with. */
export function noteBuild(hearing: Hearing, carried: string | null): void {
  const { talk, sentence } = hearing;
  const [build, ...others] = hearing.builds;
  const several = new Set(hearing.items.flatMap((item) => (item.kind === 'build' ? item.builds : []))).size > 1;
  const before = carried === null ? [] : [...(talk.buildScope?.words ?? [])];
  const own = sentence.tokens.map(({ bare }) => stemOf(bare));
  talk.buildScope =
    build === undefined || others.length > 0 || several ? null : { build, sentence: sentence.index, words: new Set([...before, ...own]) };
}

const alikeOf: readonly (readonly [RegExp, readonly ('size' | 'torque')[]])[] = [
  [/\beither way\b|\b(?:on|for|with) both\b|\bboth the same\b|\bsame (?:everything|on both|for both)\b/, ['size', 'torque']],
  [/\bsame (?:size|sizes|bolts?|screws?|nuts?|sockets?|heads?|spanner|wrench|key|bit)\b/, ['size']],
  [/\bsame (?:torque|torques|number|figure|setting|tightness)\b/, ['torque']],
];

/** "the long bed has eight, same bolt, 13 mil, 22 foot-pounds either way": what was told of one build holds for both. */
export function shareAmongBuilds({ talk, sentence, words }: Pick<Hearing, 'talk' | 'sentence'> & { readonly words: string }): void {
  const fields = new Set(alikeOf.flatMap(([pattern, alike]) => (pattern.test(words) ? alike : [])));
  for (const group of fields.size === 0 ? [] : talk.focus) {
    if (group.only !== null || !isToldByBuild(group) || sentence.index - Math.max(...group.sentences) > 2) continue;
    for (const field of fields) {
      const list: { build: string | null }[] = group.told[field];
      const builds = new Set(list.map(({ build }) => build));
      if (builds.size === 1 && !builds.has(null)) list.splice(0, list.length, ...list.map((told) => ({ ...told, build: null })));
    }
  }
}

/** Something of it was told for one build and not for another. */
export const isToldByBuild = ({ told }: Group): boolean =>
  [told.count, told.size, told.torque].some((list: readonly { readonly build: string | null }[]) =>
    list.some(({ build }) => build !== null),
  );
