import { cell } from "../../set/columns";
import { duties } from "../../standards/electrolytics";
import { type Decided, decideCapacitors, type Judging } from "../inputs/capacitor-decision";
import type { Asked } from "./ask";

export const seriesDuty = "series at B+";

/** Volts on the accessory's own supply line: as stated, or all of the receiver's where it is fed from there. */
export const railOf = (x: Asked): number => x.railVolts ?? (x.powerFrom === "a battery" ? 12 : x.highestVolts);

/**
 * What each capacitor is judged by: the one in series at B+ meets the receiver's B+ whatever feeds the accessory, the others the accessory's own.
 *
 * @param x plain inputs, SI
 * @returns what the shared judgement asks for
 * @source house frame
 */
export const judging = (x: Asked): Judging => ({
  rule: x.rule,
  highestVolts: railOf(x),
  seriesVolts: x.highestVolts,
  formingCurrent: x.formingCurrent,
  newParts: x.made === "new parts",
  capacitors: x.capacitors,
});

/**
 * Each capacitor decided: the one in series at B+ first, then harm times likelihood.
 *
 * @param x plain inputs, SI
 * @returns every row
 * @source decideCapacitors
 */
export function decideOwn(x: Asked): readonly Decided[] {
  const all = decideCapacitors(judging(x));
  return [...all.filter((c) => c.duty === seriesDuty), ...all.filter((c) => c.duty !== seriesDuty)];
}
/** Whether the survey has a capacitor in series at B+. */
export const hasSeries = (x: Asked): boolean => x.capacitors.some((c) => duties[c.duty] === seriesDuty);

/**
 * How many capacitors go, are reformed, measured and stay.
 *
 * @param x plain inputs, SI
 * @returns counts, and the volts that they must hold
 * @source decideOwn
 */
export function solve(x: Asked) {
  const all = decideOwn(x);
  const count = (...d: Decided["decision"][]): number => all.filter((c) => d.includes(c.decision)).length;
  return {
    replace: count("replace untested", "replace"),
    toReform: count("reform", "reform or replace"),
    toMeasure: count("measure first"),
    sound: count("leave it", "sound"),
    seriesNeeds: x.hangsOn === "a B+ point" || hasSeries(x) ? x.highestVolts : { none: "nothing in it hangs on B+" },
    railNeeds: railOf(x),
  };
}

/** By how much a capacitor was measured off its marking, as a share; undefined where nobody measured it. */
export const offBy = (x: Asked, row: number): number | undefined => {
  const own = x.capacitors[row - 1];
  const measured = cell(own.measured);
  return measured === undefined ? undefined : measured / own.value - 1;
};
