import { Howl } from 'howler';
import type { ClipFile } from '../synthesis/clip-bank.ts';
import { spriteName, spritesOf } from '../synthesis/clip-bank.ts';
import type { PlannedClip } from '../synthesis/clip-plan.ts';
import type { PlayingSound, SoundRefusal } from '../synthesis/sound-source.ts';
import { audioOutput, wakeAudio } from './audio-output.ts';

/** Plays clips of the bank one after the other. */
export interface ClipPlayer {
  readonly isReady: boolean;
  play(clips: readonly PlannedClip[], volume: number, onBegun: () => void, onOver: (refusal: SoundRefusal | null) => void): PlayingSound;
}

const wakeWithin = 1_500;

/** The clip bank as sprites of one howler sound. */
export function createClipPlayer(address: string, file: ClipFile): ClipPlayer {
  audioOutput();
  const howl = new Howl({ src: [address], sprite: spritesOf(file), format: ['wav'], preload: true });
  return {
    get isReady() {
      return howl.state() === 'loaded';
    },
    play(clips, volume, onBegun, onOver) {
      let next = 0;
      let playing: number | null = null;
      let paused = false;
      let over = false;

      function goOn(): void {
        const clip = clips[next++];
        if (!clip) {
          over = true;
          onOver(null);
          return;
        }
        const id = howl.play(spriteName(clip));
        playing = id;
        howl.volume(volume, id);
        howl.once('end', () => !over && goOn(), id);
        howl.once('playerror', () => refuse('audio-hardware'), id);
      }

      function refuse(error: 'audio-hardware' | 'not-allowed'): void {
        if (over) return;
        over = true;
        onOver({ kind: 'refused', error, message: 'The clip could not be played.' });
      }

      void wakeAudio(wakeWithin).then((awake) => {
        if (over) return;
        if (!awake) {
          refuse('not-allowed');
          return;
        }
        onBegun();
        if (!paused) goOn();
      });

      return {
        pause() {
          paused = true;
          if (playing !== null) howl.pause(playing);
        },
        resume() {
          paused = false;
          if (playing === null) goOn();
          else howl.play(playing);
        },
        stop() {
          over = true;
          if (playing !== null) howl.stop(playing);
        },
      };
    },
  };
}
