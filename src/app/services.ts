import { createContext, useContext } from 'react';
import type { Journal } from '../journal/port.ts';
import { browserJournal } from '../journal/browser-journal.ts';
import { appSession } from './platform/clock.ts';
import type { SpeechDesk } from './speech-desk.ts';

/** The adapters of the screens that speak and listen, wired once. */
export interface Services {
  readonly journal: Journal;
  readonly speech: SpeechDesk;
}

let journal: Journal | null = null;

/** One journal for the page: its locks belong to the tab. */
export function theJournal(): Journal {
  journal ??= browserJournal({
    session: appSession,
    // The types promise it, but a page that is not in a secure context has none.
    locks: (navigator as { readonly locks?: LockManager }).locks ?? null,
    indexedDB,
    after: (milliseconds, act) => {
      const timer = setTimeout(act, milliseconds);
      return () => clearTimeout(timer);
    },
  });
  return journal;
}

export const ServicesContext = createContext<Services | null>(null);

export function useServices(): Services {
  const services = useContext(ServicesContext);
  if (services === null) throw new Error('useServices outside WithSpeech');
  return services;
}
