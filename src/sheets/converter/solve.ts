import { type CrystalChoice, type CrystalWish, chooseCrystals, plansFor, type TuningRange } from "../../infer/crystal/choose";
import { type ConverterPlan, dialHz, signalAtDialHz } from "../../physics/converter";
import { circuitsRejectionDb, detuning, rejectionDb } from "../../physics/images";
import { bad, good, type Read } from "../../units/issue";
import { printValue } from "../../units/print";
import { type Asked, ask } from "./ask";

const senses = ask.inputs.twoPath.columns.sense.options;
/**
 * A frequency as a person reads it.
 *
 * @param v Hz
 * @returns value and unit, to 5 kHz
 * @source house rule
 */
export const hz = (v: number): string => printValue(v, "frequency", 5e3);

const wishOf = (x: Asked): CrystalWish => ({
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

/** Inputs that can't go together, before any crystal is looked into. */
function crossed(x: Asked, w: CrystalWish): Read<true> {
  const width = w.highHz - w.lowHz;
  const row = w.ranges.findIndex((r) => !(r.highHz > r.lowHz));
  if (row >= 0) return bad(`ranges row ${row + 1}`, "crossed", hz(w.ranges[row].highHz), `more than ${hz(w.ranges[row].lowHz)}`);
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
  return good(true);
}
/**
 * The crystal to work with: the one that was said, on the range where least speaks against it, or the best of the ranking.
 *
 * @param x inputs
 * @param progress told how far the search is
 * @returns ranking and choice, or the physical reason why there is none, at its field
 * @source house frame
 */
export function choose(x: Asked, progress?: (said: string) => void): Read<Chosen> {
  const w = wishOf(x);
  const may = crossed(x, w);
  if (!may.ok) return may;
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
/**
 * Whether markers reach the dial at the same places through the converter and past it.
 *
 * @param x spacing of the markers, Hz
 * @param p the plan
 * @returns true where the crystal is a whole multiple of them
 * @source difference of two frequencies
 */
export const markersMeet = (x: Asked, p: ConverterPlan): boolean =>
  Math.abs(p.crystalHz / x.markerSpacing - Math.round(p.crystalHz / x.markerSpacing)) < 1e-6;
/**
 * How far the crystal is high of its multiple of the markers by their beats, Hz; undefined where no beat was read with its sense.
 *
 * @param x beats, and spacing of the markers, Hz
 * @param p the plan
 * @returns Hz
 * @source difference of two frequencies
 */
export function beatHz(x: Asked, p: ConverterPlan): number | undefined {
  const signed = x.twoPath.flatMap((r) => (r.sense === 0 ? [] : [r.sense === 1 ? r.beat : -r.beat]));
  return signed.length > 0 && markersMeet(x, p) ? signed.reduce((s, v) => s + v, 0) / signed.length : undefined;
}
/**
 * Error of the crystal by that, relative: the markers' own error, which both paths share but for the crystal's multiple, comes on top.
 *
 * @param x beats, spacing of the markers, Hz, and their error
 * @param p the plan
 * @returns a ratio; undefined where no beat tells it
 * @source difference of two frequencies, over the crystal's multiple
 */
export function crystalErrorByMarkers(x: Asked, p: ConverterPlan): number | undefined {
  const beat = beatHz(x, p);
  return beat === undefined ? undefined : beat / p.crystalHz + x.markerError;
}

/**
 * Signal that comes in through the receiver's own image.
 *
 * @param x side of the receiver's oscillator, and its IF, Hz
 * @param p the plan
 * @param dial place of the receiver's dial, Hz
 * @returns Hz
 * @source the image lies two IF away, identity
 */
export const throughOwnImageHz = (x: Pick<Asked, "oscillator" | "intermediate">, p: ConverterPlan, dial: number): number =>
  signalAtDialHz(p, dial + (x.oscillator === "above" ? 2 : -2) * x.intermediate);
/**
 * What the input circuits leave of a signal.
 *
 * @param x circuits at the input, and their Q
 * @param p the plan
 * @param dial place of the receiver's dial, Hz
 * @param signalHz the signal, Hz
 * @returns dB down
 * @source physics/images.ts
 */
export const inputLeavesDb = (x: Asked, p: ConverterPlan, dial: number, signalHz: number): number =>
  circuitsRejectionDb(x.inputCircuits, x.inputQ, signalAtDialHz(p, dial), Math.max(1, signalHz));

interface Curves {
  readonly image: Float64Array;
  readonly past: Float64Array;
  readonly ownImage: Float64Array;
}
/**
 * What comes of a chosen crystal, of one draw after another.
 *
 * @param best inputs, SI, whose choices hold for every draw
 * @param taken the crystal with its plan
 * @param axis wanted frequencies of the curves, Hz
 * @returns of a draw: results, Hz, dB and ratios; fills the curves
 * @source physics/converter.ts and physics/images.ts
 */
export function converterSolver(best: Asked, { plan: p, responses, birdies }: CrystalChoice, axis: Float64Array) {
  const imageAt = (f: number): number => Math.abs(2 * p.crystalHz - f);
  const off = (of: (dial: number, f: number) => number): Float64Array =>
    axis.map((f) => detuning(signalAtDialHz(p, dialHz(p, f)), Math.max(1, of(dialHz(p, f), f))));
  const ownOff = (x: Asked): Float64Array => off((d) => throughOwnImageHz(x, p, d));
  const [image, past, usualOwn] = [off((_, f) => imageAt(f)), off((d) => d), ownOff(best)];
  const intermediateHz = best.intermediate;
  const [whistles, notes] = [responses.filter((r) => r.crossHz !== undefined).length, birdies.length];
  const sign = p.side === "below" ? 1 : -1;
  return (x: Asked, into: Curves) => {
    const found = crystalErrorByMarkers(x, p);
    const byCrystal = (found ?? x.crystalError) * p.crystalHz;
    return {
      crystal: p.crystalHz,
      dialAtLow: dialHz(p, p.lowHz),
      dialAtHigh: dialHz(p, p.highHz),
      imageLow: imageAt(p.lowHz),
      imageHigh: imageAt(p.highHz),
      imageRejection: worstOf(x, image, into.image),
      feedThroughRejection: worstOf(x, past, into.past),
      ownImage: throughOwnImageHz(x, p, dialHz(p, p.lowHz)),
      ownImageRejection: worstOf(x, x.intermediate === intermediateHz ? usualOwn : ownOff(x), into.ownImage),
      readout: byCrystal + sign * (x.dialError + x.drift),
      byCrystal,
      crystalFound: found ?? { none: "no beat by both paths was read with its sense, or the crystal is no multiple of the markers" },
      whistles,
      notes,
    };
  };
}
/** Rejection by the input circuits at each detuning, dB, and the worst of it. */
function worstOf(x: Asked, rho: Float64Array, into: Float64Array): number {
  let worst = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rho.length; i++) {
    into[i] = rejectionDb(x.inputCircuits, x.inputQ, rho[i]);
    worst = Math.min(worst, into[i]);
  }
  return worst;
}
