import { EarStream, type EarNetwork } from '../../../src/speech/hearing/ear-net.ts';
import { Endpoints } from '../../../src/speech/hearing/endpoints.ts';
import { defaultOptions } from '../../../src/speech/hearing/hearing.ts';
import { parseJsgf, type Grammar } from '../../../src/speech/hearing/jsgf.ts';
import type { Hearing, HearingEvent, HearingGrammar } from '../../../src/speech/hearing/port.ts';
import { SampleRing } from '../../../src/speech/hearing/sample-ring.ts';
import type { SecondEar } from '../../../src/speech/hearing/swallower-judge.ts';

const frame = 320;
const pause = 25;
/** Score over any phones whatever, for each 10 ms, from which a sentence is taken. */
const leastMargin = 6;

/** The decoder by itself, for comparison: the network only says when somebody speaks. */
export class DecoderEar implements Hearing {
  useVoice(): boolean {
    return false;
  }

  private readonly stream: EarStream;
  private readonly endpoints = new Endpoints(defaultOptions.endpoints);
  private readonly sound = new SampleRing(8 * 16000);
  private readonly second: SecondEar;
  private readonly grammars = new Map<string, Grammar>();
  private grammar: Grammar | null = null;

  constructor(network: EarNetwork, second: SecondEar) {
    this.stream = new EarStream(network);
    this.second = second;
  }

  setGrammar({ jsgf }: HearingGrammar): void {
    const known = this.grammars.get(jsgf) ?? parseJsgf(jsgf);
    this.grammars.set(jsgf, known);
    this.grammar = known;
  }

  push(samples: Float32Array): HearingEvent[] {
    this.sound.push(samples);
    return this.stream.push(samples).flatMap(({ voice }) => {
      this.endpoints.push(voice);
      return this.endpoints.start !== null && this.endpoints.quiet >= pause ? this.conclude() : [];
    });
  }

  flush(): HearingEvent[] {
    return this.endpoints.start === null ? [] : this.conclude();
  }

  reset(): void {
    this.endpoints.close();
  }

  dispose(): void {
    this.reset();
  }

  private conclude(): HearingEvent[] {
    const from = Math.max(0, (this.endpoints.start ?? 0) * frame - 8000);
    const to = (this.endpoints.lastVoiced + 1) * frame + 1600;
    this.endpoints.close();
    if (this.grammar === null || to - from > 5 * 16000) return [];
    const opinion = this.second.listen(this.grammar, this.sound.slice(from, to));
    if (opinion.text === '' || opinion.margin() < leastMargin) return [];
    return [{ kind: 'heard', alternatives: [{ text: opinion.text, confidence: 0.8 }], from, to }];
  }
}
