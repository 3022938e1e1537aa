import { EarStream, earFrame, type EarNetwork } from '../hearing/ear-net.ts';
import { Endpoints } from '../hearing/endpoints.ts';
import { defaultOptions } from '../hearing/hearing.ts';
import { parseJsgf } from '../hearing/jsgf.ts';
import { phoneGraph } from '../hearing/phone-graph.ts';
import { PhoneSearch } from '../hearing/phone-search.ts';
import { pronounce, type Pronunciations } from '../hearing/pronunciations.ts';
import { SampleRing } from '../hearing/sample-ring.ts';

export type Found =
  { readonly kind: 'take'; readonly text: string; readonly sound: Float32Array } | { readonly kind: 'unlike'; readonly text: string };

const rate = 16_000;
const frameSeconds = earFrame / rate;
/** Seconds. */
const shortest = 0.25;
const longest = 4;
const quietAround = 0.3;
const quietThatEnds = 0.6;
/** How badly the words may fit, for each phone: an accent fits badly, which is what enrolment is for; other words fit far worse. */
const worstFit = -4;

/** Cuts what was asked for out of the sound, one utterance at a time. 16 kHz samples go in. */
export class TakeFinder {
  private readonly network: EarNetwork;
  private readonly dictionary: Pronunciations;
  private readonly endpoints = new Endpoints(defaultOptions.endpoints);
  private readonly sound = new SampleRing(Math.ceil((longest + 3) * rate));
  private readonly recent: Float32Array[] = [];
  private readonly stream: EarStream;
  private asked: { readonly text: string; readonly search: PhoneSearch } | null = null;

  constructor(network: EarNetwork, dictionary: Pronunciations) {
    this.network = network;
    this.dictionary = dictionary;
    this.stream = new EarStream(network);
  }

  /** What to wait for; null pays no heed. */
  ask(text: string | null): void {
    this.endpoints.close();
    this.recent.length = 0;
    this.asked = text === null ? null : { text, search: this.searchFor(text) };
  }

  push(samples: Float32Array): Found[] {
    this.sound.push(samples);
    const found: Found[] = [];
    for (const { phones, voice } of this.stream.push(samples)) {
      this.recent.push(phones);
      if (this.recent.length > (longest + 2) / frameSeconds) this.recent.shift();
      this.endpoints.push(this.asked === null ? 0 : voice);
      const { start, quiet, now } = this.endpoints;
      if (start === null) continue;
      const lasted = (now - start) * frameSeconds;
      if (quiet * frameSeconds >= quietThatEnds || lasted >= longest + quietThatEnds) found.push(this.conclude());
    }
    return found;
  }

  private conclude(): Found {
    const { start, lastVoiced, now } = this.endpoints;
    const { text = '', search } = this.asked ?? {};
    const began = start ?? 0;
    const seconds = (lastVoiced + 1 - began) * frameSeconds;
    const margin = Math.round(quietAround / frameSeconds);
    search?.restart();
    for (const phones of this.recent.slice(-(now - began + 1) - margin)) search?.push(phones);
    const [said] = search?.complete() ?? [];
    const fit = said === undefined || search === undefined ? -Infinity : (said.score - search.freeScore) / said.phones;
    this.endpoints.close();
    if (seconds < shortest || seconds > longest || fit < worstFit) return { kind: 'unlike', text };
    const from = Math.max(0, (began - margin) * earFrame);
    return { kind: 'take', text, sound: this.sound.slice(from, (lastVoiced + 1 + margin) * earFrame) };
  }

  private searchFor(text: string): PhoneSearch {
    const number = new Map(this.network.phones.map((phone, index) => [phone, index + 1]));
    const grammar = parseJsgf(`#JSGF V1.0;\ngrammar asked;\npublic <asked> = ${text};\n`);
    return new PhoneSearch(
      phoneGraph(grammar, (word) =>
        pronounce(word, this.dictionary).map((phones) => phones.split(' ').map((phone) => number.get(phone) ?? 0)),
      ),
    );
  }
}
