import { stepAtHand } from '../../job/dialogue.ts';
import { interpret } from '../../phrasing/interpret.ts';
import type { Intent } from '../../phrasing/intents.ts';
import type { Language } from '../../phrasing/language.ts';
import type { Runner } from '../work/runner.ts';

/** Takes what somebody typed as the job would take what it hears. */
export async function hearText(runner: Runner, text: string, language: Language, person: string): Promise<void> {
  const { dialogue, state, legal } = runner.view();
  const { cursor } = dialogue.job.work;
  const measure = cursor?.part.kind === 'measure' ? stepAtHand(dialogue.plan, dialogue.job)?.measures[cursor.part.index] : undefined;
  const understood = interpret([{ text, confidence: 1 }], {
    state,
    legal,
    language,
    names: person === '' ? [] : [person],
    measureUnit: measure?.unit ?? null,
    nameFirst: false,
  });
  if (understood.kind === 'intent') await runner.intent(understood.intent, text);
  else if (understood.kind === 'not-now') await runner.notNow(understood.intent, text);
  else await runner.notUnderstood(text);
}

/** Works everything before a step as if it had gone well. Ends at the step, or where nothing more would get nearer to it. */
export async function advanceTo(runner: Runner, step: number): Promise<void> {
  // Each turn is one answer; a job of the longest kind has some thousands.
  for (let turn = 0; turn < 20_000; turn++) {
    const { dialogue, state } = runner.view();
    const { work } = dialogue.job;
    const at = work.phase === 'working' ? (work.cursor?.step ?? 0) : -1;
    if (at >= step || state === 'closing' || state === 'signing' || state === 'closed') return;
    const next = wellDone(runner);
    if (next === null) return;
    await runner.intent(next);
  }
}

/** What somebody says who does everything right. */
function wellDone(runner: Runner): Intent | null {
  const { dialogue, state } = runner.view();
  const { cursor } = dialogue.job.work;
  switch (state) {
    case 'checking':
    case 'confirming':
      return { type: 'yes' };
    case 'measuring': {
      const measure = cursor?.part.kind === 'measure' ? stepAtHand(dialogue.plan, dialogue.job)?.measures[cursor.part.index] : undefined;
      return measure === undefined
        ? null
        : { type: 'number', value: (measure.min ?? measure.max ?? 0) / 2 + (measure.max ?? measure.min ?? 0) / 2, unit: null };
    }
    case 'visiting':
    case 'paused':
    case 'diagnosing':
      return { type: 'carry-on' };
    case 'briefing':
    case 'kit':
    case 'stating':
    case 'fastening':
    case 'waiting':
      return { type: 'done', count: 1 };
    case 'reasoning':
    case 'closing':
    case 'signing':
    case 'closed':
      return null;
  }
}
