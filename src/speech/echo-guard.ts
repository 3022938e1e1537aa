/** Something that the microphone picked up, with when it began and ended in milliseconds. */
export interface PickedUp {
  readonly text: string;
  readonly from: number;
  readonly to: number;
  /** It means one of the things that may interrupt. */
  readonly interrupts: boolean;
}

export type EchoVerdict =
  /** Somebody else said it. */
  | 'pass'
  /** It can be the app's own voice: the words are the ones being said. */
  | 'own-words'
  /** Said while the app speaks, and nothing that may interrupt. */
  | 'while-speaking'
  /** No more than an earcon of the app's own. */
  | 'own-sound';

export interface EchoGuard {
  /** A stretch of text begins to sound. */
  speechBegins(text: string, at: number): void;
  speechEnds(at: number): void;
  /** An earcon sounds from one time to another. */
  sounds(from: number, to: number): void;
  judge(heard: PickedUp): EchoVerdict;
}

/** Milliseconds for which the room and the loudspeaker's own delay keep a sound alive. */
export const echoTail = 300;
/** How exactly the beginning of speech is known, in milliseconds. */
const slack = 60;
/** An answer that begins within the tail must go on for so long after it, or it is the end of the echo. */
const beyondTail = 200;
/** Stretches older than this cannot be heard any more, however late a recogniser is. */
const forgetAfter = 15_000;

interface Stretch {
  readonly words: readonly string[];
  readonly from: number;
  to: number;
}

/** Keeps the app from obeying itself: it knows what was said when, and judges what was heard against that. */
export function createEchoGuard(): EchoGuard {
  let speech: Stretch[] = [];
  let earcons: { from: number; to: number }[] = [];

  return {
    speechBegins(text, at) {
      speech = speech.filter(({ to }) => to > at - forgetAfter);
      speech.push({ words: wordsOf(text), from: at, to: Infinity });
    },
    speechEnds(at) {
      for (const stretch of speech) stretch.to = Math.min(stretch.to, at);
    },
    sounds(from, to) {
      earcons = earcons.filter((earcon) => earcon.to > from - forgetAfter);
      earcons.push({ from, to });
    },
    judge({ text, from, to, interrupts }) {
      const over = speech.filter((stretch) => to > stretch.from && from < stretch.to + echoTail);
      if (over.length === 0) {
        const covered = earcons.some((earcon) => from >= earcon.from - slack && to <= earcon.to + echoTail);
        return covered ? 'own-sound' : 'pass';
      }
      const said = over.flatMap(({ words }) => words);
      const isEcho = canBePartOf(wordsOf(text), said);
      const during = over.some((stretch) => from < stretch.to - slack);
      if (during) {
        if (!interrupts) return 'while-speaking';
        return isEcho ? 'own-words' : 'pass';
      }
      if (isEcho) return 'own-words';
      const ended = Math.max(...over.map((stretch) => stretch.to));
      return interrupts || to > ended + echoTail + beyondTail ? 'pass' : 'while-speaking';
    },
  };
}

function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/[\p{L}\p{N}']+/gu) ?? [];
}

/** Whether the words come one after the other in what was said, each as it was said or so near that a recogniser mistakes it. */
function canBePartOf(words: readonly string[], said: readonly string[]): boolean {
  if (words.length === 0) return true;
  return said.some((_, start) => words.every((word, n) => soundsLike(word, said[start + n] ?? '')));
}

/** The same word, or one letter apart in words of three letters or more ("step" and "stop"), or one the beginning of the other ("stopped" and "stop"). */
function soundsLike(a: string, b: string): boolean {
  if (a === b) return true;
  if (a.length < 3 || b.length < 3) return false;
  return a.startsWith(b) || b.startsWith(a) || isOneLetterApart(a, b);
}

function isOneLetterApart(a: string, b: string): boolean {
  const [short, long] = a.length <= b.length ? [a, b] : [b, a];
  if (long.length - short.length > 1) return false;
  let at = 0;
  while (at < short.length && short[at] === long[at]) at++;
  return short.length === long.length ? short.slice(at + 1) === long.slice(at + 1) : short.slice(at) === long.slice(at + 1);
}
