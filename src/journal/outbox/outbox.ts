import { notStored } from '../database.ts';
import type { Logged } from '../formats/logged.ts';
import { statements, xapiVersion } from '../formats/xapi.ts';
import type { XapiOptions } from '../formats/xapi.ts';
import type { NotStored } from '../port.ts';
import { answerOf } from './answers.ts';
import type { Answer } from './answers.ts';
import { senderStart, senderStep } from './sender.ts';
import type { SenderCommand, SenderEvent, SenderState } from './sender.ts';
import type { OutboxStore, RecordStoreSettings, Refused, Unsent } from './store.ts';

/** What the outbox needs from outside; tests pass their own. */
export interface OutboxDeps {
  readonly store: OutboxStore;
  readonly fetch: typeof fetch;
  /** Runs `act` after so many milliseconds unless the function that it returns is called first. */
  readonly after: (milliseconds: number, act: () => void) => () => void;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** A number from 0 up to 1. */
  readonly chance: () => number;
}

export interface OutboxStatus {
  readonly phase: SenderState['phase'];
  /** Why it has stopped until a person does something; null while it has not. */
  readonly halted: Extract<SenderState, { phase: 'halted' }>['reason'] | null;
  /** Null until they have been counted for the first time. */
  readonly unsent: number | null;
  /** Statements that the record store will not have; null likewise. */
  readonly refused: number | null;
  /** What came of the newest batch since the app was opened. */
  readonly last: { readonly answer: Answer['kind']; readonly at: number } | null;
}

export interface Outbox {
  /** Puts in the statements of a job that are not in yet, and sends. */
  put(logged: Logged, options?: XapiOptions): Promise<{ readonly ok: true; readonly added: number } | NotStored>;
  /** How many of the job's statements have been put in so far. */
  putIn(job: string): Promise<number>;
  /** To be called when the app opens and when the network comes back. */
  nudge(): void;
  status(): OutboxStatus;
  /** Calls `tell` at each change, until the function that it returns is called. */
  watch(tell: (status: OutboxStatus) => void): () => void;
  refused(): Promise<readonly Refused[]>;
  retryRefused(): Promise<void>;
  settings(): Promise<RecordStoreSettings | null>;
  keepSettings(settings: RecordStoreSettings | null): Promise<void>;
}

/** A record store that has not answered by then is taken not to. */
export const requestPatience = 30_000;

/**
 * Sends statements to a Learning Record Store (xAPI 1.0.3 over HTTP), in batches, until it has them all. A statement leaves the outbox
 * only when the store has named it as stored; since its id is always the same, sending it again after a lost answer does no harm,
 * nor do two tabs that send at once.
 */
export function makeOutbox({ store, fetch, after, now, chance }: OutboxDeps): Outbox {
  let state = senderStart;
  let counts: Pick<OutboxStatus, 'unsent' | 'refused'> = { unsent: null, refused: null };
  let last: OutboxStatus['last'] = null;
  let stopWaiting: () => void = () => undefined;
  let batch: readonly Unsent[] = [];
  const watchers = new Set<(status: OutboxStatus) => void>();

  function status(): OutboxStatus {
    return { phase: state.phase, halted: state.phase === 'halted' ? state.reason : null, ...counts, last };
  }

  async function recount(): Promise<void> {
    counts = await store.counts();
    for (const tell of watchers) tell(status());
  }

  function happen(event: SenderEvent): void {
    const [next, command] = senderStep(state, event);
    if (next.phase !== 'waiting' || state.phase !== 'waiting') stopWaiting();
    state = next;
    for (const tell of watchers) tell(status());
    carryOut(command).then(
      (outcome) => {
        if (outcome !== null) happen(outcome);
      },
      // Storage that fails has lost nothing: what is unsent stays so, and is tried again as after a network that failed.
      () => happen(unreachable(batch.length)),
    );
  }

  function unreachable(count: number): SenderEvent {
    return { type: 'answered', answer: { kind: 'unreachable' }, count, chance: chance() };
  }

  /** Does it and says what came of it; null when there is nothing to say yet. */
  async function carryOut(command: SenderCommand): Promise<SenderEvent | null> {
    switch (command.do) {
      case 'nothing':
        return null;
      case 'wait':
        stopWaiting = after(command.milliseconds, () => happen({ type: 'waited' }));
        return null;
      case 'send':
        batch = await store.first(command.size);
        if (batch.length === 0) return { type: 'nothing-left' };
        return { type: 'answered', answer: await remembered(post(batch)), count: batch.length, chance: chance() };
      case 'settle':
        return settle(command.ids === 'all' ? batch : batch.filter(({ id }) => command.ids.includes(id)));
      case 'judge':
        return judge(command.status);
    }
  }

  async function settle(stored: readonly Unsent[]): Promise<SenderEvent> {
    if (stored.length === 0) return unreachable(batch.length);
    await store.remove(stored);
    await recount();
    return { type: 'settled' };
  }

  async function judge(status: number): Promise<SenderEvent> {
    const [entry] = batch;
    if (entry !== undefined) {
      const isThere = status === 409 ? await isStored(entry) : false;
      if (isThere === null) return unreachable(1);
      if (isThere) await store.remove([entry]);
      else await store.refuse(entry, status);
    }
    await recount();
    return { type: 'settled' };
  }

  async function remembered(answered: Promise<Answer>): Promise<Answer> {
    const answer = await answered;
    last = { answer: answer.kind, at: now() };
    return answer;
  }

  async function post(entries: readonly Unsent[]): Promise<Answer> {
    const reply = await request('', { method: 'POST', body: `[${entries.map(({ body }) => body).join(',')}]` });
    if (reply === 'no-settings' || reply === 'switched-off') return { kind: 'halted', reason: reply };
    return reply === null ? { kind: 'unreachable' } : answerOf(reply, now());
  }

  /** Whether the store has this very statement; null when it does not say. */
  async function isStored({ id, hash }: Unsent): Promise<boolean | null> {
    const reply = await request(`?statementId=${id}`, { method: 'GET' });
    if (reply === null || reply === 'no-settings' || reply === 'switched-off') return null;
    if (reply.status === 404) return false;
    return reply.status === 200 ? reply.body.includes(`"${hash}"`) : null;
  }

  async function request(
    query: string,
    init: { readonly method: 'GET' | 'POST'; readonly body?: string },
  ): Promise<
    { readonly status: number; readonly retryAfter: string | null; readonly body: string } | 'no-settings' | 'switched-off' | null
  > {
    const settings = await store.settings();
    if (settings === null) return 'no-settings';
    if (!settings.isOn) return 'switched-off';
    const cutOff = new AbortController();
    const stop = after(requestPatience, () => cutOff.abort());
    try {
      const response = await fetch(`${settings.endpoint}/statements${query}`, {
        ...init,
        headers: {
          authorization: basicAuthorization(settings),
          'content-type': 'application/json',
          'x-experience-api-version': xapiVersion,
        },
        // A redirect could carry the key somewhere else; cookies have no business here; a page that closes lets the batch finish.
        redirect: 'error',
        credentials: 'omit',
        cache: 'no-store',
        signal: cutOff.signal,
      });
      return { status: response.status, retryAfter: response.headers.get('retry-after'), body: await response.text() };
    } catch {
      return null;
    } finally {
      stop();
    }
  }

  return {
    put: async (logged, options) => {
      try {
        const from = await store.putIn(logged.job);
        const made = [...statements(logged, options)];
        const entries = made.slice(from).map((statement, index): Unsent => {
          const { seq = from + index, hash = '' } = logged.events[from + index] ?? {};
          return { job: logged.job, seq, id: statement.id, hash, body: JSON.stringify(statement) };
        });
        if (entries.length > 0) await store.add(logged.job, made.length, entries);
        await recount();
        happen({ type: 'nudged' });
        return { ok: true, added: entries.length };
      } catch (error) {
        return notStored(error);
      }
    },
    putIn: (job) => store.putIn(job),
    nudge: () => {
      recount().then(
        () => happen({ type: 'nudged' }),
        () => happen(unreachable(0)),
      );
    },
    status,
    watch: (tell) => {
      watchers.add(tell);
      return () => watchers.delete(tell);
    },
    refused: () => store.refused(),
    retryRefused: async () => {
      await store.retryRefused();
      await recount();
      happen({ type: 'nudged' });
    },
    settings: () => store.settings(),
    keepSettings: async (settings) => {
      await store.keepSettings(settings);
      happen({ type: 'settings-changed' });
    },
  };
}

/** Basic authentication (RFC 7617), in UTF-8. */
function basicAuthorization({ key, secret }: RecordStoreSettings): string {
  const bytes = new TextEncoder().encode(`${key}:${secret}`);
  return `Basic ${btoa(String.fromCodePoint(...bytes))}`;
}
