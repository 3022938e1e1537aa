import { useEffect, useMemo } from 'react';
import type { ReactNode } from 'react';
import { theSpeechDesk } from './platform/desk.ts';
import { ServicesContext, theJournal } from './services.ts';
import { useSettings } from './settings-context.ts';

/** Ear and voice for the screens inside. Fetched with the first of them: the start page is silent and stands sooner without. */
export function WithSpeech({ children }: { readonly children: ReactNode }) {
  const { settings } = useSettings();
  const services = useMemo(() => ({ journal: theJournal(), speech: theSpeechDesk() }), []);
  useEffect(() => services.speech.apply(settings), [services, settings]);
  return <ServicesContext value={services}>{children}</ServicesContext>;
}
