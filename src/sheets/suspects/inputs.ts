import { faults } from "../../infer/stage/faults";
import { tests } from "../../infer/stage/tests";
import { meterReads, nodeVolts } from "../../physics/meter-load";
import type { Bench } from "../../set/bench";
import type { FromCard, Row } from "../../set/columns";
import { meterOhm } from "../../standards/meters";
import { tubeClassOf, tubePointOf, tubePoints } from "../../standards/receiving-tubes";
import { exact } from "../../units/quantity";
import { type ChartRow, chartMeterInput, meterInput } from "../inputs/chart";
import { ofStage, ofTube, ofTubeNow, tolerance } from "./input-kinds";
import { nodeOptions } from "./solve";
import { firstRead, nodeOf, stageHere, tubeHere, tubeOrder, unreadOfCard } from "./stage-here";

const practice = "common practice, no source";
type Chosen = Readonly<Record<string, string>>;
export const faultOptions = faults.map((f) => f.id);

/** A reading as the sheet's one meter would have it: what another meter read is turned over by the node's own ohms, where they are known. */
function asRead(r: ChartRow, measured: number, meter = "digital, 10 MΩ"): number {
  if (r.meterOhm === undefined || r.source === undefined) return measured;
  const node = nodeVolts(measured, r.source, r.meterOhm);
  return meterReads(node, r.source, meterOhm(meter, node));
}
function readingsHere(bench: Bench, chosen: Chosen): FromCard | undefined {
  const tube = tubeHere(bench, chosen);
  const rows: Row[] = (tube?.rows ?? []).flatMap((r) => {
    const n = nodeOf(r);
    return n === undefined || r.measured === undefined
      ? []
      : [{ electrode: nodeOptions.indexOf(n), volts: asRead(r, r.measured, chosen.meter) }];
  });
  return rows.length > 0 || unreadOfCard(bench).length > 0 ? { rows, unread: unreadOfCard(bench) } : undefined;
}

export const suspectInputs = {
  tube: {
    kind: "choice",
    options: tubeOrder,
    meaning: "which of the stage's tubes, or of the halves of a double one",
    howMeasured: "the list of tubes",
    from: (bench: Bench) => bench.choice(`${bench.at}.tube`) ?? firstRead(bench),
    assumed: "first",
  },
  readings: {
    kind: "table",
    columns: {
      electrode: { options: nodeOptions, meaning: "where" },
      volts: { dimension: "voltage", bare: "V", meaning: "volts to the chassis" },
    },
    meaning: "volts read at this stage's pins",
    howMeasured: "meter clipped on with the set off and discharged, no signal, gain up; stand clear, switch on, read",
    from: readingsHere,
    assumed: {
      rows: [
        { electrode: 3, volts: 1.2 },
        { electrode: 4, volts: 0.9 },
      ],
      source: "an invented stage with one fault",
    },
    mostRows: 40,
  },
  tests: {
    kind: "table",
    columns: {
      test: { options: tests.map((t) => t.id), meaning: "which test" },
      ohm: { dimension: "resistance", meaning: "ohms found, of a test that reads ohms", optional: true },
      volts: { dimension: "voltage", bare: "V", meaning: "volts found, of a test that reads volts", optional: true },
      part: { dimension: "ratio", meaning: "share of a new tube's value, where a tube tester was used", optional: true },
    },
    meaning: "other tests made, with the power off or a wire lifted",
    howMeasured: "as the sheet asks for them",
    from: () => undefined,
    assumed: { rows: [], source: "none made yet" },
    mostRows: 40,
  },
  priors: {
    kind: "table",
    columns: {
      fault: { options: faultOptions, meaning: "cause" },
      weight: { dimension: "ratio", meaning: "how common this cause is, against the others" },
    },
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
    from: (bench: Bench) =>
      bench.choice(`${bench.at}.gridReturn`) ??
      (bench.at === "" ? undefined : ["rf", "if-tube"].includes(bench.choice(`${bench.at}.kind`) ?? "if-tube") ? "AVC" : "fixed"),
    assumed: "AVC",
  },
  meter: meterInput,
  chartMeter: chartMeterInput,
  tubeType: {
    kind: "choice",
    options: [...tubePoints.map((t) => t.type), "other"],
    meaning: "tube type, or one with the same data; other takes typed values",
    howMeasured: "its marking",
    from: (bench: Bench, chosen: Chosen) => {
      const tube = tubeHere(bench, chosen);
      const kept = bench.choice(`${bench.at}.tubeType`);
      if (kept !== undefined || !tube || /not stated/.test(tube.type)) return kept;
      return tubeClassOf(tube.type) === undefined ? "other" : tubePointOf(tube.type)?.type;
    },
    assumed: "6BA6",
  },
  pointPlate: ofTube("pointPlate", "voltage", "plate volts of the manual's point", (p) => p.plateV, { positive: true }),
  pointScreen: ofTube("pointScreen", "voltage", "screen volts of the manual's point; 0 for a triode", (p) => p.screenV ?? 0, { min: 0 }),
  pointGrid: ofTube("pointGrid", "voltage", "grid volts of the manual's point, against the cathode", (p) => p.gridV, { max: 0 }),
  pointPlateCurrent: ofTube("pointPlateCurrent", "current", "plate current at the manual's point", (p) => p.plateA, { positive: true }),
  pointScreenCurrent: ofTube(
    "pointScreenCurrent",
    "current",
    "screen current at the manual's point; 0 for a triode",
    (p) => p.screenA ?? 0,
    { min: 0 },
  ),
  transconductance: ofTube("transconductance", "conductance", "transconductance at the manual's point", (p) => p.transconductance, {
    positive: true,
  }),
  supply: ofStage("supply", "voltage", "B+ that feeds the stage, as it should be", "service sheet; the sheet on B+", {
    positive: true,
    max: 1000,
  }),
  plateFeed: ofStage("plateFeed", "resistance", "resistance from B+ to the plate", "service sheet; ohmmeter, set unplugged", {
    positive: true,
  }),
  screenFeed: ofStage("screenFeed", "resistance", "resistance from B+ to the screen", "service sheet; ohmmeter, set unplugged", { min: 0 }),
  cathodeResistor: ofStage("cathodeResistor", "resistance", "cathode resistor", "its marking; ohmmeter, set unplugged", { positive: true }),
  gridResistor: ofStage("gridResistor", "resistance", "resistance from the grid to its return", "its marking; ohmmeter, set unplugged", {
    positive: true,
  }),
  returnVolts: ofStage(
    "returnVolts",
    "voltage",
    "volts that the grid's return should have, no signal: AVC or bias",
    "meter of 10 MΩ or more on that line",
    { min: -100, max: 300 },
  ),
  beforeVolts: ofStage("beforeVolts", "voltage", "plate volts of the stage before, behind the coupling capacitor", "the chart", {
    positive: true,
  }),
  tubeCurrent: ofTubeNow(
    "current of this stage's tube when sound, against the manual's law",
    "the chart's cathode volts over the cathode resistor",
    (now, m) => now.perveance / m.perveance,
  ),
  tubeMu: ofTubeNow(
    "amplification factor of this stage's tube when sound (of the screen in a pentode), against the manual's law",
    "the chart's volts",
    (now, m) => now.mu / m.mu,
  ),
  screenPart: ofTubeNow(
    "part of the cathode current that the screen takes when sound, against the manual's; 1 for a triode",
    "the chart's volts over the screen's resistor",
    (now, m) => (m.plateShare < 1 ? (1 - now.plateShare) / (1 - m.plateShare) : 1),
  ),
  highestVolts: {
    kind: "quantity",
    dimension: "voltage",
    positive: true,
    max: 2000,
    meaning: "volts that a capacitor at B+ can meet: the crest at the highest line, with cold tubes",
    howMeasured: "the sheet on B+: with nothing drawn",
    from: (bench: Bench) => {
      const [secondary, high] = [bench.quantity("supplies.secondaryVoltage"), bench.quantity("line.highRatio")];
      return (
        secondary &&
        high && {
          value: Math.SQRT2 * secondary.value * high.value,
          spread: exact,
          origin: "assumed" as const,
          source: "crest of the winding at the highest line",
        }
      );
    },
    assumed: { value: 450, spread: exact, source: "usual for a set of this class" },
  },
  chartDoubt: {
    kind: "table",
    columns: {
      electrode: { options: nodeOptions, meaning: "where" },
      doubt: { dimension: "fraction", meaning: "uncertainty of a reading, one standard deviation, as part of the volts" },
    },
    meaning: "how well the chart says what this meter should read: less where its own meter loaded the node, and the ohms are not known",
    howMeasured: "the class of the chart's meter; ohms of the nodes on the card",
    from: (bench: Bench, chosen: Chosen) => {
      const { charted, doubt } = stageHere(bench, chosen);
      return charted ? nodeOptions.flatMap((n, electrode) => (doubt[n] === undefined ? [] : [{ electrode, doubt: doubt[n] }])) : undefined;
    },
    assumed: { rows: [], source: "no chart of this stage" },
    mostRows: 5,
  },
  resistorTolerance: tolerance("tolerance of a sound resistor", "its marking", 0.2, `parts of the era, ${practice}`),
  tubeSpread: tolerance(
    "scatter of sound tubes about the manual, one standard deviation",
    "try several",
    0.15,
    "a commentary gives 30 % about the mean as normal for receiving tubes (read)",
  ),
  supplySpread: tolerance("how well B+ is known, one standard deviation", "read it", 0.05, practice),
} as const;
