import type { Decoder, SoundSwallowerModule } from 'soundswallower';

/** The files of a SoundSwallower model folder, by their names there. The dictionary comes apart, trimmed. */
export interface SwallowerFiles {
  readonly mdef: Uint8Array;
  readonly means: Uint8Array;
  readonly variances: Uint8Array;
  readonly sendump: Uint8Array;
  readonly transition_matrices: Uint8Array;
  /** The text of feat_params.json. */
  readonly featureParameters: string;
  readonly noiseDictionary: Uint8Array;
}

/** The insides of the package that its types leave out: it loads by path only, and we have bytes. */
interface LowLevel {
  readonly HEAP8: Int8Array;
  readonly HEAP32: Int32Array;
  _malloc(bytes: number): number;
  _free(address: number): void;
  _s3file_init(address: number, length: number): number;
  _s3file_free(file: number): void;
  _decoder_init_feat_s3file(decoder: number, lda: number): number;
  _decoder_init_acmod_pre(decoder: number): number;
  _decoder_init_acmod_post(decoder: number): number;
  _bin_mdef_read_s3file(file: number, onlyIndependent: number): number;
  _set_mdef(decoder: number, mdef: number): void;
  _decoder_logmath(decoder: number): number;
  _tmat_init_s3file(file: number, logmath: number, floor: number): number;
  _set_tmat(decoder: number, matrices: number): void;
  _load_gmm(decoder: number, means: number, variances: number, mixtures: number, sendump: number): number;
  _decoder_init_dict_s3file(decoder: number, dictionary: number, fillers: number): number;
  _decoder_hyp(decoder: number, score: number): number;
}

interface OpenDecoder extends Decoder {
  readonly cdecoder: number;
  cacmod: number;
  init_cleanup(): Promise<void>;
  init_fe(): Promise<number>;
}

export interface SwallowerResult {
  /** Lower-case words without fillers; empty when no path reached the end. */
  readonly text: string;
  /** Log score of the best path, in the decoder's own unit (log base 1.0001, scaled). */
  readonly score: number;
}

/** A recogniser over one model whose grammar may be changed at any time between utterances. */
export class Swallower {
  private readonly low: LowLevel;
  private readonly decoder: OpenDecoder;
  private readonly known = new Set<string>();
  private current = '';

  private constructor(module: SoundSwallowerModule, decoder: OpenDecoder) {
    this.low = lowLevel(module);
    this.decoder = decoder;
  }

  /** `first`: any word of the model's language with its phones, since a decoder cannot begin without a dictionary. */
  static async open(
    module: SoundSwallowerModule,
    files: SwallowerFiles,
    first: readonly [word: string, phones: string],
  ): Promise<Swallower> {
    const decoder = new module.Decoder({
      hmm: '.',
      loglevel: 'FATAL',
      samprate: 16000,
    }) as OpenDecoder;
    const swallower = new Swallower(module, decoder);
    await swallower.load(files, first);
    return swallower;
  }

  /** Makes words known; a word already known is left alone. Pronunciations are phones parted by spaces. */
  addWords(words: Iterable<readonly [word: string, pronunciations: readonly string[]]>): void {
    const fresh: [string, string][] = [];
    for (const [word, pronunciations] of words) {
      if (this.known.has(word)) continue;
      this.known.add(word);
      pronunciations.forEach((phones, index) => fresh.push([index === 0 ? word : `${word}(${index + 1})`, phones]));
    }
    if (fresh.length > 0) this.decoder.add_words(...fresh);
  }

  setGrammar(jsgf: string): void {
    if (jsgf === this.current) return;
    this.decoder.set_grammar(jsgf);
    this.current = jsgf;
  }

  /** Recognises one whole utterance at 16 kHz. */
  recognise(samples: Float32Array): SwallowerResult {
    this.decoder.start();
    this.decoder.process_audio(samples, false, true);
    this.decoder.stop();
    const address = this.low._malloc(4);
    this.low._decoder_hyp(this.decoder.cdecoder, address);
    const score = this.low.HEAP32[address / 4] ?? 0;
    this.low._free(address);
    return {
      text: this.decoder
        .get_text()
        .replace(/\[[A-Z]+\]|<[^>]*>|\(\d+\)/g, ' ')
        .replace(/\s+/g, ' ')
        .trim(),
      score,
    };
  }

  dispose(): void {
    this.decoder.delete();
  }

  private async load(files: SwallowerFiles, [word, phones]: readonly [string, string]): Promise<void> {
    const { low, decoder } = this;
    for (const [name, value] of Object.entries(JSON.parse(files.featureParameters) as Record<string, string | number>)) {
      if (decoder.has_config(name)) decoder.set_config(name, value);
    }
    decoder.set_config('remove_noise', 0);
    await decoder.init_cleanup();
    await decoder.init_fe();
    expect(low._decoder_init_feat_s3file(decoder.cdecoder, 0) !== 0);
    decoder.cacmod = low._decoder_init_acmod_pre(decoder.cdecoder);
    expect(decoder.cacmod !== 0);

    const mdefFile = this.file(files.mdef);
    const mdef = low._bin_mdef_read_s3file(mdefFile, 0);
    low._s3file_free(mdefFile);
    expect(mdef !== 0);
    low._set_mdef(decoder.cdecoder, mdef);

    const matricesFile = this.file(files.transition_matrices);
    const matrices = low._tmat_init_s3file(matricesFile, low._decoder_logmath(decoder.cdecoder), Number(decoder.get_config('tmatfloor')));
    low._s3file_free(matricesFile);
    expect(matrices !== 0);
    low._set_tmat(decoder.cdecoder, matrices);

    expect(low._load_gmm(decoder.cdecoder, this.file(files.means), this.file(files.variances), 0, this.file(files.sendump)) >= 0);
    expect(low._decoder_init_acmod_post(decoder.cdecoder) >= 0);
    expect(
      low._decoder_init_dict_s3file(
        decoder.cdecoder,
        this.file(new TextEncoder().encode(`${word}\t${phones}\n`)),
        this.file(files.noiseDictionary),
      ) !== 0,
    );
    this.known.add(word);
    decoder.initialized = true;
  }

  private file(bytes: Uint8Array): number {
    const address = this.low._malloc(bytes.length + 1);
    this.low.HEAP8.set(bytes, address);
    this.low.HEAP8[address + bytes.length] = 0;
    return this.low._s3file_init(address, bytes.length);
  }
}

function lowLevel(module: SoundSwallowerModule): LowLevel {
  return module as unknown as LowLevel;
}

function expect(condition: boolean): void {
  if (!condition) throw new Error('The recogniser does not accept the model.');
}
