import type { FliteStyle, Speech } from './flite.ts';

/** From the page to the voice's worker. */
export type ToFliteWorker =
  { readonly kind: 'load' } | { readonly kind: 'speak'; readonly id: number; readonly text: string; readonly style: FliteStyle };

/** From the voice's worker to the page. */
export type FromFliteWorker =
  | { readonly kind: 'progress'; readonly loaded: number; readonly total: number }
  | { readonly kind: 'loaded' }
  | { readonly kind: 'failed'; readonly message: string }
  | { readonly kind: 'spoken'; readonly id: number; readonly speech: Speech }
  | { readonly kind: 'not-spoken'; readonly id: number; readonly message: string };
