import type { CDPSession, Page } from 'playwright-core';

interface TraceEvent {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  /** Microseconds that the thread ran for. */
  readonly tdur?: number;
  readonly args: { readonly name?: string };
}

/**
 * Follows the page's own thread by Chromium's trace. `stop` gives the longest that a task ran for, in milliseconds of the thread itself: what the
 * clock would have said of it had no other program wanted the processor.
 */
export async function followTasks(page: Page): Promise<{ stop(): Promise<number> }> {
  const session: CDPSession = await page.context().newCDPSession(page);
  const events: TraceEvent[] = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  const traceConfig = { includedCategories: ['toplevel'], traceBufferSizeInKb: 400_000 };
  await session.send('Tracing.start', { transferMode: 'ReportEvents', traceConfig });
  return {
    async stop() {
      const complete = new Promise<boolean>((resolve) =>
        session.once('Tracing.tracingComplete', ({ dataLossOccurred }) => resolve(!dataLossOccurred)),
      );
      await session.send('Tracing.end');
      if (!(await complete)) throw new Error('the trace had no room for every task');
      await session.detach();
      const pages = new Set(
        events.filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain').map(({ pid, tid }) => `${pid}/${tid}`),
      );
      const tasks = events.filter(({ name, pid, tid }) => name.endsWith('RunTask') && pages.has(`${pid}/${tid}`));
      return tasks.reduce((longest, { tdur }) => Math.max(longest, (tdur ?? 0) / 1000), 0);
    },
  };
}
