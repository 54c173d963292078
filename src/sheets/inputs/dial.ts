import type { Plain } from "../../ask/inputs";
import { asked, atSubject, stored } from "../../ask/stored";
import { dialCases, inventDial } from "../../infer/dial/possible-dials";
import type { DialPoint } from "../../readings/zero-beats";
import { bands } from "../../set/addresses/bands";
import { list } from "../../set/addresses/declare";
import { dial } from "../../set/addresses/dial";
import { calibrator } from "../../set/addresses/markers";
import type { Bench } from "../../set/bench";
import type { Row } from "../../set/columns";
import { exact, type Quantity } from "../../units/quantity";

export const approaches = ["not-said", "up", "down"] as const;
const rowOf = (p: DialPoint): Row => ({
  reading: p.reading,
  frequency: p.frequencyHz,
  approach: p.approach === 1 ? 1 : p.approach === -1 ? 2 : 0,
});
/** Rows of zero beats: the job's own, where there are any. */
function pointsOfJob(bench: Bench): Row[] | undefined {
  const points = bench.points(bench.at);
  return points.length > 0 ? points.map(rowOf) : undefined;
}

/**
 * What one unit of the scale stands for, where the scale is marked in frequency: then its readings are near the frequencies themselves.
 *
 * @param points readings, divisions, with their frequencies, Hz
 * @returns 1 kHz or 1 MHz, Hz; undefined where the scale is marked in something else
 * @source house rule: within a twentieth at every point
 */
export function scaleUnitHz(points: readonly { readonly reading: number; readonly frequencyHz: number }[]): number | undefined {
  return [1e3, 1e6].find((unit) => points.length > 0 && points.every((p) => Math.abs((p.reading * unit) / p.frequencyHz - 1) < 0.05));
}
/** What a number of thousandths of the scale's span are, where it is marked in frequency: a tenth of a division of a hundred is one. */
const onThisScale =
  (thousandths: number) =>
  (bench: Bench): Quantity | undefined => {
    const points = bench.points(bench.at);
    const readings = points.map((p) => p.reading);
    const span = Math.max(...readings) - Math.min(...readings);
    if (scaleUnitHz(points) === undefined || span <= 0) return undefined;
    return {
      value: (thousandths * span) / 1000,
      spread: exact,
      origin: "assumed",
      source: "by the span of this scale, which is marked in frequency; common practice, no source",
    };
  };
/** An end of a scale that is marked in frequency: the band's own, a little beyond. */
const endOfBand =
  (end: "low" | "high", margin: number) =>
  (bench: Bench): Quantity | undefined => {
    const unit = scaleUnitHz(bench.points(bench.at));
    const band = bench.quantity(atSubject(bands[end].address, bench.at));
    if (unit === undefined || !band) return undefined;
    return { value: (band.value / unit) * margin, spread: exact, origin: "assumed", source: "the band's own end, a little beyond" };
  };
/**
 * The IF as recorded, without its spread: a few hundred hertz of it move a whole law together, and a fit takes them up.
 *
 * @param s the address where it is kept for the question
 * @returns what takes it from there, else from the strip as described
 * @source house rule
 */
export const recordedIf =
  (s: { readonly address: string }) =>
  (bench: Bench): Quantity | undefined => {
    const own = bench.quantity(atSubject(s.address, bench.at)) ?? bench.strip()?.intermediateFrequency;
    return own && { value: own.value, spread: exact, origin: own.origin, source: own.source };
  };

/** What the law of a band's dial is worked out from; questions of the dial ask for it in the same words. */
export const dialInputs = {
  points: asked(
    list(
      {
        reading: { dimension: "division", meaning: "scale reading" },
        frequency: { dimension: "frequency", meaning: "frequency of the marker or station" },
        approach: { options: approaches, meaning: "which way the dial was turned to reach it", optional: true },
      },
      "zero beats of this band at one set-point",
      "turn to the next marker from the usual side, zero beat it, read the scale",
      400,
    ),
    { from: pointsOfJob, example: inventDial(dialCases[2], 7).points.map(rowOf) },
  ),
  oscillator: stored(bands.oscillator),
  intermediate: stored(bands.intermediate, { over: recordedIf(bands.intermediate) }),
  readingNoise: stored(dial.readingNoiseDivisions, { from: onThisScale(1) }),
  zeroBeat: stored(dial.zeroBeat),
  backlash: stored(dial.backlash, { from: onThisScale(2) }),
  /** how far the markers are high, relative: known, and taken out */
  markerError: stored(calibrator.crystalError),
  scaleLow: stored(dial.scaleLow, { from: endOfBand("low", 0.95) }),
  scaleHigh: stored(dial.scaleHigh, { from: endOfBand("high", 1.05) }),
  /** ends of the band as the set is described: what a law of few zero beats leans on */
  low: stored(bands.low),
  high: stored(bands.high),
};
/** Plain inputs that the fit itself takes; the spacing of the markers, Hz, tells a neighbour by. */
export type DialPlain = Plain<typeof dialInputs> & { readonly spacing?: number };

/**
 * The ends of a dial's scale: as kept, as its marks say, or as assumed.
 *
 * @param bench the job's view, at the band
 * @returns readings, divisions, the lower first
 * @source house frame
 */
export function scaleEnds(bench: Bench): { readonly low: number; readonly high: number } {
  const { scaleLow, scaleHigh } = dialInputs;
  const [a, b] = [scaleLow, scaleHigh].map((i) => (i.from?.(bench, {}) ?? i.assumed)?.value ?? Number.NaN);
  return { low: Math.min(a, b), high: Math.max(a, b) };
}
