import { sheet } from "../../ask/contract";
import type { Table } from "../../ask/drawings";
import type { NoValue, Results } from "../../ask/results";
import type { Ranking } from "../../infer/stage/rank-causes";
import { solveStage } from "../../physics/tube-stage";
import { cell } from "../../set/columns";
import type { Issue } from "../../units/issue";
import { suspectsFindings, suspectsHeadline } from "./findings";
import { faultOptions, suspectInputs } from "./inputs";
import { suspectParts } from "./parts";
import { isPentode, nodeOptions, ohmsLaw, positiveGrid, rank, type SuspectInputs, stageOf, voltsOf } from "./solve";
import theory from "./theory.md";

/** A cause by what stands before its explanation. */
const brief = (says: string): string => says.split(":")[0];

/** No chance is told as more than this: a cause is never certain, and 0.994 prints as 99 %. */
const mostSure = 0.994;
const told = (chance: number): number => Math.min(chance, mostSure);

let last: { readonly x: SuspectInputs; readonly r: Ranking | undefined } | undefined;
const rankOf = (x: SuspectInputs): Ranking | undefined => {
  if (last?.x !== x) last = { x, r: rank(x, faultOptions) };
  return last.r;
};

export const suspects = sheet({
  id: "suspects",
  version: 3,
  title: "What is wrong with this stage",
  question: "What explains this stage's readings, and which test separates the suspects?",
  subject: "stage",
  stageKinds: ["rf", "if-tube", "detector", "audio"],
  joins: false,
  works: "open-live",
  steps: ["10", "11", "06", "05", "07", "15"],
  inputs: suspectInputs,
  observed: ["readings"],
  readAt: ["b-plus", "stored-charge"],
  first: ["supply", "screenFeed", "cathodeResistor", "plateFeed", "gridResistor"],
  results: {
    topChance: { dimension: "fraction", meaning: "chance of the likeliest cause", known: 0.01 },
    noneVisible: { dimension: "fraction", meaning: "chance that no fault shows", known: 0.01 },
    tied: { dimension: "ratio", meaning: "causes that these readings can't tell apart", known: 3 },
    worstMiss: { dimension: "ratio", meaning: "how far the likeliest cause misses a reading, in multiples of its error", known: 0.1 },
    cathodeCurrent: { dimension: "current", meaning: "cathode current by Ohm's law", known: 1e-4 },
    screenCurrent: { dimension: "current", meaning: "current in the screen resistor by Ohm's law", known: 1e-4 },
    plateDissipation: { dimension: "power", meaning: "power at the plate", known: 0.05 },
    couplingLeak: {
      dimension: "resistance",
      meaning: "leak of the coupling capacitor that would explain a positive grid, as this meter reads",
      known: 1e6,
    },
    healthyPlate: { dimension: "voltage", meaning: "plate of a sound stage, without a meter", known: 1 },
    healthyScreen: { dimension: "voltage", meaning: "screen of a sound stage, without a meter", known: 1 },
    healthyCathode: { dimension: "voltage", meaning: "cathode of a sound stage, without a meter", known: 0.05 },
  } as Results,
  key: ["topChance", "tied", "cathodeCurrent"],
  curves: {},
  prepare: (best) => {
    const x = best as unknown as SuspectInputs;
    const issues = contradictions(x);
    if (issues.length > 0) return { axes: {}, solve: () => ({}) as never, issues };
    const r = rankOf(x);
    if (!r)
      return {
        axes: {},
        solve: () => ({}) as never,
        issues: [{ path: "supply", code: "no-solution", read: "these parts", expected: "a stage that has an operating point" }],
      };
    const law = ohmsLaw(x, r);
    const sound = solveStage(stageOf(x));
    const or = (v: number | undefined, none: string): number | NoValue => v ?? { none };
    const leak = positiveGrid(x) === undefined ? undefined : r.ties.find((c) => c.fault.id === "coupling-leaky");
    const y: Record<string, number | NoValue> = {
      topChance: told(r.causes[0].probability),
      noneVisible: told(r.causes.find((c) => c.fault.id === "none-visible")?.probability ?? 0),
      tied: r.ties.length,
      worstMiss: r.worstMiss,
      cathodeCurrent: or(law.cathodeA, "the cathode was not read, or its resistor is itself in doubt"),
      screenCurrent: isPentode(x)
        ? or(law.screenA, "the screen was not read, its resistor is itself in doubt, or the drop over it is too small to tell")
        : { none: "a triode has no screen" },
      plateDissipation: or(law.plateWatts, "plate and cathode were not both read, or the cathode's resistor is in doubt"),
      couplingLeak: or(leak?.sizeValue, "the grid is not positive, was not read, or a leak does not explain it"),
      healthyPlate: or(sound?.plate, "no operating point"),
      healthyScreen: isPentode(x) ? or(sound?.screen, "no operating point") : { none: "a triode has no screen" },
      healthyCathode: or(sound?.cathode, "no operating point"),
    };
    return { axes: {}, solve: () => y as never };
  },
  tables: (best) => {
    const r = rankOf(best as unknown as SuspectInputs);
    if (!r) return [];
    const volts = (name: string, u: number) => ({ name, dimension: "voltage" as const, u });
    return [
      {
        id: "causes",
        title: "Causes, likeliest first, and what each would read on this meter",
        columns: [
          { name: "cause", dimension: "ratio" },
          { name: "how bad", dimension: "ratio" },
          { name: "chance", dimension: "fraction", u: 0.01 },
          volts("plate", 1),
          volts("screen", 1),
          volts("cathode", 0.02),
          volts("grid", 0.02),
        ],
        rows: r.causes
          .filter((c, i) => i < 3 || c.probability > 0.005 || r.ties.includes(c))
          .slice(0, 10)
          .map((c) => [
            brief(c.fault.says),
            c.size || "–",
            told(c.probability),
            c.predicted.plate ?? Number.NaN,
            c.predicted.screen ?? Number.NaN,
            c.predicted.cathode ?? Number.NaN,
            c.predicted.grid ?? Number.NaN,
          ]),
      },
      {
        id: "next",
        title: "Tests that would tell most",
        columns: [
          { name: "test", dimension: "ratio" },
          { name: "what it is", dimension: "ratio" },
          { name: "bits", dimension: "ratio", u: 0.05 },
        ],
        rows: r.next.slice(0, 5).map((n) => [n.test.id, n.test.says, n.bits]),
      },
    ] satisfies Table[];
  },
  headline: (g) => suspectsHeadline(g.best as unknown as SuspectInputs, rankOf(g.best as unknown as SuspectInputs)!),
  findings: (g) => {
    const x = g.best as unknown as SuspectInputs;
    return suspectsFindings(x, rankOf(x)!) as never;
  },
  parts: (g) => {
    const x = g.best as unknown as SuspectInputs;
    return suspectParts(x, rankOf(x)!, String((g.best as { tubeType?: string }).tubeType));
  },
  figures: [],
  theory,
});

/** Readings that contradict each other, or the circuit: located, and which contradicts which. */
function contradictions(x: SuspectInputs): Issue[] {
  const v = voltsOf(x);
  const supply = v.supply ?? 1.3 * x.supply;
  const said =
    v.supply === undefined ? `the ${x.supply.toFixed(0)} V that feeds the stage, with a third to spare` : `the supply's own ${v.supply} V`;
  const out: Issue[] = [];
  const row = (n: (typeof nodeOptions)[number]): string =>
    `readings row ${x.readings.findIndex((r) => nodeOptions[r.electrode] === n) + 1}`;
  for (const n of ["plate", "screen", "cathode"] as const)
    if ((v[n] ?? 0) > 1.05 * supply + 2)
      out.push({
        path: row(n),
        code: "contradiction",
        read: `${n} ${v[n]} V`,
        expected: `no more than ${said}: one of the two is misread, or a ground is missing`,
      });
  if (v.cathode !== undefined && v.screen !== undefined && v.cathode > v.screen + 2)
    out.push({
      path: row("cathode"),
      code: "contradiction",
      read: `cathode ${v.cathode} V`,
      expected: `less than the screen's ${v.screen} V: one of the two is misread, or the pins are`,
    });
  const unread = x.readings.findIndex((r) => cell(r.volts) === undefined);
  if (unread >= 0)
    out.push({
      path: `readings row ${unread + 1}`,
      code: "not-a-figure",
      read: "nothing",
      expected: "volts, such as 104 V or 1.1",
    });
  return out;
}
