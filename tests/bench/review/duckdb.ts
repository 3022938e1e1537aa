import { DuckDBInstance } from '@duckdb/node-api';

/** What the other way of answering took, and what it answered. Milliseconds and seconds. */
export interface DuckDbFigures {
  readonly importSeconds: number;
  readonly questionMilliseconds: number;
  /** Bytes of this process at its most, less what it had before. */
  readonly memory: number;
  readonly events: number;
  readonly steps: readonly DuckDbStep[];
}

export interface DuckDbStep {
  readonly step: string;
  readonly runs: number;
  readonly median: number;
  readonly hasWaits: boolean;
}

/**
 * The same logs in DuckDB on as many threads as a phone's page would get: read into a table of events, then into one row for each step of each
 * run as the review does at import, then asked for the quartiles of one procedure's steps in one group. Waits within steps are left in:
 * steps with timers are marked, so that only the others are compared.
 */
export async function askDuckDb(files: readonly string[], procedure: string, group: string): Promise<DuckDbFigures> {
  const before = process.memoryUsage.rss();
  let most = before;
  const watch = setInterval(() => (most = Math.max(most, process.memoryUsage.rss())), 100);
  const instance = await DuckDBInstance.create(':memory:', { threads: '2' });
  const connection = await instance.connect();
  const list = files.map((file) => `'${file}'`).join(', ');
  let begun = performance.now();
  await connection.run(`
    create table events as
    select job, seq, session, moment.mono as mono, step, event.type as type, event.step as own, event.how as how,
      event.procedure as procedure, event."group" as "group"
    from read_json([${list}], format = 'newline_delimited', maximum_object_size = 33554432, columns = {
      job: 'varchar', seq: 'integer', session: 'varchar', step: 'varchar', moment: 'struct(mono double)',
      event: 'struct("type" varchar, step varchar, how varchar, procedure varchar, "group" varchar)'
    }) where event is not null`);
  await connection.run(`
    create table runs as select job, procedure, "group" from events where type = 'opened'`);
  await connection.run(`
    create table cells as
    with marked as (
      select job, session, type, mono, how,
        lag(mono) over run as mono_before, lag(session) over run as session_before,
        case type when 'step-begun' then own when 'step-finished' then '' when 'finish-asked' then '' end as sets,
        case type when 'paused' then true when 'left-open' then true when 'resumed' then false end as halts,
        own, seq
      from events window run as (partition by job order by seq)
    ), placed as (
      select *, last_value(sets ignore nulls) over before as at_hand, last_value(halts ignore nulls) over before as halted
      from marked window before as (partition by job order by seq rows between unbounded preceding and 1 preceding)
    )
    select job, coalesce(nullif(at_hand, ''), own) as step,
      sum(case when at_hand <> '' and session = session_before and not coalesce(halted, false) then mono - mono_before else 0 end) as active,
      arg_max(how, seq) filter (type = 'step-finished') as how,
      bool_or(type in ('timer-ended', 'wait-cut-short')) as waits
    from placed where at_hand <> '' group by all`);
  const importSeconds = (performance.now() - begun) / 1000;
  begun = performance.now();
  const answer = await connection.runAndReadAll(
    `select step, count(*) as runs, quantile_cont(active, [0.25, 0.5, 0.75]) as quartiles, bool_or(waits) as waits
     from cells join runs using (job) where procedure = $procedure and "group" = $group and how = 'done' group by step order by step`,
    { procedure, group },
  );
  const questionMilliseconds = performance.now() - begun;
  const counted = await connection.runAndReadAll('select count(*) from events');
  clearInterval(watch);
  connection.closeSync();
  const steps = answer.getRowsJson().map(([step, runs, quartiles, waits]) => ({
    step: typeof step === 'string' ? step : '',
    runs: Number(runs),
    median: Number((quartiles as readonly unknown[])[1]) / 1000,
    hasWaits: waits === true,
  }));
  return {
    importSeconds,
    questionMilliseconds,
    memory: most - before,
    events: Number(counted.getRowsJson()[0]?.[0]),
    steps,
  };
}
