// What the audio worklet's global scope offers and TypeScript's libraries leave out.
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare const currentTime: number;
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

/** Samples in a block: about 5 ms at the usual rates, two of the worklet's own quanta. */
const blockLength = 256;
/** So many blocks after one another are told the time of: about once a second. */
const blocksPerMark = 200;

/**
 * Mixes its input down to one channel and sends it on in blocks through the port it was given. Tells its owner now and
 * then how many samples it has sent at which time of the context. Ends when told anything without a port.
 */
class Capture extends AudioWorkletProcessor {
  private out: MessagePort | null = null;
  private ended = false;
  private block = new Float32Array(blockLength);
  private filled = 0;
  private sent = 0;

  constructor() {
    super();
    this.port.onmessage = ({ ports }) => {
      this.out = ports[0] ?? null;
      this.ended = this.out === null;
    };
  }

  process(inputs: Float32Array[][]): boolean {
    const channels = inputs[0] ?? [];
    const length = channels[0]?.length ?? 0;
    for (let n = 0; n < length; n++) {
      let sum = 0;
      for (const channel of channels) sum += channel[n] ?? 0;
      this.block[this.filled++] = sum / channels.length;
      if (this.filled === blockLength) this.send();
    }
    return !this.ended;
  }

  private send(): void {
    this.out?.postMessage(this.block, [this.block.buffer]);
    this.block = new Float32Array(blockLength);
    this.filled = 0;
    this.sent += blockLength;
    // The block under way ends one quantum after `currentTime`, near enough.
    if (this.sent % (blockLength * blocksPerMark) === blockLength) this.port.postMessage({ samples: this.sent, time: currentTime });
  }
}

registerProcessor('capture', Capture);
