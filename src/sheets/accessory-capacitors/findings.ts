import { isSafeToJoin } from "../../ask/chassis";
import { practice } from "../../ask/declare";
import type { Part } from "../../ask/findings";
import { seriesLeakMostA } from "../../standards/electrolytics";
import { printValue } from "../../units/print";
import { type Decided, sayForming } from "../inputs/capacitor-decision";
import type { Asked, G, Put } from "./ask";
import { decideOwn, hasSeries, judging, offBy, seriesDuty } from "./solve";

/**
 * The series capacitor first, then how many go and stay.
 *
 * @param g inputs and figures
 * @returns the sentence
 * @source decideOwn
 */
export function headlineOf(g: G): string {
  const n = (name: keyof G["figures"]): number => g.figures[name].value ?? 0;
  const series = decideOwn(g.best).filter((c) => c.duty === seriesDuty);
  const first =
    series.length === 0
      ? g.best.hangsOn === "a B+ point"
        ? "No series capacitor is listed, and the lead hangs on a B+ point: find it first. "
        : ""
      : series.every((c) => c.decision === "sound")
        ? "The series capacitor at B+ is sound. "
        : series.some((c) => c.decision === "measure first")
          ? "The series capacitor at B+ first: measure its leakage before anything is plugged in. "
          : "The series capacitor at B+ first: it goes, before anything is plugged in. ";
  return `${first}Of the accessory's capacitors ${n("replace")} to replace, ${n("toReform")} to reform or replace, ${n("toMeasure")} to measure first, ${n("sound")} to leave.`;
}

/**
 * What is done with them, in the order in which they can hurt.
 *
 * @param g inputs and figures
 * @param put takes each finding
 * @source decideOwn; the steps: common practice, no source
 */
export function findingsOf(g: G, put: Put): void {
  const x = g.best;
  const all = decideOwn(x);
  aboutSeries(g, all, put);
  aboutLine(x, all, put);
  const rest = all.filter((c) => c.duty !== seriesDuty && c.duty !== "line bypass");
  const gone = rest.filter((c) => c.decision === "replace untested" || c.decision === "replace");
  if (gone.length > 0)
    put(
      "accessory-replace",
      "act",
      `Replace, in this order: ${gone.map((c) => `${printValue(x.capacitors[c.row - 1].value, "capacitance")} (${c.duty}: ${c.why})`).join("; ")}.`,
      {
        do: "Accessory unplugged from the receiver, discharged and measured. One at a time, leads dressed as they were; those in its tuned circuits last, since its centre must then be found again. Record each as mended: that strikes off the old one's row.",
        restsOn: ["replace"],
      },
    );
  for (const c of rest.filter((d) => d.decision === "reform" || d.decision === "reform or replace")) reformed(x, c, put);
  aboutTuned(x, all, put);
  put("accessory-ohms", "act", "Before it gets power again: nothing in it may load B+ beyond what it should draw.", {
    do: "Both unplugged: from its B+ pin to its case over 100 kΩ once settled; from its signal lead's inner conductor to its B+ pin no reading at all; across the heater pins a few ohms. Plug it in only after that, receiver off, discharged and measured.",
    restsOn: ["railNeeds"],
  });
}
function aboutSeries(g: G, all: readonly Decided[], put: Put): void {
  const x = g.best;
  const restsOn = ["seriesNeeds"] as const;
  const live = isSafeToJoin(x.chassis) ? "" : " On a live chassis no capacitor makes that lead safe.";
  if (x.hangsOn !== "a B+ point" && !hasSeries(x)) return;
  if (!hasSeries(x)) {
    put(
      "accessory-series-missing",
      "danger",
      `The lead hangs on a B+ point, and no capacitor in series is listed: the cable may carry up to ${g.say("seriesNeeds")}.${live}`,
      {
        do: `Unplug the set, discharge, MEASURE. Look for the capacitor at the plate pin, inside the receiver. If there is none, fit one rated ${g.rating.says} (sheet on keeping B+ off a connector), and list it.`,
        restsOn,
      },
    );
    return;
  }
  for (const c of all.filter((d) => d.duty === seriesDuty)) {
    const own = x.capacitors[c.row - 1];
    const what = `The ${printValue(own.value, "capacitance")} in series at B+ (${c.kind}, rated ${printValue(own.rating, "voltage")})`;
    if (c.decision === "sound") {
      put(`accessory-series-${c.row}`, "note", `${what} ${c.why}; it must hold ${g.say("seriesNeeds")}.${live}`, { restsOn });
      continue;
    }
    const gone = c.decision !== "measure first";
    put(`accessory-series-${c.row}`, gone ? "danger" : "act", `${what}: ${c.why}. It must hold ${g.say("seriesNeeds")}.${live}`, {
      do: gone
        ? `Unplug the set, discharge, MEASURE. Take it out; a new one is film or C0G ceramic rated ${g.rating.says}, better two in series, at the plate pin inside the receiver. Plug nothing in before.`
        : `Unplug the set, discharge, MEASURE. One lead lifted, tester at the working volts, current-limited: over ${printValue(seriesLeakMostA, "current")}, replace it (${practice}). Plug nothing in before.`,
      restsOn,
    });
  }
}
function aboutLine(x: Asked, all: readonly Decided[], put: Put): void {
  const own = all.find((c) => c.duty === "line bypass");
  if (!own) return;
  put(
    "accessory-line",
    "danger",
    `The accessory has a line capacitor of its own (${own.kind}, ${printValue(x.capacitors[own.row - 1].value, "capacitance")}): ${own.why}.`,
    {
      do: "Unplug the accessory and the set. Take it out; a new one only of class Y2 to the chassis, X2 across the line. Its cord, fuse and chassis need the receiver's own checks. Local code prevails.",
      restsOn: ["replace"],
      hazards: ["line", "stored-charge", "b-plus"],
    },
  );
}
function reformed(x: Asked, c: Decided, put: Put): void {
  const own = x.capacitors[c.row - 1];
  put(
    `accessory-row-${c.row}`,
    "act",
    `${printValue(own.value, "capacitance")}, ${printValue(own.rating, "voltage")} (${c.duty}): ${c.why}. Once reformed it may leak ${printValue(c.limitA, "current", 3e-5)} at most. One this small is better replaced than reformed.`,
    { do: sayForming(judging(x), own), restsOn: ["toReform"] },
  );
}
/** Its tuned circuits: what stays there, and what was measured off. */
function aboutTuned(x: Asked, all: readonly Decided[], put: Put): void {
  const tuned = all.filter((c) => c.duty === "tuned circuit" && c.decision === "leave it");
  if (tuned.length === 0) return;
  const measured = tuned.filter((c) => offBy(x, c.row) !== undefined);
  put(
    "accessory-tuned",
    "check",
    `${tuned.length === 1 ? "The capacitor" : `${tuned.length} capacitors`} of its tuned circuits ${tuned.length === 1 ? "stays" : "stay"} unless proved bad${measured.length < tuned.length ? ": not all are measured yet" : ""}. One that is 10 % off moves the centre by 5 %, more than most slugs can make up.`,
    {
      ...(measured.length === tuned.length
        ? {}
        : {
            do: "Accessory unplugged, discharged and measured: one lead lifted, a bridge across it. Write what it reads beside its marking. Cheap ceramic discs drift there: use silver mica or C0G.",
          }),
      restsOn: ["sound"],
    },
  );
}

/**
 * What takes the place of each capacitor that goes.
 *
 * @param g inputs
 * @returns parts, the series capacitor first
 * @source preferred values; ratings: nextPartV
 */
export function partsOf(g: G): Part[] {
  const x = g.best;
  return decideOwn(x)
    .filter((c) => (c.decision === "replace untested" || c.decision === "replace") && c.duty !== "line bypass")
    .map((c): Part => {
      const own = x.capacitors[c.row - 1];
      const fromReceiver = c.duty === seriesDuty || x.powerFrom === "the receiver";
      return {
        part: `accessory's capacitor, ${c.duty}`,
        was: `${printValue(own.value, "capacitance", 0, "old")}, ${printValue(own.rating, "voltage")}, ${c.kind}`,
        value: printValue(c.newFarad, "capacitance"),
        rating: printValue(c.newRating, "voltage"),
        ...(c.seesBPlus && fromReceiver ? { seesBPlusRatedV: c.newRating } : {}),
        kind: c.newKind,
        quantity: 1,
        why: c.why,
      };
    });
}
