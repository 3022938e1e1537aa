import type { Plan } from '../../procedure/plan-types.ts';
import type { TrainerNotes } from '../../review/notes.ts';
import type { Answers, Facts, Question, Terms, View } from '../../review/review.ts';
import type { FromWorker, LogSource, Progress, ToWorker } from './protocol.ts';

interface ReviewListener {
  readonly onProgress: (progress: Progress) => void;
  readonly onFacts: (facts: Facts) => void;
  readonly onFailed: (message: string) => void;
}

/** The review's worker, as the page sees it. */
export interface ReviewClient {
  read(sources: readonly LogSource[]): void;
  demonstrate(plans: readonly Plan[]): void;
  takeNotes(notes: TrainerNotes): void;
  /** Never answered when newer logs are read meanwhile: whoever asks must be ready to ask again. */
  ask<Asked extends View>(question: Question<Asked>, terms: Terms): Promise<Answers[Asked]>;
  close(): void;
}

export function makeReviewClient(listener: ReviewListener): ReviewClient {
  const worker = new Worker(new URL('./review.worker.ts', import.meta.url), { type: 'module', name: 'review' });
  const waiting = new Map<number, (answer: Answers[View]) => void>();
  let id = 0;
  worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => {
    switch (data.kind) {
      case 'progress':
        listener.onProgress(data.progress);
        return;
      case 'settled':
        performance.measure('review-import', { start: performance.now() - data.took, end: performance.now() });
        listener.onFacts(data.facts);
        return;
      case 'facts':
        listener.onFacts(data.facts);
        return;
      case 'failed':
        listener.onFailed(data.message);
        return;
      case 'answer':
        performance.measure('review-answer', { start: performance.now() - data.took, end: performance.now() });
        waiting.get(data.id)?.(data.answer);
        waiting.delete(data.id);
    }
  });
  worker.addEventListener('error', (event) => listener.onFailed(event.message));
  const send = (message: ToWorker): void => worker.postMessage(message);
  return {
    read(sources) {
      waiting.clear();
      send({ kind: 'read', sources });
    },
    demonstrate(plans) {
      waiting.clear();
      send({ kind: 'demonstrate', plans });
    },
    takeNotes: (notes) => send({ kind: 'notes', notes }),
    ask<Asked extends View>(question: Question<Asked>, terms: Terms) {
      id += 1;
      const own = id;
      return new Promise<Answers[Asked]>((resolve) => {
        // The worker answers a question with its own kind of answer; the wire has forgotten which.
        waiting.set(own, resolve as (answer: Answers[View]) => void);
        // One of the questions, whichever: the compiler does not widen through the type parameter.
        send({ kind: 'ask', id: own, question: question as Question, terms });
      });
    },
    close: () => worker.terminate(),
  };
}
