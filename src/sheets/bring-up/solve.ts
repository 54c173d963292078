import type { NoValue } from "../../ask/results";
import { lampInSeries, loadBehindLamp } from "../../physics/lamp";
import type { SupplyAtRest } from "../../physics/supply";
import { crestV, type Described, described, expectedVolts } from "../inputs/supply-law";
import type { Asked, G } from "./ask";
import { bulbFor } from "./bulbs";

/**
 * Whether the rectifier can be taken out for a reading: a tube in a string of heaters can't, the string would be open.
 *
 * @param x inputs
 * @source derived
 */
export const mayPull = (x: Pick<Asked, "heaters" | "rectifierType">): boolean => x.heaters === "parallel" || x.rectifierType === "silicon";
/**
 * Whether the readings behind the bulb say stop: with the rectifier in, or already with it out. Nothing across the set is a dead short.
 *
 * @param g inputs, figures and verdicts
 * @returns each that holds, and `clear` where the load is gone with the rectifier out
 * @source limits of 1.5, 1.1 and 0.8 times the plate: common practice, no source
 */
export function overloads(g: G): { readonly whole: boolean; readonly primary: boolean; readonly clear: boolean; readonly dead: boolean } {
  const x = g.best;
  const pulls = mayPull(x);
  const dead = x.setVolts === 0 || (pulls && x.setVoltsNoRectifier === 0);
  const whole = g.figures.overload.value !== null && g.verdict((_, y) => y.overload > 1.5) !== "no";
  const out = g.figures.equivalentNoRectifier.value !== null;
  const primary = out && g.verdict((i, y) => y.equivalentNoRectifier > 1.1 * i.plateWatts) !== "no";
  return { whole, primary, dead, clear: out && g.verdict((i, y) => y.equivalentNoRectifier < 0.8 * i.plateWatts) === "yes" };
}
/** Touch currents of the record that are over what is allowed, A. */
const overLimit = (x: Asked): readonly number[] => [x.touchOne ?? 0, x.touchOther ?? 0].filter((a) => a > 0.5e-3);
/**
 * What the record of the safety test says against any power at all.
 *
 * @param x inputs
 * @returns true where a touch current is over 0.5 mA
 * @source touch-current limits
 */
export const recordFails = (x: Asked): boolean => overLimit(x).length > 0;
/**
 * The larger of the touch currents that are over the limit, A.
 *
 * @param x inputs
 * @source the safety record
 */
export const worstTouch = (x: Asked): number => Math.max(...overLimit(x));

/**
 * The volts of a load behind this bulb.
 *
 * @param x inputs
 * @param watts that the load takes at the rated line
 * @returns V at the load and A
 * @source lampInSeries
 */
const behindBulb = (x: Asked, watts: number) => lampInSeries(x.lineVoltage, x.bulbWatts, x.bulbRated, x.ratedLine ** 2 / watts);

/**
 * The set's volts behind this bulb over its load.
 *
 * @param x inputs
 * @param watts loads at the rated line, rising
 * @param into V, overwritten
 * @source lampInSeries
 */
export function setVoltsOver(x: Asked, watts: Float64Array, into: Float64Array): void {
  const squareV = x.ratedLine * x.ratedLine;
  let [lampV, rising, before] = [0, 1, 1];
  for (let i = 0; i < watts.length; i++) {
    // the loads are evenly spaced in their logarithm: each lamp is brighter than the last by about what that was, and that bends as it did
    const r = lampInSeries(x.lineVoltage, x.bulbWatts, x.bulbRated, squareV / watts[i], (lampV * rising * rising) / before);
    const now = lampV > 0 ? r.lampV / lampV : 1;
    before = i > 1 ? rising : now;
    rising = now;
    lampV = r.lampV;
    into[i] = r.setV;
  }
}

/** Watts at the rated line of what was read behind the bulb, or why they can't be said. */
function loadOf(x: Asked, volts: number | undefined): number | NoValue {
  if (volts === undefined) return { none: "not read yet" };
  if (volts === 0) return { none: "nothing across the set: a dead short, or no line at all" };
  if (volts >= x.lineVoltage) return { none: "the set's volts reach the line's: the bulb is not in series, or the line was misread" };
  return loadBehindLamp(x.lineVoltage, x.bulbWatts, x.bulbRated, volts, x.ratedLine);
}

/** The supply at its best values, solved: the draws begin from it. */
export interface Warm {
  readonly supply: Described;
  readonly solved: SupplyAtRest;
}
/**
 * The supply at the best values.
 *
 * @param x inputs
 * @returns undefined where it can't give this load
 * @source described, expectedVolts
 */
export function warmUp(x: Asked): Warm | undefined {
  const supply = described(x);
  const solved = supply && expectedVolts(supply, x.lineVoltage)?.solved;
  return supply && solved && { supply, solved };
}

/**
 * A sound set behind this bulb, what was read, and the B+ to expect without the bulb.
 *
 * @param x plain inputs, SI
 * @param warm the supply at its best values
 * @returns results, SI
 * @source lampInSeries, expectedVolts
 */
export function solve(x: Asked, warm: Warm | undefined) {
  const sound = behindBulb(x, x.plateWatts);
  const watts = loadOf(x, x.setVolts);
  const own = warm && described(x, warm.supply.typed);
  const bPlus = own && expectedVolts(own, x.lineVoltage, warm.solved);
  const stringOpen = { none: "with a tube pulled the string is open: such a reading proves nothing" };
  const tooMuch = { none: "the supply can't give this load" };
  return {
    setExpected: sound.setV,
    currentExpected: sound.ampere,
    currentShort: lampInSeries(x.lineVoltage, x.bulbWatts, x.bulbRated, 0).ampere,
    bulbWanted: bulbFor(x.plateWatts),
    equivalentWatts: watts,
    equivalentNoRectifier: mayPull(x) || x.setVoltsNoRectifier === undefined ? loadOf(x, x.setVoltsNoRectifier) : stringOpen,
    overload: typeof watts === "number" ? watts / x.plateWatts : watts,
    rippleLast: bPlus ? bPlus.solved.rippleRms[2] : tooMuch,
    noLoad: crestV(x, x.highLine),
    bPlusExpected: bPlus ? bPlus.first : tooMuch,
  };
}
