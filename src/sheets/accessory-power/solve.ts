import { noneOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import type { SupplyAtRest } from "../../physics/supply";
import { transformerRiseK, windingFallV } from "../../physics/transformer-load";
import { powerTaps } from "../../set/addresses/accessory";
import { crestV, type Described, described, firstNode, lossTimes, solveChanged } from "../inputs/supply-law";
import type { Asked } from "./ask";

/** The node that the accessory hangs on; with choke input the first filter capacitor stands behind the choke. */
export const tapNode = (x: Pick<Asked, "powerTap" | "filterInput">): 0 | 1 | 2 => {
  const k = powerTaps.indexOf(x.powerTap) as 0 | 1 | 2;
  return k === 0 ? firstNode(x) : k;
};
/** Whether anything is taken from the receiver. */
export const isFed = (x: Pick<Asked, "powerFrom">): boolean => x.powerFrom === "the receiver";

/** The supply at its best values, without the accessory and with it: the draws begin from it. */
export interface Base {
  readonly typed: SupplyAtRest;
  readonly without: SupplyAtRest;
  readonly with: SupplyAtRest;
}
const withIt = (d: Described, x: Asked, like?: SupplyAtRest, ampere = x.supplyCurrent): SupplyAtRest | undefined =>
  solveChanged(d, { besides: { node: tapNode(x), ampere } }, like);

/**
 * The supply at its best values.
 *
 * @param x plain inputs, SI
 * @returns undefined where it can't give this load
 * @source solveChanged
 */
export function baseOf(x: Asked): Base | undefined {
  const d = described(x);
  const without = d && solveChanged(d);
  const on = d && withIt(d, x, without);
  return d && without && on ? { typed: d.typed, without, with: on } : undefined;
}
/**
 * B+ at the tap for currents from none to four times what the accessory draws.
 *
 * @param x plain inputs, SI
 * @param axis currents, A
 * @param base the supply at its best values
 * @returns V, NaN where the supply can't give it
 * @source solveChanged
 */
export function voltsOver(x: Asked, axis: Float64Array, base: Base | undefined): Float64Array {
  const d = base && described(x, base.typed);
  return axis.map((a) => {
    const s = d && withIt(d, x, base.without, a);
    return s ? s.volts[tapNode(x)] * lossTimes(x, s.volts[firstNode(x)], x.lineVoltage) : Number.NaN;
  });
}

const cannot: NoValue = { none: "the supply can't give this load" };
const notFed: NoValue = { none: "the accessory takes nothing from the receiver" };
const inString: NoValue = { none: "the receiver's heaters are in a string" };

/**
 * What the accessory does to the receiver's supply.
 *
 * @param x plain inputs, SI
 * @param base the supply at its best values
 * @returns results, SI
 * @source solveChanged; windingFallV, transformerRiseK
 */
export function solve(x: Asked, base: Base | undefined) {
  const noLoad = crestV(x, x.highLine);
  return { noLoad, ...onBPlus(x, base), ...onTransformer(x) };
}
const names = [
  "without",
  "with",
  "fall",
  "sourceResistance",
  "drawnByFall",
  "rippleWithout",
  "rippleWith",
  "direct",
  "peak",
  "dropping",
  "droppingHeat",
] as const;
function onBPlus(x: Asked, base: Base | undefined) {
  if (!isFed(x)) return noneOf(names, notFed.none);
  const d = base && described(x, base.typed);
  const off = d && solveChanged(d, {}, base.without);
  const on = d && withIt(d, x, base.with);
  if (!d || !off || !on) return noneOf(names, cannot.none);
  const k = tapNode(x);
  const times = (s: SupplyAtRest): number => lossTimes(x, s.volts[firstNode(x)], x.lineVoltage);
  const [without, withV] = [off.volts[k] * times(off), on.volts[k] * times(on)];
  const fall = without - withV;
  const drawn = x.supplyCurrent > 1e-6;
  const ohm = drawn ? fall / x.supplyCurrent : Number.NaN;
  const measured = x.tapWithout !== undefined && x.tapWith !== undefined ? x.tapWithout - x.tapWith : undefined;
  return {
    without,
    with: withV,
    fall,
    sourceResistance: drawn ? ohm : { none: "the accessory draws nothing" },
    drawnByFall: measured === undefined || !drawn ? { none: "one or both readings at the tap are missing" } : measured / ohm,
    rippleWithout: off.rippleRms[k],
    rippleWith: on.rippleRms[k],
    direct: on.plateMeanA * (x.arrangement === "half-wave" ? 1 : 2),
    peak: on.peakA,
    ...droppingOf(x, withV),
  };
}
function droppingOf(x: Asked, tapV: number) {
  const none = (why: string) => ({ dropping: { none: why }, droppingHeat: { none: why } });
  if (x.supplyVolts === undefined) return none("what the accessory is made for is not recorded");
  if (x.supplyCurrent <= 1e-6) return none("the accessory draws nothing");
  const over = tapV - x.supplyVolts;
  if (over <= 0) return none("B+ at the tap is not above what the accessory is made for");
  const high = (x.highLine * x.ratedLine) / x.lineVoltage;
  // at the highest line the resistor's volts and current both follow
  return { dropping: over / x.supplyCurrent, droppingHeat: over * x.supplyCurrent * high ** 2 };
}
function onTransformer(x: Asked) {
  if (!isFed(x)) return noneOf(["heaterTotal", "heaterFall", "heaterWith", "watts", "rise"], notFed.none);
  // at most the crest acts on each ampere of B+: the rectifier conducts about the crest
  const direct = Math.SQRT2 * x.secondaryVoltage * x.supplyCurrent;
  if (x.heaters === "series") return { heaterTotal: inString, heaterFall: inString, heaterWith: inString, watts: direct, rise: inString };
  const watts = direct + x.heaterRated * x.heaterCurrent;
  const winding = { ratedV: x.heaterRated, regulation: x.heaterRegulation, loadA: x.heaterLoad, moreA: x.heaterCurrent };
  const fall = windingFallV(winding);
  const before = x.measuredHeater ?? (x.heaterRated * x.lineVoltage) / x.ratedLine;
  return {
    heaterTotal: x.heaterLoad + x.heaterCurrent,
    heaterFall: fall,
    heaterWith: x.heaterVolts ?? before - fall,
    watts,
    rise: transformerRiseK(x.transformerRise, x.ironShare, 1 + watts / x.plateWatts),
  };
}
