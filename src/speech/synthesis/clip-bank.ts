import type { ClipIndex, ClipPlace, PlannedClip } from './clip-plan.ts';

/** audio/clips/clips.json: where each clip lies in the sound file, in milliseconds, as [start, length]. */
export interface ClipFile {
  /** The voice that the clips were made with. */
  readonly voice: string;
  /** The silence of a comma, in the same form. */
  readonly pause: readonly [start: number, length: number];
  readonly clips: Readonly<Record<string, Partial<Readonly<Record<ClipPlace, readonly [start: number, length: number]>>>>>;
}

export function clipIndexOf({ clips }: ClipFile): ClipIndex {
  return new Map(Object.entries(clips).map(([text, places]) => [text, Object.keys(places) as ClipPlace[]]));
}

/** The name of a clip among howler's sprites. */
export function spriteName(clip: PlannedClip): string {
  return clip.kind === 'pause' ? 'pause' : `${clip.place}:${clip.text}`;
}

/** The clips as howler wants its sprites. */
export function spritesOf({ clips, pause }: ClipFile): Record<string, [number, number]> {
  const sprites: Record<string, [number, number]> = { pause: [...pause] };
  for (const [text, places] of Object.entries(clips)) {
    for (const [place, span] of Object.entries(places)) {
      sprites[spriteName({ kind: 'clip', text, place: place as ClipPlace })] = [...span];
    }
  }
  return sprites;
}
