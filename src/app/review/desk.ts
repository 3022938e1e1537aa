import { createContext, startTransition, useContext, useEffect, useState } from 'react';
import type { TrainerNotes } from '../../review/notes.ts';
import type { Answers, Facts, Question, Terms, View } from '../../review/review.ts';
import type { ReviewClient } from './client.ts';
import type { Reader } from './read-aloud.ts';

/** What every view of the review needs. */
export interface ReviewDesk {
  readonly client: ReviewClient;
  readonly facts: Facts;
  readonly terms: Terms;
  readonly notes: TrainerNotes;
  readonly changeNotes: (notes: TrainerNotes) => void;
  readonly reader: Reader;
  /** The procedure that views of a single one show. */
  readonly procedure: string;
  readonly chooseProcedure: (procedure: string) => void;
  readonly go: (place: Place) => void;
}

/** Where in the review one is. */
export interface Place {
  readonly view: ViewName;
  readonly procedure?: string;
  readonly step?: string;
  readonly person?: number;
  readonly jobs?: readonly string[];
}

export const viewNames = ['glance', 'steps', 'people', 'learning', 'orders', 'runs', 'fair', 'groups', 'sheet', 'logs'] as const;
type ViewName = (typeof viewNames)[number];

export const DeskContext = createContext<ReviewDesk | null>(null);

export function useDesk(): ReviewDesk {
  const desk = useContext(DeskContext);
  if (desk === null) throw new Error('outside of the review');
  return desk;
}

/** The answer to a question; the one before stays until the new one is here. `undefined` before the first. */
export function useAnswer<Asked extends View>(question: Question<Asked>): Answers[Asked] | undefined {
  const { client, terms, facts } = useDesk();
  const [answer, setAnswer] = useState<{ readonly to: string; readonly answer: Answers[Asked] } | undefined>(undefined);
  const asked = JSON.stringify(question);
  useEffect(() => {
    let isCurrent = true;
    // Parsed again so that the effect depends on what is asked and not on the object that asks it.
    void client.ask(JSON.parse(asked) as Question<Asked>, terms).then((found) => {
      // Drawn bit by bit, so that a large answer does not hold the page up.
      if (isCurrent) startTransition(() => setAnswer({ to: asked, answer: found }));
    });
    return () => {
      isCurrent = false;
    };
  }, [client, asked, terms, facts]);
  return answer?.answer;
}
