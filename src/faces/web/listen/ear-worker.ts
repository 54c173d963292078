import { Live } from "../../../readings/sound/live";
import type { FromEar, ToEar } from "./messages";

/** Analyses a live input off the page's own thread: the same core as for a recording. */
let live: Live | undefined;
let everyS = 0;
let saidS = 0;
/** A level is told a hundred times a second, a note's track ten times. */
const levelEveryS = 0.01;
const noteEveryS = 0.1;
const say = (m: FromEar, over: Transferable[] = []): void => self.postMessage(m, { transfer: over });

let heldS = 0;
function take(block: readonly Float32Array[], rateHz: number): void {
  if (!live) return;
  live.push(block.map((x) => Float64Array.from(x)));
  heldS += block[0].length / rateHz;
  if (heldS - saidS < everyS) return;
  saidS = heldS;
  say({ is: "news", news: live.news() });
}
self.onmessage = (e: MessageEvent<ToEar>) => {
  const m = e.data;
  switch (m.is) {
    case "begin":
      live = new Live(m.ask);
      everyS = m.ask.for.what === "peak" ? levelEveryS : noteEveryS;
      if (m.port) m.port.onmessage = (x: MessageEvent<readonly Float32Array[]>) => take(x.data, m.ask.sampleRateHz);
      break;
    case "afresh":
      live?.afresh();
      break;
    case "tell":
      if (live) say({ is: "told", told: live.told, wav: m.withSound ? live.wav : undefined });
      break;
  }
};
