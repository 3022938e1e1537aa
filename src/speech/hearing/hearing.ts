import { earFrame, EarStream, type EarFrame, type EarNetwork } from './ear-net.ts';
import { Endpoints, type EndpointSettings } from './endpoints.ts';
import { isSure, judge, type Evidence, type JudgeSettings, type Ruling, type SecondOpinion } from './judge.ts';
import { orAlone, parseJsgf, withOptionalStart, wordsOf, type Expansion, type Grammar } from './jsgf.ts';
import { Loudness, type LoudnessSettings } from './loudness.ts';
import { phoneGraph, type PhoneGraph } from './phone-graph.ts';
import { withOwnVoice, type OwnVoice } from './own-voice.ts';
import { PhoneSearch, type Hypothesis } from './phone-search.ts';
import type { Hearing, HearingEvent, HearingGrammar, RejectionReason } from './port.ts';
import { pronounce, type Pronunciations } from './pronunciations.ts';
import { SampleRing } from './sample-ring.ts';
import type { SecondEar } from './swallower-judge.ts';
import { bothLooks } from './two-looks.ts';

/** What `createHearing` needs; `loadHearingModels` makes it. */
export interface HearingModels {
  readonly network: EarNetwork;
  readonly dictionary: Pronunciations;
  /** Larger, and looks far ahead: for another look once somebody has done speaking. None where the language has none. */
  readonly closer: EarNetwork | null;
  readonly second: SecondEar;
}

/** Times in seconds. */
export interface HearingOptions {
  readonly endpoints: EndpointSettings;
  /**
   * Quiet that ends an utterance which is already a whole command: where the network is sure of it and nothing can follow; where it is sure
   * and what can follow means the same; where it is not so sure; where something else could follow; where another number could. And any other.
   */
  readonly pauseAtOnce: number;
  readonly pauseBeforeMore: number;
  readonly pauseAfterCommand: number;
  readonly pauseWithinCommand: number;
  readonly pauseWithinNumber: number;
  readonly pauseOtherwise: number;
  /** Quiet that ends a word which stops the work on the spot. */
  readonly pauseAfterStop: number;
  /** Shorter and longer utterances are no commands. */
  readonly shortest: number;
  readonly longest: number;
  /** Sound taken before and after what the endpointer marked. */
  readonly before: number;
  readonly after: number;
  /** After the name alone, a command may follow for so long. */
  readonly afterName: number;
  /**
   * Nats for each phone by which longer sentences are ranked higher. A sound that a sentence leaves out costs it less than one that it
   * wrongly has, so short ones would win: "done" over "three done".
   */
  readonly perPhone: number;
  /** Frames for which a sentence amid the app's own voice must fit no better before it counts. */
  readonly pastBest: number;
  /** How much the closer look counts beside the first, 0 to 1. */
  readonly closerShare: number;
  readonly judge: JudgeSettings;
  readonly loudness: LoudnessSettings;
}

export const defaultOptions: HearingOptions = {
  endpoints: { begin: 0.6, goOn: 0.35, beginFrames: 3, window: 6 },
  pauseAtOnce: 0.06,
  pauseBeforeMore: 0.1,
  pauseAfterCommand: 0.2,
  pauseWithinCommand: 0.3,
  pauseWithinNumber: 0.5,
  pauseOtherwise: 0.6,
  pauseAfterStop: 0.1,
  shortest: 0.12,
  longest: 4.5,
  before: 0.3,
  after: 0.1,
  afterName: 4,
  // Set on voices of mbrola and pico.
  perPhone: 0.75,
  pastBest: 2,
  closerShare: 0.8,
  // Set on flite rms with a network that had not heard it, and on talk by the tuning voices of the bench: DEVELOPERS.md, "The ear, measured".
  judge: {
    sure: { fit: -1.7, word: -6, lead: 1.5 },
    short: { fit: -1.2, word: -6, lead: 1.5 },
    number: { fit: -1.7, word: -6, lead: 4 },
    risky: { fit: -1, word: -4, lead: 3 },
    urgent: { fit: -1.7, word: -6, lead: 0.5 },
    amidSpeech: { fit: -1.4, word: -5, lead: 0 },
    atOnce: { fit: -0.6, word: -2, lead: 4 },
    longFrom: 6,
    agreed: -2,
    agreedForRisky: -1.6,
    agreedLead: 0.5,
    agreedLeadOfNumber: 2,
    slowest: 2,
    close: 4,
    overruled: -12,
    alone: null,
  },
  loudness: { tooLoudAt: 3, usableAgainAt: 6, hold: 2 },
};

/** The word that wakes the ear when it listens by name. */
export const ownName = 'undertray';

const rate = 16000;
const frameSeconds = earFrame / rate;
const stops = ['stop', 'stop stop', 'arrête arrête', 'arrête tout'];
const stopWords: ReadonlySet<string> = new Set([...stops, ...stops.map((stop) => `${ownName} ${stop}`)]);
/** Roughly what a phone takes, to tell when a sentence amid others began. */
const secondsOfPhone = 0.09;

/** Everything prepared for one grammar. */
interface Prepared {
  readonly grammar: Grammar;
  readonly graph: PhoneGraph;
  readonly search: PhoneSearch;
  /** Made when there is first something to look at more closely. */
  closerSearch: PhoneSearch | null;
  /** Words of which numbers are made, where the grammar has numbers. */
  readonly figures: ReadonlySet<string>;
}

/**
 * The local recogniser: a small network gives phones and the chance of speech, a search fits the grammar's sentences to the phones,
 * and a judge decides, with a closer look by a larger network where there is any doubt, and a second recogniser where that leaves some.
 * Sample indexes in its events count the samples pushed since it was made.
 */
export function createHearing(models: HearingModels, options: Partial<HearingOptions> = {}): Hearing {
  return new LocalHearing(models, { ...defaultOptions, ...options });
}

class LocalHearing implements Hearing {
  private readonly models: HearingModels;
  private readonly options: HearingOptions;
  private stream: EarStream;
  private readonly endpoints: Endpoints;
  private readonly loudness: Loudness;
  private readonly sound: SampleRing;
  private readonly recent: EarFrame[] = [];
  private readonly prepared = new Map<string, Prepared>();
  private grammar: HearingGrammar | null = null;
  private risky = new Set<string>();
  /** Wordings that could go on and mean something else; null where the grammar does not tell. */
  private openEnded: ReadonlySet<string> | null = null;
  private current: Prepared | null = null;
  /** The same grammar while the name may be left away, because it was just said. */
  private afterName: Prepared | null = null;
  private namedUntil = -1;
  private pushed = 0;
  /** Frames that were never told, because the network was exchanged. */
  private skipped = 0;
  private partial = '';
  /** What was made of the utterance up to a voiced frame, so that nothing is judged twice. */
  private judged: { readonly at: number; readonly text: string; readonly ruling: Ruling } | null = null;

  /** What was found amid other speech, where it fitted best so far. */
  private found: { readonly top: Evidence; readonly at: number } | null = null;

  constructor(models: HearingModels, options: HearingOptions) {
    this.models = models;
    this.options = options;
    this.stream = new EarStream(models.network);
    this.endpoints = new Endpoints(options.endpoints);
    this.loudness = new Loudness(options.loudness);
    this.sound = new SampleRing(Math.ceil((options.longest + 3) * rate));
  }

  setGrammar(grammar: HearingGrammar): void {
    this.grammar = grammar;
    this.risky = new Set(grammar.risky);
    this.openEnded = grammar.openEnded === undefined ? null : new Set(grammar.openEnded);
    this.current = this.prepare(grammar, false);
    this.afterName = grammar.nameFirst ? this.prepare(grammar, true) : null;
    // The utterance under way is heard against what may be said now.
    if (this.endpoints.start !== null) this.beginSearch();
  }

  useVoice(own: OwnVoice | null): boolean {
    const { network } = this.models;
    const fits = own === null || own.net === network.id;
    this.stream = new EarStream(own !== null && fits ? withOwnVoice(network, own) : network);
    this.recent.length = 0;
    this.forget();
    // What the stream before it had not told yet is gone: its next frame is the sound that comes next.
    this.skipped = Math.floor(this.pushed / earFrame) - (this.endpoints.now + 1);
    return fits;
  }

  push(samples: Float32Array): HearingEvent[] {
    const events: HearingEvent[] = [];
    this.pushed += samples.length;
    this.sound.push(samples);
    this.loudness.hear(samples);
    for (const frame of this.stream.push(samples)) events.push(...this.hear(frame));
    return events;
  }

  flush(): HearingEvent[] {
    // What the network has not yet seen the end of comes out with some quiet after it.
    const events = this.push(new Float32Array(Math.round(0.24 * rate)));
    return this.endpoints.start === null ? events : [...events, ...this.conclude()];
  }

  reset(): void {
    this.forget();
    this.namedUntil = -1;
  }

  dispose(): void {
    this.prepared.clear();
  }

  private hear(frame: EarFrame): HearingEvent[] {
    const events: HearingEvent[] = [];
    this.recent.push(frame);
    if (this.recent.length > 2 / frameSeconds) this.recent.shift();
    const begins = this.endpoints.push(frame.voice);
    if (begins) {
      events.push({ kind: 'speech-start', at: this.sampleAt(this.endpoints.start ?? 0) });
      this.beginSearch();
    } else if (this.endpoints.start !== null) {
      this.searching()?.push(frame.phones);
    }
    const change = this.loudness.frame(frame.voice >= this.options.endpoints.goOn, frameSeconds);
    if (change !== null) events.push(change);
    if (this.endpoints.start !== null) events.push(...this.consider());
    return events;
  }

  private beginSearch(): void {
    const search = this.searching();
    if (search === undefined) return;
    search.restart();
    this.found = null;
    const since = this.endpoints.now - (this.endpoints.start ?? 0) + Math.round(this.options.before / frameSeconds);
    for (const frame of this.recent.slice(-since - 1)) search.push(frame.phones);
  }

  private active(): Prepared | null {
    return this.afterName !== null && (this.endpoints.start ?? this.endpoints.now) <= this.namedUntil ? this.afterName : this.current;
  }

  private searching(): PhoneSearch | undefined {
    return this.active()?.search;
  }

  /** Whether the utterance under way is over, and if so what it was. */
  private consider(): HearingEvent[] {
    const { options, endpoints } = this;
    if (this.grammar?.overOwnVoice === true) {
      const found = this.amidSpeech();
      if (found.length > 0) return found;
    }
    const quiet = endpoints.quiet * frameSeconds;
    const lasted = (endpoints.now - (endpoints.start ?? 0)) * frameSeconds;
    if (quiet >= options.pauseOtherwise || lasted >= options.longest + options.pauseOtherwise) return this.conclude();
    const search = this.searching();
    if (search === undefined) return [];
    const [top] = search.complete();
    const text = top?.words.join(' ') ?? '';
    const whole = top !== undefined && top.score >= search.bestScore - 2;
    const over = whole && stopWords.has(text) && quiet >= options.pauseAfterStop;
    const pause = !whole ? options.pauseWithinCommand : this.pauseAfter(top);
    if ((over || quiet >= pause) && this.rule().accepted) return this.conclude();
    if (whole && quiet >= (top.mayGoOn ? options.pauseBeforeMore : options.pauseAtOnce) && this.isOverAtOnce(top)) return this.conclude();
    if (text === '' || quiet < options.pauseAfterStop || text === this.partial) return [];
    this.partial = text;
    return [{ kind: 'partial', text }];
  }

  /** Quiet after which a whole sentence is over, whatever the network makes of it. */
  private pauseAfter({ words, mayGoOn }: Hypothesis): number {
    const { options } = this;
    const text = words.join(' ');
    if (text === ownName) return options.pauseWithinCommand;
    if (!mayGoOn) return options.pauseAfterCommand;
    if (this.hasNumber(text)) return options.pauseWithinNumber;
    return this.meansTheSame(text) ? options.pauseAfterCommand : options.pauseWithinCommand;
  }

  /** Whether nothing else could follow the sentence, nothing hangs on it, and the network is so sure that there is little to wait for. */
  private isOverAtOnce({ words, mayGoOn }: Hypothesis): boolean {
    const search = this.searching();
    const text = words.join(' ');
    if (search === undefined || text === ownName || this.hasNumber(text) || this.risky.has(this.unnamed(text))) return false;
    if (mayGoOn && !this.meansTheSame(text)) return false;
    const [top] = this.evidenceOf(search.complete(), search.freeScore);
    return top !== undefined && isSure(top, this.options.judge.atOnce) && this.rule().accepted;
  }

  /** Whether all that the sentence could go on to means the same as the sentence itself. */
  private meansTheSame(text: string): boolean {
    return this.openEnded?.has(this.unnamed(text)) === false;
  }

  private unnamed(text: string): string {
    return text.startsWith(`${ownName} `) ? text.slice(ownName.length + 1) : text;
  }

  /**
   * A sentence that was just said amid other speech, which goes on. It fits best where its last sound is over, and better when somebody says it
   * than when it is only found in something else: so it is told with its best fit, as soon as that is past.
   */
  private amidSpeech(): HearingEvent[] {
    const search = this.searching();
    if (search === undefined) return [];
    const { now } = this.endpoints;
    const [top] = this.evidenceOf(search.complete(), search.freeScore);
    if (top !== undefined && isSure(top, this.options.judge.amidSpeech) && top.fit > (this.found?.top.fit ?? -Infinity))
      this.found = { top, at: now };
    if (this.found === null || now - this.found.at < this.options.pastBest) return [];
    const { top: best, at } = this.found;
    const to = this.sampleAt(at + 1);
    const from = Math.max(this.sampleAt(this.endpoints.start ?? 0), to - Math.round(best.phones * secondsOfPhone * rate));
    this.forget();
    return [
      { kind: 'speech-end', at: to },
      { kind: 'heard', alternatives: [{ text: best.text, confidence: 0.5 + 0.5 * Math.exp(best.fit) }], from, to },
    ];
  }

  private conclude(): HearingEvent[] {
    const { options, endpoints } = this;
    const start = endpoints.start ?? 0;
    const end = endpoints.lastVoiced + 1;
    const seconds = (end - start) * frameSeconds;
    const from = Math.max(0, this.sampleAt(start) - Math.round(options.before * rate));
    const to = this.sampleAt(end);
    const hypotheses = seconds <= options.longest ? (this.searching()?.complete() ?? []) : [];
    const [top] = hypotheses;
    const ruling = seconds <= options.longest && seconds >= options.shortest ? this.rule() : notAccepted;
    const justNamed = this.afterName !== null && this.active() === this.afterName;
    this.forget();

    const events: HearingEvent[] = [{ kind: 'speech-end', at: to }];
    const best = top?.words.join(' ') ?? '';
    const rejected = (why: RejectionReason): HearingEvent[] => [...events, { kind: 'rejected', why, text: best, from, to }];
    if (seconds > options.longest) return rejected('too-long');
    if (seconds < options.shortest) return rejected('too-short');
    if (!ruling.accepted)
      return rejected(top === undefined ? 'not-a-command' : this.grammar?.nameFirst === true && !justNamed ? 'no-name' : 'unclear');
    if (ruling.text === ownName) {
      this.namedUntil = endpoints.now + Math.round(options.afterName / frameSeconds);
      return events;
    }
    this.namedUntil = -1;
    const others = hypotheses
      .map((hypothesis) => ({
        text: hypothesis.words.join(' '),
        confidence: ruling.confidence * Math.min(1, Math.exp(hypothesis.rank - (top?.rank ?? 0))),
      }))
      .filter(({ text }) => text !== ruling.text && text !== ownName)
      // What the second recogniser overruled stays behind.
      .map((other) => ({
        ...other,
        confidence: best === ruling.text ? other.confidence : Math.min(other.confidence, ruling.confidence * 0.7),
      }));
    const named = (text: string): string => (justNamed && !text.startsWith(ownName) ? `${ownName} ${text}` : text);
    const alternatives = [{ text: ruling.text, confidence: ruling.confidence }, ...others].map((one) => ({
      ...one,
      text: named(one.text),
    }));
    return [...events, { kind: 'heard', alternatives, from, to }];
  }

  private rule(): Ruling {
    const at = this.endpoints.lastVoiced;
    const search = this.searching();
    // Over the app's own voice a sentence counts when it is said or not at all.
    if (search === undefined || this.grammar?.overOwnVoice === true) return notAccepted;
    const hypotheses = search.complete();
    const text = hypotheses[0]?.words.join(' ') ?? '';
    if (this.judged?.at === at && this.judged.text === text) return this.judged.ruling;
    const evidence = this.lookedAt(this.evidenceOf(hypotheses, search.freeScore));
    const kinds = {
      isRisky: (one: string) => this.risky.has(this.unnamed(one)),
      isUrgent: (one: string) => stopWords.has(one),
      hasNumber: (one: string) => this.hasNumber(one),
    };
    const seconds = (at + 1 - (this.endpoints.start ?? 0)) * frameSeconds;
    const ruling = judge(evidence, seconds, kinds, () => this.secondOpinion(evidence), this.options.judge);
    this.judged = { at, text, ruling };
    return ruling;
  }

  /** The evidence, with that of the closer look where the first leaves any doubt or much hangs on it. */
  private lookedAt(first: readonly Evidence[]): readonly Evidence[] {
    const { closer } = this.models;
    const prepared = this.active();
    const [top] = first;
    if (closer === null || prepared === null) return first;
    if (top !== undefined && isSure(top, this.options.judge.atOnce) && !this.risky.has(this.unnamed(top.text))) return first;
    prepared.closerSearch ??= new PhoneSearch(prepared.graph, false, this.options.perPhone);
    const search = prepared.closerSearch;
    search.restart();
    const stream = new EarStream(closer);
    for (const frames of [stream.push(this.utterance()), stream.finish()]) for (const { phones } of frames) search.push(phones);
    const second = this.evidenceOf(search.complete(), search.freeScore).map((one) => ({ ...one, text: this.asIn(first, one.text) }));
    return bothLooks(first, second, this.options.closerShare);
  }

  /** A sentence in the spelling that the evidence has for its sound. */
  private asIn(evidence: readonly Evidence[], text: string): string {
    return evidence.find((one) => this.soundAlike(one.text, text))?.text ?? text;
  }

  /** The sound of the utterance under way, with some before and after it. */
  private utterance(): Float32Array {
    const { before, after } = this.options;
    const from = Math.max(0, this.sampleAt(this.endpoints.start ?? 0) - Math.round((before + 0.2) * rate));
    return this.sound.slice(from, this.sampleAt(this.endpoints.lastVoiced + 1) + Math.round(after * rate));
  }

  private hasNumber(text: string): boolean {
    const figures = this.active()?.figures;
    return figures !== undefined && text.split(' ').some((word) => figures.has(word));
  }

  /** Two spellings of one sound ("metres", "meters") are one sentence; which of them is written is chance. */
  private evidenceOf(hypotheses: readonly Hypothesis[], freeScore: number): Evidence[] {
    const different: { text: string; hypothesis: Hypothesis }[] = [];
    for (const hypothesis of hypotheses) {
      const text = hypothesis.words.join(' ');
      if (!different.some((one) => this.soundAlike(one.text, text))) different.push({ text, hypothesis });
    }
    const best = different[0]?.hypothesis.rank ?? 0;
    return different.map(({ text, hypothesis: { score, rank, phones, worstWord } }, place) => ({
      ...{ text, phones, worstWord },
      fit: (score - freeScore) / phones,
      lead: place === 0 ? best - (different[1]?.hypothesis.rank ?? -Infinity) : rank - best,
    }));
  }

  private secondOpinion(evidence: readonly Evidence[]): SecondOpinion {
    const prepared = this.active();
    if (prepared === null) return { text: '', phones: 0, margin: () => -Infinity };
    const opinion = this.models.second.listen(prepared.grammar, this.utterance());
    return { ...opinion, text: this.asIn(evidence, opinion.text) };
  }

  /** "Metres" and "meters", and one and several of a unit: hardly ever told apart, and no grammar means something else by them. */
  private soundAlike(one: string, other: string): boolean {
    if (one === other) return true;
    const [a, b] = [one.split(' '), other.split(' ')];
    const ways = (word: string): readonly string[] => pronounce(word, this.models.dictionary);
    return (
      a.length === b.length &&
      a.every((word, index) => {
        const facing = b[index] ?? '';
        return (
          word === facing || word === `${facing}s` || facing === `${word}s` || ways(word).some((sound) => ways(facing).includes(sound))
        );
      })
    );
  }

  private prepare(grammar: HearingGrammar, nameSaid: boolean): Prepared {
    const amidSpeech = grammar.overOwnVoice === true;
    const key = `${nameSaid ? 'named ' : ''}${amidSpeech ? 'amid ' : ''}${grammar.jsgf}`;
    const known = this.prepared.get(key);
    if (known !== undefined) return known;
    const read = parseJsgf(grammar.jsgf);
    const own = nameSaid ? withOptionalStart(read, ownName) : amidSpeech ? read : orAlone(read, ownName);
    const { network, dictionary } = this.models;
    const number = new Map(network.phones.map((phone, index) => [phone, index + 1]));
    const graph = phoneGraph(own, (word) =>
      pronounce(word, dictionary).map((phones) => phones.split(' ').map((phone) => number.get(phone) ?? 0)),
    );
    const search = new PhoneSearch(graph, amidSpeech, this.options.perPhone);
    const made: Prepared = { grammar: own, graph, search, closerSearch: null, figures: figuresIn(own) };
    if (this.prepared.size >= keptGrammars) this.prepared.delete(this.prepared.keys().next().value ?? '');
    this.prepared.set(key, made);
    return made;
  }

  private forget(): void {
    this.endpoints.close();
    this.found = null;
    this.judged = null;
    this.partial = '';
  }

  private sampleAt(frame: number): number {
    return (frame + this.skipped) * earFrame;
  }
}

const keptGrammars = 24;
const notAccepted: Ruling = { accepted: false };

/** The rule that numbers hang on in the grammars of `phrasing/`. */
const numberRule = 'number';

function figuresIn(grammar: Grammar): ReadonlySet<string> {
  const number = grammar.rules.get(numberRule);
  return new Set(number === undefined ? [] : wordsOf({ start: numberRule, rules: reachedFrom(number, grammar) }));
}

function reachedFrom(expansion: Expansion, grammar: Grammar): Map<string, Expansion> {
  const reached = new Map<string, Expansion>([[numberRule, expansion]]);
  const visit = (one: Expansion): void => {
    if (one.kind === 'sequence') one.parts.forEach(visit);
    else if (one.kind === 'choice') one.options.forEach(visit);
    else if (one.kind === 'repeat') visit(one.of);
    else if (one.kind === 'rule' && !reached.has(one.name)) {
      const body = grammar.rules.get(one.name);
      if (body === undefined) return;
      reached.set(one.name, body);
      visit(body);
    }
  };
  visit(expansion);
  return reached;
}
