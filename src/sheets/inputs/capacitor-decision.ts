import { ratedFor } from "../../ask/rating";
import { cell, type Row } from "../../set/columns";
import {
  type CapacitorKind,
  capacitorKinds,
  type Duty,
  driedShare,
  duties,
  failsOften,
  harms,
  leakageLimitA,
  seriesLeakMostA,
  tunedOffShare,
} from "../../standards/electrolytics";
import { nearestPreferred, nextElectrolyticV, nextRatedV } from "../../standards/preferred";
import { printValue } from "../../units/print";

/** What capacitors are judged by, of a receiver as of an accessory. SI. */
export interface Judging {
  readonly rule: string;
  /** volts that one at B+ can meet, all tubes cold */
  readonly highestVolts: number;
  /** the same for one in series at a B+ point of the receiver, where that differs */
  readonly seriesVolts?: number;
  readonly formingCurrent: number;
  /** whether all parts were new not long ago */
  readonly newParts?: boolean;
  /** kind, duty, value, rating, leakage, and where it was measured the value too */
  readonly capacitors: readonly Row[];
}
export type Decision = "replace untested" | "leave it" | "reform or replace" | "reform" | "replace" | "measure first" | "sound";
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
const seesBPlus = new Set<Duty>([
  "series at B+",
  "filter",
  "output coupling",
  "screen bypass",
  "coupling",
  "plate or supply bypass",
  "inside an IF can",
]);
const paper = (k: CapacitorKind): boolean => k.endsWith("paper");
const mustHold = (x: Judging, duty: Duty): number => (duty === "series at B+" ? (x.seriesVolts ?? x.highestVolts) : x.highestVolts);

/** One in series at a B+ point: nothing is trusted there that was not measured. */
function seriesDecision(x: Judging, c: Row): [Decision, string] {
  const kind = capacitorKinds[c.kind];
  const [, harmSays] = harms["series at B+"];
  const leakage = cell(c.leakage);
  const volts = mustHold(x, "series at B+");
  if (paper(kind) || kind === "electrolytic") return ["replace untested", `${harmSays}; ${kind} has no place there`];
  if (c.rating < volts)
    return ["replace", `rated ${Math.round(c.rating)} V, under the ${Math.round(volts)} V that B+ can reach; ${harmSays}`];
  if (leakage === undefined) return ["measure first", `${harmSays}; its leakage is not measured`];
  return leakage <= seriesLeakMostA
    ? ["sound", "holds its volts without a leak that a tester shows"]
    : ["replace", `it leaks; ${harmSays}`];
}
/** What is done with one capacitor, and why. */
function decisionOn(x: Judging, c: Row, limitA: number): [Decision, string] {
  const kind = capacitorKinds[c.kind];
  const duty = duties[c.duty];
  const [, harmSays] = harms[duty];
  // nothing measured is nothing; a leakage of zero that was measured is a value
  const leakage = cell(c.leakage);
  const measured = cell(c.measured);
  if (duty === "series at B+") return seriesDecision(x, c);
  if (duty === "line bypass" || duty === "antenna of a live chassis")
    return ["replace untested", `${harmSays}; only a safety class will do`];
  if (paper(kind)) return ["replace untested", `${harmSays}; paper of this age leaks more often than not`];
  if (duty === "tuned circuit" && measured !== undefined && Math.abs(measured / c.value - 1) > tunedOffShare)
    return ["replace", "its value is off by more than a tenth, and takes the tuned circuit with it"];
  if (kind === "mica" && duty === "inside an IF can")
    return ["leave it", "leave it unless it crackles or puts volts on the AVC line; then the can is opened"];
  if (kind !== "electrolytic") return ["leave it", "leave it unless proved bad"];
  if (duty === "filter" && c.rating < x.highestVolts)
    return ["replace", `rated ${Math.round(c.rating)} V, under the ${Math.round(x.highestVolts)} V that the filter can reach`];
  if (measured !== undefined && measured < (1 - driedShare) * c.value) return ["replace", "dried out: its value is a fifth down or more"];
  if (leakage === undefined)
    return x.newParts ? ["leave it", "new; leave it unless proved bad"] : ["reform or replace", `${harmSays}; its leakage is not measured`];
  if (leakage <= limitA) return ["sound", "within the rule at its rated volts"];
  if (leakage <= 10 * limitA) return ["reform", "over the rule, and may come back"];
  return ["replace", "over ten times the rule: it will not come back"];
}
/** The kind of a new one in its place. */
function newKindOf(kind: CapacitorKind, duty: Duty, mustHoldV: number): string {
  if (duty === "antenna of a live chassis") return "Y1: it alone keeps the line off the terminal; local code prevails";
  if (duty === "line bypass") return "Y2 (line to chassis) or X2 (line to line)";
  if (duty === "series at B+") return "film or C0G ceramic; better two in series, each for the whole voltage";
  if (kind !== "electrolytic") return duty === "tuned circuit" ? "silver mica or C0G ceramic" : "film, polypropylene or polyester";
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
export function decideCapacitors(x: Judging): Decided[] {
  return x.capacitors
    .map((c, i): Decided => {
      const kind = capacitorKinds[c.kind];
      const duty = duties[c.duty];
      const limitA = leakageLimitA(x.rule, c.value, c.rating);
      const leakage = cell(c.leakage);
      const isSound = leakage !== undefined && kind === "electrolytic" && leakage <= limitA;
      const [decision, why] = decisionOn(x, c, limitA);
      const high = seesBPlus.has(duty);
      const mustHoldV = Math.max(c.rating, mustHold(x, duty));
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
 * How one electrolytic is reformed, apart from the set.
 *
 * @param x inputs, SI
 * @param c the capacitor
 * @returns resistor in series, ohm, what a dead short draws through it, A and W, the leakage to reach, A, and the volts of each step
 * @source common practice, no source; the leakage by the rule that was chosen
 */
export function formingPlan(x: Pick<Judging, "rule" | "formingCurrent">, c: Row) {
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

const nextWatts = (w: number): number => [1, 2, 3, 5, 10].find((r) => r >= 1.5 * w) ?? 25;
/**
 * How an electrolytic is reformed, as a person is told.
 *
 * @param x inputs, SI
 * @param c the capacitor
 * @returns sentences
 * @source formingPlan; the cautions: common practice, no source
 */
export function sayForming(x: Pick<Judging, "rule" | "formingCurrent">, c: Row): string {
  const p = formingPlan(x, c);
  return `Out of the circuit, one lead lifted, on a supply that is isolated from the line and can be turned up: the capacitor under a cover that stops what it throws, eye protection on, somebody trained beside it all the time with the means to put out a fire, never left alone. Connect and take off with the supply off and the capacitor discharged. The supply through ${printValue(p.seriesOhm, "resistance")} of ${printValue(nextWatts(p.seriesWatts), "power")}; ${p.steps.map((v) => printValue(v, "voltage", 5)).join(", ")}, at each until the current is under ${printValue(x.formingCurrent, "current")} and falls. Hold four hours at the rated volts, attended to the end; if you must leave, switch off, discharge, and carry on another day. Give up where the current does not fall within an hour, or the can warms, bulges or vents, or its value is a fifth down. Discharge through a resistor and measure at the end of every step.`;
}
