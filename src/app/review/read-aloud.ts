import type { SpeechDesk } from '../speech-desk.ts';

export type ReadingState = 'silent' | 'reading' | 'no-voice';

/** Reads a page aloud, sentence by sentence: long texts are what voices stumble over. */
export interface Reader {
  /** Call it from a tap or a key press. `onState` hears how it goes until it ends. */
  read(sentences: readonly string[], onState: (state: ReadingState) => void): void;
  stop(): void;
}

export function makeReader(speech: Pick<SpeechDesk, 'begin' | 'speak' | 'hush' | 'status' | 'subscribe'>): Reader {
  let end: ((state: ReadingState) => void) | null = null;

  function read(sentences: readonly string[], onState: (state: ReadingState) => void): void {
    stop();
    let next = 0;
    let isSpeaking = false;
    const unsubscribe = speech.subscribe(() => {
      if (isSpeaking && speech.status().voice !== 'speaking') sayNext();
    });
    const own = (state: ReadingState): void => {
      unsubscribe();
      end = null;
      onState(state);
    };
    end = own;
    onState('reading');

    function sayNext(): void {
      isSpeaking = false;
      const sentence = sentences[next];
      if (end !== own) return;
      if (sentence === undefined) {
        own('silent');
        return;
      }
      next += 1;
      speech.speak(sentence, null);
      isSpeaking = speech.status().voice === 'speaking';
      if (!isSpeaking) own('no-voice');
    }
    void speech.begin().then(sayNext);
  }

  function stop(): void {
    if (end === null) return;
    end('silent');
    speech.hush();
  }

  return { read, stop };
}
