import { fastenerHead } from './fastener-words.ts';
import { bare, marked, phrase } from './sentence-view.ts';
import type { SaidSentence } from './sentences.ts';
import type { Token } from './tokens.ts';
import { tableOf } from '../torque/table.ts';
import { teens, unitWords } from './number-words.ts';

/**
 * Builds that a talk tells apart without calling them builds: "the R40 … the R46", "first gen … second gen", "tarmac … gravel". No list of
 * names could know them; what shows them is the contrast. Two or more designators of one kind, each said where a sentence says of which
 * vehicle it speaks, are builds; one alone, or one that stands in the name of a part, is not.
 */
export interface Variant {
  /** "mark 1" and "mk one" are one. */
  readonly key: string;
  /** Only variants of one kind are told apart from one another. */
  readonly kind: string;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

const ordinals = ['zeroth', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth'];
const roman = ['', 'i', 'ii', 'iii', 'iv', 'v', 'vi'];

const numberOf = (word: string): number | null => {
  if (/^[1-9]$/.test(word)) return Number(word);
  const value = unitWords[word] ?? (word === 'ten' ? teens[word] : roman.indexOf(word));
  return value !== undefined && value > 0 ? value : null;
};
const ordinalOf = (word: string): number | null => {
  const figure = /^([1-9])(?:st|nd|rd|th)$/.exec(word);
  const at = ordinals.indexOf(word);
  return figure !== null ? Number(figure[1]) : at > 0 ? at : null;
};

/** What is numbered from one model to the next; steps, stages and phases are those of the work. */
const lineage: Readonly<Record<string, string>> = tableOf<string>({
  mark: 'mark',
  marks: 'mark',
  mk: 'mark',
  gen: 'gen',
  gens: 'gen',
  generation: 'gen',
  series: 'series',
  type: 'type',
  version: 'version',
  model: 'model',
  shape: 'shape',
});
const lineageOf = (word: string): string | null => lineage[word] ?? null;

/** What a whole vehicle has in one way or another, and how. "Front" and "upper" every one has. */
const frames = /^(?:bed|beds|wheelbase|cab|cabs|roof|spec|specs|trim|chassis|axle|axles|suspension|setup|duty)$/;
const ways =
  /^(?:short|long|extra|medium|standard|regular|normal|stock|crew|double|single|dual|twin|tandem|extended|quad|high|low|mid|light|heavy|wide|narrow|sport|touring|air|steel|leaf|coil|rigid|independent|base|export|domestic)$/;
const surfaces = /^(?:tarmac|gravel|asphalt|dirt|snow|ice|sand|forest|road|street|track|race|circuit|rally|off-road)$/;
const plainSurfaces = /^(?:tarmac|gravel|asphalt|dirt|snow|circuit)$/;
const fuels = /^(?:diesel|petrol|gasoline|electric|hybrid)$/;
const gearboxes: Readonly<Record<string, string>> = tableOf<string>({ manual: 'manual', automatic: 'automatic', auto: 'automatic' });

const vehicles =
  'ones?|vans?|models?|trucks?|lorry|lorries|buses|bus|coach|coaches|types?|versions?|builds?|units?|bikes?|vehicles?|chassis|cars?|series|style|tractors?|rigs?|machines?|wagons?|pickups?|utes?';
const aVehicle = new RegExp(`^(?:${vehicles}|sorts?)$`);
const vehicleOrFitting = new RegExp(`^(?:${vehicles}|engines?|motors?|housings?|packs?|gearbox|gearboxes|box|axles?|spec|setup|trim)$`);
/** What a whole vehicle is called after its age: "the older trucks". */
export const isVehicle = (word: string): boolean => aVehicle.test(word);
/** The same, or what of it differs from build to build: "the V8 engine". */
const isVehicleNoun = (word: string): boolean => vehicleOrFitting.test(word);

/** The designator that begins at that token, whether or not the talk tells builds apart by it. */
function readVariant(tokens: readonly Token[], at: number): Variant | null {
  const made = (kind: string, key: string, length: number): Variant => ({
    key,
    kind,
    from: at,
    to: at + length,
    text: phrase(tokens, at, length),
  });
  const [word, next, third] = [bare(tokens, at), bare(tokens, at + 1), bare(tokens, at + 2)];
  if (word === '') return null;
  const joined = !marked(tokens, at);
  // "mark 2", "mk2", "gen two", "second gen", "2nd generation"
  const written = /^(mk|gen)([1-9])$/.exec(word);
  if (written !== null) return made(lineageOf(written[1] ?? '') ?? 'mark', `${lineageOf(written[1] ?? '') ?? ''} ${written[2] ?? ''}`, 1);
  const line = lineageOf(word);
  const number = joined ? numberOf(next) : null;
  if (line !== null && number !== null && third !== 'of') return made(line, `${line} ${number}`, 2);
  const ordinal = ordinalOf(word);
  const nextLine = joined ? lineageOf(next) : null;
  if (ordinal !== null && nextLine !== null && third !== 'of') return made(nextLine, `${nextLine} ${ordinal}`, 2);
  // "V8", "the six-cylinder", "straight six"
  if (/^v(?:2|4|6|8|10|12)s?$/.test(word)) return made('engine', word.replace(/s$/, ''), 1);
  if (word === 'v' && joined && /^(?:6|six|8|eight|10|ten|12|twelve)$/.test(next))
    return made('engine', `v${numberOf(next) ?? (next === 'twelve' ? 12 : next)}`, 2);
  if (joined && numberOf(word) !== null && /^(?:cylinder|cyl|pot|banger)s?$/.test(next) && third !== 'head')
    return made('engine', `${numberOf(word) ?? word} cylinder`, 2);
  if (joined && /^(?:straight|inline|flat)$/.test(word) && numberOf(next) !== null)
    return made('engine', `${numberOf(next) ?? next} cylinder`, 2);
  if (fuels.test(word)) return made('engine', word === 'gasoline' ? 'petrol' : word, 1);
  if (word === 'gas' && !/^(?:tank|cap|pedal|line|lines|strut|struts|can)$/.test(next)) return made('engine', 'gas', 1);
  // "it's in the manual"
  const book =
    word === 'manual' && /^(?:in|from|per|to) (?:the|my|your)$|\b(?:shop|workshop|service|owner 's)$/.test(phrase(tokens, at - 2, 2));
  const gearbox = gearboxes[word];
  if (gearbox !== undefined && !book) return made('gearbox', gearbox, 1);
  if (joined && numberOf(word) !== null && next === 'speed') return made('gearbox', `${numberOf(word) ?? word} speed`, 2);
  // "two wheel drive", "4wd", "6x4"
  if (/^(?:two|four|all|front|rear|2|4)$/.test(word) && phrase(tokens, at + 1, 2) === 'wheel drive')
    return made('driven', phrase(tokens, at, 3), 3);
  // The tokens take a figure and its letters apart.
  if (joined && /^[2468]$/.test(word) && /^(?:wd|x[2468])$/.test(next)) return made('driven', `${word}${next}`, 2);
  if (/^[afr]wd$/.test(word)) return made('driven', word, 1);
  // "pre facelift", "the facelift", "post-facelift"
  if (/^(?:pre|post|before|after)$/.test(word) && /^(?:facelift|update|refresh)$/.test(next))
    return made('facelift', /^(?:pre|before)$/.test(word) ? `pre ${next}` : next, 2);
  if (/^(?:before|after)$/.test(word) && /^the (?:facelift|update|refresh)$/.test(phrase(tokens, at + 1, 2)))
    return made('facelift', word === 'before' ? `pre ${third}` : third, 3);
  if (/^facelift(?:ed|s)?$/.test(word)) return made('facelift', 'facelift', 1);
  // "long bed", "gravel spec"
  if (joined && frames.test(next) && (ways.test(word) || surfaces.test(word) || (/^specs?$/.test(next) && /^[a-z]{3,}$/.test(word)))) {
    if (surfaces.test(word)) return made('surface', word, 2);
    const frame = next.replace(/s$/, '').replace(/^chassi$/, 'chassis');
    return made(frame, `${word} ${frame}`, 2);
  }
  if (plainSurfaces.test(word)) return made('surface', word, 1);
  return readCode(tokens, at, made);
}

/** "R40", "k 4": a letter or two with figures that is no thread, drive, oil or refrigerant. */
function readCode(tokens: readonly Token[], at: number, made: (kind: string, key: string, length: number) => Variant): Variant | null {
  const word = bare(tokens, at);
  const before = at > 0 && !marked(tokens, at - 1) ? bare(tokens, at - 1) : '';
  // "5W30", "number T4"
  if (/\d$/.test(before) || /^(?:number|grade|class|size|torx|dot|part)$/.test(before)) return null;
  const code = /^([a-z]{1,3})(\d{1,4})([a-z]?)$/.exec(word.replace(/(\d)s$/, '$1'));
  if (code !== null) {
    const [, letters = '', figures = '', after = ''] = code;
    if (/^(?:[mte]|ph|pz|tx|pt|sae|iso|din|dot|mm|nm|x|w)$/.test(letters) || word === 'o2') return null;
    return made(`code ${letters.length} ${figures.length} ${after === '' ? '' : 'x'}`, `${letters}${figures}${after}`, 1);
  }
  const figures = bare(tokens, at + 1);
  const number = /^\d{1,3}$/.test(figures) ? Number(figures) : numberOf(figures);
  if (!/^[b-df-hj-lnp-su-z]$/.test(word) || marked(tokens, at) || number === null || roman.includes(figures)) return null;
  if (!/^(?:the|a|an|on|for|is|only)$/.test(before) && before !== '') return null;
  return made(`code 1 ${String(number).length} `, `${word}${number}`, 2);
}

const opensScope = /^(?:on|for|with|in|only|if|'s|is|are|got|have|has|and|or|but|so|then|as|either|also|while|whereas)$/;
const articles = /^(?:the|a|an|your|my|this|that|these|those|our|some)$/;
const goesOn =
  /^(?:'s|is|are|has|have|had|got|takes?|gets?|uses?|wants?|needs?|runs?|went|comes?|only|it|they|there|you|we|and|or|both|hasn't|haven't|doesn't|don't|isn't|just|which|that|the|'ve|'re|depending)$/;

/** It stands where a sentence says of which vehicle it speaks, and in the name of no part. */
function isFramed(tokens: readonly Token[], { from, to }: Variant): boolean {
  let before = from - 1;
  const open = (at: number) => at < 0 || marked(tokens, at);
  const hasArticle = !open(before) && articles.test(bare(tokens, before));
  if (hasArticle) before--;
  const stands = open(before) || opensScope.test(bare(tokens, before)) || hasArticle;
  if (!stands || (!open(before) && bare(tokens, before) === 'of')) return false;
  if (to >= tokens.length || marked(tokens, to - 1)) return true;
  if (fastenerHead(tokens, to) !== null) return false;
  const next = bare(tokens, to);
  return goesOn.test(next) || isVehicleNoun(next) || /^\d/.test(next) || numberOf(next) !== null;
}

/** "gravel guard … tarmac guard": said before one and the same noun. */
function areParallel(sentences: readonly SaidSentence[], found: readonly (Variant & { readonly sentence: number })[]): boolean {
  const nouns = new Map<string, Set<string>>();
  for (const { key, to, sentence } of found) {
    const tokens = sentences[sentence]?.tokens ?? [];
    if (marked(tokens, to - 1) || bare(tokens, to) === '') continue;
    nouns.set(bare(tokens, to), (nouns.get(bare(tokens, to)) ?? new Set()).add(key));
  }
  return [...nouns].some(([noun, keys]) => keys.size > 1 && /^[a-z]{4,}$/.test(noun) && !goesOn.test(noun));
}

/** "mk2" and "the k 4" are called by their key, "second gen" and "six-cylinder" as they were said. */
const isTerse = (text: string) =>
  /^(?:mk|mark|marks|gen|type) ?(?:\d|[a-z]+)$|^[a-z]{1,3} ?\w{1,5}$|^\d/.test(text) && !/\b(?:speed|cylinder)\b/.test(text);

export interface Variants {
  readonly keys: ReadonlyMap<string, string>;
  /** Kinds whose word stands before a part as well: "the gravel guard". */
  readonly beforeParts: ReadonlySet<string>;
}

/** The designators by which the talk tells builds apart, each with its first wording. */
export function variantsOf(sentences: readonly SaidSentence[]): Variants {
  const found = sentences.flatMap(({ tokens, index }) =>
    tokens.flatMap((_, at) => {
      const variant = readVariant(tokens, at);
      return variant === null ? [] : [{ ...variant, sentence: index, framed: isFramed(tokens, variant) }];
    }),
  );
  const keys = new Map<string, string>();
  const beforeParts = new Set<string>();
  for (const kind of new Set(found.map((one) => one.kind))) {
    const ofKind = found.filter((one) => one.kind === kind);
    const framed = new Set(ofKind.filter((one) => one.framed).map(({ key }) => key));
    const parallel = kind === 'surface' && areParallel(sentences, ofKind);
    if (framed.size < 2 && !parallel) continue;
    for (const { key, text, framed: stands } of ofKind)
      if ((stands || parallel) && !keys.has(key)) keys.set(key, kind === 'surface' || isTerse(text) ? key : text);
    if (parallel) beforeParts.add(kind);
  }
  return { keys, beforeParts };
}

/** Reads the builds that are named there: one, or several in a row, "the R40 and the R46". */
export function variantsAt(tokens: readonly Token[], at: number, { keys, beforeParts }: Variants): readonly Variant[] {
  const variant = readVariant(tokens, afterArticle(tokens, at));
  if (variant === null || !keys.has(variant.key)) return [];
  if (!isFramed(tokens, variant) && !(beforeParts.has(variant.kind) && opensName(tokens, at))) return [];
  const first = withNoun(tokens, variant);
  const found = [first];
  for (let last = first; ;) {
    let index = last.to;
    if (/^(?:and|or|nor)$/.test(bare(tokens, index)) && !marked(tokens, index - 1)) index++;
    else break;
    if (/^(?:on|for)$/.test(bare(tokens, index))) index++;
    const another = readVariant(tokens, afterArticle(tokens, index));
    const next = another === null ? null : withNoun(tokens, another);
    if (next === null || next.kind !== first.kind || next.key === first.key || !keys.has(next.key)) break;
    // "60 on the first gen and second gen it's 90"
    if (!marked(tokens, next.to - 1) && /^(?:it|they|there|'s|is|you|gets?|has|takes?|\d.*)$/.test(bare(tokens, next.to))) break;
    found.push(next);
    last = next;
  }
  return found;
}

const opensName = (tokens: readonly Token[], at: number) => at === 0 || marked(tokens, at - 1) || articles.test(bare(tokens, at));

const afterArticle = (tokens: readonly Token[], at: number) => (articles.test(bare(tokens, at)) && !marked(tokens, at) ? at + 1 : at);

/** With the "one", "truck" or "housing" after it. */
function withNoun(tokens: readonly Token[], variant: Variant): Variant {
  const called =
    !marked(tokens, variant.to - 1) && isVehicleNoun(bare(tokens, variant.to)) && fastenerHead(tokens, variant.to + 1) === null;
  return called ? { ...variant, to: variant.to + 1 } : variant;
}
