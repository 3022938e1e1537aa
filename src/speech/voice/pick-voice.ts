import type { VoiceLike } from '../ports.ts';

/**
 * The voice for a language: of this device rather than remote, of the same region rather than another, the
 * person's default rather than any. Null where none fits.
 */
export function pickVoice<V extends VoiceLike>(voices: readonly V[], language: string, remoteAllowed: boolean): V | null {
  const wanted = language.toLowerCase();
  const fitting = voices.filter((voice) => primary(tagOf(voice)) === primary(wanted) && (voice.localService || remoteAllowed));
  const worth = (voice: V): number => (voice.localService ? 4 : 0) + (tagOf(voice) === wanted ? 2 : 0) + (voice.default ? 1 : 0);
  return fitting.toSorted((a, b) => worth(b) - worth(a))[0] ?? null;
}

/** Android writes en_US. */
function tagOf(voice: VoiceLike): string {
  return voice.lang.replace('_', '-').toLowerCase();
}

function primary(tag: string): string {
  return tag.split('-')[0] ?? '';
}
