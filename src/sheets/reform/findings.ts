import { practice } from "../../ask/declare";
import type { Part } from "../../ask/findings";
import { leakageRules } from "../../standards/electrolytics";
import { printValue } from "../../units/print";
import { type Decided, decideCapacitors, formingPlan, sayForming } from "../inputs/capacitor-decision";
import type { Asked, G, Put } from "./ask";

/**
 * How many go, are reformed and stay, and which is the most urgent.
 *
 * @param g inputs and figures
 * @returns the sentence
 * @source decideCapacitors
 */
export function headlineOf(g: G): string {
  const all = decideCapacitors(g.best);
  const [first] = all;
  if (!first) return "Every capacitor in the survey is out: the replacements are on the card of parts replaced.";
  const n = (name: keyof G["figures"]): number => g.figures[name].value ?? 0;
  const counts = [
    [n("replaceUnseen"), "to replace untested"],
    [n("toReform"), "to reform or replace"],
    [n("replaceMeasured"), "to replace for leakage"],
    [n("sound"), "to leave"],
  ] as const;
  const told = counts.flatMap(([count, does]) => (count > 0 ? [`${count} ${does}`] : []));
  return `${told.join(", ")}. Most urgent: the ${first.duty} (${first.kind}).`;
}

/**
 * What is to be done with the capacitors of the survey, the most dangerous first.
 *
 * @param g inputs and figures
 * @param put takes each finding
 * @source decideCapacitors; the steps: common practice, no source
 */
export function findingsOf({ best: x }: G, put: Put): void {
  const all = decideCapacitors(x);
  inSeries(all, put);
  replacedUnseen(x, all, put);
  for (const c of all.filter((d) => d.decision === "reform" || d.decision === "reform or replace")) reformed(x, c, put);
  const gone = all.filter((d) => d.decision === "replace");
  if (gone.length > 0)
    put(
      "reform-replace",
      "act",
      `${gone.length} electrolytic${gone.length > 1 ? "s" : ""} to replace: ${[...new Set(gone.map((c) => c.why))].join("; ")}.`,
      {
        do: "Set unplugged, discharged and measured: replace, of the same value, rated for the crest at the highest line. A larger first filter capacitor overloads a rectifier tube.",
        restsOn: ["replaceMeasured"],
      },
    );
  if (all.some((c) => c.kind === "mica" && c.duty === "inside an IF can"))
    put(
      "reform-mica",
      "check",
      "Micas inside IF cans of about 1948 to 1964 grow silver: crackle, gain that jumps, and B+ that creeps to the AVC line.",
      {
        do: "Set off, discharged and measured before the clips go on: AVC line with no signal, on 10 MΩ; any positive volts point to it. Then the can is opened, not before.",
        restsOn: ["sound"],
      },
    );
}
/** One that is in series at a B+ point of the set: an accessory's lead hangs on it. */
function inSeries(all: readonly Decided[], put: Put): void {
  const own = all.filter((c) => c.duty === "series at B+" && c.decision !== "sound");
  if (own.length === 0) return;
  put("reform-series", "danger", `In series at a B+ point: ${[...new Set(own.map((c) => c.why))].join("; ")}.`, {
    do: "Unplug the set. Plug nothing into that lead until it is measured at the working volts, current-limited, or replaced: the sheet on an accessory's capacitors takes it first.",
    restsOn: ["replaceUnseen", "replaceMeasured"],
  });
}
function replacedUnseen(x: Asked, all: readonly Decided[], put: Put): void {
  const line = all.find((c) => c.duty === "line bypass");
  const restsOn = ["replaceUnseen"] as const;
  if (line)
    put(
      "reform-line-bypass",
      "danger",
      `The line bypass is a ${line.kind} capacitor of ${printValue(x.capacitors[line.row - 1].value, "capacitance")}: ${line.why}.`,
      {
        do: "Unplug the set; the switch alone is not enough. Take it out; a new one only of class Y2 to the chassis, X2 across the line, in a value that the sheet on safety allows. Local code prevails.",
        restsOn,
        hazards: ["line", "stored-charge", "b-plus"],
      },
    );
  const antenna = all.find((c) => c.duty === "antenna of a live chassis");
  if (antenna)
    put(
      "reform-antenna",
      "danger",
      `Between a live chassis and the antenna is a ${antenna.kind} capacitor of ${printValue(x.capacitors[antenna.row - 1].value, "capacitance")}: ${antenna.why}.`,
      {
        do: "Unplug the set, antenna and earth off; the switch alone is not enough. Take it out; a new one only of class Y1, in a value that the sheet on safety allows, and the one in the earth lead with it. Local code prevails.",
        restsOn,
        hazards: ["line", "stored-charge", "b-plus"],
      },
    );
  const unseen = all.filter((c) => c.decision === "replace untested");
  if (unseen.some((c) => c.duty !== "line bypass"))
    put(
      "reform-unseen",
      "act",
      `Replace untested, in this order: ${[...new Set(unseen.map((c) => c.duty))].join(", ")}. The order is harm times likelihood, ${practice}. Where the owner wants the set original, test each at its working volts, or restuff the old cases.`,
      {
        do: "Set unplugged, discharged and measured. One or two at a time, then read the set again: else you won't know which part changed a reading. Keep lead dress as it was, and the old parts.",
        restsOn,
      },
    );
  if (unseen.some((c) => c.kind.endsWith("paper")))
    put(
      "reform-restuff",
      "check",
      "Restuffing opens an old case, and pulling one tears it: wax and oil of that age can hold chlorinated compounds, PCB among them, that pass through the skin, and are poisonous as smoke.",
      {
        do: "Gloves, eye protection and open air. No flame, no heat gun, no sanding, no food near it. Never burn what comes out: bag it, label it, and hand it in as local rules for such waste require.",
        restsOn,
        hazards: ["none"],
        state: "desk",
      },
    );
}
function reformed(x: Asked, c: Decided, put: Put): void {
  const own = x.capacitors[c.row - 1];
  const p = formingPlan(x, own);
  const rule = leakageRules.find((r) => r.name === x.rule)?.source ?? "";
  put(
    `reform-row-${c.row}`,
    "act",
    `${printValue(own.value, "capacitance")}, ${printValue(own.rating, "voltage")} (${c.duty}): ${c.why}. Once reformed it may leak ${printValue(p.limitA, "current", 3e-5)} (${rule}).`,
    {
      do: sayForming(x, own),
      restsOn: ["toReform", "seriesResistance", "leakageLimit"],
    },
  );
}

/**
 * What takes the place of each capacitor that goes; what goes to the line is asked for by the sheet on safety, which knows how large it may be.
 *
 * @param g inputs
 * @returns parts, the most urgent first
 * @source preferred values; ratings: nextPartV
 */
export function partsOf(g: G): Part[] {
  return decideCapacitors(g.best)
    .filter((c) => (c.decision === "replace untested" || c.decision === "replace") && c.duty !== "line bypass")
    .map(
      (c): Part => ({
        part: `capacitor, ${c.duty}`,
        was: `${printValue(g.best.capacitors[c.row - 1].value, "capacitance", 0, "old")}, ${printValue(g.best.capacitors[c.row - 1].rating, "voltage")}, ${c.kind}`,
        value: printValue(c.newFarad, "capacitance"),
        rating: printValue(c.newRating, "voltage"),
        ...(c.seesBPlus ? { seesBPlusRatedV: c.newRating } : {}),
        ...(Number.isFinite(g.best.capacitors[c.row - 1].part) ? { name: `C${g.best.capacitors[c.row - 1].part}` } : {}),
        kind: c.newKind,
        quantity: 1,
        why: c.why,
      }),
    );
}
