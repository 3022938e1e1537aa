/** Hears from loudness alone when a person has said what they wanted to say. Levels are root mean squares, 0 to 1. */
export interface PauseFinder {
  /** To be called about every 100 ms; true once the note has ended, by a pause after speech or because nobody spoke. */
  hear(level: number, milliseconds: number): boolean;
}

/** A pause this long ends a note: people stop for a second within one (common practice for dictation; not measured here). */
const pauseAfter = 2_500;
/** Nobody has begun to speak by then. */
const patience = 10_000;
/** Speech stands this far above what the room makes by itself. */
const aboveRoom = 2.2;
/** A microphone's own hiss is nearer to silence than this. */
const faintest = 0.004;

/** The quietest moments of the last while are taken for the room's own noise, so that a compressor does not count as speech for ever. */
export function pauseFinder(): PauseFinder {
  let room = Number.POSITIVE_INFINITY;
  let begun: number | null = null;
  let loudAt: number | null = null;
  return {
    hear(level, milliseconds) {
      begun ??= milliseconds;
      // Down at once, up slowly: a machine that starts becomes part of the room within some seconds.
      room = level < room ? level : room + (level - room) * 0.01;
      if (level > Math.max(faintest, room * aboveRoom)) loudAt = milliseconds;
      return loudAt === null ? milliseconds - begun > patience : milliseconds - loudAt > pauseAfter;
    },
  };
}
