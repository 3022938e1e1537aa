import { stepAtHand } from '../../job/dialogue.ts';
import { useRecordWords } from '../record/use-record-words.ts';
import type { RunnerView } from '../work/runner.ts';
import { KeptNotes } from './kept-notes.tsx';

/** What was noted at the step at hand, folded away until somebody wants it. */
export function StepNotes({ view, job }: { readonly view: RunnerView; readonly job: string }) {
  const words = useRecordWords().notes;
  const { plan, job: state } = view.dialogue;
  const step = stepAtHand(plan, state);
  const notes = state.work.notes.filter((note) => step !== null && note.step === step.id);
  if (notes.length === 0) return null;
  return (
    <details>
      <summary>{`${words.title}: ${notes.length}`}</summary>
      <KeptNotes job={job} plan={plan} notes={notes} />
    </details>
  );
}
