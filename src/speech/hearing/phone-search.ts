import type { PhoneGraph } from './phone-graph.ts';

/** One sentence of the grammar and how well the sound so far fits it. */
export interface Hypothesis {
  readonly words: readonly string[];
  /** Log probability of the best way through the frames. */
  readonly score: number;
  readonly phones: number;
  /** The score with what longer sentences are given for their length, by which sentences are ranked. */
  readonly rank: number;
  /** The worst word's score over the free phones in the same frames, for each of its phones. */
  readonly worstWord: number;
  /** True when more words could follow. */
  readonly mayGoOn: boolean;
}

const kept = 3;
const impossible = -1e30;
const beam = 45;

/**
 * Looks for the likeliest sentences of a grammar in the network's frames as they come (CTC token passing:
 * each phone takes one or more frames, "nothing new" may come between any two, and must between two alike).
 * Keeps the best three ways, of different words, into every phone.
 */
export class PhoneSearch {
  private readonly graph: PhoneGraph;
  /** Any sound whatever may come before the sentence, instead of quiet: it is looked for amid other speech. */
  private readonly amidSpeech: boolean;
  /** Nats that a sentence is given for each of its phones before it is ranked. */
  private readonly perPhone: number;
  private readonly wordOfArc: Int32Array;
  private readonly words: readonly string[];
  /** For each place in the chain of an arc: its phone, its arc. Chains lie one after the other. */
  private readonly phoneAt: Int16Array;
  /** Junctions from which a word leads on. */
  private readonly leadingOn: readonly number[];
  private readonly chainStart: Int32Array;
  private readonly onPhone: TokenTable;
  private readonly onGap: TokenTable;
  private readonly atJunction: TokenTable;
  private readonly afterGap: TokenTable;

  // The words behind a token, as links backwards.
  private readonly before: number[] = [];
  private readonly wordHere: number[] = [];
  private readonly endScore: number[] = [];
  private readonly endFree: number[] = [];
  private readonly textHere: number[] = [];
  /** The phone that a token comes straight from, or -1 after a gap. */
  private readonly phoneHere: number[] = [];
  private readonly texts = new Map<string, number>();

  private free = 0;
  private best = impossible;

  constructor(graph: PhoneGraph, amidSpeech = false, perPhone = 0) {
    this.graph = graph;
    this.amidSpeech = amidSpeech;
    this.perPhone = perPhone;
    this.words = [...new Set(graph.arcs.map(({ word }) => word))];
    const number = new Map(this.words.map((word, index) => [word, index]));
    this.wordOfArc = Int32Array.from(graph.arcs, ({ word }) => number.get(word) ?? 0);
    this.chainStart = new Int32Array(graph.arcs.length + 1);
    graph.arcs.forEach(({ phones }, arc) => (this.chainStart[arc + 1] = (this.chainStart[arc] ?? 0) + phones.length));
    this.phoneAt = Int16Array.from(graph.arcs.flatMap(({ phones }) => phones));
    this.leadingOn = [...new Set(graph.arcs.map(({ from }) => from))];
    this.onPhone = new TokenTable(this.phoneAt.length);
    this.onGap = new TokenTable(this.phoneAt.length);
    this.atJunction = new TokenTable(graph.junctions);
    this.afterGap = new TokenTable(graph.junctions);
    this.restart();
  }

  /** Back to the start of the grammar, before any sound. */
  restart(): void {
    for (const list of [this.before, this.wordHere, this.endScore, this.endFree, this.textHere, this.phoneHere]) list.length = 0;
    this.texts.clear();
    this.link(-1, -1, -1);
    this.free = 0;
    this.best = 0;
    this.onPhone.clear();
    this.onGap.clear();
    this.atJunction.clear();
    this.afterGap.clear();
    this.afterGap.offer(0, 0, 0, this.textHere);
    this.leap();
  }

  /** `log`: log probabilities of "nothing new" and of each phone. */
  push(log: Float32Array): void {
    const { graph, chainStart, phoneAt, onPhone, onGap, atJunction, afterGap, textHere } = this;
    const gap = log[0] ?? 0;
    let free = gap;
    for (const value of log) if (value > free) free = value;
    this.free += free;
    const least = this.best - beam;
    let best = impossible;

    // From the end of each chain to its start, so that one table can hold both old and new.
    for (let arc = 0; arc < graph.arcs.length; arc++) {
      const from = graph.arcs[arc]?.from ?? 0;
      const start = chainStart[arc] ?? 0;
      for (let at = (chainStart[arc + 1] ?? 0) - 1; at >= start; at--) {
        const phone = phoneAt[at] ?? 0;
        const step = log[phone] ?? 0;
        const entering =
          at === start ? Math.max(afterGap.best(from), atJunction.best(from)) : Math.max(onPhone.best(at - 1), onGap.best(at - 1));
        const staying = Math.max(onPhone.best(at), onGap.best(at));
        if (staying < least && entering < least) {
          onPhone.empty(at);
          onGap.empty(at);
          continue;
        }
        // What rests in the gap after this phone: from the phone or from the gap itself.
        onGap.add(at, gap);
        onPhone.pourInto(onGap, at, at, gap, textHere);
        onPhone.add(at, step);
        if (at === start) {
          afterGap.pourInto(onPhone, from, at, step, textHere);
          for (let k = 0; k < kept; k++) {
            const score = atJunction.score(from, k);
            if (score > impossible && this.phoneHere[atJunction.token(from, k)] !== phone)
              onPhone.offer(at, score + step, atJunction.token(from, k), textHere);
          }
        } else {
          onGap.pourInto(onPhone, at - 1, at, step, textHere);
          if (phoneAt[at - 1] !== phone) onPhone.pourInto(onPhone, at - 1, at, step, textHere);
        }
        best = Math.max(best, onPhone.best(at), onGap.best(at));
      }
    }

    // Quiet before the first word keeps the start open; amid speech anything does.
    const quiet = afterGap.score(0, 0);
    const quietToken = afterGap.token(0, 0);
    atJunction.clear();
    afterGap.clear();
    if (this.amidSpeech) afterGap.offer(0, this.free, 0, textHere);
    else if (quietToken === 0 && quiet > impossible) afterGap.offer(0, quiet + gap, 0, textHere);
    best = Math.max(best, afterGap.best(0));
    for (let arc = 0; arc < graph.arcs.length; arc++) {
      const last = (chainStart[arc + 1] ?? 0) - 1;
      this.leave(arc, onPhone, last, atJunction, phoneAt[last] ?? 0, best - beam);
      this.leave(arc, onGap, last, afterGap, -1, best - beam);
    }
    this.leap();
    this.best = best;
  }

  /** Whole sentences that end here, best first. */
  complete(): Hypothesis[] {
    const found = new Map<number, { token: number; score: number }>();
    for (const table of [this.atJunction, this.afterGap]) {
      for (let k = 0; k < kept; k++) {
        const score = table.score(1, k);
        const token = table.token(1, k);
        const text = this.textHere[token] ?? 0;
        if (score > impossible && token > 0 && score > (found.get(text)?.score ?? impossible)) found.set(text, { token, score });
      }
    }
    return [...found.values()].map(({ token, score }) => this.hypothesis(token, score)).sort((a, b) => b.rank - a.rank);
  }

  /** The score of the best way so far, whether or not its sentence is whole. */
  get bestScore(): number {
    return this.best;
  }

  /** The score of the likeliest string of phones whatever. */
  get freeScore(): number {
    return this.free;
  }

  private hypothesis(token: number, score: number): Hypothesis {
    const words: string[] = [];
    let phones = 0;
    let worstWord = 0;
    for (let at = token; at > 0; at = this.before[at] ?? 0) {
      const word = this.wordHere[at] ?? 0;
      const previous = this.before[at] ?? 0;
      words.unshift(this.words[word] ?? '');
      const length = this.phonesOfWord(word);
      phones += length;
      const own = (this.endScore[at] ?? 0) - (this.endScore[previous] ?? 0) - ((this.endFree[at] ?? 0) - (this.endFree[previous] ?? 0));
      worstWord = Math.min(worstWord, own / length);
    }
    return { words, score, phones, rank: score + this.perPhone * phones, worstWord, mayGoOn: this.mayGoOn(token) };
  }

  private mayGoOn(token: number): boolean {
    const text = this.textHere[token];
    for (const junction of this.leadingOn) {
      for (const table of [this.atJunction, this.afterGap]) {
        for (let k = 0; k < kept; k++)
          if (table.score(junction, k) > impossible && this.textHere[table.token(junction, k)] === text) return true;
      }
    }
    return false;
  }

  private phonesOfWord(word: number): number {
    const arc = this.wordOfArc.indexOf(word);
    return Math.max(1, (this.chainStart[arc + 1] ?? 0) - (this.chainStart[arc] ?? 0));
  }

  /** Tokens at the end of a word go on to the junction behind it, each with the word added. */
  private leave(arc: number, from: TokenTable, at: number, to: TokenTable, phone: number, least: number): void {
    const junction = this.graph.arcs[arc]?.to ?? 0;
    const word = this.wordOfArc[arc] ?? 0;
    for (let k = 0; k < kept; k++) {
      const score = from.score(at, k);
      if (score < least || score <= to.worst(junction)) continue;
      to.offer(junction, score, this.link(from.token(at, k), word, phone, score), this.textHere);
    }
  }

  private leap(): void {
    for (const [from, to] of this.graph.leaps) {
      this.afterGap.pourInto(this.afterGap, from, to, 0, this.textHere);
      this.atJunction.pourInto(this.atJunction, from, to, 0, this.textHere);
    }
  }

  private link(before: number, word: number, phone: number, score = 0): number {
    const key = `${before < 0 ? 0 : (this.textHere[before] ?? 0)} ${word}`;
    let text = this.texts.get(key);
    if (text === undefined) this.texts.set(key, (text = this.texts.size));
    this.before.push(before);
    this.wordHere.push(word);
    this.endScore.push(score);
    this.endFree.push(this.free);
    this.textHere.push(text);
    this.phoneHere.push(phone);
    return this.before.length - 1;
  }
}

/** For each place the best few tokens of different texts, best first. */
class TokenTable {
  private readonly scores: Float64Array;
  private readonly tokens: Int32Array;

  constructor(places: number) {
    this.scores = new Float64Array(places * kept);
    this.tokens = new Int32Array(places * kept);
  }

  clear(): void {
    this.scores.fill(impossible);
  }

  empty(place: number): void {
    this.scores.fill(impossible, place * kept, place * kept + kept);
  }

  best(place: number): number {
    return this.scores[place * kept] ?? impossible;
  }

  worst(place: number): number {
    return this.scores[place * kept + kept - 1] ?? impossible;
  }

  score(place: number, rank: number): number {
    return this.scores[place * kept + rank] ?? impossible;
  }

  token(place: number, rank: number): number {
    return this.tokens[place * kept + rank] ?? 0;
  }

  add(place: number, gain: number): void {
    for (let at = place * kept; at < place * kept + kept; at++) {
      const score = this.scores[at] ?? impossible;
      if (score > impossible) this.scores[at] = score + gain;
    }
  }

  /** Offers all of a place's tokens, each with a gain, to a place of another table or of this one. */
  pourInto(other: TokenTable, from: number, to: number, gain: number, textOf: readonly number[]): void {
    for (let k = 0; k < kept; k++) {
      const score = this.score(from, k);
      if (score > impossible) other.offer(to, score + gain, this.token(from, k), textOf);
    }
  }

  /** Takes a token among the best if it belongs there; returns its rank, or -1. */
  offer(place: number, score: number, token: number, textOf: readonly number[]): number {
    const { scores, tokens } = this;
    const start = place * kept;
    if (score <= (scores[start + kept - 1] ?? impossible)) return -1;
    const text = textOf[token];
    let free = kept - 1;
    for (let k = 0; k < kept; k++) {
      if ((scores[start + k] ?? impossible) > impossible && textOf[tokens[start + k] ?? 0] === text) {
        if ((scores[start + k] ?? impossible) >= score) return -1;
        free = k;
        break;
      }
    }
    let rank = free;
    while (rank > 0 && (scores[start + rank - 1] ?? impossible) < score) {
      scores[start + rank] = scores[start + rank - 1] ?? impossible;
      tokens[start + rank] = tokens[start + rank - 1] ?? 0;
      rank--;
    }
    scores[start + rank] = score;
    tokens[start + rank] = token;
    return rank;
  }
}
