import { mutated, seeded } from './mutate.ts';
import type { Target } from './targets.ts';

export interface Finding {
  readonly target: string;
  readonly input: string;
  readonly what: string;
}

export interface FuzzReport {
  readonly inputs: number;
  readonly findings: readonly Finding[];
  /** Processor milliseconds of the slowest input. */
  readonly slowest: number;
}

export interface FuzzOptions {
  readonly inputs: number;
  readonly seed: number;
  /** Processor milliseconds so far. The wall clock would blame a busy machine on the input. */
  readonly processorTime: () => number;
  readonly onProgress?: (done: number) => void;
}

/** Processor milliseconds beyond which an input counts as a hang. */
const tooSlow = 1_000;
const mostFindings = 20;

/** Gives each target its share of changed files, and tells what crashed, hung, let markup through or reached a prototype. */
export function fuzz(targets: readonly Target[], { inputs, seed, processorTime, onProgress }: FuzzOptions): FuzzReport {
  const random = seeded(seed);
  const findings: Finding[] = [];
  const prototypes = prototypeKeys();
  const everySeed = targets.flatMap(({ seeds }) => seeds);
  const turns = targets.flatMap((target) => Array.from({ length: target.share }, () => target));
  let slowest = 0;
  let done = 0;
  for (; done < inputs && findings.length < mostFindings; done += 1) {
    const target = turns[done % turns.length];
    const from = target?.seeds[Math.floor(random() * target.seeds.length)];
    if (target === undefined || from === undefined) throw new Error('a target without a file to change');
    const input = mutated(from, everySeed, random);
    const found = (what: string) => findings.push({ target: target.name, input, what });
    const before = processorTime();
    try {
      const leak = target.use(input).find((document) => /<(?:img|script)\b[^>]*fuzzed|<script/iu.test(document));
      if (leak !== undefined) found('markup came through');
    } catch (error) {
      found(error instanceof Error ? (error.stack ?? error.message) : String(error));
    }
    const took = processorTime() - before;
    slowest = Math.max(slowest, took);
    if (took > tooSlow) found(`took ${Math.round(took)} ms`);
    if (prototypeKeys() !== prototypes) {
      found('a prototype was changed');
      break;
    }
    if (done % 1000 === 999) onProgress?.(done + 1);
  }
  return { inputs: done, findings, slowest };
}

function prototypeKeys(): string {
  return [Object.prototype, Array.prototype, String.prototype, Function.prototype, Map.prototype, Number.prototype]
    .map((prototype) => Reflect.ownKeys(prototype).map(String).join())
    .join('|');
}
