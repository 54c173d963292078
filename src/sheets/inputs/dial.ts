import type { ChoiceInput, QuantityInput, TableInput } from "../../ask/inputs";
import type { DialAssumed } from "../../infer/dial/frame";
import { type JudgedDial, judgeDial } from "../../infer/dial/judge";
import { dialCases, inventDial } from "../../infer/dial/possible-dials";
import type { DialPoint } from "../../readings/zero-beats";
import type { Bench } from "../../set/bench";
import type { Row } from "../../set/columns";
import type { Read } from "../../units/issue";
import { exact, type Quantity, tolerance } from "../../units/quantity";

/** Inputs that the sheets of the dial ask for in the same words. */
export const approaches = ["not-said", "up", "down"] as const;
const rowOf = (p: DialPoint): Row => ({
  reading: p.reading,
  frequency: p.frequencyHz,
  approach: p.approach === 1 ? 1 : p.approach === -1 ? 2 : 0,
});
const example = inventDial(dialCases[2], 7).points.map(rowOf);

export const pointsInput = {
  kind: "table",
  columns: {
    reading: { dimension: "division", meaning: "scale reading" },
    frequency: { dimension: "frequency", meaning: "frequency of the marker or station" },
    approach: { options: approaches, meaning: "side that the dial was turned from", optional: true },
  },
  meaning: "zero beats of this band at one set-point",
  howMeasured: "turn to the next marker from the usual side, zero beat it, read the scale",
  from: (bench) => {
    const points = bench.points(bench.at);
    return points.length > 0 ? points.map(rowOf) : undefined;
  },
  assumed: { rows: example, source: "an invented bandspread scale" },
  mostRows: 400,
} as const satisfies TableInput;

/** Hz that one unit of the scale stands for, where the scale is marked in frequency: then its readings are near the frequencies themselves. */
export function scaleUnitHz(points: readonly { readonly reading: number; readonly frequencyHz: number }[]): number | undefined {
  return [1e3, 1e6].find((unit) => points.length > 0 && points.every((p) => Math.abs((p.reading * unit) / p.frequencyHz - 1) < 0.05));
}
/** What a number of thousandths of the scale's span are, where it is marked in frequency: a tenth of a division of a hundred is one. */
const onThisScale =
  (names: readonly string[], thousandths: number) =>
  (bench: Bench): Quantity | undefined => {
    for (const name of names) {
      const kept = bench.quantity(`${bench.at}.${name}`);
      if (kept) return kept;
    }
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
const endOfScale =
  (name: string, end: "low" | "high", margin: number) =>
  (bench: Bench): Quantity | undefined => {
    const kept = bench.quantity(`${bench.at}.${name}`);
    if (kept) return kept;
    const unit = scaleUnitHz(bench.points(bench.at));
    const band = bench.quantity(`${bench.at}.${end}`);
    if (unit === undefined || !band) return undefined;
    return { value: (band.value / unit) * margin, spread: exact, origin: "assumed", source: "the band's own end, a little beyond" };
  };

export const oscillatorInput = {
  kind: "choice",
  options: ["above", "below"],
  meaning: "side of the oscillator on this band",
  howMeasured: "service sheet; a generator at the image tells",
  assumed: "above",
} as const satisfies ChoiceInput;

export const intermediateInput = {
  kind: "quantity",
  dimension: "frequency",
  positive: true,
  // lower than any receiver's: its harmonics are listed one by one
  min: 20e3,
  max: 60e6,
  meaning: "IF that the tuned oscillator works with",
  howMeasured: "service sheet, or a generator on the counter",
  from: (bench) => {
    const own = bench.quantity(`${bench.at || "supplies"}.intermediate`) ?? bench.strip()?.intermediateFrequency;
    // a few hundred hertz of IF move the whole law together and the fit takes them up
    return own && { value: own.value, spread: exact, origin: own.origin, source: own.source };
  },
  assumed: { value: 455e3, spread: exact, source: "the usual IF" },
} as const satisfies QuantityInput;

export const readingNoiseInput = {
  kind: "quantity",
  dimension: "division",
  positive: true,
  max: 100,
  meaning: "standard deviation of one reading of the scale",
  howMeasured: "read the same zero beat ten times over",
  from: onThisScale(["readingNoiseDivisions", "readingNoise"], 1),
  keptAs: "readingNoiseDivisions",
  // kept by this name until frequencies were read as such on other sheets
  formerly: ["readingNoise"],
  assumed: { value: 0.1, spread: exact, source: "a tenth of a division, common practice, no source; the points themselves correct it" },
} as const satisfies QuantityInput;

export const zeroBeatInput = {
  kind: "quantity",
  dimension: "frequency",
  positive: true,
  max: 2000,
  meaning: "standard deviation of a zero beat",
  howMeasured: "by ear the audio chain swallows 20 to 50 Hz; by the S meter's flutter less",
  assumed: { value: 20, spread: exact, source: "by ear, common practice, no source" },
} as const satisfies QuantityInput;

export const backlashInput = {
  kind: "quantity",
  dimension: "division",
  min: 0,
  max: 100,
  meaning: "backlash to expect",
  howMeasured: "zero beat one marker from both sides; points from both sides tell it too",
  from: onThisScale(["backlash"], 2),
  assumed: { value: 0.2, spread: exact, source: "common practice, no source" },
} as const satisfies QuantityInput;

export const markerErrorInput = {
  kind: "quantity",
  dimension: "ppm",
  min: -1e-3,
  max: 1e-3,
  meaning: "error of the markers (their frequency is high: positive)",
  howMeasured: "the sheet on trimming the marker crystal",
  from: (bench) => bench.quantity("fittings.markers.crystalError"),
  keptAt: "fittings.markers.crystalError",
  assumed: { value: 0, spread: tolerance(2e-5), source: "a crystal that was never trimmed, common practice, no source" },
} as const satisfies QuantityInput;

export const spacingInput = {
  kind: "quantity",
  dimension: "frequency",
  positive: true,
  meaning: "spacing of the markers",
  howMeasured: "the generator's switch",
  from: (bench) => bench.quantity("fittings.markers.spacing"),
  keptAt: "fittings.markers.spacing",
  assumed: { value: 100e3, spread: exact, source: "the usual marker generator" },
} as const satisfies QuantityInput;

export const scaleInputs = {
  scaleLow: {
    kind: "quantity",
    dimension: "division",
    meaning: "lowest reading of the scale",
    howMeasured: "look at it",
    from: endOfScale("scaleLow", "low", 0.95),
    assumed: { value: 0, spread: exact, source: "a scale of 0 to 100" },
  },
  scaleHigh: {
    kind: "quantity",
    dimension: "division",
    meaning: "highest reading of the scale",
    howMeasured: "look at it",
    from: endOfScale("scaleHigh", "high", 1.05),
    assumed: { value: 100, spread: exact, source: "a scale of 0 to 100" },
  },
} as const satisfies Record<string, QuantityInput>;

/** Ends of the band as the set is described: what a law of few zero beats leans on. */
export const bandInputs = {
  low: {
    kind: "quantity",
    dimension: "frequency",
    positive: true,
    meaning: "lower end of this band, as described",
    howMeasured: "service sheet, or the scale itself",
    assumed: { value: dialCases[2].lowHz, spread: exact, source: "the invented bandspread scale" },
  },
  high: {
    kind: "quantity",
    dimension: "frequency",
    positive: true,
    meaning: "upper end of this band, as described",
    howMeasured: "service sheet, or the scale itself",
    assumed: { value: dialCases[2].highHz, spread: exact, source: "the invented bandspread scale" },
  },
} as const satisfies Record<string, QuantityInput>;

/** The ends of a dial's scale, the lower first: as kept, as its marks say, or as assumed. */
export function scaleEnds(bench: Bench): { readonly low: number; readonly high: number } {
  const of = (i: (typeof scaleInputs)[keyof typeof scaleInputs]): number => (i.from(bench) ?? i.assumed).value;
  const [a, b] = [of(scaleInputs.scaleLow), of(scaleInputs.scaleHigh)];
  return { low: Math.min(a, b), high: Math.max(a, b) };
}

/** Plain inputs that the fit itself takes. */
export interface DialPlain {
  readonly points: readonly Row[];
  readonly oscillator: "above" | "below";
  readonly intermediate: number;
  readonly readingNoise: number;
  readonly zeroBeat: number;
  readonly backlash: number;
  /** how far the markers are high, relative: known, and taken out */
  readonly markerError: number;
  /** of the markers; tells a neighbour by */
  readonly spacing?: number;
  readonly scaleLow: number;
  readonly scaleHigh: number;
  /** ends of the band as described, Hz */
  readonly low: number;
  readonly high: number;
}
/** The zero beats on their true frequencies: what was written, and the markers' known error. */
export const pointsOf = (rows: readonly Row[], markerError: number): DialPoint[] =>
  rows.map((r) => ({ reading: r.reading, frequencyHz: r.frequency * (1 + markerError), approach: ([0, 1, -1] as const)[r.approach] ?? 0 }));

/** Spacing of the markers that these frequencies are: what is said, unless some lie between; then their own smallest step. */
export function spacingOf(points: readonly Row[], saidHz: number): number {
  if (points.every((p) => Math.abs(p.frequency / saidHz - Math.round(p.frequency / saidHz)) < 1e-6)) return saidHz;
  const sorted = [...new Set(points.map((p) => p.frequency))].sort((a, b) => a - b);
  const steps = sorted.slice(1).map((f, i) => f - sorted[i]);
  return Math.min(saidHz, ...steps.filter((s) => s >= 1000));
}

/** What counts as one division of this scale: on one of fewer than a hundred, such as one that is marked in MHz, a hundredth of it. */
const divisionOf = (x: DialPlain): number => Math.min(1, Math.abs(x.scaleHigh - x.scaleLow) / 100);
/** What the fit expects before it has seen a beat. */
export const assumedOf = (x: DialPlain, always = false): DialAssumed => ({
  readingNoise: x.readingNoise,
  zeroBeatHz: x.zeroBeat,
  backlash: x.backlash,
  backlashU: Math.max(0.2 * divisionOf(x), x.backlash / 2),
  division: divisionOf(x),
  beforehand: {
    scale: [Math.min(x.scaleLow, x.scaleHigh), Math.max(x.scaleLow, x.scaleHigh)],
    ...(x.high > x.low ? { bandHz: [x.low, x.high] as const } : {}),
    always,
  },
});

/** The latest fits, by what they were made of: a slider that leaves the law alone costs none. */
const known = new Map<string, Read<JudgedDial>>();
const mostKnown = 16;
/**
 * The fit of these points, worked out once for the answer's curves, findings and tables.
 *
 * @param x plain inputs
 * @param always lean on the described band and scale however many beats there are, so that the whole scale is spoken of
 * @returns fit and odd points, or located issues
 * @source house frame
 */
export function dialOf(x: DialPlain, always = false): Read<JudgedDial> {
  const key = [
    ...x.points.map((p) => `${p.reading} ${p.frequency} ${p.approach}`),
    always,
    x.low,
    x.high,
    x.oscillator,
    x.intermediate,
    x.readingNoise,
    x.zeroBeat,
    x.backlash,
    x.spacing,
    x.scaleLow,
    x.scaleHigh,
    x.markerError,
  ].join();
  const had = known.get(key);
  if (had) return had;
  const margin = 0.05 * Math.abs(x.scaleHigh - x.scaleLow);
  const fit = judgeDial(
    pointsOf(x.points, x.markerError),
    { intermediateHz: x.intermediate, oscillator: x.oscillator },
    assumedOf(x, always),
    {
      spacingHz: spacingOf(x.points, x.spacing ?? 100e3),
      scale: [Math.min(x.scaleLow, x.scaleHigh) - margin, Math.max(x.scaleLow, x.scaleHigh) + margin],
    },
  );
  for (const oldest of known.keys()) {
    if (known.size < mostKnown) break;
    known.delete(oldest);
  }
  known.set(key, fit);
  return fit;
}
