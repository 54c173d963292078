import type { Bench } from "../../set/bench";
import { capacitorKinds, duties, leakageRuleNames, leakageRules } from "../../standards/electrolytics";
import { printValue } from "../../units/print";
import { exact } from "../../units/quantity";
import { readCard } from "../card-rows";
import { type Column, type Finding, type FromCard, type GroundOn, type Part, type Row, sheet, type Table } from "../contract";
import { decideCapacitors, formingPlan, type ReformInputs } from "./solve";
import theory from "./theory.md";

const practice = "common practice, no source";
type Names = "replaceUnseen" | "toReform" | "replaceMeasured" | "sound" | "seriesResistance" | "leakageLimit";
type G = GroundOn<ReformInputs, Names>;
const option = (said: string, among: readonly string[]): number => {
  const word = said.trim().toLowerCase();
  const exactly = among.findIndex((o) => o.toLowerCase() === word);
  return exactly >= 0 ? exactly : among.findIndex((o) => word !== "" && o.toLowerCase().startsWith(word.slice(0, 5)));
};
const wordOf = (among: readonly string[]) => (said: string) => among[option(said, among)] ?? said;
const columns = {
  kind: { options: capacitorKinds, meaning: "kind" },
  duty: { options: duties, meaning: "what it does" },
  value: { dimension: "capacitance", meaning: "value, with its unit" },
  rating: { dimension: "voltage", bare: "V", meaning: "rated volts" },
  leakage: { dimension: "current", bare: "mA", meaning: "leakage at rated volts, where it was measured", optional: true },
} as const satisfies Readonly<Record<string, Column>>;
/** The capacitor survey's card. Its value column shows no unit, since micas go in pF and filters in µF: a bare figure there is asked about. */
const surveyOnCard = (bench: Bench): FromCard =>
  readCard(bench, "capacitors", "capacitor survey", columns, {
    kind: { heading: "Kind", words: wordOf(capacitorKinds) },
    duty: { heading: "Duty", words: wordOf(duties) },
    value: { heading: "Value" },
    rating: { heading: "Rated V" },
    leakage: { heading: "Leakage mA" },
  });

export const reform = sheet({
  id: "reform",
  version: 2,
  title: "Capacitors: which go, which stay",
  question: "Which capacitors go unseen, which are reformed and how, which stay?",
  subject: "set",
  joins: false,
  steps: ["05", "08"],
  inputs: {
    capacitors: {
      kind: "table",
      columns,
      meaning: "the capacitors of the set",
      howMeasured:
        "plug out, discharged and measured; markings and places from the chassis, leakage by a tester at rated volts, current-limited. They are typed on the card of the capacitor survey",
      from: surveyOnCard,
      assumed: {
        rows: [
          { kind: 1, duty: 0, value: 0.05e-6, rating: 400, leakage: Number.NaN },
          { kind: 0, duty: 2, value: 20e-6, rating: 450, leakage: 0.004 },
          { kind: 0, duty: 2, value: 20e-6, rating: 450, leakage: Number.NaN },
          { kind: 1, duty: 1, value: 0.02e-6, rating: 400, leakage: Number.NaN },
          { kind: 1, duty: 3, value: 0.05e-6, rating: 200, leakage: Number.NaN },
          { kind: 6, duty: 8, value: 110e-12, rating: 500, leakage: Number.NaN },
        ] as Row[],
        source: "an invented set of the class",
      },
      mostRows: 120,
    },
    rule: {
      kind: "choice",
      options: leakageRuleNames,
      meaning: "rule for the leakage of electrolytics",
      howMeasured: "chosen",
      from: (b) => b.choice("supplies.leakageRule"),
      assumed: "JAN-C-62",
      keptAt: "supplies.leakageRule",
    },
    highestVolts: {
      kind: "quantity",
      dimension: "voltage",
      positive: true,
      max: 2000,
      meaning: "volts that the filter capacitors can meet: the crest at the highest line",
      howMeasured: "the sheet on B+: with nothing drawn",
      from: (b) => {
        const [vs, high] = [b.quantity("supplies.secondaryVoltage"), b.quantity("line.highRatio")];
        return (
          vs &&
          high && {
            value: Math.SQRT2 * vs.value * high.value,
            spread: exact,
            origin: "assumed",
            source: "crest of the winding at the highest line",
          }
        );
      },
      assumed: { value: 450, spread: exact, source: "usual for a set of this class" },
    },
    formingCurrent: {
      kind: "quantity",
      dimension: "current",
      positive: true,
      max: 0.01,
      meaning: "most current while reforming",
      howMeasured: "chosen",
      assumed: {
        value: 1e-3,
        spread: exact,
        source: "a maker's re-ageing note of 1993: 1 mA at most (read); older practice allows up to 10 mA",
      },
    },
  },
  observed: ["capacitors"],
  readAt: ["b-plus", "stored-charge", "line"],
  first: ["highestVolts", "formingCurrent"],
  results: {
    replaceUnseen: { dimension: "ratio", meaning: "to replace unseen", known: 3 },
    toReform: { dimension: "ratio", meaning: "electrolytics to reform, or replace", known: 3 },
    replaceMeasured: { dimension: "ratio", meaning: "electrolytics to replace by what they leak", known: 3 },
    sound: { dimension: "ratio", meaning: "to leave as they are", known: 3 },
    seriesResistance: { dimension: "resistance", meaning: "series resistor for the first electrolytic to reform", known: 100 },
    leakageLimit: { dimension: "current", meaning: "leakage that it may have in the end", known: 1e-5 },
  },
  key: ["replaceUnseen", "toReform"],
  curves: {},
  prepare: (best) => {
    const x = best as unknown as ReformInputs;
    const issues = x.capacitors.flatMap((c, i) => {
      const bad = (path: string, read: number, expected: string) =>
        read > 0 ? [] : [{ path: `capacitors row ${i + 1} ${path}`, code: "not-positive", read: String(read), expected }];
      return [
        ...bad("value", c.value, "a capacitance above 0, such as 20 uF or .05 mfd"),
        ...bad("rating", c.rating, "volts above 0, such as 450"),
        ...(c.leakage < 0 ? bad("leakage", c.leakage, "a current, such as 1.2 mA, or nothing") : []),
      ];
    });
    if (issues.length > 0) return { axes: {}, solve: () => ({}) as never, issues };
    const all = decideCapacitors(x);
    const count = (...d: string[]): number => all.filter((c) => d.includes(c.decision)).length;
    const first = all.find((c) => c.decision === "reform" || c.decision === "reform or replace");
    const plan = first && formingPlan(x, x.capacitors[first.row - 1]);
    const none = { none: "no electrolytic to reform" };
    const y = {
      replaceUnseen: count("replace unseen"),
      toReform: count("reform", "reform or replace"),
      replaceMeasured: count("replace"),
      sound: count("leave it", "sound"),
      seriesResistance: plan?.seriesOhm ?? none,
      leakageLimit: plan?.limitA ?? none,
    };
    return { axes: {}, solve: () => y };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const all = decideCapacitors(g.best);
    const [first] = all;
    const n = (name: Names): number => g.figures[name].value ?? 0;
    return `${n("replaceUnseen")} to replace unseen, ${n("toReform")} to reform or replace, ${n("replaceMeasured")} to replace by what they leak, ${n("sound")} to leave. Most urgent: the ${first.duty} (${first.kind}).`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const all = decideCapacitors(x);
    const out: Finding[] = [];
    const off: Finding["hazards"] = ["stored-charge", "b-plus"];
    const line = all.find((c) => c.duty === "line bypass");
    if (line)
      out.push({
        id: "reform-line-bypass",
        severity: "danger",
        says: `The line bypass is a ${line.kind} capacitor of ${printValue(x.capacitors[line.row - 1].value, "capacitance")}: ${line.why}.`,
        do: "Plug out, not only switched off. Take it out; a new one only of class Y2 to the chassis, X2 across the line, in a value that the sheet on safety allows. Local code prevails.",
        restsOn: ["replaceUnseen"],
        hazards: ["line", ...off],
      });
    if (all.some((c) => c.decision === "replace unseen" && c.duty !== "line bypass"))
      out.push({
        id: "reform-unseen",
        severity: "act",
        says: `Replace unseen, in this order: ${[...new Set(all.filter((c) => c.decision === "replace unseen").map((c) => c.duty))].join(", ")}. The order is harm times likelihood, ${practice}. Where the owner wants the set original, restuff the old cases, or test each at its working volts.`,
        do: "Plug out, discharged and measured. One or two at a time, then read the set again: else the sense of a later reading is lost. Keep lead dress as it was, and the old parts.",
        restsOn: ["replaceUnseen"],
        hazards: off,
      });
    for (const c of all.filter((d) => d.decision === "reform" || d.decision === "reform or replace")) {
      const p = formingPlan(x, x.capacitors[c.row - 1]);
      const rule = leakageRules.find((r) => r.name === x.rule)?.source ?? "";
      out.push({
        id: `reform-row-${c.row}`,
        severity: "act",
        says: `${printValue(x.capacitors[c.row - 1].value, "capacitance")}, ${printValue(x.capacitors[c.row - 1].rating, "voltage")} (${c.duty}): ${c.why}. It may leak ${printValue(p.limitA, "current", 3e-5)} in the end (${rule}).`,
        do: `Out of the circuit, one lead lifted: a supply that can be turned up, through ${printValue(p.seriesOhm, "resistance")} of ${printValue(nextWatts(p.seriesWatts), "power")}; ${p.steps.map((v) => printValue(v, "voltage", 5)).join(", ")}, at each until the current is under ${printValue(x.formingCurrent, "current")} and falls. Hold four hours at the rated volts. Give up where the current does not fall within an hour, or the can warms, bulges or vents, or its value is a fifth down. Discharge through a resistor and measure at the end of every step.`,
        restsOn: ["toReform", "seriesResistance", "leakageLimit"],
        hazards: off,
      });
    }
    const gone = all.filter((d) => d.decision === "replace");
    if (gone.length > 0)
      out.push({
        id: "reform-replace",
        severity: "act",
        says: `${gone.length} electrolytic${gone.length > 1 ? "s" : ""} to replace: ${[...new Set(gone.map((c) => c.why))].join("; ")}.`,
        do: "Plug out, discharged and measured: replace, of the same value, rated for the crest at the highest line. A larger first filter capacitor overloads a rectifier tube.",
        restsOn: ["replaceMeasured"],
        hazards: off,
      });
    if (all.some((c) => c.kind === "mica" && c.duty === "inside an IF can"))
      out.push({
        id: "reform-mica",
        severity: "check",
        says: "Micas inside IF cans of about 1948 to 1964 grow silver: crackle, gain that jumps, and B+ that creeps to the AVC line.",
        do: "Set off, discharged and measured before the clips go on: AVC line with no signal, on 10 MΩ; any positive volts speak for it. Then the can is opened, not before.",
        restsOn: ["sound"],
        hazards: off,
      });
    return out as never;
  },
  parts: (ground) => {
    const g = ground as unknown as G;
    return (
      decideCapacitors(g.best)
        // what goes to the line is asked for by the sheet on safety, which knows how large it may be
        .filter((c) => (c.decision === "replace unseen" || c.decision === "replace") && c.duty !== "line bypass")
        .map(
          (c): Part => ({
            part: `capacitor, ${c.duty}`,
            was: `${printValue(g.best.capacitors[c.row - 1].value, "capacitance", 0, "old")}, ${printValue(g.best.capacitors[c.row - 1].rating, "voltage")}, ${c.kind}`,
            value: printValue(c.newFarad, "capacitance"),
            rating: printValue(c.newRating, "voltage"),
            kind: c.newKind,
            quantity: 1,
            why: c.why,
          }),
        )
    );
  },
  tables: (best) => {
    const x = best as unknown as ReformInputs;
    return [
      {
        id: "capacitors",
        title: "Most urgent first: harm times likelihood",
        columns: [
          { name: "duty", dimension: "ratio" },
          { name: "kind", dimension: "ratio" },
          { name: "value", dimension: "capacitance" },
          { name: "rated", dimension: "voltage" },
          { name: "may leak", dimension: "current", u: 1e-5 },
          { name: "urgency", dimension: "ratio", u: 0.01 },
          { name: "decision", dimension: "ratio" },
        ],
        rows: decideCapacitors(x).map((c) => {
          const own = x.capacitors[c.row - 1];
          return [c.duty, c.kind, own.value, own.rating, c.kind === "electrolytic" ? c.limitA : Number.NaN, c.urgency, c.decision];
        }),
      } satisfies Table,
    ];
  },
  figures: [],
  theory,
});
const nextWatts = (w: number): number => [1, 2, 3, 5, 10].find((r) => r >= 1.5 * w) ?? 25;
