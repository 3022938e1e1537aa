/** When somebody began and stopped speaking, from the chance of speech frame by frame. Counts in frames. */
export interface EndpointSettings {
  /** Speech begins above the first chance and goes on above the second. */
  readonly begin: number;
  readonly goOn: number;
  /** Frames above `begin` within the last `window` that make a beginning. */
  readonly beginFrames: number;
  readonly window: number;
}

/** Follows one stream; the owner decides how much quiet ends an utterance. */
export class Endpoints {
  private readonly settings: EndpointSettings;
  private readonly recent: number[] = [];
  private frame = -1;
  private begun: number | null = null;
  private lastSpeech = -1;

  constructor(settings: EndpointSettings) {
    this.settings = settings;
  }

  /** Returns true on the frame on which speech turns out to have begun. */
  push(chance: number): boolean {
    this.frame++;
    const { begin, goOn, beginFrames, window } = this.settings;
    this.recent.push(chance);
    if (this.recent.length > window) this.recent.shift();
    if (this.begun !== null) {
      if (chance >= goOn) this.lastSpeech = this.frame;
      return false;
    }
    if (this.recent.filter((past) => past >= begin).length < beginFrames) return false;
    const first = this.recent.findIndex((past) => past >= goOn);
    this.begun = this.frame - (this.recent.length - 1 - first);
    this.lastSpeech = this.frame;
    return true;
  }

  /** The frame on which the speech under way began, or null. */
  get start(): number | null {
    return this.begun;
  }

  /** The last frame that held speech. */
  get lastVoiced(): number {
    return this.lastSpeech;
  }

  /** Frames of quiet since then. */
  get quiet(): number {
    return this.begun === null ? 0 : this.frame - this.lastSpeech;
  }

  get now(): number {
    return this.frame;
  }

  /** The utterance is over; the next beginning is looked for from here. */
  close(): void {
    this.begun = null;
    this.recent.length = 0;
  }
}
