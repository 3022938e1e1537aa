import { useCallback, useEffect, useMemo } from 'react';
import { useLocation } from 'wouter';
import { stepAtHand } from '../../job/dialogue.ts';
import { now } from '../platform/clock.ts';
import { theRecordings } from '../record/stores.ts';
import type { Runner, RunnerView } from '../work/runner.ts';
import type { NoteDesk } from './kept.ts';
import { NoteTaker } from './note-taker.tsx';
import { PhotoTaker } from './photo-taker.tsx';

/** What the job has asked the device for: a note, a picture, the screen for handing over. */
export function Wanted({ view, runner, job }: { readonly view: RunnerView; readonly runner: Runner; readonly job: string }) {
  const [, navigate] = useLocation();
  const { wants } = view;
  const over = useCallback(() => runner.brought(), [runner]);
  const desk = useMemo<NoteDesk>(
    () => ({
      recordings: theRecordings(),
      job,
      step: () => {
        const { dialogue } = runner.view();
        return stepAtHand(dialogue.plan, dialogue.job)?.id ?? null;
      },
      now,
      note: (note) => runner.note(note),
      trouble: (code) => runner.trouble(code),
      events: () => runner.view().events,
    }),
    [runner, job],
  );
  useEffect(() => {
    if (wants === 'hand-over') navigate(`/hand-over/${job}`);
  }, [wants, job, navigate]);
  if (wants === 'note') return <NoteTaker desk={desk} onOver={over} />;
  return wants === 'photo' ? <PhotoTaker desk={desk} onOver={over} /> : null;
}
