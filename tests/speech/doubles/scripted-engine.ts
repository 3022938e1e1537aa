import type { OwnVoice } from '../../../src/speech/hearing/own-voice.ts';
import type { HearingGrammar } from '../../../src/speech/hearing/port.ts';
import type { EngineEvent, HearingEngine, LoadOutcome, OpenEngine, Refusal } from '../../../src/speech/recognition/engine.ts';

/** An engine that hears what the test says. It refuses a second session, as the real one does. */
export class ScriptedEngine implements HearingEngine {
  readonly voices: (OwnVoice | null)[] = [];
  readonly languages = ['en'];
  readonly grammars: HearingGrammar[] = [];
  loads = 0;
  opens = 0;
  forgotten = 0;
  track: MediaStreamTrack | null = null;
  nextLoad: LoadOutcome = { kind: 'loaded' };
  nextOpen: Refusal | null = null;
  /** What `finish` still finds in the sound so far. */
  leftOver: EngineEvent[] = [];
  #listener: ((event: EngineEvent) => void) | null = null;

  load(): Promise<LoadOutcome> {
    this.loads++;
    return Promise.resolve(this.nextLoad);
  }

  setGrammar(grammar: HearingGrammar): void {
    this.grammars.push(grammar);
  }

  useVoice(own: OwnVoice | null): void {
    this.voices.push(own);
  }

  forget(): void {
    this.forgotten++;
  }

  open(track: MediaStreamTrack | null, listener: (event: EngineEvent) => void): Promise<OpenEngine | Refusal> {
    this.opens++;
    if (this.nextOpen) return Promise.resolve(this.nextOpen);
    if (this.#listener) return Promise.resolve({ kind: 'refused', error: 'audio-capture', message: 'Another session is open.' });
    this.#listener = listener;
    this.track = track;
    const close = () => {
      if (this.#listener === listener) this.#listener = null;
    };
    return Promise.resolve({
      kind: 'open',
      finish: async () => {
        await Promise.resolve();
        for (const event of this.leftOver) this.tell(event);
        this.leftOver = [];
        close();
      },
      discard: close,
    });
  }

  get isOpen(): boolean {
    return this.#listener !== null;
  }

  tell(...events: EngineEvent[]): void {
    for (const event of events) this.#listener?.(event);
  }

  /** A whole utterance, heard at once. */
  say(text: string, confidence = 0.9, time = 0): void {
    this.tell(
      { kind: 'speech-start', time },
      { kind: 'speech-end', time: time + 600 },
      { kind: 'heard', alternatives: [{ text, confidence }], from: time, to: time + 600 },
    );
  }
}
