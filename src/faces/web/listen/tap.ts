/** Runs on the browser's audio thread: hands each few milliseconds of the input on to the worker that analyses it, and does nothing else. */

declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, of: new () => AudioWorkletProcessor): void;

/** Samples handed on at once: 5 ms of 48 kHz. */
const each = 256;

class Tap extends AudioWorkletProcessor {
  private to: MessagePort | undefined;
  private held: Float32Array<ArrayBuffer>[] = [];
  private filled = 0;

  constructor() {
    super();
    this.port.onmessage = (e: MessageEvent<MessagePort>) => {
      this.to = e.data;
    };
  }
  /** Called by the browser for each 128 samples; a channel is missing while the input has none. */
  process([input]: readonly (readonly Float32Array[])[]): boolean {
    if (!this.to || !input || input.length === 0) return true;
    if (this.held.length !== input.length) {
      this.held = input.map(() => new Float32Array(each));
      this.filled = 0;
    }
    for (const [c, x] of input.entries()) this.held[c].set(x, this.filled);
    this.filled += input[0].length;
    if (this.filled < each) return true;
    this.to.postMessage(
      this.held,
      this.held.map((x) => x.buffer),
    );
    this.held = [];
    return true;
  }
}
registerProcessor("tap", Tap);
