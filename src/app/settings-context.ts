import { createContext, useContext } from 'react';
import type { Settings } from './settings.ts';

export interface SettingsAccess {
  readonly settings: Settings;
  readonly change: (change: Partial<Settings>) => void;
  /** False when the browser would not keep the last change. */
  readonly kept: boolean;
}

export const SettingsContext = createContext<SettingsAccess | null>(null);

export function useSettings(): SettingsAccess {
  const access = useContext(SettingsContext);
  if (access === null) throw new Error('useSettings outside App');
  return access;
}
