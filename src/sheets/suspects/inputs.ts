import { practice } from "../../ask/declare";
import { asked, stored } from "../../ask/stored";
import { faults } from "../../infer/stage/faults";
import { meterReads, nodeVolts } from "../../physics/meter-load";
import { nodes } from "../../physics/tube-stage";
import { capacitors } from "../../set/addresses/capacitors";
import { list } from "../../set/addresses/declare";
import { line, supplies } from "../../set/addresses/power";
import { stages } from "../../set/addresses/stages";
import type { Bench } from "../../set/bench";
import type { FromCard, Row } from "../../set/columns";
import { meterOhm } from "../../standards/meters";
import { tubeClassOf, tubePointOf } from "../../standards/receiving-tubes";
import { exact, type Quantity } from "../../units/quantity";
import { type ChartRow, chartMeterInput, meterInput } from "../inputs/chart";
import { ofStage, ofTube, ofTubeNow } from "./input-kinds";
import { stageHere } from "./stage-here";
import { type Chosen, firstRead, nodeOf, tubeHere, unreadOfCard } from "./tubes-here";

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
    return n === undefined || r.measured === undefined ? [] : [{ electrode: nodes.indexOf(n), volts: asRead(r, r.measured, chosen.meter) }];
  });
  return rows.length > 0 || unreadOfCard(bench).length > 0 ? { rows, unread: unreadOfCard(bench) } : undefined;
}
/** What the grid returns to by what the stage is; nothing where no stage is asked about. */
function returnOf(bench: Bench): "AVC" | "fixed" | undefined {
  if (bench.at === "") return undefined;
  return ["rf", "if-tube"].includes(bench.choice(`${bench.at}.kind`) ?? "if-tube") ? "AVC" : "fixed";
}
/** The tube's row of the table by the socket's own type; other where it has none. */
function typeOf(bench: Bench, chosen: Chosen): string | undefined {
  const tube = tubeHere(bench, chosen);
  if (!tube || /not stated/.test(tube.type)) return undefined;
  return tubeClassOf(tube.type) === undefined ? "other" : tubePointOf(tube.type)?.type;
}
function crest(bench: Bench): Quantity | undefined {
  const [secondary, high] = [bench.quantity(supplies.secondaryVoltage.address), bench.quantity(line.highRatio.address)];
  if (!secondary || !high) return undefined;
  const value = Math.SQRT2 * secondary.value * high.value;
  return { value, spread: exact, origin: "assumed", source: "crest of the winding at the highest line" };
}
/** How well the chart says what this meter should read, a row a node. */
function doubtOf(bench: Bench, chosen: Chosen): readonly Row[] | undefined {
  const { charted, doubt } = stageHere(bench, chosen);
  if (!charted) return undefined;
  return nodes.flatMap((n, electrode) => (doubt[n] === undefined ? [] : [{ electrode, doubt: doubt[n] }]));
}
/** Lists that nothing but a look at one stage needs: volts stand on the chart's card, weights are tried. */
const lists = {
  readings: list(
    {
      electrode: { options: nodes, meaning: "where" },
      volts: { dimension: "voltage", bare: "V", meaning: "volts to the chassis" },
    },
    "volts read at this stage's pins",
    "meter clipped on with the set off and discharged, no signal, gain up; stand clear, switch on, read",
    40,
  ),
  priors: list(
    {
      fault: { options: faults.map((f) => f.id), meaning: "cause" },
      weight: { dimension: "ratio", meaning: "how common this cause is, against the others" },
    },
    "how common each cause is, where you know better",
    "your own experience with sets of this kind",
    40,
  ),
  chartDoubt: list(
    {
      electrode: { options: nodes, meaning: "where" },
      doubt: { dimension: "fraction", meaning: "uncertainty of a reading, one standard deviation, as part of the volts" },
    },
    "how well the chart says what this meter should read: less where its own meter loaded the node, and the ohms are not known",
    "the class of the chart's meter; ohms of the nodes on the card",
    5,
  ),
} as const;
const example = [
  { electrode: 3, volts: 1.2 },
  { electrode: 4, volts: 0.9 },
];

/** What the question asks for, in the order in which one thing hangs on the other. */
export const inputs = {
  tube: stored(stages.tube, { from: firstRead }),
  readings: asked(lists.readings, { from: readingsHere, example }),
  tests: stored(stages.tests, { none: "none made yet" }),
  priors: asked(lists.priors, { none: `the sheet's own weights, ${practice}` }),
  gridReturn: stored(stages.gridReturn, { from: returnOf }),
  meter: meterInput,
  chartMeter: chartMeterInput,
  tubeType: stored(stages.tubeType, { from: typeOf }),
  pointPlate: ofTube("pointPlate", (p) => p.plateV),
  pointScreen: ofTube("pointScreen", (p) => p.screenV ?? 0),
  pointGrid: ofTube("pointGrid", (p) => p.gridV),
  pointPlateCurrent: ofTube("pointPlateCurrent", (p) => p.plateA),
  pointScreenCurrent: ofTube("pointScreenCurrent", (p) => p.screenA ?? 0),
  transconductance: ofTube("transconductance", (p) => p.transconductance),
  supply: ofStage("supply"),
  plateFeed: ofStage("plateFeed"),
  decouplingFeed: ofStage("decouplingFeed"),
  screenFeed: ofStage("screenFeed"),
  cathodeResistor: ofStage("cathodeResistor"),
  gridResistor: ofStage("gridResistor"),
  returnVolts: ofStage("returnVolts"),
  beforeVolts: ofStage("beforeVolts"),
  tubeCurrent: ofTubeNow("tubeCurrent", (now, m) => now.perveance / m.perveance),
  tubeMu: ofTubeNow("tubeMu", (now, m) => now.mu / m.mu),
  screenPart: ofTubeNow("screenPart", (now, m) => (m.plateShare < 1 ? (1 - now.plateShare) / (1 - m.plateShare) : 1)),
  highestVolts: stored(capacitors.highestVolts, { from: crest }),
  chartDoubt: asked(lists.chartDoubt, { from: doubtOf, none: "no chart of this stage" }),
  resistorTolerance: stored(stages.resistorTolerance),
  tubeSpread: stored(stages.tubeSpread),
  supplySpread: stored(stages.supplySpread),
} as const;
