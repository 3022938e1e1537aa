import type { FindBuild } from './items.ts';
import { isPart } from './parts.ts';
import { phrase } from './sentence-view.ts';
import type { SaidSentence } from './sentences.ts';
import type { Token } from './tokens.ts';
import { isVehicle, variantsAt, variantsOf, type Variants } from './variants.ts';
import { isVerb, mayName } from './word-classes.ts';

/** A variant of the vehicle that the talk tells apart. */
export interface TalkBuild {
  /** Fit for a procedure file: "K", "4410", "early". */
  readonly id: string;
  /** As it was said first. */
  readonly name: string;
  readonly sentence: number;
  /** What it is told apart by; builds of one kind stand against one another. */
  readonly kind: string;
}

export interface TalkBuilds {
  readonly builds: readonly TalkBuild[];
  readonly find: FindBuild;
}

const bare = (tokens: readonly Token[], at: number) => tokens[at]?.bare ?? '';
const marked = (tokens: readonly Token[], at: number) => (tokens[at]?.mark ?? '') !== '';

const early = /^(?:early|earlier|older)$/;
const late = /^(?:later|late|newer)$/;

interface Reference {
  readonly key: string;
  readonly to: number;
  readonly text: string;
  /** The other builds that are named with it: "the R40 and the R46". */
  readonly others?: readonly string[];
  readonly kind?: string;
}

/** Pairs that are builds only where a talk speaks of both. */
const alternatives: readonly (readonly [string, string])[] = [
  ['short wheelbase', 'long wheelbase'],
  ['two wheel drive', 'four wheel drive'],
  ['diesel', 'petrol'],
  ['diesel', 'gas'],
  ['manual', 'automatic'],
];

/** Finds the builds that a talk tells apart, and how it speaks of them. */
export function buildsOf(sentences: readonly SaidSentence[]): TalkBuilds {
  const letters = declaredLetters(sentences);
  const built = builtLetters(sentences);
  const codes = declaredCodes(sentences);
  const spoken = sentences.map(({ tokens }) => tokens.map((token) => token.bare).join(' ')).join(' . ');
  const pairs = [
    ...contrasted(spoken),
    ...calledBuilds(spoken),
    ...alternatives
      .filter(
        ([one, other]) =>
          new RegExp(`\\b(?:on|for|if it 's|got) (?:the |a |an )?${one}\\b`).test(spoken) &&
          new RegExp(`\\b(?:on|for|if it 's|got) (?:the |a |an )?${other}\\b`).test(spoken),
      )
      .flat(),
  ];
  const bothAges = /\b(?:early|earlier|older) ones?\b/.test(spoken) && /\b(?:late|later|newer) ones?\b/.test(spoken);
  const variants = variantsOf(sentences);
  const kinds = new Map<string, string>();
  const referenceAt = (tokens: readonly Token[], at: number): Reference | null =>
    readVariants(tokens, at, variants) ??
    readReference(tokens, at, letters, codes, pairs) ??
    readBarePair(tokens, at, pairs) ??
    (bothAges ? readBareAge(tokens, at) : null) ??
    readLetterBolts(tokens, at, built);

  const first = new Map<string, { name: string; sentence: number }>();
  const sameAs = new Map<string, string>();
  for (const { tokens, index } of sentences) {
    let before: { key: string; at: number } | null = null;
    for (let at = 0; at < tokens.length; at++) {
      const found = referenceAt(tokens, at);
      if (found === null || bare(tokens, at - 1) === 'of') continue;
      kinds.set(found.key, found.kind ?? kindOf(found.key));
      if (!first.has(found.key)) first.set(found.key, { name: found.text, sentence: index });
      if (
        before !== null &&
        at - before.at <= 6 &&
        kindOf(before.key) !== kindOf(found.key) &&
        (isLetterOrAge(before.key) || isLetterOrAge(found.key)) &&
        !tokens.slice(before.at, at).some(({ bare: word }) => /^\d+$|^and$|^on$/.test(word) && kindOf(word) !== 'code')
      ) {
        sameAs.set(
          rank(before.key) < rank(found.key) ? found.key : before.key,
          rank(before.key) < rank(found.key) ? before.key : found.key,
        );
      }
      before = { key: found.key, at: found.to };
      at = found.to - 1;
    }
  }
  const idOf = (key: string) => {
    const own = sameAs.get(key) ?? key;
    return idFrom(variants.keys.get(own) ?? own);
  };
  const builds: TalkBuild[] = [];
  for (const [key, { name, sentence }] of first) {
    const id = idOf(key);
    if (!builds.some((build) => build.id === id))
      builds.push({ id, name, sentence, kind: kinds.get(sameAs.get(key) ?? key) ?? kindOf(key) });
  }
  const find: FindBuild = (tokens, at) => {
    const everyBuild = (builds.length > 0 ? everyOfBuilds : everyOne).exec(phrase(tokens, at, 4));
    if (everyBuild !== null) return { builds: [], to: at + everyBuild[0].split(' ').length };
    // "some of the older ones"
    if (bare(tokens, at - 1) === 'of') return null;
    const found = readWithPreposition(tokens, at, referenceAt);
    if (found === null) return null;
    const named = [...new Set([found.key, ...(found.others ?? [])].map(idOf))];
    const ofKind = builds.filter(({ kind }) => kind === kinds.get(found.key)).length;
    return { builds: named.length > 1 && named.length >= ofKind ? [] : named, to: found.to };
  };
  return { builds, find };
}

const everyOne = /^(?:either build|both builds|all builds|every build|either one of them)\b/;
const everyOfBuilds =
  /^(?:on |for )?(?:either|both|all|every)(?: the| of the)? (?:builds?|marks?|gens?|generations?|versions?|models?|types?|sorts?|kinds?|trucks?|lorries|vans?|cars?|bikes?|housings?|packs?|beds?|specs?|engines?|motors?|variants?|ages?|axles)\b(?! (?:bolts?|nuts?|screws?))|^either one of them\b/;

const isLetterOrAge = (key: string) => kindOf(key) === 'letter' || kindOf(key) === 'age';

function readVariants(tokens: readonly Token[], at: number, variants: Variants): Reference | null {
  const found = variantsAt(tokens, at, variants);
  const [first] = found;
  if (first === undefined) return null;
  const others = found.slice(1).map(({ key }) => key);
  return { key: first.key, to: found.at(-1)?.to ?? first.to, text: first.text, others, kind: first.kind };
}

/** What one vehicle has differently from another; front and rear every one has. */
const ofVehicle = /^(?:light|heavy|short|long|small|big|large|single|double|twin|standard|high|low|wide|narrow|manual|automatic|plain)$/;

/** "if it's the light axle … if it's the heavy axle": one part, of which a vehicle has one or the other. */
function contrasted(spoken: string): readonly string[] {
  const found = [...spoken.matchAll(/\b(?:if it 's|if yours is|if you 've got|if you have|if you got) the ([a-z]+) ([a-z]+)\b/g)];
  const kinds = found.flatMap(([, kind = '', noun = '']) => (isPart(noun) && ofVehicle.test(kind) ? [{ kind, noun }] : []));
  return [
    ...new Set(
      kinds
        .filter(({ kind, noun }) => kinds.some((one) => one.noun === noun && one.kind !== kind))
        .map(({ kind, noun }) => `${kind} ${noun}`),
    ),
  ];
}

/** "if yours is the tow pack build": a build with a name of its own. */
const calledBuilds = (spoken: string): readonly string[] =>
  [...spoken.matchAll(/\b(?:on|for|if it 's|if yours is|if you 've got|if you have) the ([a-z]{3,}(?: [a-z]{3,})?) build\b/g)]
    .map(([, name = '']) => name)
    .filter((name) =>
      name
        .split(' ')
        .every(
          (word) => mayName(word) && !early.test(word) && !late.test(word) && !/^(?:same|whole|other|first|second|next|last)$/.test(word),
        ),
    );

type ReferenceAt = (tokens: readonly Token[], at: number) => Reference | null;

/** "on the K", "on the early ones", "if it's an M", "for build M", "the 4420 only". */
function readWithPreposition(tokens: readonly Token[], at: number, referenceAt: ReferenceAt): Reference | null {
  let index = at;
  const text = tokens
    .slice(at, at + 5)
    .map((token) => token.bare)
    .join(' ');
  const opening =
    /^(?:on|for|with|in|if it 's|if you 've got|if you have|if you got|if yours is|if yours 's|if your \w+ is|if your \w+ 's|if you have got|only on|but on|unless it 's)\b/.exec(
      text,
    );
  if (opening !== null) index += opening[0].split(' ').length;
  const found = referenceAt(tokens, index);
  if (found === null) return null;
  let { to } = found;
  if (bare(tokens, to) === "'s" && !isVerb(tokens, to + 1) && opening !== null) to++;
  if (/^only$/.test(bare(tokens, to))) to++;
  return { ...found, to };
}

function readReference(
  tokens: readonly Token[],
  at: number,
  letters: ReadonlySet<string>,
  codes: ReadonlySet<string>,
  pairs: readonly string[],
): Reference | null {
  let index = at;
  const opener = /^(?:the|a|an|my|your|this|that|these|those|some)$/.test(bare(tokens, index));
  if (opener && !marked(tokens, index)) index++;
  const built = /^(?:build|model|type|version|code)$/.test(bare(tokens, index)) && !marked(tokens, index);
  if (built) index += bare(tokens, index + 1) === 'code' ? 2 : 1;
  const word = bare(tokens, index);
  const made = (key: string, to: number): Reference => ({
    key,
    to,
    text: tokens
      .slice(at, to)
      .map((token) => token.bare)
      .join(' ')
      .replace(/^(?:the|a|an|my|your|this) /, ''),
  });
  if (letters.has(word) && (opener || built) && !joinsName(tokens, index)) {
    const plural = bare(tokens, index + 1) === "'s" && !/^(?:a|an|the|got|\d.*)$/.test(bare(tokens, index + 2)) ? 1 : 0;
    // "the K build", "the M one"
    const called = plural === 0 && !marked(tokens, index) && /^(?:build|builds|one|ones|van|vans|model)$/.test(bare(tokens, index + 1));
    return made(word, index + 1 + plural + (called ? 1 : 0));
  }
  if (letters.has(word.replace(/s$/, '')) && word.length === 2 && opener) return made(word.slice(0, 1), index + 1);
  if (codes.has(word) && (opener || built || /^(?:on|for|is|are|'s|called|code)$/.test(bare(tokens, at - 1)))) return made(word, index + 1);
  if ((early.test(word) || late.test(word)) && (isVehicle(bare(tokens, index + 1)) || (opener && !mayName(bare(tokens, index + 1))))) {
    return made(early.test(word) ? 'early' : 'later', index + (isVehicle(bare(tokens, index + 1)) ? 2 : 1));
  }
  for (const pair of pairs) {
    const length = pair.split(' ').length;
    if (
      opener &&
      tokens
        .slice(index, index + length)
        .map((token) => token.bare)
        .join(' ') === pair
    )
      return made(pair, index + length + (isVehicle(bare(tokens, index + length)) ? 1 : 0));
  }
  return null;
}

/** Letters that are said with "build": no J-bolt is. */
const builtLetters = (sentences: readonly SaidSentence[]): ReadonlySet<string> =>
  new Set(
    sentences.flatMap(({ tokens }) =>
      tokens.flatMap(({ bare: word }, at) => (/^builds?$/.test(bare(tokens, at - 1)) && /^[b-hj-np-z]$/.test(word) ? [word] : [])),
    ),
  );

/** "K bolts are fifteens, M bolts are eighteens" */
function readLetterBolts(tokens: readonly Token[], at: number, built: ReadonlySet<string>): Reference | null {
  const word = bare(tokens, at);
  if (!built.has(word) || marked(tokens, at) || !/^(?:bolts|nuts|screws|ones)$/.test(bare(tokens, at + 1))) return null;
  return { key: word, to: at + 1, text: word };
}

/** "gas is 45, diesel is 60", where the talk speaks of both. */
function readBarePair(tokens: readonly Token[], at: number, pairs: readonly string[]): Reference | null {
  if (at > 0 && !marked(tokens, at - 1)) return null;
  const pair = pairs.find((one) => {
    const length = one.split(' ').length;
    return phrase(tokens, at, length) === one && /^(?:is|are|'s|gets?|takes?|wants?)$/.test(bare(tokens, at + length));
  });
  return pair === undefined ? null : { key: pair, to: at + pair.split(' ').length, text: pair };
}

/** "damper bottom: early, a hundred and thirty; late, eighty", where the talk speaks of early ones and late ones. */
function readBareAge(tokens: readonly Token[], at: number): Reference | null {
  const word = bare(tokens, at);
  const isAge = early.test(word) || late.test(word);
  if (!isAge || !/^(?:\d.*|a|one|two|three|four|five|six|seven|eight|nine|ten|[a-z]+teen|[a-z]+ty)$/.test(bare(tokens, at + 1)))
    return null;
  return { key: early.test(word) ? 'early' : 'later', to: at + 1, text: word };
}

/** "the J-bolt" and "the U joint" are no builds. */
const joinsName = (tokens: readonly Token[], at: number) =>
  !marked(tokens, at) &&
  /^(?:bolt|bolts|clip|clips|ring|rings|bar|pipe|joint|joints|nut|nuts|bracket|section|shape|shaped|hook|hooks|clamp|belt)$/.test(
    bare(tokens, at + 1),
  );

/** Single letters that the talk uses like "the K" or "build M". */
function declaredLetters(sentences: readonly SaidSentence[]): ReadonlySet<string> {
  const found = new Map<string, number>();
  for (const { tokens } of sentences) {
    for (let at = 1; at < tokens.length; at++) {
      const word = bare(tokens, at);
      const before = bare(tokens, at - 1);
      if (!/^[b-hj-np-z]$/.test(word) || joinsName(tokens, at) || marked(tokens, at - 1)) continue;
      if (before === 'build' || before === 'builds') found.set(word, (found.get(word) ?? 0) + 2);
      const capital = tokens[at]?.capital === true;
      const next = bare(tokens, at + 1);
      const stands = marked(tokens, at) || at + 1 >= tokens.length || !mayName(next) || isVerb(tokens, at + 1);
      if (/^(?:the|an?)$/.test(before) && stands && (capital || /^(?:on|for|call|got|build|only)$/.test(bare(tokens, at - 2))))
        found.set(word, (found.get(word) ?? 0) + 1);
    }
  }
  return new Set([...found].filter(([, times]) => times >= 1).map(([letter]) => letter));
}

function declaredCodes(sentences: readonly SaidSentence[]): ReadonlySet<string> {
  const found = new Set<string>();
  for (const { tokens } of sentences) {
    for (let at = 1; at < tokens.length; at++) {
      const word = bare(tokens, at);
      if (
        /^(?:code|codes|model|type|series|chassis)$/.test(bare(tokens, at - 1)) &&
        (/^\d{3,5}$/.test(word) || /^[a-z]{1,3}\d{1,4}$/.test(word)) &&
        !/^[mte]\d/.test(word)
      )
        found.add(word);
      if (/^(?:later|early|other)$/.test(bare(tokens, at - 2)) && bare(tokens, at - 1) === 'is' && /^\d{3,5}$/.test(word)) found.add(word);
    }
  }
  return found;
}

const kindOf = (key: string) => (/^[a-z]$/.test(key) ? 'letter' : /^(?:early|later)$/.test(key) ? 'age' : /\d/.test(key) ? 'code' : 'kind');
const rank = (key: string) => ({ letter: 0, code: 1, kind: 2, age: 3 })[kindOf(key)];

export const idFrom = (key: string) =>
  /^(?:[a-z]|[a-z]{1,3}\d+[a-z]?)$/.test(key) ? key.toUpperCase() : key.replace(/[^A-Za-z0-9.]+/g, '-').slice(0, 16);
