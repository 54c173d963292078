import type { ResultsOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import { faults } from "../../infer/stage/faults";
import { type Ranked, type Ranking, rankCauses } from "../../infer/stage/rank-causes";
import type { Tolerances } from "../../infer/stage/reading-doubt";
import { tests } from "../../infer/stage/tests";
import { onceFor } from "../../numerics/once";
import { lawFrom, type Node, nodes, type Stage, solveStage } from "../../physics/tube-stage";
import { cell } from "../../set/columns";
import { meterOhm, meterShareOf } from "../../standards/meters";
import type { Asked, ask } from "./ask";

/** Whether the tube of the point has a screen. Source: definition. */
export const isPentode = (x: Pick<Asked, "pointScreen" | "pointScreenCurrent">): boolean => x.pointScreen > 0 && x.pointScreenCurrent > 0;

/**
 * The stage as it should be.
 *
 * @param x inputs, SI
 * @returns tube, resistors and volts of a sound stage
 * @source the manual's point, as the chart moves it
 */
export function stageOf(x: Asked): Stage {
  const manual = lawFrom({
    plateV: x.pointPlate,
    gridV: x.pointGrid,
    plateA: x.pointPlateCurrent,
    transconductance: x.transconductance,
    ...(isPentode(x) ? { screenV: x.pointScreen, screenA: x.pointScreenCurrent } : {}),
  });
  return {
    tube: {
      ...manual,
      perveance: manual.perveance * x.tubeCurrent,
      mu: manual.mu * x.tubeMu,
      plateShare: Math.max(0.1, 1 - (1 - manual.plateShare) * x.screenPart),
    },
    supplyV: x.supply,
    plateOhm: x.plateFeed,
    feedOhm: Math.min(x.decouplingFeed, 0.99 * x.plateFeed),
    // fed straight from B+: a wire has next to nothing
    screenOhm: Math.max(1, x.screenFeed),
    cathodeOhm: x.cathodeResistor,
    gridOhm: x.gridResistor,
    returnV: x.returnVolts,
    screenLeak: 0,
    cathodeLeak: 0,
    couplingLeak: 0,
    beforeV: x.beforeVolts,
  };
}
/**
 * What was read at a node: the mean where it was read more than once. A zero that was read is a value; a triode's screen is none.
 *
 * @param x inputs
 * @returns V by node
 * @source mean of readings
 */
export function voltsOf(x: Asked): Partial<Record<Node, number>> {
  const out: Partial<Record<Node, number>> = {};
  for (const [i, n] of nodes.entries()) {
    if (n === "screen" && !isPentode(x)) continue;
    const own = x.readings.flatMap((r) => (r.electrode === i ? (cell(r.volts) ?? []) : []));
    if (own.length > 0) out[n] = own.reduce((a, b) => a + b, 0) / own.length;
  }
  return out;
}
/** Above this a grid is positive beyond contact potential and the meter's error, V. Common practice, no source. */
const positiveGridV = 0.3;
/**
 * Volts of a grid that stands positive against where it should be; nothing where it does not.
 *
 * @param x inputs
 * @returns V
 * @source definition; how much counts as positive: common practice, no source
 */
export function positiveGrid(x: Asked): number | undefined {
  const { grid } = voltsOf(x);
  return grid !== undefined && grid - Math.max(0, x.returnVolts) > positiveGridV ? grid : undefined;
}
/** What the tests found, by their names, SI. Source: as typed. */
export const evidenceOf = (x: Pick<Asked, "tests">): Readonly<Record<string, number>> =>
  Object.fromEntries(
    x.tests.flatMap((t) => {
      const value = cell(t.ohm) ?? cell(t.volts) ?? cell(t.part);
      return value === undefined ? [] : [[tests[t.test].id, value]];
    }),
  );

/**
 * What parts, tube, supply and chart of a sound stage may be off by.
 *
 * @param x inputs
 * @returns relative standard deviations
 * @source JCGM 100:2008 4.3.7: a tolerance band of a part is taken as even over its width
 */
export const tolerancesOf = (x: Asked): Tolerances => ({
  resistor: x.resistorTolerance / Math.sqrt(3),
  tube: x.tubeSpread,
  supply: x.supplySpread,
  chart: Object.fromEntries(x.chartDoubt.map((d) => [nodes[d.electrode], d.doubt])),
});

/**
 * The causes by how well they explain the readings, and the tests by what they would tell.
 *
 * @param x inputs
 * @returns the ranking; undefined where the stage has no operating point
 * @source infer/stage
 */
export function rank(x: Asked): Ranking | undefined {
  return rankCauses(
    stageOf(x),
    {
      volts: voltsOf(x),
      meterOf: (v) => 1 / meterOhm(x.meter, v),
      meterShare: Math.max(0.01, meterShareOf(x.meter)),
      meterFloorV: 0.02,
      tests: evidenceOf(x),
    },
    tolerancesOf(x),
    {
      // without an AVC line behind the grid there is none to leak, to oscillate into, or to stand positive
      ...(x.gridReturn === "fixed" ? { "avc-bypass-leaky": 0, oscillating: 0.1, "return-positive": 0.05 } : {}),
      // where nothing decouples there is nothing to leak
      ...(x.decouplingFeed > 0 ? {} : { "decoupling-leaky": 0 }),
      ...Object.fromEntries(x.priors.map((p) => [faults[p.fault].id, p.weight])),
      // a grid that stands positive is a fault that is visible
      ...(positiveGrid(x) === undefined ? {} : { "none-visible": 0 }),
    },
  );
}

/**
 * Currents and powers that the readings say by Ohm's law; nothing where a reading is missing, or the resistor itself is in doubt.
 *
 * @param x inputs
 * @param r their ranking: it says which resistors are in doubt
 * @returns A and W
 * @source Ohm's law
 */
export function ohmsLaw(x: Asked, r: Ranking) {
  const v = voltsOf(x);
  const supply = v.supply ?? x.supply;
  const doubted = (begins: string): boolean => r.ties.some((c) => c.fault.id.startsWith(begins));
  // through its resistor, and through the meter that stands beside it
  const cathodeA =
    v.cathode === undefined || doubted("cathode") ? undefined : v.cathode * (1 / x.cathodeResistor + 1 / meterOhm(x.meter, v.cathode));
  const drop = v.screen === undefined ? undefined : supply - v.screen;
  const screenA =
    drop !== undefined && drop > 0.05 * supply && x.screenFeed > 0 && !doubted("screen-resistor") ? drop / x.screenFeed : undefined;
  const share = isPentode(x) ? stageOf(x).tube.plateShare : 1;
  return {
    cathodeA,
    screenA,
    plateWatts:
      cathodeA === undefined || v.plate === undefined || v.cathode === undefined ? undefined : cathodeA * share * (v.plate - v.cathode),
    screenFeedWatts: drop === undefined || x.screenFeed <= 0 ? undefined : (drop * drop) / x.screenFeed,
  };
}

/** The ranking of the inputs of one answer, worked out once: they are the same in every draw. */
export const rankOf = onceFor(rank);
/** No chance is told as more than this: a cause is never certain. House rule, no source. */
const mostSure = 0.994;
/** A chance as it is told. Source: house rule. */
export const told = (chance: number): number => Math.min(chance, mostSure);
const or = (v: number | undefined, none: string): number | NoValue => v ?? { none };
/**
 * What the readings amount to.
 *
 * @param x inputs
 * @param r their ranking
 * @returns results in SI
 * @source infer/stage; Ohm's law
 */
export function resultsOf(x: Asked, r: Ranking): ResultsOf<typeof ask> {
  const law = ohmsLaw(x, r);
  const sound = solveStage(stageOf(x));
  const leak: Ranked | undefined = positiveGrid(x) === undefined ? undefined : r.ties.find((c) => c.fault.id === "coupling-leaky");
  const ofScreen = (v: number | undefined, none: string): number | NoValue =>
    isPentode(x) ? or(v, none) : { none: "a triode has no screen" };
  const noPoint = "no operating point";
  return {
    topChance: told(r.causes[0].probability),
    noneVisible: told(r.causes.find((c) => c.fault.id === "none-visible")?.probability ?? 0),
    tied: r.ties.length,
    worstMiss: r.worstMiss,
    cathodeCurrent: or(law.cathodeA, "the cathode was not read, or its resistor is itself in doubt"),
    screenCurrent: ofScreen(
      law.screenA,
      "the screen was not read, its resistor is itself in doubt, or the drop across it is too small to tell",
    ),
    plateDissipation: or(law.plateWatts, "plate and cathode were not both read, or the cathode's resistor is in doubt"),
    couplingLeak: or(leak?.sizeValue, "the grid is not positive, was not read, or a leak does not explain it"),
    healthyPlate: or(sound?.plate, noPoint),
    healthyScreen: ofScreen(sound?.screen, noPoint),
    healthyCathode: or(sound?.cathode, noPoint),
  };
}
