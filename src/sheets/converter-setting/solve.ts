import type { NoValue } from "../../ask/results";
import { loadForRatioF, type PulledCrystal, pullBy } from "../../physics/crystal-pull";
import { detuning, rejectionDb } from "../../physics/images";
import { dbOf, gainForLoss, ratioOf } from "../../physics/noise";
import { piPad } from "../../physics/pad";
import { externalNoiseDb } from "../../standards/external-noise";
import type { Asked } from "./ask";

export type Settled = Omit<Asked, "chassis">;
/** Gain that is enough for any receiver of this class: what is over it only brings strong signals nearer to overload, dB. Common practice, no source. */
export const mostGainDb = 20;
/** What the receiver behind may cost against the noise of the air, dB. Common practice, no source. */
const costDb = 1;
/** A pad of less than this is not worth its resistors, dB. */
const leastPadDb = 0.1;
const overtones = { fundamental: 1, "third overtone": 3, "fifth overtone": 5 } as const;

/** A crystal on an overtone is pulled by the square of its number less: its motional capacitance is so much smaller. */
const crystalOf = (x: Settled): PulledCrystal => ({
  motionalF: x.pullMotional / overtones[x.crystalCut] ** 2,
  holderF: x.pullHolder,
  loadF: x.pullLoad,
});
/** Whether the crystal is above the band: the dial then runs backward. */
export const isAbove = (x: Pick<Settled, "crystal" | "wantedLow">): boolean => x.crystal > x.wantedLow;

/**
 * The crystal's frequency by what was read: a counter's, or the mean of the signals that were heard, their dial readings put right.
 *
 *     crystal below the band:  crystal = signal - dial      above it:  crystal = signal + dial
 *
 * @param x plain inputs, SI
 * @returns Hz; undefined where nothing was read
 * @source mixing: the dial tunes the difference of signal and crystal
 */
export function crystalReadHz(x: Settled): number | undefined {
  if (x.crystalCounted !== undefined) return x.crystalCounted;
  if (x.heard.length === 0) return undefined;
  const side = isAbove(x) ? 1 : -1;
  const sum = x.heard.reduce((s, r) => s + r.signal + side * (r.dial + x.readsLow + x.heardDoubt), 0);
  return sum / x.heard.length;
}
/**
 * Where the input circuits are peaked: as far from either end by the resonance curve.
 *
 * @param x plain inputs, SI
 * @returns Hz
 * @source geometric mean: definition of a resonance curve's middle
 */
export const middleHz = (x: Pick<Settled, "wantedLow" | "wantedHigh">): number => Math.sqrt(x.wantedLow * x.wantedHigh);

const notRead: NoValue = { none: "not read yet" };
const lost = (end: number | undefined, middle: number | undefined): number | NoValue =>
  end === undefined || middle === undefined ? notRead : 20 * Math.log10(end / middle);

function crystalResults(x: Settled) {
  const c = crystalOf(x);
  const readHz = crystalReadHz(x);
  const error = readHz === undefined ? undefined : readHz / x.crystal - 1;
  const load = error === undefined ? undefined : loadForRatioF(c, 1 / (1 + error));
  return {
    crystalOff: readHz === undefined ? notRead : readHz - x.crystal,
    crystalError: error ?? notRead,
    pullPerPicofarad: pullBy(c, 1e-12),
    trimmerChange:
      error === undefined ? notRead : load === undefined ? { none: "no capacitance pulls this crystal that far" } : load - x.pullLoad,
    lowersBy: -pullBy(c, x.pullTravel) * x.crystal,
    raisesBy: pullBy(c, -x.pullTravel) * x.crystal,
  };
}
function gainResults(x: Settled) {
  const gain =
    x.levelWithout === undefined || x.levelWith === undefined ? undefined : 20 * Math.log10(x.levelWithout / x.levelWith) + x.levelDoubt;
  const least = gainForLoss(ratioOf(externalNoiseDb(middleHz(x), x.airNoise)), ratioOf(x.ownNoise), ratioOf(x.behindNoise), costDb);
  const over = gain === undefined ? undefined : gain - mostGainDb;
  const pad = over !== undefined && over > leastPadDb ? piPad(over, x.padResistance) : undefined;
  const none: NoValue = gain === undefined ? notRead : { none: "there is nothing to take off" };
  return {
    gain: gain ?? notRead,
    leastGain: least === undefined ? { none: "its own noise alone costs more" } : dbOf(least),
    toTakeOff: over === undefined ? notRead : pad ? over : none,
    padAcross: pad?.shuntOhm ?? none,
    padInSeries: pad?.seriesOhm ?? none,
  };
}
/**
 * What setting a converter comes to: crystal and trimmer, input circuits, gain.
 *
 * @param x plain inputs, SI
 * @returns results, SI and dB
 * @source src/physics/crystal-pull.ts, images.ts, noise.ts, pad.ts
 */
export function solve(x: Settled) {
  return {
    ...crystalResults(x),
    peakAt: middleHz(x),
    endsLoss: endsLossDb(x, x.wantedHigh),
    lowLost: lost(x.levelAtLow, x.levelAtMiddle),
    highLost: lost(x.levelAtHigh, x.levelAtMiddle),
    ...gainResults(x),
  };
}
/**
 * What the input circuits take off at a frequency of the band, peaked in its middle.
 *
 * @param x plain inputs, SI
 * @param hz frequency, Hz
 * @returns dB, positive
 * @source universal resonance curve
 */
export const endsLossDb = (x: Settled, hz: number): number => rejectionDb(x.inputCircuits, x.inputQ, detuning(middleHz(x), hz));
