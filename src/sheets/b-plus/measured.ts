import type { Hazard } from "../../ask/findings";
import type { Figure } from "../../ask/results";
import { cell } from "../../set/columns";
import { printChance, printValue } from "../../units/print";
import { type Described, described, nodes } from "../inputs/supply-law";
import type { Asked, G, Put } from "./ask";
import { type Hypothesis, hypothesesOf, lineThatGives } from "./causes";
import { foretells, type Here, supplyTestList } from "./tests";
import { type Cause, namedOf, type ReadAtSupply, weighCauses } from "./weigh";

const at: readonly [Hazard, ...Hazard[]] = ["b-plus", "line", "stored-charge"];

/** A reading as a person says it; nothing is a reading too. */
const sayVolts = (volts: number): string => (volts === 0 ? "0 V" : printValue(volts, "voltage", 1));
const named = (c: Cause): string => `${c.says} (${printChance(c.chance)})`;

/** Readings that say stop before any cause is weighed, and heaters that are off by themselves; true where B+ is too high for any of it. */
function alarms(g: G, put: Put): boolean {
  const x = g.best;
  const crest = g.figures.noLoad.value ?? Number.POSITIVE_INFINITY;
  const first = x.measuredFirst ?? 0;
  const tooHigh = first > 1.03 * crest || first > x.capacitorRating;
  if (tooHigh)
    put(
      "b-plus-too-high",
      "danger",
      `${sayVolts(first)} is ${first > 1.03 * crest ? `more than this winding's crest at the highest line, ${g.about("noLoad")}: a misreading, a wrong tap or a wrong winding` : `over the ${printValue(x.capacitorRating, "voltage")} of the filter capacitors: they can burst`}.`,
      {
        do: "Switch off, unplug the set, stand clear until it is discharged and measured. Check the meter's range and the line; find the cause before it is switched on again.",
        restsOn: ["noLoad"],
        hazards: ["b-plus", "line", "stored-charge", "heat"],
      },
    );
  const heaters = (x.measuredHeater ?? x.heaterRated) / x.heaterRated;
  if (heaters === 0)
    put("b-plus-heaters-dead", "act", "No volts at the heaters: an open winding, string or fuse, a shorted winding, or no line at all.", {
      do: "Switch off, unplug the set. Check fuse, switch, primary and heater wiring with an ohmmeter.",
    });
  else if (Math.abs(heaters - 1) > 0.1)
    put(
      "b-plus-heaters",
      "act",
      `Heaters at ${printValue(heaters * x.heaterRated, "voltage", 0.02)} are ${Math.round(100 * Math.abs(heaters - 1))} % ${heaters > 1 ? "over" : "under"} their rating; 10 % is the limit (one maker's sheet, read). They point to a line of ${(x.ratedLine * heaters).toFixed(0)} V, or a wrong tap.`,
      {
        do: "Switch off. Read the line at the outlet; set the transformer's tap, or buck the line with a winding, before the tubes suffer. Work on the line side with the set unplugged.",
      },
    );
  return tooHigh;
}

interface Weighed {
  readonly causes: readonly Cause[];
  /** line that would give the reading, and what the heaters say of it, V */
  readonly needed: number | undefined;
  readonly heatersSay: number | undefined;
}
/** The causes of what was measured, weighed; nothing where it was not measured, or can't be. */
function weighed(g: G, seen: number): Weighed | undefined {
  const x = g.best;
  const f = g.figures.bPlusFirst;
  const d = described(x);
  if (!d || f.value === null || !(f.value > 0)) return undefined;
  const lineV = heatersSay(x);
  return {
    causes: weighCauses(hypothesesAt(x, d, g.rough), readAt(x, d, f, seen)),
    needed: seen > 0 && lineV !== undefined ? lineThatGives(d, seen) : undefined,
    heatersSay: lineV,
  };
}
/** Line by the heaters, V; undefined where nobody has read them. */
const heatersSay = (x: Asked): number | undefined => (x.measuredHeater ? (x.ratedLine * x.measuredHeater) / x.heaterRated : undefined);
/**
 * Causes of this supply at the line that outlet or heaters tell.
 *
 * @param x plain inputs, SI
 * @param d the supply with its loads
 * @param rough in coarse steps
 * @returns causes with their sizes
 * @source causes.ts
 */
export const hypothesesAt = (x: Asked, d: Described, rough = false): readonly Hypothesis[] =>
  hypothesesOf(d, heatersSay(x) ?? x.lineVoltage, heatersSay(x) !== undefined, rough);
/**
 * What was read at this supply, as causes are weighed against it.
 *
 * @param x plain inputs, SI
 * @param d the supply with its loads
 * @param expected B+ by the supply as described, with its interval
 * @param seen B+ that was read, V
 * @returns readings with their doubt
 * @source interval of four standard deviations
 */
export function readAt(x: Asked, d: Described, expected: Pick<Figure, "value" | "low" | "high">, seen: number): ReadAtSupply {
  const { value, low, high } = expected;
  const uShare = low === null || high === null || !value ? 0.04 : (high - low) / 4 / value;
  const made = testsMade(x);
  return { seen, expected: value ?? seen, uShare, tests: (cause, s) => foretells(hereOf(x, d), cause, s, made) };
}
/** The supply as its tests see it. Source: house frame. */
export const hereOf = (x: Asked, d: Described): Here => ({ d, heaterRated: x.heaterRated, heatersRead: x.measuredHeater !== undefined });
/** What the tests found, by their names, SI. Source: as typed. */
export const testsMade = (x: Pick<Asked, "tests">): Readonly<Record<string, number>> =>
  Object.fromEntries(
    x.tests.flatMap((t) => {
      const value = cell(t.ohm) ?? cell(t.volts) ?? cell(t.farad) ?? cell(t.part);
      return value === undefined ? [] : [[supplyTestList[t.test].id, value]];
    }),
  );

/** What tells low readings apart, the harmless tests first to do no harm, the harmful causes first to be ruled out. */
function testsLow(fit: readonly Cause[]): string {
  const has = (...ids: string[]): boolean => fit.some((c) => ids.includes(c.id));
  const ripple = fit
    .filter((c) => c.rippleV > 0.1 && ["first-capacitor", "weak-rectifier", "heavy-load", "one-half"].includes(c.id))
    .map((c) => `${printValue(c.rippleV, "voltage", 0.05 * c.rippleV)} peak to peak with ${c.id.replace(/-/g, " ")}`);
  const steps = [
    `ohms from the first filter capacitor to the chassis, settled, then with each filter capacitor lifted: a leak or a short ${has("leaky-filter") ? "must be ruled out first" : "would show here"}`,
    "a thermometer on the transformer, or feel it with the set unplugged: hot after minutes points to a short",
    "only when that is clear, behind a bulb (sheet on first power): the rectifier out, then in",
    ...(ripple.length > 0 ? [`ripple on the first filter capacitor: ${ripple.join(", ")}`] : []),
    ...(has("weak-rectifier", "no-supply") ? ["last of all another rectifier: a new one put in on a short dies too"] : []),
  ];
  return steps.map((s, i) => `${i + 1}. ${s}`).join("; ");
}
const testsHigh = (fit: readonly Cause[]): string => {
  const currents = fit
    .filter((c) => Number.isFinite(c.ampere))
    .map((c) => `${printValue(c.ampere, "current", 0.001)} with ${c.id.replace(/-/g, " ")}`)
    .join(", ");
  return `Tell them apart by the volts across a series resistor of the filter (${currents}), by the cathode volts of the output tube, and by B+ two seconds after switching on from cold: a tube rectifier gives little or nothing yet, silicon the whole crest. Clip the meter on with the set off and discharged, stand clear, switch on.`;
};

/**
 * Cause by cause, ties as ties, with what tells them apart.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source weighCauses; the tests: common practice, no source
 */
export function measuredFindings(g: G, put: Put): void {
  const tooHigh = alarms(g, put);
  const first = g.best.measuredFirst;
  const w = first === undefined || tooHigh ? undefined : weighed(g, first);
  if (first === undefined || !w) return;
  const healthy = w.causes.find((c) => c.id === "as-described");
  if (healthy && healthy.chance >= 0.5) {
    const others = w.causes.filter((c) => c !== healthy && c.chance >= 0.05);
    put(
      "b-plus-as-expected",
      "note",
      `Measured ${sayVolts(first)} ${nodes.first.at}: what the supply as described should give, within what is known.${others.length > 0 ? ` The same volts would come from ${others.map((c) => c.says).join("; or from ")}.` : ""}`,
      { restsOn: ["bPlusFirst"], hazards: at },
    );
    return;
  }
  offReading(g, w, put);
}
/** A reading that is off: the causes that fit, and what tells them apart. */
function offReading(g: G, w: Weighed, put: Put): void {
  const first = g.best.measuredFirst ?? 0;
  const expected = g.figures.bPlusFirst.value ?? 0;
  const all = namedOf(w.causes);
  // what does damage while the set is on is named, and tested for, first
  const fit = [...all.filter((c) => c.harmful), ...all.filter((c) => !c.harmful)];
  const low = first < expected;
  const deep = first < 0.75 * expected;
  const ruledOut =
    w.needed !== undefined && !fit.some((c) => c.id === "line")
      ? ` It is not the line: that would take ${w.needed.toFixed(0)} V, and the heaters say ${w.heatersSay?.toFixed(0)} V.`
      : "";
  const half = first < 0.5 * expected;
  put(
    half ? "b-plus-nearly-dead" : deep ? "b-plus-low" : fit.length > 1 ? "b-plus-tie" : `b-plus-${fit[0]?.id ?? "unexplained"}`,
    deep ? "danger" : fit[0]?.id === "something-else" ? "check" : "act",
    `Measured ${sayVolts(first)} ${nodes.first.at}, where ${g.about("bPlusFirst")} was expected: ${fit.map(named).join("; or ")}.${fit.length > 1 ? " These readings can't tell them apart." : ""}${ruledOut}`,
    {
      do: low
        ? `${deep ? "Switch off now, unplug the set, discharge, measure" : "Unplug the set, discharge, measure"}. In this order: ${testsLow(fit)}.`
        : fit[0]?.id === "something-else"
          ? "Measure the line, the heaters and the volts of the winding, and ask again; look for two faults at once."
          : testsHigh(fit),
      restsOn: ["bPlusFirst"],
      hazards: deep ? [...at, "heat"] : at,
    },
  );
}
