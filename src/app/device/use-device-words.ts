import { useSettings } from '../settings-context.ts';
import { en } from './words/en.ts';
import type { DeviceWords } from './words/en.ts';
import { fr } from './words/fr.ts';

const all: Readonly<Record<'en' | 'fr', DeviceWords>> = { en, fr };

export function useDeviceWords(): DeviceWords {
  return all[useSettings().settings.language];
}
