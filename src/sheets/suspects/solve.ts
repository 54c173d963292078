import { type Ranking, rankCauses } from "../../infer/stage/rank-causes";
import { tests } from "../../infer/stage/tests";
import { lawFrom, type Node, type Stage } from "../../physics/tube-stage";
import { cell } from "../../set/columns";
import { meterOhm, meterShareOf } from "../../standards/meters";

export const nodeOptions = ["supply", "plate", "screen", "cathode", "grid"] as const satisfies readonly Node[];
export interface SuspectInputs {
  readonly readings: readonly { readonly electrode: number; readonly volts: number }[];
  readonly tests: readonly { readonly test: number; readonly ohm: number; readonly volts: number; readonly part: number }[];
  readonly priors: readonly { readonly fault: number; readonly weight: number }[];
  readonly gridReturn: "AVC" | "fixed";
  readonly meter: string;
  readonly pointPlate: number;
  readonly pointScreen: number;
  readonly pointGrid: number;
  readonly pointPlateCurrent: number;
  readonly pointScreenCurrent: number;
  readonly transconductance: number;
  readonly supply: number;
  readonly plateFeed: number;
  readonly screenFeed: number;
  readonly cathodeResistor: number;
  readonly gridResistor: number;
  readonly returnVolts: number;
  readonly beforeVolts: number;
  readonly tubeCurrent: number;
  readonly tubeMu: number;
  readonly screenPart: number;
  readonly highestVolts: number;
  readonly chartDoubt: readonly { readonly electrode: number; readonly doubt: number }[];
  readonly resistorTolerance: number;
  readonly tubeSpread: number;
  readonly supplySpread: number;
}
export const isPentode = (x: Pick<SuspectInputs, "pointScreen" | "pointScreenCurrent">): boolean =>
  x.pointScreen > 0 && x.pointScreenCurrent > 0;

/** The stage as it should be. */
export function stageOf(x: SuspectInputs): Stage {
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
/** What was read at a node: the mean where it was read more than once. A zero that was read is a value; a triode's screen is none. */
export function voltsOf(x: SuspectInputs): Partial<Record<Node, number>> {
  const out: Partial<Record<Node, number>> = {};
  for (const [i, n] of nodeOptions.entries()) {
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
 * @source definition; how much counts as positive: common practice, no source
 */
export function positiveGrid(x: SuspectInputs): number | undefined {
  const { grid } = voltsOf(x);
  return grid !== undefined && grid - Math.max(0, x.returnVolts) > positiveGridV ? grid : undefined;
}
/** What the tests found, by their names. */
export const evidenceOf = (x: SuspectInputs): Readonly<Record<string, number>> =>
  Object.fromEntries(
    x.tests.flatMap((t) => {
      const value = cell(t.ohm) ?? cell(t.volts) ?? cell(t.part);
      return value === undefined ? [] : [[tests[t.test].id, value]];
    }),
  );

export function rank(x: SuspectInputs, faultIds: readonly string[]): Ranking | undefined {
  return rankCauses(
    stageOf(x),
    {
      volts: voltsOf(x),
      meterOf: (v) => 1 / meterOhm(x.meter, v),
      meterShare: Math.max(0.01, meterShareOf(x.meter)),
      meterFloorV: 0.02,
      tests: evidenceOf(x),
    },
    // a tolerance band of a part is taken as even over its width
    {
      resistor: x.resistorTolerance / Math.sqrt(3),
      tube: x.tubeSpread,
      supply: x.supplySpread,
      chart: Object.fromEntries(x.chartDoubt.map((d) => [nodeOptions[d.electrode], d.doubt])),
    },
    {
      // without an AVC line behind the grid there is none to leak, to oscillate into, or to stand positive
      ...(x.gridReturn === "fixed" ? { "avc-bypass-leaky": 0, oscillating: 0.1, "return-positive": 0.05 } : {}),
      ...Object.fromEntries(x.priors.map((p) => [faultIds[p.fault], p.weight])),
      // a grid that stands positive is a fault that is visible
      ...(positiveGrid(x) === undefined ? {} : { "none-visible": 0 }),
    },
  );
}

/**
 * Currents and powers that the readings say by Ohm's law; nothing where a reading is missing, or the resistor itself is in doubt.
 *
 * @source Ohm's law
 */
export function ohmsLaw(x: SuspectInputs, r: Ranking) {
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
    screenFeedWatts: drop === undefined || x.screenFeed <= 0 ? undefined : drop ** 2 / x.screenFeed,
  };
}
