import type { NoValue } from "../../ask/results";
import { darkV, regulatorWindow } from "../../physics/gas-regulator";
import { type GasRegulator, gasRegulatorByType, gasRegulators } from "../../standards/rectifiers";
import type { Asked } from "./ask";

/**
 * The published figures of the tube that was chosen.
 *
 * @param x inputs
 * @returns its row
 * @source gasRegulators, each row its own
 */
export const tubeOf = (x: Asked): GasRegulator => gasRegulatorByType(x.regulatorType) ?? gasRegulators[0];

const or = (v: number | undefined, none: string): number | NoValue => v ?? { none };

/**
 * The window of the series resistor over the line's whole range, and whether the tube strikes in it.
 *
 * @param x plain inputs, SI
 * @returns results, ohm, V and W; the reason where one has no value
 * @source regulatorWindow, darkV
 */
export function solve(x: Asked) {
  const tube = tubeOf(x);
  const [low, high] = [x.supply * x.lowLine, x.supply * x.highLine];
  const w = regulatorWindow(tube, { lowV: low, highV: high }, { leastA: x.loadLeast, mostA: x.loadMost });
  const never = `the supply never reaches the tube's ${tube.operatingV} V`;
  return {
    leastOhm: or(w.leastOhm, never),
    mostOhm: or(w.mostOhm, `the supply at the lowest line is under the tube's ${tube.operatingV} V`),
    strikesOhm: or(w.strikesOhm, `the supply at the lowest line does not reach the ${tube.startV} V that strike it`),
    room: w.leastOhm === undefined || w.mostOhm === undefined ? 0 : w.mostOhm / w.leastOhm,
    dark: x.fitted === undefined ? { none: "the resistor is not recorded" } : darkV(low, x.fitted, tube.operatingV, x.loadMost),
    supplyLow: low,
    supplyHigh: high,
    power: or(w.power, never),
  };
}
