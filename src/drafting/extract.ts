import { buildsOf, type TalkBuild } from './builds.ts';
import type { Group, Told } from './groups.ts';
import { itemsOf, type Component, type Item } from './items.ts';
import { withKilosTightened } from './kilos.ts';
import { sentencesOf, type SaidSentence } from './sentences.ts';
import { settle } from './settle.ts';
import { emptyTalk, type Doubt } from './talk.ts';
import { listen, noteUnits } from './telling.ts';
import type { Transcript } from './transcripts.ts';

/** What a talk-through says, before anything is made of it. */
export interface Heard {
  readonly sentences: readonly SaidSentence[];
  readonly builds: readonly TalkBuild[];
  readonly groups: readonly Group[];
  readonly doubts: readonly Doubt[];
  /** What a sentence is made of. */
  readonly itemsOf: (sentence: SaidSentence) => readonly Item[];
  /** The things that a sentence names, for whoever puts the talk in stages. */
  readonly thingsOf: (sentence: SaidSentence) => readonly Component[];
  /** How likely each value is right, where the talk was read by the net too (`reader/read-talk.ts`). */
  readonly chances?: ReadonlyMap<Told<unknown>, number>;
}

/** Listens to a whole talk-through. */
export function hearTalk(transcript: Transcript): Heard {
  const sentences = withKilosTightened(sentencesOf(transcript));
  const { builds, find } = buildsOf(sentences);
  const talk = emptyTalk();
  for (const sentence of sentences) noteUnits(talk, sentence);
  for (const sentence of sentences) listen(talk, sentence, find, sentences[sentence.index + 1] ?? null);
  const items = (sentence: SaidSentence) => itemsOf(sentence, find);
  const thingsOf = (sentence: SaidSentence) => items(sentence).filter((item) => item.kind === 'component');
  return { sentences, builds, groups: settle(talk, isOneSided(sentences)), doubts: talk.doubts, itemsOf: items, thingsOf };
}

/** "I'm doing the nearside, the offside is a mirror of it", "I've told you one side": what is spoken of in the singular is one. */
const isOneSided = (sentences: readonly SaidSentence[]): boolean =>
  sentences.some(({ tokens }) =>
    /\b(?:(?:doing|do|showing|show you|describing|describe|telling you|told you|talking about) (?:you )?(?:only |just )?(?:the |this |one )(?:nearside|offside|(?:left|right|driver|driver 's|passenger)(?: hand)? side|side)(?: only| today| now|$| and| the)|(?:other side|offside|nearside) (?:is|'s) (?:a |the )?(?:mirror|exactly the same))\b/.test(
      tokens.map(({ bare }) => bare).join(' '),
    ),
  );
