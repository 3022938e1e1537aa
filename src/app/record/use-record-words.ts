import { useSettings } from '../settings-context.ts';
import { en } from './words/en.ts';
import type { RecordWords } from './words/en.ts';
import { fr } from './words/fr.ts';

/** These come with the lazy pages that say them, both languages at once: together they are smaller than a picture. */
export function useRecordWords(): RecordWords {
  const { settings } = useSettings();
  return settings.language === 'fr' ? fr : en;
}
