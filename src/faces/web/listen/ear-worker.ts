import { listen } from "../../../readings/sound/listen";
import { Live, takeListener } from "../../../readings/sound/live";
import { openSound } from "../../../readings/sound/open-sound";
import { InputError, orThrow } from "../../../units/issue";
import type { FromEar, ToEar } from "./messages";
import { piecesOf } from "./pieces-of";

/** Analyses a live input off the page's own thread: the same core as for a recording. */
let live: Live | undefined;
let everyS = 0;
let saidS = 0;
/** A level is told two hundred times a second, a note's track ten times. */
const levelEveryS = 0.005;
const noteEveryS = 0.1;
const say = (m: FromEar, over: Transferable[] = []): void => self.postMessage(m, { transfer: over });

let heldS = 0;
function take(block: readonly Float32Array[], rateHz: number): void {
  if (!live) return;
  live.push(block.map((x) => new Float64Array(x)));
  heldS += block[0].length / rateHz;
  if (heldS - saidS < everyS) return;
  saidS = heldS;
  say({ is: "news", news: live.news() });
}
const progressEveryMs = 250;
async function takeFile({ file, for: what, clock, channel }: Extract<ToEar, { is: "file" }>): Promise<void> {
  const sound = orThrow(await openSound(piecesOf(file), file.name, file.size));
  const { blocks: _, ...head } = sound;
  const of = head.samplesCount === undefined ? undefined : head.samplesCount / head.sampleRateHz;
  const listener = takeListener(what, head.sampleRateHz * (1 + clock), of);
  let told = 0;
  const heard = (count: number): boolean => {
    if (performance.now() - told > progressEveryMs) {
      told = performance.now();
      say({ is: "progress", seconds: count / head.sampleRateHz, of });
    }
    return true;
  };
  const health = orThrow(await listen(sound, file.name, [listener], { channel, heard }));
  say({ is: "taken", told: { head, health, ...listener.told } });
}
const refused = (e: unknown): void => {
  if (!(e instanceof InputError)) throw e;
  say({ is: "refused", issues: e.issues });
};
self.onmessage = (e: MessageEvent<ToEar>) => {
  const m = e.data;
  switch (m.is) {
    case "begin":
      live = new Live(m.ask);
      everyS = m.ask.for.what === "peak" ? levelEveryS : noteEveryS;
      if (m.port) m.port.onmessage = (x: MessageEvent<readonly Float32Array[]>) => take(x.data, m.ask.sampleRateHz);
      break;
    case "file":
      void takeFile(m).catch(refused);
      break;
    case "afresh":
      live?.afresh();
      break;
    case "tell":
      if (live) say({ is: "told", asked: m.asked, told: live.told, wav: m.withSound ? live.wav : undefined });
      break;
  }
};
