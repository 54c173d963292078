import { lineCurrentA, storedJ, timeToFall } from "../../physics/discharge";
import { hazardousDcV } from "../../standards/cautions";
import { lastPreferred } from "../../standards/preferred";
import { touchLimitOf } from "../../standards/touch-current";
import type { Asked, G } from "./ask";

/**
 * Largest preferred value of a line bypass that stays under the limit.
 *
 * @param g the figures
 * @returns F
 * @source preferred values of the E6 row
 */
export const allowedF = (g: G): number => lastPreferred(g.figures.largestBypass.low ?? 1e-9, 6);

/**
 * The filter with nothing drawn at the highest line: its volts, and all of its capacitance, which one bleeder has to discharge.
 *
 * @param x inputs
 * @returns V and F
 * @source crest of a capacitor-input filter, sqrt 2 Vs
 */
export const filterOf = (x: Asked): { readonly noLoadV: number; readonly wholeF: number } => ({
  noLoadV: Math.SQRT2 * x.secondaryVoltage * x.highLine,
  wholeF: x.firstCapacitance + x.secondCapacitance + x.thirdCapacitance,
});

const never = { none: "never on its own: MEASURE, and discharge it through a resistor" };
const neverOver = { none: "it never holds over 60 V" };

/**
 * What the line and the filter can do to a person, and what guards against it.
 *
 * @param x plain inputs, SI
 * @returns results, SI
 * @source lineCurrentA, storedJ, timeToFall; the fuse: common practice, no source
 */
export function solve(x: Asked) {
  const lineV = x.ratedLine * x.highLine;
  const { noLoadV, wholeF } = filterOf(x);
  const ratedA = x.plateWatts / x.ratedLine;
  return {
    bypassCurrent: lineCurrentA(x.bypass, lineV, x.lineFrequency),
    largestBypass: touchLimitOf(x.touchLimit).ampere / lineCurrentA(1, lineV, x.lineFrequency),
    fuseLow: 1.5 * ratedA,
    fuseHigh: 2 * ratedA,
    noLoad: noLoadV,
    stored: storedJ(wholeF, noLoadV),
    falls: timeToFall(wholeF, x.bleeder, noLoadV, hazardousDcV.value),
    fallsOpen: never,
    bleederPower: noLoadV ** 2 / x.bleeder,
    bleederWanted: noLoadV > hazardousDcV.value ? 10 / (wholeF * Math.log(noLoadV / hazardousDcV.value)) : neverOver,
  };
}
