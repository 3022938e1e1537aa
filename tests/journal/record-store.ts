import { createServer } from 'node:http';
import type { IncomingMessage, ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { RecordStoreSettings } from '../../src/journal/outbox/store.ts';
import { isSameStatement, statementProblems } from './xapi-rules.ts';

/** What goes wrong with one request to store. */
export type Fault =
  | { readonly kind: 'drop before storing' }
  | { readonly kind: 'drop after storing' }
  /** Stores so many, then the line goes dead: what a store without transactions does when it crashes. */
  | { readonly kind: 'store a part and drop'; readonly count: number }
  /** Stores and names so many, and says that all is well. */
  | { readonly kind: 'store and name a part'; readonly count: number }
  | { readonly kind: 'answer'; readonly status: number; readonly headers?: Readonly<Record<string, string>>; readonly body?: string }
  /** Takes the request and says nothing; stores or not. */
  | { readonly kind: 'say nothing'; readonly stores: boolean }
  /** Stores, and the answer ends in the middle. */
  | { readonly kind: 'half an answer' };

export interface Seen {
  readonly method: string;
  readonly ids: readonly string[];
}

/**
 * A Learning Record Store on this machine only, as strict as the specification lets it be: it wants the version header, the key, JSON and
 * valid statements, takes a batch whole or not at all, and answers a known id with other contents with a conflict.
 */
export class RecordStore {
  readonly settings: RecordStoreSettings;
  readonly stored = new Map<string, unknown>();
  readonly seen: Seen[] = [];
  /** Taken one by one, a fault a request to store. */
  readonly faults: Fault[] = [];
  /** Called when a request is left without an answer. */
  onSilence: () => void = () => undefined;
  /** Some stores call any known id a conflict, the same contents or not. */
  conflictsOnSame = false;
  readonly #server;

  private constructor(server: ReturnType<typeof createServer>) {
    this.#server = server;
    const { port } = server.address() as AddressInfo;
    this.settings = { endpoint: `http://127.0.0.1:${port}/xapi`, key: 'device-7', secret: 'grüße', isOn: true };
  }

  static async open(): Promise<RecordStore> {
    const server = createServer();
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const store = new RecordStore(server);
    server.on('request', (request, response) => void store.#answer(request, response));
    return store;
  }

  async close(): Promise<void> {
    this.#server.closeAllConnections();
    await new Promise((resolve) => this.#server.close(resolve));
  }

  async #answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    // A page of another origin asks first (Fetch, 3.2); stores that serve browsers let it.
    response.setHeader('access-control-allow-origin', '*');
    response.setHeader('access-control-allow-headers', 'authorization, content-type, x-experience-api-version');
    if (request.method === 'OPTIONS') {
      response.writeHead(204).end();
      return;
    }
    const body = await bodyOf(request);
    const url = new URL(request.url ?? '', 'http://127.0.0.1');
    const refused = this.#refusal(request, url);
    if (refused !== null) {
      reply(response, refused, 'refused');
      return;
    }
    if (request.method === 'GET') {
      const id = url.searchParams.get('statementId') ?? '';
      this.seen.push({ method: 'GET', ids: [id] });
      const found = this.stored.get(id);
      reply(response, found === undefined ? 404 : 200, found ?? 'no such statement');
      return;
    }
    const batch = parsed(body);
    const ids = batch?.map((statement) => String((statement as { readonly id?: unknown }).id)) ?? [];
    this.seen.push({ method: request.method ?? '', ids });
    this.#take(batch, ids, this.faults.shift(), request, response);
  }

  #refusal(request: IncomingMessage, url: URL): number | null {
    if (url.pathname !== '/xapi/statements') return 404;
    const key = Buffer.from(`${this.settings.key}:${this.settings.secret}`, 'utf8').toString('base64');
    if (request.headers.authorization !== `Basic ${key}`) return 401;
    if (request.headers['x-experience-api-version'] !== '1.0.3') return 400;
    if (request.method === 'GET') return null;
    if (request.method !== 'POST') return 405;
    return request.headers['content-type'] === 'application/json' ? null : 400;
  }

  #take(
    batch: readonly unknown[] | null,
    ids: readonly string[],
    fault: Fault | undefined,
    request: IncomingMessage,
    response: ServerResponse,
  ): void {
    if (fault?.kind === 'answer') {
      for (const [name, value] of Object.entries(fault.headers ?? {})) response.setHeader(name, value);
      reply(response, fault.status, fault.body ?? 'told to');
      return;
    }
    if (fault?.kind === 'drop before storing') {
      request.socket.destroy();
      return;
    }
    if (fault?.kind === 'say nothing' && !fault.stores) {
      this.onSilence();
      return;
    }
    const status = this.#judge(batch, ids);
    if (status !== 200 || batch === null) {
      reply(response, status, 'not these');
      return;
    }
    const count = fault?.kind === 'store a part and drop' || fault?.kind === 'store and name a part' ? fault.count : batch.length;
    for (const [index, statement] of batch.slice(0, count).entries()) this.stored.set(ids[index] ?? '', withStoredFields(statement));
    if (fault?.kind === 'drop after storing' || fault?.kind === 'store a part and drop') request.socket.destroy();
    else if (fault?.kind === 'say nothing') this.onSilence();
    else if (fault?.kind === 'half an answer') {
      response.writeHead(200, { 'content-type': 'application/json', 'content-length': '10000' });
      response.write(JSON.stringify(ids).slice(0, 20), () => request.socket.destroy());
    } else reply(response, 200, ids.slice(0, count));
  }

  #judge(batch: readonly unknown[] | null, ids: readonly string[]): number {
    if (batch === null || batch.length === 0 || new Set(ids).size < ids.length) return 400;
    if (batch.some((statement) => statementProblems(statement).length > 0)) return 400;
    const known = batch.filter((_, index) => this.stored.has(ids[index] ?? ''));
    if (known.length > 0 && this.conflictsOnSame) return 409;
    return batch.every((statement, index) => this.#isNewOrSame(statement, ids[index] ?? '')) ? 200 : 409;
  }

  #isNewOrSame(statement: unknown, id: string): boolean {
    return !this.stored.has(id) || isSameStatement(withStoredFields(statement), this.stored.get(id));
  }
}

/** A store adds to a statement and may write its time otherwise; here it always does. */
function withStoredFields(statement: unknown): unknown {
  const { timestamp } = statement as { readonly timestamp: string };
  const authority = { objectType: 'Agent', account: { homePage: 'https://records.example', name: 'device-7' } };
  return {
    ...(statement as object),
    timestamp: new Date(timestamp).toISOString(),
    authority,
    version: '1.0.3',
    stored: '2031-04-14T12:00:00.000Z',
  };
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part as Buffer);
  return Buffer.concat(parts).toString('utf8');
}

function parsed(body: string): readonly unknown[] | null {
  try {
    const value: unknown = JSON.parse(body);
    return Array.isArray(value) ? value : null;
  } catch {
    return null;
  }
}

function reply(response: ServerResponse, status: number, body: unknown): void {
  response.writeHead(status, { 'content-type': 'application/json', 'x-experience-api-version': '1.0.3' });
  response.end(typeof body === 'string' ? body : JSON.stringify(body));
}
