import { solveStage } from "../../physics/tube-stage";
import type { Bench } from "../../set/bench";
import type { Ranking } from "../../set/rank-causes";
import { faults, tests } from "../../set/stage-faults";
import { tubePointOf, tubePoints, tubeTableSource } from "../../standards/receiving-tubes";
import { exact, type Quantity } from "../../units/quantity";
import { chartRows, electrodes, meterInput } from "../chart-inputs";
import { type NoValue, type QuantityInput, type Results, sheet, type Table } from "../contract";
import { suspectParts, suspectsFindings, suspectsHeadline } from "./findings";
import { nodeOptions, ohmsLaw, rank, type SuspectInputs, stageOf, voltsOf } from "./solve";
import theory from "./theory.md";

const practice = "common practice, no source";
type Dimension = QuantityInput["dimension"];
const bare = (q: Quantity): Quantity => ({ ...q, spread: exact });
type Point = (typeof tubePoints)[number];
/** A figure of the tube's row, else what was kept at the stage. The tolerances are inputs of their own, so no figure brings a spread. */
const ofTube = (name: string, dimension: Dimension, meaning: string, of: (p: Point) => number, range: object = {}) =>
  ({
    kind: "quantity",
    dimension,
    ...range,
    meaning,
    howMeasured: "tube manual",
    from: (bench: Bench, chosen: Readonly<Record<string, string>>) => {
      const kept = bench.quantity(`${bench.at}.${name}`);
      if (kept) return bare(kept);
      const p = tubePoints.find((t) => t.type === chosen.tubeType);
      return p && { value: of(p), spread: exact, origin: "stated" as const, source: `${p.type}: ${tubeTableSource} (${p.seen})` };
    },
  }) as const satisfies QuantityInput;
const kindOf = (bench: Bench): string => bench.choice(`${bench.at}.kind`) ?? "if-tube";
const ofStage = (
  name: string,
  dimension: Dimension,
  meaning: string,
  howMeasured: string,
  usual: (bench: Bench, p: Point | undefined) => readonly [number, string],
  range: object = {},
) =>
  ({
    kind: "quantity",
    dimension,
    ...range,
    meaning,
    howMeasured,
    from: (bench: Bench, chosen: Readonly<Record<string, string>>) => {
      const kept = bench.quantity(`${bench.at}.${name}`);
      if (kept) return bare(kept);
      const [value, source] = usual(
        bench,
        tubePoints.find((t) => t.type === chosen.tubeType),
      );
      return { value, spread: exact, origin: "assumed" as const, source };
    },
  }) as const satisfies QuantityInput;

/** A cause by what stands before its explanation. */
const brief = (says: string): string => says.split(":")[0];
const options = faults.map((f) => f.id);

let last: { readonly x: SuspectInputs; readonly r: Ranking | undefined } | undefined;
const rankOf = (x: SuspectInputs): Ranking | undefined => {
  if (last?.x !== x) last = { x, r: rank(x, options) };
  return last.r;
};

export const suspects = sheet({
  id: "suspects",
  version: 1,
  title: "What is wrong with this stage",
  question: "What do the readings of this stage come of, and what tells the causes apart?",
  subject: "stage",
  stageKinds: ["rf", "if-tube", "detector", "audio"],
  joins: false,
  works: "open-live",
  steps: ["10", "11", "06", "05", "07", "15"],
  inputs: {
    readings: {
      kind: "table",
      columns: {
        electrode: { options: nodeOptions, meaning: "where" },
        volts: { dimension: "voltage", bare: "V", meaning: "volts to the chassis" },
      },
      meaning: "volts read at this stage's pins",
      howMeasured: "meter clipped on with the set off and discharged, no signal, gain up; stand clear, switch on, read",
      from: (bench) => {
        const own = bench
          .tubes()
          .filter((t) => `stages.${t.stage}` === bench.at)
          .map((t) => Number(/\d+/.exec(t.socket)?.[0]));
        const words: Readonly<Record<string, number>> = { "B+": 0, plate: 1, screen: 2, cathode: 3, grid: 4 };
        const rows = chartRows(bench)
          .filter((r) => own.includes(r.socket) && electrodes[r.electrode] in words && !Number.isNaN(r.measured))
          .map((r) => ({ electrode: words[electrodes[r.electrode]], volts: r.measured }));
        return rows.length > 0 ? rows : undefined;
      },
      assumed: {
        rows: [
          { electrode: 1, volts: 80 },
          { electrode: 3, volts: 0.9 },
          { electrode: 4, volts: 0.3 },
        ],
        source: "an invented stage with one fault",
      },
      mostRows: 40,
    },
    tests: {
      kind: "table",
      columns: {
        test: { options: tests.map((t) => t.id), meaning: "which test" },
        ohm: { dimension: "resistance", meaning: "ohms found", optional: true },
        volts: { dimension: "voltage", bare: "V", meaning: "or volts found", optional: true },
        part: { dimension: "ratio", meaning: "or part of a new one", optional: true },
      },
      meaning: "other tests made, with the power off or a wire lifted",
      howMeasured: "as the sheet asks for them",
      from: () => undefined,
      assumed: { rows: [], source: "none made yet" },
      mostRows: 40,
    },
    priors: {
      kind: "table",
      columns: { fault: { options, meaning: "cause" }, weight: { dimension: "ratio", meaning: "how often, against the others" } },
      meaning: "how common each cause is, where you know better",
      howMeasured: "your own experience with sets of this kind",
      from: () => undefined,
      assumed: { rows: [], source: `the sheet's own weights, ${practice}` },
      mostRows: 40,
    },
    gridReturn: {
      kind: "choice",
      options: ["AVC", "fixed"],
      meaning: "what the grid returns to: the AVC line, or the chassis or a fixed bias",
      howMeasured: "service sheet; rf and IF stages go to the AVC line, output stages to the chassis",
      from: (bench) =>
        bench.choice(`${bench.at}.gridReturn`) ??
        (bench.at === "" ? undefined : ["rf", "if-tube"].includes(kindOf(bench)) ? "AVC" : "fixed"),
      assumed: "AVC",
    },
    meter: meterInput("meter that read them", "meter", "digital, 10 MΩ", "Meter"),
    tubeType: {
      kind: "choice",
      options: [...tubePoints.map((t) => t.type), "other"],
      meaning: "tube type, or one with the same data; other takes typed figures",
      howMeasured: "its marking",
      from: (bench) => {
        const tube = bench.tubes().find((t) => `stages.${t.stage}` === bench.at);
        return (
          bench.choice(`${bench.at}.tubeType`) ??
          (tube && !/not stated/.test(tube.type) ? (tubePointOf(tube.type)?.type ?? "other") : undefined)
        );
      },
      assumed: "6BA6",
    },
    pointPlate: ofTube("pointPlate", "voltage", "plate volts of the manual's point", (p) => p.plateV, { positive: true }),
    pointScreen: ofTube("pointScreen", "voltage", "screen volts of it; 0 for a triode", (p) => p.screenV ?? 0, { min: 0 }),
    pointGrid: ofTube("pointGrid", "voltage", "grid volts of it, against the cathode", (p) => p.gridV, { max: 0 }),
    pointPlateCurrent: ofTube("pointPlateCurrent", "current", "plate current of it", (p) => p.plateA, { positive: true }),
    pointScreenCurrent: ofTube("pointScreenCurrent", "current", "screen current of it; 0 for a triode", (p) => p.screenA ?? 0, { min: 0 }),
    transconductance: ofTube("transconductance", "conductance", "transconductance of it", (p) => p.transconductance, { positive: true }),
    supply: ofStage(
      "supply",
      "voltage",
      "B+ that feeds the stage, as it should be",
      "service sheet; the sheet on B+",
      (bench) => {
        const node = bench.quantity(`supplies.nodes.${kindOf(bench) === "audio" ? "b1" : "b2"}.volts`);
        return node ? [node.value, node.source] : [250, practice];
      },
      { positive: true, max: 1000 },
    ),
    plateFeed: ofStage(
      "plateFeed",
      "resistance",
      "resistance from B+ to the plate",
      "service sheet; ohmmeter, plug out",
      (bench) =>
        kindOf(bench) === "audio"
          ? [400, `an output transformer's primary, ${practice}`]
          : kindOf(bench) === "detector"
            ? [220e3, `first audio stage, ${practice}`]
            : [2200, `decoupling resistor and winding, ${practice}`],
      { positive: true },
    ),
    screenFeed: ofStage(
      "screenFeed",
      "resistance",
      "resistance from B+ to the screen",
      "service sheet; ohmmeter, plug out",
      (bench, p) => {
        if (kindOf(bench) === "audio") return [100, `fed from B+, ${practice}`];
        const supply = bench.quantity(`${bench.at}.supply`) ?? bench.quantity("supplies.nodes.b2.volts");
        if (!p?.screenV || !p.screenA) return [33e3, practice];
        return [Math.max(100, ((supply?.value ?? 250) - p.screenV) / p.screenA), "what gives the manual's screen volts on this supply"];
      },
      { min: 0 },
    ),
    cathodeResistor: ofStage(
      "cathodeResistor",
      "resistance",
      "cathode resistor",
      "its marking; ohmmeter, plug out",
      (_, p) => [p?.cathodeOhm ?? 100, "the manual's, or what gives its bias"],
      { positive: true },
    ),
    gridResistor: ofStage(
      "gridResistor",
      "resistance",
      "resistance from the grid to its return",
      "its marking; ohmmeter, plug out",
      (bench) => (kindOf(bench) === "audio" ? [470e3, practice] : [1e6, `AVC feed, ${practice}`]),
      { positive: true },
    ),
    returnVolts: ofStage(
      "returnVolts",
      "voltage",
      "volts that the grid's return should have, no signal: AVC or bias",
      "meter of 10 MΩ or more on that line",
      () => [0, "no signal, no bias line"],
      { min: -60, max: 10 },
    ),
    beforeVolts: ofStage(
      "beforeVolts",
      "voltage",
      "plate volts of the stage before, behind the coupling capacitor",
      "the chart",
      (bench) =>
        kindOf(bench) === "audio" ? [150, practice] : [bench.quantity("supplies.nodes.b2.volts")?.value ?? 250, "B+ of the plates"],
      { positive: true },
    ),
    resistorTolerance: {
      kind: "quantity",
      dimension: "fraction",
      positive: true,
      max: 0.5,
      meaning: "tolerance of a sound resistor",
      howMeasured: "its marking",
      assumed: { value: 0.2, spread: exact, source: `parts of the era, ${practice}` },
    },
    tubeSpread: {
      kind: "quantity",
      dimension: "fraction",
      positive: true,
      max: 0.5,
      meaning: "spread of sound tubes about the manual, one standard deviation",
      howMeasured: "try several",
      assumed: { value: 0.15, spread: exact, source: "a commentary gives 30 % about the mean as normal for receiving tubes (read)" },
    },
    supplySpread: {
      kind: "quantity",
      dimension: "fraction",
      positive: true,
      max: 0.5,
      meaning: "how well B+ is known, one standard deviation",
      howMeasured: "read it",
      assumed: { value: 0.05, spread: exact, source: practice },
    },
  },
  observed: ["readings"],
  readAt: ["b-plus", "stored-charge"],
  first: ["supply", "screenFeed", "cathodeResistor", "plateFeed", "gridResistor"],
  results: {
    topChance: { dimension: "fraction", meaning: "chance of the likeliest cause", known: 0.01 },
    noneVisible: { dimension: "fraction", meaning: "chance that nothing visible is wrong", known: 0.01 },
    tied: { dimension: "ratio", meaning: "causes that these readings can't tell apart", known: 3 },
    worstMiss: { dimension: "ratio", meaning: "how far the likeliest cause misses a reading, in times its error", known: 0.1 },
    cathodeCurrent: { dimension: "current", meaning: "cathode current by Ohm's law", known: 1e-4 },
    screenCurrent: { dimension: "current", meaning: "current in the screen resistor, were it as marked", known: 1e-4 },
    plateDissipation: { dimension: "power", meaning: "power at the plate", known: 0.05 },
    couplingLeak: { dimension: "resistance", meaning: "leak of the coupling capacitor that a positive grid would take", known: 1e5 },
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
    const law = ohmsLaw(x);
    // by Ohm's law only while the resistor is there
    const open = r.causes[0].fault.id === "cathode-open";
    const sound = solveStage(stageOf(x));
    const or = (v: number | undefined, none: string): number | NoValue => (v !== undefined && Number.isFinite(v) ? v : { none });
    const y: Record<string, number | NoValue> = {
      topChance: r.causes[0].probability,
      noneVisible: r.causes.find((c) => c.fault.id === "none-visible")?.probability ?? 0,
      tied: r.ties.length,
      worstMiss: r.worstMiss,
      cathodeCurrent: open ? { none: "the cathode resistor is likely open" } : or(law.cathodeA, "the cathode was not read"),
      screenCurrent:
        x.pointScreen > 0
          ? or(law.screenA, "the screen was not read, or the drop over its resistor is too small to tell")
          : { none: "a triode has no screen" },
      plateDissipation: open ? { none: "the cathode resistor is likely open" } : or(law.plateWatts, "plate and cathode were not both read"),
      couplingLeak: or(law.leakOhm, "the grid is not positive, or was not read"),
      healthyPlate: or(sound?.plate, "no operating point"),
      healthyScreen: x.pointScreen > 0 ? or(sound?.screen, "no operating point") : { none: "a triode has no screen" },
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
          .filter((c, i) => i < 3 || c.probability > 0.005)
          .slice(0, 10)
          .map((c) => [
            brief(c.fault.says),
            c.size || "–",
            c.probability,
            c.predicted.plate ?? Number.NaN,
            c.predicted.screen ?? Number.NaN,
            c.predicted.cathode ?? Number.NaN,
            c.predicted.grid ?? Number.NaN,
          ]),
      },
      {
        id: "next",
        title: "What would tell most",
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
function contradictions(x: SuspectInputs) {
  const v = voltsOf(x);
  const supply = v.supply ?? 1.3 * x.supply;
  const said =
    v.supply === undefined ? `the ${x.supply.toFixed(0)} V that feeds the stage, with a third to spare` : `the supply's own ${v.supply} V`;
  const out = [];
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
  if (v.cathode !== undefined && v.screen !== undefined && v.cathode > v.screen + 2 && x.pointScreen > 0)
    out.push({
      path: row("cathode"),
      code: "contradiction",
      read: `cathode ${v.cathode} V`,
      expected: `less than the screen's ${v.screen} V: one of the two is misread, or the pins are`,
    });
  const unread = x.readings.findIndex((r) => !Number.isFinite(r.volts));
  if (unread >= 0)
    out.push({
      path: `readings row ${unread + 1}`,
      code: "not-a-figure",
      read: "what is on the card",
      expected: "volts, such as 104 V or 1.1",
    });
  if (x.pointScreen === 0 && v.screen !== undefined)
    out.push({
      path: row("screen"),
      code: "no-screen",
      read: `screen ${v.screen} V`,
      expected: "no screen: this tube is a triode; or its screen volts typed in pointScreen",
    });
  return out;
}
