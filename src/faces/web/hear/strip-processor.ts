/** Runs on the browser's audio thread: the band through both strips, block by block, for as long as it is listened to. */
import { LiveStrip } from "../../../invented/rehearsal/live-strip";
import type { ToStrip } from "./strip-messages";

declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, of: new () => AudioWorkletProcessor): void;

class StripProcessor extends AudioWorkletProcessor {
  private strip: LiveStrip | undefined;
  private side: 0 | 1 = 0;
  private on = false;

  constructor() {
    super();
    this.port.onmessage = ({ data: m }: MessageEvent<ToStrip>) => {
      switch (m.is) {
        case "band":
          this.strip = new LiveStrip(m.band, m.detector, m.sides);
          this.strip.choose(this.side);
          break;
        case "sides":
          this.strip?.take(m.sides);
          break;
        case "side":
          this.side = m.side;
          this.strip?.choose(m.side);
          break;
        case "on":
          this.on = m.on;
          break;
      }
    };
  }
  process(_: unknown, [[out]]: readonly (readonly Float32Array[])[]): boolean {
    if (this.on && this.strip) this.strip.render(out);
    return true;
  }
}
registerProcessor("strip", StripProcessor);
