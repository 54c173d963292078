import type { Strips } from "../../ask/drawings";
import { type CrystalChoice, type CrystalWish, chooseCrystals, crowdIn, plansFor, type TuningRange } from "../../infer/crystal/choose";
import { type ConverterPlan, dialHz, imageOf, signalAtDialHz, tunedOver } from "../../physics/converter";
import { circuitsRejectionDb } from "../../physics/images";
import { bad, good, type Read } from "../../units/issue";
import { printValue } from "../../units/print";

export interface ConverterInputs {
  readonly chassis: string;
  readonly oscillator: "above" | "below";
  readonly ranges: readonly { readonly low: number; readonly high: number }[];
  readonly crystals: readonly { readonly frequency: number }[];
  readonly twoPath: readonly { readonly beat: number; readonly sense: number }[];
  readonly wantedLow: number;
  readonly wantedHigh: number;
  readonly crystal: number;
  readonly crystalStep: number;
  readonly order: number;
  readonly inputCircuits: number;
  readonly inputQ: number;
  readonly intermediate: number;
  readonly markerSpacing: number;
  readonly markerError: number;
  readonly crystalError: number;
  readonly dialError: number;
  readonly drift: number;
}
export type Names =
  | "crystal"
  | "dialAtLow"
  | "dialAtHigh"
  | "imageLow"
  | "imageHigh"
  | "imageRejection"
  | "feedThroughRejection"
  | "ownImage"
  | "ownImageRejection"
  | "readout"
  | "byCrystal"
  | "crystalFound"
  | "whistles"
  | "notes";
export const senses = ["not said", "high", "low"] as const;
export const hz = (v: number): string => printValue(v, "frequency", 5e3);

const wishOf = (x: ConverterInputs): CrystalWish => ({
  lowHz: x.wantedLow,
  highHz: x.wantedHigh,
  ranges: x.ranges.map((r): TuningRange => ({ lowHz: r.low, highHz: r.high })),
  receiver: { ifHz: x.intermediate, oscillator: x.oscillator },
  circuits: x.inputCircuits,
  qRatio: x.inputQ,
  order: Math.round(x.order),
  stock: x.crystals.map((c) => c.frequency),
  gridHz: x.crystalStep,
});
export interface Chosen {
  readonly ranked: readonly CrystalChoice[];
  /** the crystal that was asked for, or the first of the ranking */
  readonly taken: CrystalChoice;
}
const mostPlans = 5000;

/**
 * The crystal to work with: the one that was said, on the range where least speaks against it, or the best of the ranking.
 *
 * @param x inputs
 * @param progress told how far the search is
 * @returns ranking and choice, or the physical reason why there is none, at its field
 * @source house frame
 */
export function choose(x: ConverterInputs, progress?: (said: string) => void): Read<Chosen> {
  const w = wishOf(x);
  const width = w.highHz - w.lowHz;
  const crossed = w.ranges.findIndex((r) => !(r.highHz > r.lowHz));
  if (crossed >= 0)
    return bad(`ranges row ${crossed + 1}`, "crossed", hz(w.ranges[crossed].highHz), `more than ${hz(w.ranges[crossed].lowHz)}`);
  if (!(width > 0)) return bad("wantedHigh", "crossed", hz(w.highHz), `more than wantedLow, ${hz(w.lowHz)}`);
  const other = x.twoPath.findIndex((r) => r.sense > 0 && x.twoPath.some((q) => q.sense > 0 && q.sense !== r.sense));
  if (other >= 0) {
    const at = x.twoPath.findIndex((r) => r.sense > 0 && r.sense !== x.twoPath[other].sense);
    return bad(
      `twoPath row ${at + 1}`,
      "both-ways",
      senses[x.twoPath[at].sense],
      `${senses[x.twoPath[other].sense]}, as in row ${other + 1}: one crystal is not high and low at once`,
    );
  }
  const widest = Math.max(0, ...w.ranges.map((r) => r.highHz - r.lowHz));
  if (widest < width)
    return bad(
      "wantedHigh",
      "wider-than-any-range",
      `${hz(width)} from end to end`,
      `at most ${hz(widest)}: no range that the receiver tunes is wider. Split the band between two crystals`,
    );
  const inside = w.ranges.findIndex((r) => r.lowHz <= x.intermediate && r.highHz >= x.intermediate);
  if (inside >= 0 && w.ranges.length === 1)
    return bad(
      "intermediate",
      "inside-the-range",
      hz(x.intermediate),
      "an IF outside the tuned range: inside it the receiver would hear its own IF",
    );
  if (x.crystal > 0) {
    const own = chooseCrystals({ ...w, stock: [x.crystal] }, undefined);
    if (own.length === 0)
      return bad(
        "crystal",
        x.crystal >= w.lowHz && x.crystal <= w.highHz ? "inside-the-band" : "off-every-range",
        hz(x.crystal),
        x.crystal >= w.lowHz && x.crystal <= w.highHz
          ? "a crystal outside the wanted band: inside it the dial would run through zero"
          : "a crystal whose distance from both ends of the band lies on one range of the receiver, and that is not on that range itself",
      );
    return good({ ranked: own, taken: own[0] });
  }
  const count = plansFor(w).length;
  if (count > mostPlans)
    return bad("crystalStep", "too-many", `${count} plans`, `at most ${mostPlans}: a larger step, or crystals by name in the table`);
  const ranked = chooseCrystals(w, (done, of) => progress?.(`looked into ${done} of ${of} plans`));
  if (ranked.length === 0)
    return bad(
      w.stock.length > 0 ? "crystals" : "crystalStep",
      "none-fits",
      w.stock.length > 0 ? `${w.stock.length} crystals` : hz(x.crystalStep),
      "a crystal that puts the whole band on one range of the receiver",
    );
  return good({ ranked, taken: ranked[0] });
}
/** Whether markers reach the dial at the same places through the converter and past it. */
export const markersMeet = (x: ConverterInputs, p: ConverterPlan): boolean =>
  Math.abs(p.crystalHz / x.markerSpacing - Math.round(p.crystalHz / x.markerSpacing)) < 1e-6;
/**
 * How far the crystal is high of its multiple of the markers by their beats, Hz; undefined where no beat was read with its sense.
 *
 * @source difference of two frequencies
 */
export function beatHz(x: ConverterInputs, p: ConverterPlan): number | undefined {
  const signed = x.twoPath.flatMap((r) => (r.sense === 0 ? [] : [r.sense === 1 ? r.beat : -r.beat]));
  return signed.length > 0 && markersMeet(x, p) ? signed.reduce((s, v) => s + v, 0) / signed.length : undefined;
}
/**
 * Error of the crystal by that, relative: the markers' own error, which both paths share but for the crystal's multiple, comes on top.
 *
 * @source difference of two frequencies, over the crystal's multiple
 */
export function crystalErrorByMarkers(x: ConverterInputs, p: ConverterPlan): number | undefined {
  const beat = beatHz(x, p);
  return beat === undefined ? undefined : beat / p.crystalHz + x.markerError;
}

/** Signal that comes in through the receiver's own image, for a place of its dial. */
export const throughOwnImageHz = (x: ConverterInputs, p: ConverterPlan, dial: number): number =>
  signalAtDialHz(p, dial + (x.oscillator === "above" ? 2 : -2) * x.intermediate);
/** What the input circuits leave of a signal for a place of the dial, dB. */
export const inputLeavesDb = (x: ConverterInputs, p: ConverterPlan, dial: number, signalHz: number): number =>
  circuitsRejectionDb(x.inputCircuits, x.inputQ, signalAtDialHz(p, dial), Math.max(1, signalHz));

const mhz = (v: number): string => String(Number((v / 1e6).toFixed(4)));
const range = (a: number, b: number): string => `${mhz(a)} to ${mhz(b)} MHz`;

/** Places of the markers on the dial, through the converter and past it; one row where they meet. */
function markerRows(x: ConverterInputs, p: ConverterPlan, low: number, high: number): Strips["rows"] {
  const s = x.markerSpacing;
  const places = (offset: number): number[] =>
    Array.from(
      { length: Math.floor((high - offset) / s + 1e-9) - Math.ceil((low - offset) / s - 1e-9) + 1 },
      (_, i) => offset + (Math.ceil((low - offset) / s - 1e-9) + i) * s,
    );
  const row = (label: string, at: readonly number[], says: (d: number) => string): Strips["rows"][number] => ({
    label,
    stroke: "faint",
    // so many that they say nothing by themselves are left to the table of the dial
    spans: at.length > 14 ? [] : at.map((d) => ({ from: d, to: d, says: says(d) })),
  });
  const past = row("Markers past the converter", places(0), mhz);
  const through = row("Markers through the converter", places(p.side === "below" ? -p.crystalHz : p.crystalHz), (d) =>
    mhz(signalAtDialHz(p, d)),
  );
  return markersMeet(x, p) ? [{ ...through, label: "Markers, by both paths at one place" }] : [through, past];
}

/** The whole plan over the receiver's dial, in words. */
export function planStrips(x: ConverterInputs, c: CrystalChoice): Strips {
  const p = c.plan;
  const [low, high] = tunedOver(p);
  const image = imageOf(p);
  const whole = (says: string) => [{ from: low, to: high, says }];
  const at = (dial: number): number => signalAtDialHz(p, dial);
  const imageAt = (dial: number): number => Math.abs(p.crystalHz + (p.side === "below" ? -dial : dial));
  // where the crowd of the image or of the dial stands, on the dial
  const onImage = crowdIn(image.lowHz, image.highHz);
  const onDial = crowdIn(low, high);
  return {
    id: "plan",
    title: `The whole plan behind ${mhz(p.crystalHz)} MHz, over the receiver's own dial`,
    dimension: "frequency",
    from: low,
    to: high,
    axis: "receiver's own dial",
    also: { label: "stands for", atFrom: at(low), atTo: at(high) },
    rows: [
      {
        label: "Wanted",
        stroke: "accent",
        spans: whole(`${range(at(low), at(high))}${p.side === "above" ? ", backward, sidebands swapped" : ""}`),
      },
      {
        label: "Image: comes in at the same places",
        stroke: "ink",
        spans: whole(
          `${range(imageAt(low), imageAt(high))}, ${c.imageDb.toFixed(0)} dB down at least${onImage.length > 0 ? `: ${onImage.join(", ")}` : ""}`,
        ),
      },
      {
        label: "Past the converter, straight into the receiver",
        stroke: "ink",
        spans: whole(onDial.length > 0 ? onDial.join(", ") : "nothing strong is expected"),
      },
      {
        label: "Through the receiver's own image",
        stroke: "faint",
        spans: whole(range(throughOwnImageHz(x, p, low), throughOwnImageHz(x, p, high))),
      },
      ...markerRows(x, p, low, high),
      {
        label: "Signals that whistle with themselves",
        stroke: "ink",
        spans: c.responses.flatMap((r) =>
          r.crossHz === undefined
            ? []
            : [{ from: dialHz(p, r.crossHz), to: dialHz(p, r.crossHz), says: `${mhz(r.crossHz)}, order ${r.m + r.n}` }],
        ),
      },
      {
        label: "Steady notes that are no signals",
        stroke: "accent",
        spans: c.birdies.map((b) => ({
          from: b.dialHz,
          to: b.dialHz,
          says: `${mhz(b.dialHz)} ${b.kind === "IF harmonic" ? `IF x ${b.p}` : b.kind === "receiver's oscillator" ? `oscillator x ${b.p}` : `crystal x ${b.p}`}`,
        })),
      },
    ],
  };
}
