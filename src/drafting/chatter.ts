import type { QuantitySpan } from './quantities.ts';
import type { Sentence } from './sentence-view.ts';

const wordsOf = (sentence: Sentence) => sentence.tokens.map(({ bare }) => bare).join(' ');

const stories =
  /\b(?:(?:i|we) had (?:a|this|one|some) (?:guy|lad|kid|customer|fella|student|apprentice|fellow|truck|van|bus|bike)|last (?:year|week|month|summer|winter)|years ago|back in the day|one time i|(?:a|some|this) (?:lad|guy|kid|fella|student|apprentice|customer|buddy) (?:in here|of mine|came|once|put|had|did|brought|snapped|broke)|quick story|true story|i(?:'ve)? (?:once|seen (?:a|guys|people|one))|i remember (?:one|when|a))\b/;

/** Where a story about another day begins, as a token's index, or null: nothing in it is about this job. */
export function storyFrom(sentence: Sentence): number | null {
  const words = wordsOf(sentence);
  const found = stories.exec(words);
  return found === null ? null : words.slice(0, found.index).split(' ').length - 1;
}

/** "my wrench goes from 10 up to 150", "I've got it set at 20 from before": said of the tool. */
export function isToolTalk(sentence: Sentence, quantity: QuantitySpan): boolean {
  const before = sentence.tokens
    .slice(Math.max(0, quantity.from - 9), quantity.from)
    .map(({ bare }) => bare)
    .join(' ');
  return (
    /\b(?:wrench|gun|impact|one) (?:here )?(?:only )?(?:goes|reads|starts|ranges|runs|maxes|stops|tops)\b/.test(before) ||
    /\b(?:don't go|don't exceed|never go|not go|not exceed|go over|goes over|more than|past|will snap|snaps at|strip(?:s)? at|breaks? at|shears? at|decal|sticker|label|book) ?(?:\w+ ){0,4}$/.test(
      before,
    )
  );
}

/** "it weighs about 140 pounds", "85 pounds and lopsided". */
export function weighs(sentence: Sentence, quantity: QuantitySpan): boolean {
  const around = sentence.tokens
    .slice(Math.max(0, quantity.from - 8), quantity.to + 6)
    .map(({ bare }) => bare)
    .join(' ');
  if (/\b(?:weighs?|weight|heavy|heavier|lopsided|lift|a ton)\b/.test(around)) return true;
  const before = sentence.tokens
    .slice(Math.max(0, quantity.from - 5), quantity.from)
    .map(({ bare }) => bare)
    .join(' ');
  return !/\b(?:torque|torqued|to|get|gets|take|takes|at|spec|tighten|tightened|on)\b/.test(before);
}
