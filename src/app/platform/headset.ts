import { useEffect } from 'react';
import { pressHeadset } from './headset-press.ts';
import type { KeyHandlers } from './keys.ts';
import type { KeyAction } from '../settings.ts';

/** What a headset can send, by the `code` that the same button has on a keyboard. */
const codes = {
  play: 'MediaPlayPause',
  pause: 'MediaPlayPause',
  stop: 'MediaStop',
  nexttrack: 'MediaTrackNext',
  previoustrack: 'MediaTrackPrevious',
} as const satisfies Partial<Record<MediaSessionAction, string>>;

/** Buttons of a headset, as keys. Call it where the person has touched the page: a browser plays nothing before. */
export function useHeadset(keys: Readonly<Record<string, KeyAction>>, handlers: KeyHandlers | null): void {
  useEffect(() => {
    if (handlers === null) return;
    const press = pressHeadset(handlers);
    return listenToHeadset((code) => press(keys[code] ?? null));
  }, [keys, handlers]);
}

/**
 * Tells each press until the returned function is called.
 * Browsers hand headset buttons to a page only while one of its audio elements plays (https://w3c.github.io/mediasession/), so silence is played.
 */
export function listenToHeadset(pressed: (code: string) => void): () => void {
  const session = (navigator as { readonly mediaSession?: MediaSession }).mediaSession;
  if (session === undefined) return () => undefined;
  const address = URL.createObjectURL(silence());
  const audio = new Audio(address);
  audio.loop = true;
  // Refused where nothing was touched yet: the headset's buttons do nothing, all else works.
  const play = () => void audio.play().catch(() => undefined);
  play();
  session.metadata = new MediaMetadata({ title: 'Undertray' });
  for (const [action, code] of Object.entries(codes)) {
    setHandler(session, action as keyof typeof codes, () => {
      pressed(code);
      // The button was meant for the job, not for the silence.
      play();
      session.playbackState = 'playing';
    });
  }
  return () => {
    for (const action of Object.keys(codes)) setHandler(session, action as keyof typeof codes, null);
    session.metadata = null;
    session.playbackState = 'none';
    audio.pause();
    URL.revokeObjectURL(address);
  };
}

function setHandler(session: MediaSession, action: MediaSessionAction, handler: (() => void) | null): void {
  try {
    session.setActionHandler(action, handler);
  } catch {
    // A browser throws for an action that it does not know; the others still work.
  }
}

/** Ten seconds, because what is shorter than five is no media session to Chromium. */
const seconds = 10;
const sampleRate = 8000;

/** A WAV file of silence: 8 bit, one channel. */
function silence(): Blob {
  const length = seconds * sampleRate;
  const bytes = new Uint8Array(44 + length).fill(128, 44);
  const view = new DataView(bytes.buffer);
  const text = (at: number, value: string) => bytes.set(new TextEncoder().encode(value), at);
  text(0, 'RIFF');
  view.setUint32(4, 36 + length, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate, true);
  view.setUint16(32, 1, true);
  view.setUint16(34, 8, true);
  text(36, 'data');
  view.setUint32(40, length, true);
  return new Blob([bytes], { type: 'audio/wav' });
}
