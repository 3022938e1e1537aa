/// <reference lib="webworker" />
import type { Plan } from '../../procedure/plan-types.ts';
import { chainedLines } from '../../review/demonstration/lines.ts';
import { workshopRuns } from '../../review/demonstration/workshop.ts';
import type { Intake } from '../../review/intake/intake.ts';
import { makeIntake } from '../../review/intake/intake.ts';
import { settle } from '../../review/intake/settle.ts';
import type { TrainerNotes } from '../../review/notes.ts';
import { noNotes } from '../../review/notes.ts';
import type { Review } from '../../review/review.ts';
import { makeReview } from '../../review/review.ts';
import { writtenFrom } from '../../review/written.ts';
import { pieces, unzipped } from './pieces.ts';
import type { FromWorker, LogSource, ToWorker } from './protocol.ts';
import { isUnchanged } from './unchanged.ts';

/** Up to this many bytes each hash is computed anew; beyond it, each is compared with the one that the next line names. */
const mostToVerify = 48 * 2 ** 20;
const progressEvery = 100;
/** Runs of each procedure by each apprentice: months of work, grown in a few seconds. */
const demonstrationRuns = 5;

const scope = self as unknown as DedicatedWorkerGlobalScope;
let review: Review | null = null;
let notes: TrainerNotes = noNotes;
/** Reading is told from an older one that is still under way. */
let reading = 0;

scope.addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  switch (data.kind) {
    case 'read':
      void reportFailure(read(data.sources));
      return;
    case 'demonstrate':
      void reportFailure(demonstrate(data.plans));
      return;
    case 'notes':
      notes = data.notes;
      review?.takeNotes(notes);
      if (review !== null) send({ kind: 'facts', facts: review.facts() });
      return;
    case 'ask': {
      if (review === null) return;
      const begun = performance.now();
      const answer = review.ask(data.question, data.terms);
      send({ kind: 'answer', id: data.id, answer, took: performance.now() - begun });
    }
  }
});

function send(message: FromWorker): void {
  scope.postMessage(message);
}

async function reportFailure(work: Promise<void>): Promise<void> {
  try {
    await work;
  } catch (error) {
    send({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
}

async function read(sources: readonly LogSource[]): Promise<void> {
  reading += 1;
  const own = reading;
  // What was read before goes first, so that both need not fit into memory.
  review = null;
  const begun = performance.now();
  const of = sources.reduce((sum, { blob }) => sum + blob.size, 0);
  const intake = makeIntake({ release, ...(of <= mostToVerify ? { isUnchanged } : {}) });
  let bytes = 0;
  let told = begun;
  for (const { name, blob } of sources) {
    intake.open(name);
    for await (const piece of name.endsWith('.gz') ? unzipped(blob) : pieces(blob)) {
      if (own !== reading) return;
      intake.feed(piece);
      bytes += piece.length;
      const now = performance.now();
      if (now - told < progressEvery) continue;
      told = now;
      send({ kind: 'progress', progress: { bytes, of, lines: intake.report().lines } });
    }
    intake.close();
  }
  finish(intake, begun);
}

function finish(intake: Intake, begun: number): void {
  const report = intake.report();
  review = makeReview(settle(intake.staged()), report);
  review.takeNotes(notes);
  send({ kind: 'settled', facts: review.facts(), took: performance.now() - begun });
}

/**
 * Stands in for the hash of a line that is made, read and forgotten within this worker: each is another one, and that is all that the
 * intake asks of it. Hashing would take most of the time.
 */
function numbering(): () => string {
  let count = 0;
  return () => {
    count += 1;
    return count.toString(16).padStart(32, '0').repeat(2);
  };
}

/**
 * By moving it into a buffer of no length. Browsers from before 2024 leave it to their garbage collection. Not for what a Blob was read into:
 * Chromium keeps that alive by itself, and no longer knows how much it is.
 */
function release({ buffer }: { readonly buffer: ArrayBufferLike & { readonly transfer?: (length: number) => unknown } }): void {
  buffer.transfer?.(0);
}

/** The plans are known here already, so the logs are grown without the headers that would carry them. */
async function demonstrate(plans: readonly Plan[]): Promise<void> {
  reading += 1;
  const own = reading;
  review = null;
  const begun = performance.now();
  const intake = makeIntake({ release, written: plans.flatMap((plan) => writtenFrom(plan) ?? []) });
  const encoder = new TextEncoder();
  const numbered = numbering();
  let told = begun;
  for (const run of workshopRuns(plans, { seed: 7, runs: demonstrationRuns })) {
    intake.open(`${run.job}.jsonl`);
    intake.feed(encoder.encode(`${chainedLines(run, numbered).join('\n')}\n`));
    intake.close();
    const now = performance.now();
    if (now - told < progressEvery) continue;
    told = now;
    send({ kind: 'progress', progress: { bytes: 0, of: 0, lines: intake.report().lines } });
    // Lets a newer wish be heard.
    await new Promise((resolve) => setTimeout(resolve, 0));
    if (own !== reading) return;
  }
  finish(intake, begun);
}
