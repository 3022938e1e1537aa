import { idFrom, type TalkBuild } from '../builds.ts';
import type { Heard } from '../extract.ts';
import type { Group } from '../groups.ts';
import { judged } from '../trust.ts';
import { tableOf } from '../../torque/table.ts';
import type { Reading } from './net.ts';
import type { TalkView } from './view.ts';

/** Of which build each node's value is, as the net reads it, and the builds that the rules did not know. */
export interface ReadBuilds {
  /** For each node its build's id; null is all builds. */
  readonly of: readonly (string | null)[];
  /** How likely that is. */
  readonly chance: readonly number[];
  readonly more: readonly Omit<TalkBuild, 'kind'>[];
}

/** Those of the nodes that are of this build; null is all builds. */
export const ofBuild = ({ of }: ReadBuilds, nodes: readonly number[], build: string | null): readonly number[] =>
  nodes.filter((node) => (of[node] ?? null) === build);

/** A build is told of where the words that name it are together as likely as this. Our own choice, on talks that the net was not trained on. */
const enough = 0.65;

/** Ways to say the same age. */
const ages: Readonly<Record<string, string>> = tableOf<string>({
  later: 'late',
  latest: 'late',
  earlier: 'early',
  earliest: 'early',
  newer: 'new',
  newest: 'new',
  older: 'old',
  oldest: 'old',
});

const namesNothing = /^(?:the|a|an|it|they|them|that|this|those|these|of|on|at|in|to|and|or|for|with|if|is|are|s|re|'s|'re)$/;

/** Reads which build each value is of. */
export function readBuilds(heard: Heard, view: TalkView, { builds }: Reading): ReadBuilds {
  const known = new Map(
    view.nodes.flatMap((node) => (node.kind === 'build' && node.builds.length === 1 ? ([[node, node.builds[0] ?? '']] as const) : [])),
  );
  const named = new Map<string, Omit<TalkBuild, 'kind'>>();
  const told = builds.map((words, index): { readonly id: string | null; readonly chance: number } => {
    const chances = new Map<string, number>();
    const next = view.starts[(view.nodes[index]?.sentence ?? 0) + 1] ?? Infinity;
    for (const { at, chance } of words) {
      // "Twenty-one mil heads. On the early ones they go to …": what a sentence told is not of a build that only the next one names.
      if (at >= next) continue;
      const id = nameAt(at);
      if (id !== null) chances.set(id, (chances.get(id) ?? 0) + chance);
    }
    const [best] = [...chances].sort(([, one], [, other]) => other - one);
    if (best !== undefined && best[1] >= enough) return { id: best[0], chance: best[1] };
    return { id: null, chance: 1 - words.reduce((sum, { chance }) => sum + chance, 0) };
  });
  const of = told.map(({ id }) => id);
  const used = new Set(of);
  return { of, chance: told.map(({ chance }) => chance), more: [...named.values()].filter(({ id }) => used.has(id)) };

  function nameAt(at: number): string | null {
    for (const [{ from, to }, id] of known) if (at >= from && at < to) return id;
    const sentence = view.starts.findLastIndex((start) => start <= at);
    const tokens = heard.sentences[sentence]?.tokens ?? [];
    const own = tokens[at - (view.starts[sentence] ?? 0)]?.bare ?? '';
    const before = tokens[at - (view.starts[sentence] ?? 0) - 1]?.bare ?? '';
    const name = /^(?:mark|mk|series|phase|type|version|generation)$/.test(before) ? `${before} ${own}` : (ages[own] ?? own);
    const id = idFrom(name);
    // Words that say nothing name no build, and a procedure file wants a letter or a digit first.
    if (namesNothing.test(name) || !/^[A-Za-z0-9]/.test(id)) return null;
    // What the rules call by more words: "short" is "short-wheelbase".
    const same = heard.builds.filter((build) => build.id.split('-').includes(id) || ages[build.id] === id);
    if (same.length === 1) return same[0]?.id ?? null;
    if (!named.has(id)) named.set(id, { id, name: name === own || ages[own] === undefined ? name : own, sentence });
    return id;
  }
}

/** The talk with these groups, and with those builds that the rules did not know and something is told of, told apart by what they are told of: those of one group stand against one another. */
export function withBuilds(heard: Heard, builds: ReadBuilds, groups: readonly Group[]): Heard {
  const told = new Set(groups.flatMap((group) => judged.flatMap((field) => group.told[field].map(({ build }) => build))));
  const more = builds.more.filter(({ id }) => told.has(id));
  const kinds = new Map(heard.builds.map(({ id, kind }) => [id, kind]));
  for (const { id } of more) kinds.set(id, `read ${id}`);
  for (const { told } of groups) {
    const ids = new Set(judged.flatMap((field) => told[field].flatMap(({ build }) => build ?? [])));
    const [first, ...rest] = [...ids].map((id) => kinds.get(id));
    for (const other of rest) for (const [id, kind] of kinds) if (kind === other && first !== undefined) kinds.set(id, first);
  }
  const withKind = <Build extends { readonly id: string }>(build: Build) => ({ ...build, kind: kinds.get(build.id) ?? build.id });
  const all = [...heard.builds.map(withKind), ...more.map(withKind)];
  return { ...heard, builds: all, groups: groups.map((group) => ({ ...group, only: onlyBuild(group, all) })) };
}

/**
 * The one build that has the fasteners. What the rules heard of that holds as long as nothing is told of another build; besides, fasteners
 * whose every value is told of one build are its only where nothing stands against it.
 */
function onlyBuild({ told, only }: Group, builds: Heard['builds']): string | null {
  const ids = new Set(judged.flatMap((field) => told[field].map(({ build }) => build)));
  const [id = null] = ids;
  const kind = builds.find((build) => build.id === id)?.kind;
  if (id !== null && ids.size === 1 && !builds.some((build) => build.kind === kind && build.id !== id)) return id;
  return [...ids].every((build) => build === null || build === only) ? only : null;
}
