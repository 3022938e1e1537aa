import { useCallback, useEffect, useMemo } from 'react';
import { jobFile, logFileType } from '../../journal/log-file.ts';
import type { Journal } from '../../journal/port.ts';
import { PageTop } from '../pages/page-top.tsx';
import { useServices } from '../services.ts';
import { useWords } from '../words/words.ts';
import { deviceNotes } from './notes-store.ts';
import type { LogSource } from './protocol.ts';
import { makeReader } from './read-aloud.ts';
import { ReviewPage } from './review-page.tsx';

// Procedures are read only for the invented workshop.
const shippedPlans = () => import('./shipped-plans.ts').then((module) => module.shippedPlans());

/** The review with this device's own journal, procedures and voice. */
export function ReviewScreen() {
  const words = useWords();
  const { journal, speech } = useServices();
  const loadLogs = useCallback(() => ownLogs(journal), [journal]);
  const reader = useMemo(() => makeReader(speech), [speech]);
  useEffect(() => () => reader.stop(), [reader]);
  return (
    <ReviewPage
      loadLogs={loadLogs}
      loadPlans={shippedPlans}
      notes={deviceNotes}
      reader={reader}
      top={<PageTop title={words.nav.review} />}
    />
  );
}

/** Every job of this device, open or finished, written out as it would be exported. One that cannot be read goes out as it stands. */
async function* ownLogs(journal: Journal): AsyncGenerator<LogSource> {
  const found = await journal.jobs();
  if (!found.ok) throw new Error(found.detail);
  for (const job of [...found.jobs.map((one) => one.job), ...found.damaged]) {
    const read = await journal.read(job);
    if (read.ok) yield source(job, [...jobFile(read.stored)]);
    else if (read.code === 'record-corrupt')
      yield source(
        job,
        [read.header, ...read.lines].map((line) => `${line}\n`),
      );
  }
}

const source = (job: string, pieces: readonly string[]): LogSource => ({
  name: `${job}.jsonl`,
  blob: new Blob([...pieces], { type: logFileType }),
});
