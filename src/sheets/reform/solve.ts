import { type Decision, decideCapacitors, formingPlan } from "../inputs/capacitor-decision";
import type { Asked } from "./ask";

/**
 * How many capacitors go, are reformed and stay, and how the first to reform is.
 *
 * @param x plain inputs, SI
 * @returns results: counts, ohm and A
 * @source decideCapacitors, formingPlan
 */
export function countsOf(x: Asked) {
  const all = decideCapacitors(x);
  const count = (...d: Decision[]): number => all.filter((c) => d.includes(c.decision)).length;
  const first = all.find((c) => c.decision === "reform" || c.decision === "reform or replace");
  const plan = first && formingPlan(x, x.capacitors[first.row - 1]);
  const none = { none: "no electrolytic to reform" };
  return {
    replaceUnseen: count("replace untested"),
    toReform: count("reform", "reform or replace"),
    replaceMeasured: count("replace"),
    sound: count("leave it", "sound"),
    seriesResistance: plan?.seriesOhm ?? none,
    leakageLimit: plan?.limitA ?? none,
  };
}
