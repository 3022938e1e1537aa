/** What a record store's answer to a batch means for the batch (xAPI 1.0.3, part 3, 3.2; RFC 9110). */
export type Answer =
  /** Stored: the ids that it named, or all where it named none. */
  | { readonly kind: 'stored'; readonly ids: readonly string[] | 'all' }
  /** Something in the batch is not wanted. A batch is taken whole or not at all, so nothing of it is stored. */
  | { readonly kind: 'rejected'; readonly status: number }
  /** It will take the batch later; milliseconds where it said when. */
  | { readonly kind: 'busy'; readonly retryAfter: number | null }
  /** No answer, or one of a broken server: nobody knows whether the batch is stored. */
  | { readonly kind: 'unreachable' }
  /** No use in trying again before a person changes something. */
  | { readonly kind: 'halted'; readonly reason: HaltReason };

export type HaltReason = 'no-settings' | 'switched-off' | 'not-let-in' | 'wrong-address';

export interface Reply {
  readonly status: number;
  /** The `Retry-After` header, or null. */
  readonly retryAfter: string | null;
  readonly body: string;
}

export function answerOf({ status, retryAfter, body }: Reply, now: number): Answer {
  if (status === 200 || status === 204) return { kind: 'stored', ids: status === 204 ? 'all' : namedIds(body) };
  if (status === 400 || status === 409 || status === 413 || status === 422) return { kind: 'rejected', status };
  if (status === 401 || status === 403) return { kind: 'halted', reason: 'not-let-in' };
  if (status === 429 || status === 503) return { kind: 'busy', retryAfter: millisecondsUntil(retryAfter, now) };
  if (status === 408 || status >= 500) return { kind: 'unreachable' };
  return { kind: 'halted', reason: 'wrong-address' };
}

/** A body that is not the list of ids that it should be comes from something that is not a record store, and proves nothing stored. */
function namedIds(body: string): readonly string[] {
  try {
    const ids: unknown = JSON.parse(body);
    return Array.isArray(ids) ? ids.filter((id): id is string => typeof id === 'string') : [];
  } catch {
    return [];
  }
}

/** Seconds or a date (RFC 9110, 10.2.3); at most a day, so that a slip of the server's does not silence the device for good. */
export function millisecondsUntil(retryAfter: string | null, now: number): number | null {
  if (retryAfter === null) return null;
  const wait = /^\d+$/u.test(retryAfter.trim()) ? Number(retryAfter) * 1000 : Date.parse(retryAfter) - now;
  return Number.isNaN(wait) ? null : Math.min(Math.max(wait, 0), 86_400_000);
}
