import type { SpeechDesk, SpeechStatus } from '../speech-desk.ts';

const status: SpeechStatus = { ear: 'off', earKind: null, progress: null, voice: 'off', voiceName: null };

export function theSpeechDesk(): SpeechDesk {
  const nothing = () => () => undefined;
  return {
    status: () => status,
    subscribe: nothing,
    begin: () => Promise.resolve(),
    speak: () => undefined,
    hush: () => undefined,
    listen: () => undefined,
    talk: () => undefined,
    apply: () => undefined,
    onHeard: nothing,
    onRejected: nothing,
    onTrouble: nothing,
    end: () => undefined,
  };
}
