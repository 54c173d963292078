import { leastSquares } from "../../numerics/least-squares";
import { choleskyFactor } from "../../numerics/linear";
import { type Node, readStage, type Stage } from "../../physics/tube-stage";
import type { NodeDoubt } from "./reading-doubt";

/** What a chart says of a stage: its volts, and the meter that they were taken with. */
export interface StageChart {
  readonly volts: Partial<Readonly<Record<Node, number>>>;
  /** conductance of the chart's meter by the volts that stand there, S */
  readonly meterOf: (volts: number, node: Node) => number;
}
/** Which of the stage's own figures are known, and not only usual. */
export type KnownParts = Partial<Readonly<Record<"supplyV" | "plateOhm" | "screenOhm" | "cathodeOhm", boolean>>>;

/** How far a figure may be moved to meet the chart, standard deviation of its logarithm: a known one, a usual supply, a usual resistor. Common practice. */
const [knownBy, supplyBy, resistorBy] = [0.03, 0.3, 1.5] as const;
/** The manual's law away from its point: its current, its mu, and the odds of the plate's share. Common practice. */
const [currentBy, muBy, shareBy] = [0.5, 0.3, 0.3] as const;
/** A chart is read to this part of a figure, and to this many volts. */
const [chartShare, chartFloorV] = [0.015, 0.02] as const;

/** A stage by its chart, and how well that says what another meter should read: relative, by node. */
export interface ByChart {
  readonly stage: Stage;
  readonly doubt: (meterOf: StageChart["meterOf"]) => NodeDoubt;
}
/**
 * A stage as its chart has it: the figures nearest to what is known of them that give the chart's volts on the chart's meter.
 *
 * @param stage as usual or as known, with the tube by its manual
 * @param known which of its figures are known
 * @param chart volts by node
 * @returns the stage; as it was where the chart says nothing of it, or where no figures give its volts. A chart by a meter that loads its nodes says
 *   little of what a lighter one should read unless the ohms are known, and the doubt tells how little
 * @source least squares with each figure's doubt as a reading of its own; its covariance carried to the readings
 */
export function stageFromChart(stage: Stage, known: KnownParts, chart: StageChart): ByChart {
  const read = (["supply", "plate", "screen", "cathode"] as const).filter(
    (n) => chart.volts[n] !== undefined && (n !== "screen" || stage.tube.kind === "pentode"),
  );
  if (read.length === 0) return { stage, doubt: () => ({}) };
  const begin = startOf(stage, known, chart);
  const by = [
    known.supplyV ? knownBy : supplyBy,
    ...(["plateOhm", "screenOhm", "cathodeOhm"] as const).map((n) => (known[n] ? knownBy : resistorBy)),
    currentBy,
    shareBy,
    muBy,
  ];
  // a figure is in doubt about what is usual, not about where the search begins: near cutoff the law makes that absurd
  const from = (["supplyV", "plateOhm", "screenOhm", "cathodeOhm"] as const).map((n) =>
    n === "cathodeOhm" && begin.cathodeOhm === groundedOhm ? 0 : Math.log(begin[n] / stage[n]),
  );
  const moved = (p: ArrayLike<number>): Stage => {
    const odds = (begin.tube.plateShare / (1 - begin.tube.plateShare)) * Math.exp(p[5]);
    return {
      ...begin,
      supplyV: begin.supplyV * Math.exp(p[0]),
      plateOhm: begin.plateOhm * Math.exp(p[1]),
      screenOhm: begin.screenOhm * Math.exp(p[2]),
      cathodeOhm: begin.cathodeOhm * Math.exp(p[3]),
      tube: {
        ...begin.tube,
        perveance: begin.tube.perveance * Math.exp(p[4]),
        mu: begin.tube.mu * Math.exp(p[6]),
        plateShare: begin.tube.kind === "triode" ? 1 : odds / (1 + odds),
      },
    };
  };
  const fit = leastSquares({
    residuals: (p, out) => {
      const at = readStage(moved(p), chart.meterOf, read);
      read.forEach((n, i) => {
        const due = chart.volts[n] ?? 0;
        out[i] = at ? ((at[n] ?? 0) - due) / Math.hypot(chartShare * due, chartFloorV) : Number.NaN;
      });
      by.forEach((u, i) => {
        out[read.length + i] = (p[i] + (from[i] ?? 0)) / u;
      });
    },
    rows: read.length + by.length,
    start: by.map(() => 0),
    scale: by.map(() => 0.1),
    iterations: 60,
    enoughRatio: 1e-6,
  });
  if (!Number.isFinite(fit.cost)) return { stage: begin, doubt: () => sameEverywhere(0.1) };
  const l = fit.normalInverse && choleskyFactor(fit.normalInverse, by.length);
  return { stage: moved(fit.p), doubt: (meterOf) => (l ? carried(moved, fit.p, l, meterOf) : sameEverywhere(0.1)) };
}
const charted = ["plate", "screen", "cathode"] as const;
/** A chart's own meter, relative, as the doubt of its class. Common practice, no source. */
const meterDoubt = 0.02;
const sameEverywhere = (part: number): NodeDoubt => Object.fromEntries(charted.map((n) => [n, part]));
/** The fit's covariance, by its factor, carried to what a meter should read. */
function carried(moved: (p: ArrayLike<number>) => Stage, p: Float64Array, l: Float64Array, meterOf: StageChart["meterOf"]): NodeDoubt {
  const at = readStage(moved(p), meterOf, charted);
  if (!at) return sameEverywhere(0.1);
  const n = p.length;
  const directions = Array.from({ length: n }, (_, k) => readStage(moved(p.map((v, i) => v + l[i * n + k])), meterOf, charted));
  return Object.fromEntries(
    charted.map((node) => {
      const own = Math.max(Math.abs(at[node] ?? 0), 0.05);
      const square = directions.reduce((s, d) => s + (((d?.[node] ?? at[node] ?? 0) - (at[node] ?? 0)) / own) ** 2, 0);
      return [node, Math.min(0.5, Math.hypot(meterDoubt, Math.sqrt(square)))];
    }),
  );
}

/** What stands for a cathode at the chassis. */
const groundedOhm = 1;
/** A feed that takes less than this part of its volts says little of the current, and much of the supply. */
const smallDrop = 0.15;
/** Where the search begins: what is not known is taken from the chart's own volts, by the current that its cathode or its plate has. */
function startOf(stage: Stage, known: KnownParts, chart: StageChart): Stage {
  const { plate, screen, cathode = 0, supply } = chart.volts;
  const { tube } = stage;
  const pentode = tube.kind === "pentode";
  const driveV = (pentode ? screen : plate) ?? (pentode ? 0.4 : 0.6) * stage.supplyV;
  const drive = Math.max(0.2, driveV / tube.mu + Math.min(0, stage.returnV) - cathode);
  const lawA = known.cathodeOhm && cathode > 0.05 ? cathode / stage.cathodeOhm : tube.perveance * drive ** (tube.exponent ?? 1.5);
  const share = pentode ? tube.plateShare : 1;
  const drop = lawA * share * stage.plateOhm;
  const stiff = plate !== undefined && drop < smallDrop * plate;
  const least = 1.02 * Math.max(plate ?? 0, pentode ? (screen ?? 0) : 0);
  const supplyV = known.supplyV ? stage.supplyV : (supply ?? Math.max(least, stiff ? plate + drop : stage.supplyV));
  const byPlate = known.plateOhm && !known.cathodeOhm && !stiff && plate !== undefined && supplyV > plate;
  const totalA = Math.max(1e-6, byPlate ? (supplyV - plate) / stage.plateOhm / share : lawA);
  const feed = (volts: number | undefined, amps: number, usual: number): number =>
    volts === undefined ? usual : Math.max(10, (supplyV - volts) / Math.max(1e-6, amps));
  return {
    ...stage,
    supplyV,
    plateOhm: known.plateOhm ? stage.plateOhm : feed(plate, totalA * share, stage.plateOhm),
    screenOhm: known.screenOhm || !pentode ? stage.screenOhm : feed(screen, totalA * (1 - share), stage.screenOhm),
    // a cathode that the chart has at the chassis is grounded
    cathodeOhm:
      known.cathodeOhm || chart.volts.cathode === undefined
        ? stage.cathodeOhm
        : cathode < 0.05
          ? groundedOhm
          : Math.max(1, cathode / totalA),
  };
}
