import type { DialAssumed } from "../../infer/dial/frame";
import { type JudgedDial, judgeDial } from "../../infer/dial/judge";
import { remembering } from "../../numerics/remember";
import type { DialPoint } from "../../readings/zero-beats";
import type { Read } from "../../units/issue";
import type { DialPlain } from "./dial";

/** The zero beats on their true frequencies: what was written, and the markers' known error. */
const pointsOf = ({ points, markerError }: DialPlain): DialPoint[] =>
  points.map((r) => ({
    reading: r.reading,
    frequencyHz: r.frequency * (1 + markerError),
    approach: ([0, 1, -1] as const)[r.approach] ?? 0,
  }));

/** Spacing of the markers that these frequencies are: what is said, unless some lie between; then their own smallest step. */
function spacingOf({ points, spacing: saidHz = 100e3 }: DialPlain): number {
  if (points.every((p) => Math.abs(p.frequency / saidHz - Math.round(p.frequency / saidHz)) < 1e-6)) return saidHz;
  const sorted = [...new Set(points.map((p) => p.frequency))].sort((a, b) => a - b);
  const steps = sorted.slice(1).map((f, i) => f - sorted[i]);
  return Math.min(saidHz, ...steps.filter((s) => s >= 1000));
}

/** What counts as one division of this scale: on one of fewer than a hundred, such as one that is marked in MHz, a hundredth of it. */
const divisionOf = (x: DialPlain): number => Math.min(1, Math.abs(x.scaleHigh - x.scaleLow) / 100);
/** Ends of the scale, the lower first. */
const scaleOf = (x: DialPlain): readonly [number, number] => [Math.min(x.scaleLow, x.scaleHigh), Math.max(x.scaleLow, x.scaleHigh)];

/**
 * What the fit expects before it has seen a beat.
 *
 * @param x plain inputs
 * @param always lean on the described band and scale however many beats there are
 * @returns noise and backlash, divisions and Hz; scale and band
 * @source house frame
 */
export const assumedOf = (x: DialPlain, always = false): DialAssumed => ({
  readingNoise: x.readingNoise,
  zeroBeatHz: x.zeroBeat,
  backlash: x.backlash,
  backlashU: Math.max(0.2 * divisionOf(x), x.backlash / 2),
  division: divisionOf(x),
  beforehand: { scale: scaleOf(x), ...(x.high > x.low ? { bandHz: [x.low, x.high] as const } : {}), always },
});

/**
 * All that a law is made of, as a key.
 *
 * @param x plain inputs
 * @returns text: the same for the same law
 * @source house frame
 */
export const keyOfDial = (x: DialPlain): string =>
  [
    ...x.points.map((p) => `${p.reading} ${p.frequency} ${p.approach}`),
    ...[x.low, x.high, x.oscillator, x.intermediate, x.readingNoise, x.zeroBeat, x.backlash, x.spacing],
    ...[x.scaleLow, x.scaleHigh, x.markerError],
  ].join();
const mostKnown = 16;
/**
 * The fit of these points, worked out once for the answer's curves, findings and tables; a slider that leaves the law alone costs none.
 *
 * @param x plain inputs
 * @param always lean on the described band and scale however many beats there are, so that the whole scale is spoken of
 * @returns fit and odd points, or located issues
 * @source house frame
 */
export const dialOf: (x: DialPlain, always?: boolean) => Read<JudgedDial> = remembering(
  (x: DialPlain, always = false) => `${keyOfDial(x)} ${always}`,
  (x: DialPlain, always = false) => {
    const [low, high] = scaleOf(x);
    const margin = 0.05 * (high - low);
    return judgeDial(pointsOf(x), { intermediateHz: x.intermediate, oscillator: x.oscillator }, assumedOf(x, always), {
      spacingHz: spacingOf(x),
      scale: [low - margin, high + margin],
    });
  },
  mostKnown,
);
