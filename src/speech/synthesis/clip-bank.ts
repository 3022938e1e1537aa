import type { ClipIndex, ClipPlace, PlannedClip } from './clip-plan.ts';

/** audio/clips/clips.json: where each clip lies in the sound file, in milliseconds, as [start, length]. */
export interface ClipFile {
  /** The voice that the clips were made with. */
  readonly voice: string;
  readonly clips: Readonly<Record<string, Partial<Readonly<Record<ClipPlace, readonly [start: number, length: number]>>>>>;
}

export function clipIndexOf({ clips }: ClipFile): ClipIndex {
  return new Map(Object.entries(clips).map(([text, places]) => [text, Object.keys(places) as ClipPlace[]]));
}

/** The name of a clip among howler's sprites. */
export function spriteName({ text, place }: PlannedClip): string {
  return `${place}:${text}`;
}

/** The clips as howler wants its sprites. */
export function spritesOf({ clips }: ClipFile): Record<string, [number, number]> {
  return Object.fromEntries(
    Object.entries(clips).flatMap(([text, places]) =>
      Object.entries(places).map(([place, [start, length]]) => [spriteName({ text, place: place as ClipPlace }), [start, length]]),
    ),
  );
}
