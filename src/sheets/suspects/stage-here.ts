import { practice } from "../../ask/declare";
import { type KnownParts, stageFromChart } from "../../infer/stage/from-chart";
import type { NodeDoubt } from "../../infer/stage/reading-doubt";
import { onceFor } from "../../numerics/once";
import { nodeVolts } from "../../physics/meter-load";
import { lawFrom, type Node, type Stage } from "../../physics/tube-stage";
import type { Bench } from "../../set/bench";
import { socketNumber } from "../../set/sockets";
import { meterOhm } from "../../standards/meters";
import { tubePointOf, tubePoints } from "../../standards/receiving-tubes";
import { type ChartRow, chartMeterOhm, chartRow } from "../inputs/chart";
import { chartRangeOf, lineRatioOf, toLineNow } from "../inputs/chart-line";
import { type Chosen, cardOf, nodeOf, tubeHere } from "./tubes-here";

/** Volts that a column of the chart has at the stage's nodes. */
const voltsOfRows = (rows: readonly ChartRow[], of: "chart" | "source" | "part"): Partial<Record<Node, number>> => {
  const out: Partial<Record<Node, number>> = {};
  for (const r of rows) {
    const n = nodeOf(r);
    const v = r[of];
    if (n !== undefined && v !== undefined && out[n] === undefined) out[n] = v;
  }
  return out;
};

export type Kind = "output" | "audio" | "if";
/**
 * What the stage does, as far as its usual parts differ.
 *
 * @param bench the set, at the stage
 * @param chosen the sheet's choices
 * @returns its kind; more than 20 mA of plate current is an output stage
 * @source common practice, no source
 */
export function kindHere(bench: Bench, chosen: Chosen): Kind {
  const kind = bench.choice(`${bench.at}.kind`) ?? "if-tube";
  if (kind === "detector") return "audio";
  if (kind !== "audio") return "if";
  const tube = tubeHere(bench, chosen);
  const point = tubePoints.find((t) => t.type === chosen.tubeType) ?? (tube && tubePointOf(tube.type));
  const said = tube ? /output|power/i.test(tube.function) : true;
  return said || point === undefined || point.plateA > 0.02 ? "output" : "audio";
}

/** The stage as it should be today, and where its figures are from. */
export interface StageHere {
  readonly stage: Stage;
  /** the manual's law, before the chart */
  readonly manual: Stage["tube"] | undefined;
  /** figures that the card's ohms give */
  readonly onCard: Partial<Readonly<Record<Node, number>>>;
  /** whether the chart says anything of this stage */
  readonly charted: boolean;
  /** how well the chart says what this meter should read, relative, by node */
  readonly doubt: NodeDoubt;
}
/**
 * What is usual where neither the set nor its chart says it.
 *
 * @param bench the set, at the stage
 * @param chosen the sheet's choices
 * @returns ohms and volts, each with where it is from
 * @source common practice, no source
 */
export function usualOf(bench: Bench, chosen: Chosen) {
  const kind = kindHere(bench, chosen);
  const p = tubePoints.find((t) => t.type === chosen.tubeType);
  const node = bench.quantity(`supplies.nodes.${kind === "output" ? "b1" : "b2"}.volts`);
  const supply = bench.quantity(`${bench.at}.supply`)?.value ?? node?.value ?? 250;
  const dropper = p?.screenV !== undefined && p.screenA !== undefined ? Math.max(100, (supply - p.screenV) / p.screenA) : 33e3;
  return {
    supply: [node?.value ?? 250, node?.source ?? practice],
    plateFeed:
      kind === "output"
        ? [400, `an output transformer's primary, ${practice}`]
        : kind === "audio"
          ? [220e3, `first audio stage, ${practice}`]
          : [2200, `decoupling resistor and winding, ${practice}`],
    decouplingFeed: [kind === "output" ? 0 : kind === "audio" ? 22e3 : 2000, `a decoupling resistor before the load, ${practice}`],
    screenFeed:
      kind === "output"
        ? [100, `fed from B+, ${practice}`]
        : [dropper, p?.screenV ? "what gives the manual's screen volts on this supply" : practice],
    cathodeResistor: [p?.cathodeOhm ?? 100, "the manual's, or what gives its bias"],
    gridResistor: kind === "output" ? [470e3, practice] : [1e6, `AVC feed, ${practice}`],
    returnVolts: [0, "no signal, no bias line"],
    beforeVolts: kind === "output" ? [150, practice] : [bench.quantity("supplies.nodes.b2.volts")?.value ?? 250, "B+ of the plates"],
  } as const satisfies Readonly<Record<string, readonly [number, string]>>;
}

/** Plate volts of the audio tube before this one: by its chart, and as read today with the meter's load taken off where the ohms are known. */
function plateBefore(bench: Bench, chosen: Chosen): { readonly chart?: number; readonly today?: number } {
  const own = socketNumber(tubeHere(bench, chosen)?.socket ?? "");
  const audio = bench.tubes().filter((t) => ["audio", "detector"].includes(bench.choice(`stages.${t.stage}.kind`) ?? ""));
  const k = audio.findIndex((t) => socketNumber(t.socket) === own);
  const before = k > 0 ? socketNumber(audio[k - 1].socket) : undefined;
  const row = cardOf(bench)
    .rows.map(chartRow)
    .find((r) => r.socket === before && before !== undefined && r.electrode === "plate");
  if (row?.measured === undefined) return { chart: row?.chart };
  const meter = row.meterOhm ?? meterOhm(chosen.meter ?? "digital, 10 MΩ", row.measured, row.range);
  return { chart: row.chart, today: nodeVolts(row.measured, row.source ?? 0, meter) * toLineNow(bench, row) };
}

/**
 * The stage as its chart and its card have it: kept figures first, then the card's ohms, then what gives the chart's volts, then what is usual.
 *
 * @param bench the set, at the stage
 * @param chosen the sheet's choices: tube, its type, the chart's meter
 * @returns the stage at today's line; undefined where the tube has no point in the table and none was kept
 * @source house frame
 */
export const stageHere = onceFor(findStage, (chosen: Chosen) =>
  JSON.stringify([chosen.tube, chosen.tubeType, chosen.chartMeter, chosen.meter]),
);
function findStage(bench: Bench, chosen: Chosen): StageHere {
  const tube = tubeHere(bench, chosen);
  const rows = tube?.rows ?? [];
  const chart = voltsOfRows(rows, "chart");
  // a card from before parts had a column of their own has them under the node's
  const parted = cardOf(bench).rows.some((r) => chartRow(r).part !== undefined);
  const onCard = voltsOfRows(rows, parted ? "part" : "source");
  const usual = usualOf(bench, chosen);
  const before = plateBefore(bench, chosen);
  const kept = (name: string): number | undefined => bench.quantity(`${bench.at}.${name}`)?.value;
  const manual = manualOf(bench, chosen);
  const begin: Stage = {
    tube: manual ?? { kind: "triode", perveance: 1e-3, mu: 20, plateShare: 1 },
    supplyV: kept("supply") ?? usual.supply[0],
    plateOhm: kept("plateFeed") ?? onCard.plate ?? usual.plateFeed[0],
    feedOhm: kept("decouplingFeed") ?? usual.decouplingFeed[0],
    screenOhm: Math.max(1, kept("screenFeed") ?? onCard.screen ?? usual.screenFeed[0]),
    cathodeOhm: Math.max(1, kept("cathodeResistor") ?? onCard.cathode ?? usual.cathodeResistor[0]),
    gridOhm: Math.max(1, kept("gridResistor") ?? onCard.grid ?? usual.gridResistor[0]),
    returnV: kept("returnVolts") ?? chart.grid ?? usual.returnVolts[0],
    ...{ screenLeak: 0, cathodeLeak: 0, couplingLeak: 0 },
    beforeV: kept("beforeVolts") ?? before.today ?? before.chart ?? usual.beforeVolts[0],
  };
  const known: KnownParts = {
    supplyV: kept("supply") !== undefined,
    plateOhm: (kept("plateFeed") ?? onCard.plate) !== undefined,
    screenOhm: (kept("screenFeed") ?? onCard.screen) !== undefined,
    cathodeOhm: (kept("cathodeResistor") ?? onCard.cathode) !== undefined,
  };
  const charted = manual !== undefined && (["supply", "plate", "screen", "cathode"] as const).some((n) => chart[n] !== undefined);
  if (!charted) return { stage: begin, manual, onCard, charted: false, doubt: {} };
  const meterS = (name: string | undefined) => (v: number) => 1 / meterOhm(name ?? "digital, 10 MΩ", v);
  const range = chartRangeOf(bench)?.value;
  const chartMeterS = (v: number): number => 1 / chartMeterOhm(chosen.chartMeter ?? "digital, 10 MΩ", v, range);
  const byChart = stageFromChart(begin, known, { volts: chart, meterOf: chartMeterS });
  const { supplyV, beforeV } = byChart.stage;
  // this stage's own volts are of the line at which they were read
  const then = 1 / toLineNow(bench, rows.find((r) => r.measured !== undefined) ?? { line: undefined });
  const line = kept("supply") === undefined ? (supplyRatio(bench, rows) ?? lineRatioOf(bench)) * then : 1;
  return {
    // what was read today is of today's line already
    stage: { ...byChart.stage, supplyV: supplyV * line, beforeV: before.today === undefined ? beforeV * line : beforeV * then },
    manual,
    onCard,
    charted: true,
    doubt: byChart.doubt(meterS(chosen.meter)),
  };
}
/** How far off a supply may be and still be one that the stage lives on. */
const [leastSupply, mostSupply] = [0.6, 1.5] as const;
/** B+ as read today over its chart, at another socket of the card: what every stage has in common is not a fault of this one. */
function supplyRatio(bench: Bench, own: readonly ChartRow[]): number | undefined {
  for (const r of cardOf(bench).rows.map(chartRow)) {
    if (r.electrode !== "B+" || r.chart === undefined || r.measured === undefined || own.some((o) => o.socket === r.socket)) continue;
    const ratio = (r.measured / r.chart) * toLineNow(bench, r);
    if (ratio > leastSupply && ratio < mostSupply) return ratio;
  }
  return undefined;
}
/** The tube's law by the table's point, or by the figures kept at the stage. */
function manualOf(bench: Bench, chosen: Chosen): Stage["tube"] | undefined {
  const kept = (name: string): number | undefined => bench.quantity(`${bench.at}.${name}`)?.value;
  const p = tubePoints.find((t) => t.type === chosen.tubeType);
  const [plateV, gridV, plateA, transconductance] = [
    kept("pointPlate") ?? p?.plateV,
    kept("pointGrid") ?? p?.gridV,
    kept("pointPlateCurrent") ?? p?.plateA,
    kept("transconductance") ?? p?.transconductance,
  ];
  if (plateV === undefined || gridV === undefined || plateA === undefined || transconductance === undefined) return undefined;
  const [screenV, screenA] = [kept("pointScreen") ?? p?.screenV, kept("pointScreenCurrent") ?? p?.screenA];
  return lawFrom({ plateV, gridV, plateA, transconductance, ...((screenV ?? 0) > 0 && (screenA ?? 0) > 0 ? { screenV, screenA } : {}) });
}
