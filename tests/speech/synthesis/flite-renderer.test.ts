import { beforeEach, expect, it } from 'vitest';
import type { FromFliteWorker, ToFliteWorker } from '../../../src/speech/synthesis/flite-messages.ts';
import type { FliteRenderer, FliteWorker } from '../../../src/speech/synthesis/flite-renderer.ts';
import { createFliteRenderer } from '../../../src/speech/synthesis/flite-renderer.ts';
import { settle } from '../doubles/manual-clock.ts';

class Worker implements FliteWorker {
  onmessage: ((event: { readonly data: FromFliteWorker }) => unknown) | null = null;
  onerror: ((event: { readonly message: string }) => unknown) | null = null;
  readonly asked: ToFliteWorker[] = [];
  terminated = false;

  postMessage(message: ToFliteWorker): void {
    this.asked.push(message);
  }

  terminate(): void {
    this.terminated = true;
  }

  tell(data: FromFliteWorker): void {
    this.onmessage?.({ data });
  }

  /** Answers the last text with so many seconds of speech. */
  speak(seconds: number): void {
    const last = this.asked.at(-1);
    if (last?.kind !== 'speak') throw new Error('Nothing was asked.');
    this.tell({ kind: 'spoken', id: last.id, speech: { samples: new Float32Array(seconds * 100), sampleRate: 100 } });
  }
}

const style = { voice: 'slt', rate: 1 } as const;
let workers: Worker[];
let shares: number[];
let renderer: FliteRenderer;

beforeEach(() => {
  workers = [];
  shares = [];
  renderer = createFliteRenderer({
    makeWorker: () => {
      const worker = new Worker();
      workers.push(worker);
      return worker;
    },
    onProgress: (loaded, total) => shares.push(loaded / total),
    cacheSeconds: 5,
  });
});

async function render(text: string, seconds: number) {
  const rendered = renderer.render(text, style);
  await settle();
  workers.at(-1)?.speak(seconds);
  return rendered;
}

async function loaded() {
  const loading = renderer.load();
  workers[0]?.tell({ kind: 'progress', loaded: 1, total: 4 });
  workers[0]?.tell({ kind: 'loaded' });
  await loading;
}

it('loads once, with progress, and renders what it is asked for', async () => {
  await loaded();
  await renderer.load();
  expect(workers).toHaveLength(1);
  expect(shares).toEqual([0.25]);
  await expect(render('Bolt three.', 1)).resolves.toMatchObject({ kind: 'rendered', speech: { sampleRate: 100 } });
});

it('does not render again what it still has, and lets go of what was used longest ago', async () => {
  await loaded();
  await render('One.', 2);
  await render('Two.', 2);
  await renderer.render('One.', style);
  expect(workers[0]?.asked).toHaveLength(3);
  await render('Three.', 2);
  await renderer.render('One.', style);
  expect(workers[0]?.asked).toHaveLength(4);
  void renderer.render('Two.', style);
  await settle();
  expect(workers[0]?.asked).toHaveLength(5);
});

it('renders anew for another rate', async () => {
  await loaded();
  await render('One.', 1);
  void renderer.render('One.', { ...style, rate: 0.8 });
  await settle();
  expect(workers[0]?.asked.at(-1)).toMatchObject({ style: { rate: 0.8 } });
});

it('refuses when the voice cannot be fetched, and tries again next time', async () => {
  const first = renderer.render('One.', style);
  workers[0]?.tell({ kind: 'failed', message: 'offline' });
  await expect(first).resolves.toMatchObject({ kind: 'refused', error: 'synthesis-unavailable' });
  expect(workers[0]?.terminated).toBe(true);
  const second = renderer.render('One.', style);
  workers[1]?.tell({ kind: 'loaded' });
  await settle();
  workers[1]?.speak(1);
  await expect(second).resolves.toMatchObject({ kind: 'rendered' });
});

it('refuses everything that was waiting when the worker dies', async () => {
  await loaded();
  const waiting = [renderer.render('One.', style), renderer.render('Two.', style)];
  await settle();
  workers[0]?.onerror?.({ message: 'out of memory' });
  await expect(Promise.all(waiting)).resolves.toMatchObject([{ error: 'synthesis-failed' }, { error: 'synthesis-failed' }]);
  expect(renderer.isLoaded).toBe(false);
});
