export interface DraftTask {
  readonly transcript: string;
  readonly name: string;
}

/** A procedure file; or no fastener is spoken of; or a file of the app that is wanted for it could not be fetched. */
export type DraftAnswer =
  { readonly kind: 'drafted'; readonly file: string } | { readonly kind: 'nothing' } | { readonly kind: 'unreachable' };

/** Drafts beside the page, which stays in hand meanwhile: a long talk takes seconds on a phone. Rejects where the worker fails. */
export function draft(task: DraftTask): Promise<DraftAnswer> {
  const worker = new Worker(new URL('./draft.worker.ts', import.meta.url), { type: 'module', name: 'draft' });
  return new Promise<DraftAnswer>((resolve, reject) => {
    worker.addEventListener('message', ({ data }: MessageEvent<DraftAnswer>) => resolve(data));
    worker.addEventListener('error', ({ message }) => reject(new Error(message)));
    worker.postMessage(task);
  }).finally(() => worker.terminate());
}
