import type { NoValue } from "../../ask/results";
import { chanceBelow } from "../../infer/dial/chance";
import { type DialFit, dialAt, dialSlope, hzAt, reach } from "../../infer/dial/fitted";
import type { Asked } from "./ask";

/** What settings rest on besides the law. */
export type Edging = Pick<Asked, "mode" | "side" | "confidence" | "keyedWidth" | "audioHigh" | "markerDoubt" | "drift" | "driftDoubt">;
export const beyondBeats: NoValue = { none: "this edge lies beyond the zero beats: nothing is known there" };
/** What is answered while nobody has said whose edges count. */
export const unstatedEdges: NoValue = { none: "the ITU Region isn't recorded, so no edge is known" };
/**
 * What a signal takes below and above its carrier.
 *
 * @param x mode, with the keyed width and the highest audio frequency, Hz
 * @returns both, Hz
 * @source double and single sideband occupy what their audio does; keyed width as stated
 */
export function extentHz(x: Pick<Edging, "mode" | "keyedWidth" | "audioHigh">): { readonly below: number; readonly above: number } {
  switch (x.mode) {
    case "CW":
      return { below: x.keyedWidth / 2, above: x.keyedWidth / 2 };
    case "AM":
      return { below: x.audioHigh, above: x.audioHigh };
    case "USB":
      return { below: 0, above: x.audioHigh };
    case "LSB":
      return { below: x.audioHigh, above: 0 };
  }
}

/**
 * The outermost reading at which the set is surely on the right side of a limit.
 *
 * @param fit the dial's law
 * @param limitHz frequency that must not be passed, Hz
 * @param inside whether the set must stay above it or below it
 * @param x confidence, markers, drift, and whether settings are made from either side
 * @returns reading, rounded inward to a twentieth of a division; none where the limit lies beyond the zero beats, or no setting between them is sure enough
 * @source root of the chance of passing the limit, by the fit of the dial
 */
export function safeReading(fit: DialFit, limitHz: number, inside: "above" | "below", x: Edging): number | NoValue {
  const [from, to] = reach(fit);
  const rising = hzAt(fit, to) > hzAt(fit, from);
  const ends = [hzAt(fit, from), hzAt(fit, to)].sort((a, b) => a - b);
  if (limitHz < ends[0] || limitHz > ends[1]) return beyondBeats;
  // the law has the markers' known error in it already; what has drifted since comes on top
  const aimHz = limitHz - x.drift;
  const otherHz = Math.hypot(limitHz * x.markerDoubt, x.driftDoubt);
  const sides = x.side === "either" || fit.side === 0 ? [-1, 1] : [fit.side];
  const surely = (reading: number): boolean =>
    sides.every((s) => {
      const below = chanceBelow(fit, reading, aimHz, otherHz, s);
      return inside === "above" ? below <= 1 - x.confidence : below >= x.confidence;
    });
  // a is the end that lies inside; what is said is rounded towards it, never out
  const inward = (r: number): number => {
    const round = (inside === "above") === rising ? Math.ceil(r * 20 - 1e-9) : Math.floor(r * 20 + 1e-9);
    return Math.min(to, Math.max(from, round / 20));
  };
  let [a, b] = (inside === "above") === rising ? [to, from] : [from, to];
  if (!surely(a)) return { none: "nowhere: no setting that the zero beats cover is certain enough" };
  if (surely(b)) return inward(b);
  for (let i = 0; i < 45; i++) {
    const m = (a + b) / 2;
    if (surely(m)) a = m;
    else b = m;
  }
  return inward(a);
}

/**
 * Settings between which carrier and signal are inside, and how far they keep from the edges.
 *
 * @param fit the dial's law
 * @param lowHz lower edge, Hz
 * @param highHz upper edge, Hz
 * @param x mode, confidence, markers, drift
 * @returns readings, divisions, and guards, Hz; each a reason where there is none
 * @source safeReading at either edge, of the carrier and of what its signal takes
 */
export function edges(fit: DialFit, lowHz: number, highHz: number, x: Edging) {
  const { below, above } = extentHz(x);
  const rising = hzAt(fit, fit.high) > hzAt(fit, fit.low);
  /** Both ends, or neither where the one has passed the other: then no setting is sure of both edges. */
  const between = (fromHz: number, toHz: number): readonly [number | NoValue, number | NoValue] => {
    const [a, b] = [safeReading(fit, fromHz, "above", x), safeReading(fit, toHz, "below", x)];
    if (typeof a !== "number" || typeof b !== "number") return [a, b];
    return (rising ? b - a : a - b) >= leastRoomDiv ? [a, b] : [noRoom, noRoom];
  };
  const [carrierLow, carrierHigh] = between(lowHz, highHz);
  const [signalLow, signalHigh] = between(lowHz + below, highHz - above);
  const guard = (reading: number | NoValue, edge: number): number | NoValue =>
    typeof reading === "number" ? Math.abs(hzAt(fit, reading) + x.drift - edge) : reading;
  return {
    carrierLow,
    carrierHigh,
    signalLow,
    signalHigh,
    guardLow: guard(carrierLow, lowHz),
    guardHigh: guard(carrierHigh, highHz),
  };
}
/** a window narrower than this can't be set by hand, common practice, no source */
const leastRoomDiv = 0.1;
const noRoom: NoValue = { none: "nowhere: no setting is certain to be clear of both edges" };

export interface Checked {
  readonly reading: number;
  readonly shouldHz: number;
  readonly isHz: number;
  readonly doubtHz: number;
  readonly verdict: "where it should be" | "off" | "can't be told" | "beyond the zero beats";
}
/**
 * Whether stations are where they should be: what the dial says of each, with its 95 % doubt.
 *
 * @param fit the dial's law
 * @param x stations, what counts as off, Hz, and what the dial's doubt is besides its law
 * @returns each station in its order, Hz; not a number where the zero beats don't reach it
 * @source propagation of uncertainty to first order, JCGM 100
 */
export function checkStations(fit: DialFit, x: Edging & Pick<Asked, "stations" | "stationTolerance">): Checked[] {
  const [from, to] = reach(fit);
  return x.stations.map((s): Checked => {
    if (s.reading < from || s.reading > to)
      return { reading: s.reading, shouldHz: s.frequency, isHz: Number.NaN, doubtHz: Number.NaN, verdict: "beyond the zero beats" };
    const law = dialAt(fit, s.reading);
    const isHz = law.hz + x.drift;
    const doubtHz = 1.96 * Math.hypot(law.uHz, dialSlope(fit, s.reading) * fit.readingNoise, s.frequency * x.markerDoubt, x.driftDoubt);
    const off = Math.abs(isHz - s.frequency);
    const verdict =
      off + doubtHz <= x.stationTolerance ? "where it should be" : off - doubtHz > x.stationTolerance ? "off" : "can't be told";
    return { reading: s.reading, shouldHz: s.frequency, isHz, doubtHz, verdict };
  });
}
