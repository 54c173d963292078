import { ratedFor } from "../../ask/rating";
import { cell } from "../../set/columns";
import { type CapacitorKind, capacitorKinds, type Duty, duties, failsOften, harms, leakageLimitA } from "../../standards/electrolytics";
import { nearestPreferred, nextElectrolyticV, nextRatedV } from "../../standards/preferred";
import type { Asked, CapacitorRow } from "./ask";

export type Decision = "replace untested" | "leave it" | "reform or replace" | "reform" | "replace" | "sound";
export interface Decided {
  readonly row: number;
  readonly kind: CapacitorKind;
  readonly duty: Duty;
  readonly decision: Decision;
  /** harm times likelihood, 0 to 1 */
  readonly urgency: number;
  readonly why: string;
  readonly limitA: number;
  readonly newFarad: number;
  readonly newRating: number;
  readonly seesBPlus: boolean;
  readonly newKind: string;
}
/** Duties at which a capacitor meets B+, whole or through a resistor that carries nothing while the tubes are cold. */
const seesBPlus = new Set<Duty>(["filter", "output coupling", "screen bypass", "coupling", "plate or supply bypass", "inside an IF can"]);
const paper = (k: CapacitorKind): boolean => k.endsWith("paper");

/** What is done with one capacitor, and why. */
function decisionOn(x: Asked, c: CapacitorRow, limitA: number): [Decision, string] {
  const kind = capacitorKinds[c.kind];
  const duty = duties[c.duty];
  const [, harmSays] = harms[duty];
  // nothing measured is nothing; a leakage of zero that was measured is a value
  const leakage = cell(c.leakage);
  if (duty === "line bypass") return ["replace untested", `${harmSays}; only a safety class will do`];
  if (paper(kind)) return ["replace untested", `${harmSays}; paper of this age leaks more often than not`];
  if (kind === "mica" && duty === "inside an IF can")
    return ["leave it", "leave it unless it crackles or puts volts on the AVC line; then the can is opened"];
  if (kind !== "electrolytic") return ["leave it", "leave it unless proved bad"];
  if (duty === "filter" && c.rating < x.highestVolts)
    return ["replace", `rated ${Math.round(c.rating)} V, under the ${Math.round(x.highestVolts)} V that the filter can reach`];
  if (leakage === undefined) return ["reform or replace", `${harmSays}; its leakage is not measured`];
  if (leakage <= limitA) return ["sound", "within the rule at its rated volts"];
  if (leakage <= 10 * limitA) return ["reform", "over the rule, and may come back"];
  return ["replace", "over ten times the rule: it will not come back"];
}
/** The kind of a new one in its place. */
function newKindOf(kind: CapacitorKind, duty: Duty, mustHoldV: number): string {
  if (duty === "line bypass") return "Y2 (line to chassis) or X2 (line to line)";
  if (kind !== "electrolytic") return "film, polypropylene or polyester";
  return seesBPlus.has(duty) && mustHoldV > 500
    ? "film, or two electrolytics in series with a resistor across each"
    : "electrolytic, 105 °C";
}

/**
 * Each capacitor decided: which are replaced untested, which are reformed, which stay, in the order of harm times likelihood.
 *
 * @param x inputs, SI; a leakage that was not measured is NaN
 * @returns every row, the most urgent first
 * @source leakage rules by name; harm and likelihood: common practice, no source
 */
export function decideCapacitors(x: Asked): Decided[] {
  return x.capacitors
    .map((c, i): Decided => {
      const kind = capacitorKinds[c.kind];
      const duty = duties[c.duty];
      const limitA = leakageLimitA(x.rule, c.value, c.rating);
      const leakage = cell(c.leakage);
      const isSound = leakage !== undefined && kind === "electrolytic" && leakage <= limitA;
      const [decision, why] = decisionOn(x, c, limitA);
      const high = seesBPlus.has(duty);
      const mustHoldV = Math.max(c.rating, x.highestVolts);
      const low = kind === "electrolytic" ? nextElectrolyticV(c.rating) : nextRatedV(c.rating);
      return {
        row: i + 1,
        kind,
        duty,
        decision,
        urgency: harms[duty][0] * (isSound ? 0.05 : failsOften[kind]),
        why,
        limitA,
        newFarad: nearestPreferred(c.value, 6),
        newRating: high ? ratedFor(mustHoldV) : (low ?? c.rating),
        seesBPlus: high,
        newKind: newKindOf(kind, duty, mustHoldV),
      };
    })
    .sort((a, b) => b.urgency - a.urgency);
}

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

/**
 * How one electrolytic is reformed, apart from the set.
 *
 * @param x inputs, SI
 * @param c the capacitor
 * @returns resistor in series, ohm, what a dead short draws through it, A and W, the leakage to reach, A, and the volts of each step
 * @source common practice, no source; the leakage by the rule that was chosen
 */
export function formingPlan(x: Asked, c: CapacitorRow) {
  // what a dead short would draw through the resistor stays under ten times the forming current, the rest is the ramp's business
  const seriesOhm = nearestPreferred(Math.max(10e3, c.rating / (4.5 * x.formingCurrent)), 6);
  return {
    seriesOhm,
    shortA: c.rating / seriesOhm,
    seriesWatts: c.rating ** 2 / seriesOhm,
    limitA: leakageLimitA(x.rule, c.value, c.rating),
    steps: [0.25, 0.5, 0.75, 0.9, 1].map((part) => part * c.rating),
  };
}
