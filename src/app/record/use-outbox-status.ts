import { useState, useSyncExternalStore } from 'react';
import type { Outbox, OutboxStatus } from '../../journal/outbox/outbox.ts';

/** The status is made anew at each question, so the newest told is kept: React wants the same object while nothing has changed. */
export function useOutboxStatus(outbox: Outbox): OutboxStatus {
  const [watched] = useState(() => {
    let newest = outbox.status();
    return {
      look: () => newest,
      watch: (changed: () => void) =>
        outbox.watch((status) => {
          newest = status;
          changed();
        }),
    };
  });
  return useSyncExternalStore(watched.watch, watched.look);
}
