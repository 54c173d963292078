import { sheet } from "../../ask/contract";
import type { Table } from "../../ask/drawings";
import type { Row } from "../../set/columns";
import { leakageRuleNames } from "../../standards/electrolytics";
import { exact } from "../../units/quantity";
import { surveyColumns, surveyOnCard } from "../inputs/capacitor-card";
import { findingsOf, type G, headlineOf, partsOf } from "./findings";
import { decideCapacitors, formingPlan, type ReformInputs } from "./solve";
import theory from "./theory.md";

export const reform = sheet({
  id: "reform",
  version: 2,
  title: "Capacitors: which go, which stay",
  question: "Which capacitors are replaced untested, which are reformed, which may stay?",
  subject: "set",
  joins: false,
  works: "open-dead",
  steps: ["05", "08"],
  inputs: {
    capacitors: {
      kind: "table",
      columns: surveyColumns,
      meaning: "the capacitors of the set",
      howMeasured:
        "unplugged, discharged and measured; markings and places from the chassis, leakage by a tester at rated volts, current-limited. They are typed on the card of the capacitor survey",
      // a survey whose capacitors are all out is still a survey
      from: (bench) => (bench.card("capacitors").length > 0 ? surveyOnCard(bench) : undefined),
      assumed: {
        rows: [
          { kind: 1, duty: 0, value: 0.05e-6, rating: 400, leakage: Number.NaN, part: Number.NaN },
          { kind: 0, duty: 2, value: 20e-6, rating: 450, leakage: 0.004, part: Number.NaN },
          { kind: 0, duty: 2, value: 20e-6, rating: 450, leakage: Number.NaN, part: Number.NaN },
          { kind: 1, duty: 1, value: 0.02e-6, rating: 400, leakage: Number.NaN, part: Number.NaN },
          { kind: 1, duty: 3, value: 0.05e-6, rating: 200, leakage: Number.NaN, part: Number.NaN },
          { kind: 6, duty: 8, value: 110e-12, rating: 500, leakage: Number.NaN, part: Number.NaN },
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
        const [own, vs, high] = ["supplies.highestVolts", "supplies.secondaryVoltage", "line.highRatio"].map((p) => b.quantity(p));
        return (
          own ??
          (vs &&
            high && {
              value: Math.SQRT2 * vs.value * high.value,
              spread: exact,
              origin: "assumed",
              source: "crest of the winding at the highest line",
            })
        );
      },
      keptAt: "supplies.highestVolts",
      assumed: { value: 450, spread: exact, source: "usual for a set of this class" },
    },
    formingCurrent: {
      kind: "quantity",
      dimension: "current",
      positive: true,
      max: 0.01,
      meaning: "largest current while reforming",
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
    replaceUnseen: { dimension: "ratio", meaning: "capacitors to replace untested", known: 3 },
    toReform: { dimension: "ratio", meaning: "electrolytics to reform, or replace", known: 3 },
    replaceMeasured: { dimension: "ratio", meaning: "electrolytics to replace for their leakage", known: 3 },
    sound: { dimension: "ratio", meaning: "capacitors to leave as they are", known: 3 },
    seriesResistance: { dimension: "resistance", meaning: "series resistor for the first electrolytic to reform", known: 100 },
    leakageLimit: { dimension: "current", meaning: "leakage allowed to the first electrolytic once reformed", known: 1e-5 },
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
      replaceUnseen: count("replace untested"),
      toReform: count("reform", "reform or replace"),
      replaceMeasured: count("replace"),
      sound: count("leave it", "sound"),
      seriesResistance: plan?.seriesOhm ?? none,
      leakageLimit: plan?.limitA ?? none,
    };
    return { axes: {}, solve: () => y };
  },
  headline: (ground) => headlineOf(ground as unknown as G),
  findings: (ground) => findingsOf(ground as unknown as G) as never,
  parts: (ground) => partsOf(ground as unknown as G),
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
