import { atSubject, stored } from "../../ask/stored";
import type { Addressed, QuantityAt } from "../../set/addresses/declare";
import { stages } from "../../set/addresses/stages";
import type { Bench } from "../../set/bench";
import { type TubePoint, tubePoints, tubeTableSource } from "../../standards/receiving-tubes";
import { exact, type Quantity } from "../../units/quantity";
import { type StageHere, stageHere, usualOf } from "./stage-here";
import type { Chosen } from "./tubes-here";

/** What is stored of the stage, else what the table, the chart or practice says. The tolerances are inputs of their own, so no figure brings a spread. */
const figure = (s: Addressed<QuantityAt>, from: (bench: Bench, chosen: Chosen) => Quantity | undefined) =>
  stored(s, {
    over: (bench) => {
      const kept = bench.quantity(atSubject(s.address, bench.at));
      return kept && { ...kept, spread: exact };
    },
    from,
  });
type PointName = "pointPlate" | "pointScreen" | "pointGrid" | "pointPlateCurrent" | "pointScreenCurrent" | "transconductance";
/**
 * A figure of the tube's point in the manual.
 *
 * @param name where it is stored at the stage
 * @param of the same of a row of the table
 * @returns the input
 * @source the table of receiving tubes
 */
export const ofTube = (name: PointName, of: (p: TubePoint) => number) =>
  figure(stages[name], (_, chosen) => {
    const p = tubePoints.find((t) => t.type === chosen.tubeType);
    return p && { value: of(p), spread: exact, origin: "stated", source: `${p.type}: ${tubeTableSource} (${p.seen})` };
  });

/** The card's electrode whose ohms give a figure, and the figure of the stage. */
const places = {
  supply: { of: (h: StageHere) => h.stage.supplyV },
  plateFeed: { of: (h: StageHere) => h.stage.plateOhm, node: "plate" },
  decouplingFeed: { of: (h: StageHere) => h.stage.feedOhm ?? 0 },
  screenFeed: { of: (h: StageHere) => h.stage.screenOhm, node: "screen" },
  cathodeResistor: { of: (h: StageHere) => h.stage.cathodeOhm, node: "cathode" },
  gridResistor: { of: (h: StageHere) => h.stage.gridOhm, node: "grid" },
  returnVolts: { of: (h: StageHere) => h.stage.returnV },
  beforeVolts: { of: (h: StageHere) => h.stage.beforeV },
} as const;
/**
 * A figure of the stage: what its card and chart give, else what is usual.
 *
 * @param name where it is stored at the stage
 * @returns the input
 * @source the chart by infer/stage, else common practice, no source
 */
export const ofStage = (name: keyof typeof places) =>
  figure(stages[name], (bench, chosen) => {
    const here = stageHere(bench, chosen);
    const place = places[name];
    const written = "node" in place ? here.onCard[place.node] : undefined;
    const value = place.of(here);
    if (written !== undefined)
      return value === written || !here.charted
        ? { value: written, spread: exact, origin: "stated", source: "ohms on the card of the voltage chart" }
        : byChart(value, "ohms on the card of the voltage chart, as its volts have them");
    if (here.charted) return byChart(value);
    return { value, spread: exact, origin: "assumed", source: usualOf(bench, chosen)[name][1] };
  });
/** What a chart's volts ask for is known to no more than they are: four figures say more than enough. */
const byChart = (value: number, source = "what gives this stage's volts on its chart"): Quantity => ({
  value: Number(value.toPrecision(4)),
  spread: exact,
  origin: "fitted",
  source,
});

type Law = StageHere["stage"]["tube"];
/**
 * What this stage's sound tube is against the manual's law, as the chart has it.
 *
 * @param name where it is stored at the stage
 * @param of the ratio, of the law of the chart and the manual's
 * @returns the input
 * @source the chart by infer/stage
 */
export const ofTubeNow = (name: "tubeCurrent" | "tubeMu" | "screenPart", of: (now: Law, manual: Law) => number) =>
  figure(stages[name], (bench, chosen) => {
    const { charted, manual, stage } = stageHere(bench, chosen);
    return charted && manual ? byChart(of(stage.tube, manual)) : undefined;
  });
