import { expect, it } from 'vitest';
import { parseJsgf } from '../../../src/speech/hearing/jsgf.ts';
import { phoneGraph } from '../../../src/speech/hearing/phone-graph.ts';
import { PhoneSearch } from '../../../src/speech/hearing/phone-search.ts';

const phones: Readonly<Record<string, readonly number[]>> = { three: [1], done: [2] };
const graph = phoneGraph(parseJsgf('#JSGF V1.0;\ngrammar g;\npublic <g> = done | three done;\n'), (word) => [phones[word] ?? []]);

/** Log probabilities of "nothing new", the phone of "three" and that of "done". */
const frames = [
  [-0.1, -5, -5],
  [-0.6, -0.9, -5],
  [-0.1, -5, -5],
  [-5, -5, -0.1],
  [-0.1, -5, -5],
];

function bestOf(perPhone: number): { readonly text: string; readonly score: number } {
  const search = new PhoneSearch(graph, false, perPhone);
  for (const frame of frames) search.push(Float32Array.from(frame));
  const [best] = search.complete();
  return { text: best?.words.join(' ') ?? '', score: best?.score ?? NaN };
}

it('holds a word half heard for nothing, unless length counts', () => {
  expect(bestOf(0).text).toBe('done');
  expect(bestOf(0.75).text).toBe('three done');
});

it('lets length count for the rank alone: the score stays that of the sound', () => {
  expect(bestOf(0).score).toBeCloseTo(-1);
  expect(bestOf(0.75).score).toBeCloseTo(-1.3);
});
