import { LiveStrip } from "../../../invented/rehearsal/live-strip";
import { rehearsalRateHz } from "../../../invented/rehearsal/scene";
import { bandOf } from "../../../readings/sound/baseband";
import { equalGains } from "../../../readings/sound/loudness";
import { openSound } from "../../../readings/sound/open-sound";
import { wavOf } from "../../../readings/sound/wav-with-card";
import { InputError, orThrow } from "../../../units/issue";
import { parseQuantity } from "../../../units/parse";
import { piecesOf } from "../listen/pieces-of";
import type { FromBand, OwnSaid, Played, ToBand } from "./band-messages";

/** Reads a person's own band, and renders what is played, off the page's own thread: the recording never leaves this browser. */
const say = (m: FromBand): void => self.postMessage(m);
/** Strip, AVC and amplifier come to rest in so much; loudness is told by so much behind it, s. */
const runInS = 0.5;
const loudS = 4;

async function ownBand({ file, as, centre, begins }: OwnSaid, secondsCount: number): Promise<Float32Array<ArrayBuffer>> {
  const centreHz = orThrow(parseQuantity(centre, "frequency", "Where in it the station stands")).value;
  const fromS = orThrow(parseQuantity(begins, "time", "Begin at")).value;
  const sound = orThrow(await openSound(piecesOf(file), file.name, file.size));
  return Float32Array.from(orThrow(await bandOf(sound, file.name, { as, centreHz, fromS, secondsCount }, rehearsalRateHz)));
}
/** One side for so long, without its beginning. */
function rendered({ band, detector, sides }: Played, side: 0 | 1, seconds: number): Float64Array {
  const live = new LiveStrip(band, detector, sides);
  live.choose(side);
  const out = new Float32Array(Math.round((seconds + runInS) * rehearsalRateHz));
  live.render(out);
  return Float64Array.from(out.subarray(Math.round(runInS * rehearsalRateHz)));
}
const both = (played: Played, seconds: number): Float64Array[] => [rendered(played, 0, seconds), rendered(played, 1, seconds)];

async function answer(m: ToBand): Promise<FromBand> {
  switch (m.is) {
    case "band":
      return { is: "band", band: await ownBand(m.own, m.seconds) };
    case "gains":
      return { is: "gains", gains: equalGains(both(m.played, loudS), rehearsalRateHz) };
    case "wav": {
      const seconds = m.played.band.length / 2 / rehearsalRateHz;
      const wav = wavOf(both(m.played, seconds), rehearsalRateHz, `Left as it is, right as it would be. ${m.card}`);
      return { is: "wav", wav: new Uint8Array(wav) };
    }
  }
}
self.onmessage = ({ data }: MessageEvent<ToBand>) => {
  void answer(data).then(say, (e) => {
    if (!(e instanceof InputError)) throw e;
    const named = e.issues.map((i) => ({
      ...i,
      path: i.path.replace("--centre", "Where in it the station stands").replace("--recorded-as", "Recorded as"),
    }));
    say({ is: "refused", issues: named });
  });
};
