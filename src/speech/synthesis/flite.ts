import { ConsoleStdout, File, OpenFile, PreopenDirectory, WASI } from '@bjorn3/browser_wasi_shim';

/** Speech of one channel, samples from -1 to 1. */
export interface Speech {
  readonly samples: Float32Array;
  readonly sampleRate: number;
}

export type FliteVoice = 'slt' | 'rms' | 'awb';

export interface FliteStyle {
  readonly voice: FliteVoice;
  /** 1 is the voice's normal rate, 2 twice as fast. */
  readonly rate: number;
}

/**
 * Flite (CMU, 2.3) as a WASI command run in memory. Each text needs a fresh instance, whose setting-up costs more
 * than the speaking; one is therefore kept ready.
 */
export class Flite {
  readonly #module: WebAssembly.Module;
  #ready: Promise<Run>;

  constructor(module: WebAssembly.Module) {
    this.#module = module;
    this.#ready = setUp(module);
  }

  /** Throws when Flite itself fails, which is a bug of ours or of the build. */
  async speak(text: string, { voice, rate }: FliteStyle): Promise<Speech> {
    const run = await this.#ready;
    run.wasi.args = ['flite', '-voice', voice, '--setf', `duration_stretch=${(1 / rate).toFixed(3)}`, '-t', text, '-o', 'speech.wav'];
    const status = run.wasi.start(run.instance);
    this.#ready = setUp(this.#module);
    const file = run.directory.dir.contents.get('speech.wav');
    if (status !== 0 || !(file instanceof File)) throw new Error(`Flite ended with ${status}: ${run.errors.join(' ')}`);
    return readSpeech(file.data);
  }
}

interface Run {
  readonly wasi: WASI;
  readonly instance: { readonly exports: { readonly memory: WebAssembly.Memory; readonly _start: () => unknown } };
  readonly directory: PreopenDirectory;
  readonly errors: string[];
}

async function setUp(module: WebAssembly.Module): Promise<Run> {
  const errors: string[] = [];
  const console = (): ConsoleStdout => ConsoleStdout.lineBuffered((line) => void errors.push(line));
  const directory = new PreopenDirectory('/', new Map());
  const wasi = new WASI([], [], [new OpenFile(new File([])), console(), console(), directory], { debug: false });
  // The shim types its imports as functions of anything, the platform as values of known kinds; they are the same objects.
  const imports = { wasi_snapshot_preview1: wasi.wasiImport as WebAssembly.ModuleImports };
  const instance = (await WebAssembly.instantiate(module, imports)) as unknown as Run['instance'];
  return { wasi, instance, directory, errors };
}

/** The 16-bit WAVE file that Flite writes: a header of 44 bytes, then the samples. */
function readSpeech(bytes: Uint8Array): Speech {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = Math.max(0, (bytes.byteLength - 44) >> 1);
  const samples = Float32Array.from({ length: count }, (_, n) => view.getInt16(44 + 2 * n, true) / 32768);
  return { samples, sampleRate: view.getUint32(24, true) };
}
