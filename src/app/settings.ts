import type { IntentName } from '../phrasing/intents.ts';
import { intentNames } from '../phrasing/intents.ts';
import type { Language } from '../phrasing/language.ts';
import { isLanguage, languages } from '../phrasing/language.ts';
import type { TorqueUnit } from '../torque/quantities.ts';
import { torqueUnits } from '../torque/quantities.ts';

export const waysToListen = ['open', 'name-first', 'held', 'off'] as const;
export type WayToListen = (typeof waysToListen)[number];

/** What a key or a pedal does: an intent, or talking while it is held. */
export type KeyAction = IntentName | 'talk';

/** What a person has chosen on this device. None of it belongs to a job. */
export interface Settings {
  readonly v: 1;
  readonly language: Language;
  readonly person: string;
  readonly group: string;
  /** Null speaks each torque in its source's unit. */
  readonly unit: TorqueUnit | null;
  readonly theme: 'dark' | 'light' | 'system';
  readonly listen: WayToListen;
  readonly ear: 'automatic' | 'browser' | 'local';
  readonly voice: 'automatic' | 'browser' | 'local' | 'off';
  /** Whether the browser may send audio to a service of its maker. */
  readonly remoteSpeech: boolean;
  /** 0 to 1. */
  readonly volume: number;
  /** Times the voice's own pace, 0.6 to 1.6. */
  readonly rate: number;
  /** Physical keys, by their W3C `code`; a pedal is a key like any other. */
  readonly keys: Readonly<Record<string, KeyAction>>;
  readonly vibrate: boolean;
}

export const defaultKeys: Readonly<Record<string, KeyAction>> = {
  Enter: 'done',
  PageDown: 'done',
  PageUp: 'repeat',
  KeyR: 'repeat',
  KeyT: 'torque',
  KeyS: 'socket',
  KeyL: 'how-many-left',
  KeyN: 'no',
  KeyY: 'yes',
  KeyU: 'undo',
  KeyB: 'back',
  KeyH: 'hold-on',
  KeyC: 'carry-on',
  KeyW: 'why',
  KeyX: 'which-next',
  Escape: 'stop',
  Backquote: 'talk',
  MediaPlayPause: 'done',
  MediaTrackNext: 'repeat',
  MediaTrackPrevious: 'torque',
};

export const defaultSettings: Settings = {
  v: 1,
  language: 'en',
  person: '',
  group: '',
  unit: null,
  theme: 'system',
  listen: 'open',
  ear: 'automatic',
  voice: 'automatic',
  remoteSpeech: false,
  volume: 1,
  rate: 1,
  keys: defaultKeys,
  vibrate: true,
};

const place = 'undertray.settings';

/** What is used of the browser's `Storage`: the build reads this file too, and has no browser. */
interface Store {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

/**
 * Settings that cannot be read are left alone in storage and the defaults used; nothing in them is worth a halt.
 * Until somebody chooses a language, the first of the browser's own (BCP 47 tags) that there is.
 */
export function loadSettings(storage: Pick<Store, 'getItem'>, browserLanguages: readonly string[]): Settings {
  const first: Settings = { ...defaultSettings, language: spokenHere(browserLanguages) };
  try {
    return readSettings(JSON.parse(storage.getItem(place) ?? '{}'), first);
  } catch {
    return first;
  }
}

function spokenHere(tags: readonly string[]): Language {
  const found = tags.map((tag) => languages.find((one) => isLanguage(tag, one))).find((one) => one !== undefined);
  return found ?? defaultSettings.language;
}

/** False when the browser would not keep them (full, or switched off). */
export function saveSettings(storage: Store, settings: Settings): boolean {
  try {
    storage.setItem(place, JSON.stringify(settings));
    return true;
  } catch {
    return false;
  }
}

/** Takes what is usable of stored or imported settings, field by field. */
export function readSettings(found: unknown, otherwise: Settings = defaultSettings): Settings {
  if (typeof found !== 'object' || found === null) return otherwise;
  const from = found as Readonly<Record<string, unknown>>;
  const text = (key: 'person' | 'group') => (typeof from[key] === 'string' ? from[key].slice(0, 60) : defaultSettings[key]);
  const number = (key: 'volume' | 'rate', low: number, high: number) =>
    typeof from[key] === 'number' && from[key] >= low && from[key] <= high ? from[key] : defaultSettings[key];
  const flag = (key: 'remoteSpeech' | 'vibrate') => (typeof from[key] === 'boolean' ? from[key] : defaultSettings[key]);
  return {
    v: 1,
    language: oneOf(languages, from['language'], otherwise.language),
    person: text('person'),
    group: text('group'),
    unit: from['unit'] === null ? null : oneOf<TorqueUnit | null>(torqueUnits, from['unit'], defaultSettings.unit),
    theme: oneOf(['dark', 'light', 'system'], from['theme'], defaultSettings.theme),
    listen: oneOf(waysToListen, from['listen'], defaultSettings.listen),
    ear: oneOf(['automatic', 'browser', 'local'], from['ear'], defaultSettings.ear),
    voice: oneOf(['automatic', 'browser', 'local', 'off'], from['voice'], defaultSettings.voice),
    remoteSpeech: flag('remoteSpeech'),
    volume: number('volume', 0, 1),
    rate: number('rate', 0.6, 1.6),
    keys: readKeys(from['keys']),
    vibrate: flag('vibrate'),
  };
}

function readKeys(found: unknown): Settings['keys'] {
  if (typeof found !== 'object' || found === null) return defaultSettings.keys;
  const actions: readonly string[] = [...intentNames, 'talk'];
  const entries = Object.entries(found).filter(
    (entry): entry is [string, KeyAction] => typeof entry[1] === 'string' && actions.includes(entry[1]),
  );
  return Object.fromEntries(entries.slice(0, 80));
}

function oneOf<T>(all: readonly T[], found: unknown, otherwise: T): T {
  return all.find((one) => one === found) ?? otherwise;
}
