export interface VoiceDescription {
  readonly voiceURI: string;
  readonly name: string;
  readonly lang: string;
  readonly localService: boolean;
  readonly default: boolean;
}

export class LocalSpeechSynthesisVoice {
  readonly #description: VoiceDescription;

  constructor(description: VoiceDescription) {
    this.#description = description;
  }

  get voiceURI(): string {
    return this.#description.voiceURI;
  }

  get name(): string {
    return this.#description.name;
  }

  get lang(): string {
    return this.#description.lang;
  }

  get localService(): boolean {
    return this.#description.localService;
  }

  get default(): boolean {
    return this.#description.default;
  }
}
