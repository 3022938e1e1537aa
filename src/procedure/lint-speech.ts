import type { Remark } from './finding.ts';
import type { Procedure } from './format.ts';
import type { OutlinedStep, Path } from './outline.ts';
import type { Prompt } from './told.ts';

/** Words that a listener keeps in mind at once: about ten seconds of speech at 180 words a minute. Our own choice. */
export const hearable = { sentence: 30, caution: 34, question: 22, explanation: 70 } as const;

/** Rules about how it sounds. */
export function speechRemarks(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Remark[] {
  return [...longPrompts(procedure, steps), ...soundAlikes(steps)];
}

function longPrompts(procedure: Procedure, steps: readonly OutlinedStep[]): readonly Remark[] {
  const remarks: Remark[] = [];
  const judge = (text: string | undefined, allowed: number, what: Prompt, path: Path) => {
    const words = text === undefined ? 0 : text.split(' ').length;
    if (words <= allowed) return;
    remarks.push({
      severity: 'warning',
      path,
      told: { code: 'too-long-to-hear', what, words, allowed },
    });
  };
  procedure.cautions.forEach(({ text }, index) => judge(text, hearable.caution, 'caution', ['cautions', index, 'text']));
  procedure.before.forEach(({ check }, index) => judge(check, hearable.sentence, 'check', ['before', index, 'check']));
  for (const { step, path } of steps) {
    judge(step.do, hearable.sentence, 'sentence', [...path, 'do']);
    judge(step.why, hearable.explanation, 'why', [...path, 'why']);
    judge(step.where, hearable.explanation, 'where', [...path, 'where']);
    step.cautions.forEach(({ text }, index) => judge(text, hearable.caution, 'caution', [...path, 'cautions', index, 'text']));
    step.hold.forEach(({ ask }, index) => judge(ask, hearable.question, 'question', [...path, 'hold', index, 'ask']));
    step['stop signs'].forEach(({ ask }, index) => judge(ask, hearable.question, 'question', [...path, 'stop signs', index, 'ask']));
  }
  return remarks;
}

function soundAlikes(steps: readonly OutlinedStep[]): readonly Remark[] {
  const heard = new Map<string, OutlinedStep>();
  return steps.flatMap((outlined): Remark[] => {
    const sound = soundOf(outlined.step.do);
    const first = heard.get(sound);
    if (first === undefined) {
      heard.set(sound, outlined);
      return [];
    }
    return [
      {
        severity: 'warning',
        path: [...outlined.path, 'do'],
        told: {
          code: 'sounds-alike',
          number: outlined.number,
          first: first.number,
          sentence: first.step.do,
          same: first.step.do === outlined.step.do,
        },
      },
    ];
  });
}

/**
 * The consonants as they sound, word by word, so that "clean the seat" and "clean the seed" come out alike. A rough
 * grouping of our own, after the idea of phonetic indexing: voiced and unvoiced partners are one, vowels only count at the start.
 */
export function soundOf(sentence: string): string {
  return sentence
    .toLowerCase()
    .replace(/[^a-z0-9\s]+/g, '')
    .split(/\s+/)
    .filter((word) => word !== 'a' && word !== 'an' && word !== 'the')
    .map((word) =>
      word
        .replace(/ph/g, 'f')
        .replace(/gh(?=t|$)/g, '')
        .replace(/^kn/, 'n')
        .replace(/^wr/, 'r')
        .replace(/ck|[ckqg]/g, 'k')
        .replace(/[bp]/g, 'p')
        .replace(/[dt]/g, 't')
        .replace(/[fv]/g, 'f')
        .replace(/[szx]/g, 's')
        .replace(/[mn]/g, 'n')
        .replace(/^[aeiouy]/, 'a')
        .replace(/(?<=.)[aeiouyhw]/g, '')
        .replace(/([a-z])\1+/g, '$1'),
    )
    .join(' ');
}
