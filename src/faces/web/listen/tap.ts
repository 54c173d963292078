/** Runs on the browser's audio thread: hands each few milliseconds of the input on to the worker that analyses it, and does nothing else. */

declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, of: new () => AudioWorkletProcessor): void;

class Tap extends AudioWorkletProcessor {
  private to: MessagePort | undefined;

  constructor() {
    super();
    this.port.onmessage = (e: MessageEvent<MessagePort>) => {
      this.to = e.data;
    };
  }
  /**
   * Called by the browser for each 128 samples, a few of them in a row; a channel is missing while the input has none. They are handed on as they come:
   * what was held back for a fuller block would wait for the next row.
   */
  process([input]: readonly (readonly Float32Array[])[]): boolean {
    if (!this.to || !input || input.length === 0) return true;
    const block = input.map((x) => x.slice());
    this.to.postMessage(
      block,
      block.map((x) => x.buffer),
    );
    return true;
  }
}
registerProcessor("tap", Tap);
