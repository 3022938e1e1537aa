import type { Now } from '../../job/dialogue.ts';

/** One run of the app. The monotonic clock starts anew with it. */
export const appSession: string = newId();

export function now(): Now {
  const date = new Date();
  return { moment: { wall: date.getTime(), offset: -date.getTimezoneOffset(), mono: Math.round(performance.now()) }, session: appSession };
}

/** An id that no other device will make. `randomUUID` exists only in secure contexts; the rest works anywhere. */
export function newId(): string {
  if (typeof crypto.randomUUID === 'function') return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Today's date here, as ISO 8601 writes it. */
export function today(): string {
  const date = new Date();
  return [date.getFullYear(), String(date.getMonth() + 1).padStart(2, '0'), String(date.getDate()).padStart(2, '0')].join('-');
}
