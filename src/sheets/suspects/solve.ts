import { lawFrom, type Node, type Stage } from "../../physics/tube-stage";
import { type Ranking, rankCauses } from "../../set/rank-causes";
import { tests } from "../../set/stage-faults";
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
  readonly resistorTolerance: number;
  readonly tubeSpread: number;
  readonly supplySpread: number;
}

/** The stage as it should be. */
export function stageOf(x: SuspectInputs): Stage {
  const pentode = x.pointScreen > 0;
  return {
    tube: lawFrom({
      plateV: x.pointPlate,
      gridV: x.pointGrid,
      plateA: x.pointPlateCurrent,
      transconductance: x.transconductance,
      ...(pentode ? { screenV: x.pointScreen, screenA: x.pointScreenCurrent } : {}),
    }),
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
/** What was read at a node: the mean where it was read more than once. */
export function voltsOf(x: SuspectInputs): Partial<Record<Node, number>> {
  const out: Partial<Record<Node, number>> = {};
  for (const [i, n] of nodeOptions.entries()) {
    const own = x.readings.filter((r) => r.electrode === i && Number.isFinite(r.volts)).map((r) => r.volts);
    if (own.length > 0) out[n] = own.reduce((a, b) => a + b, 0) / own.length;
  }
  return out;
}
export function rank(x: SuspectInputs, faultIds: readonly string[]): Ranking | undefined {
  const evidence = Object.fromEntries(
    x.tests.flatMap((t) => {
      const value = [t.ohm, t.volts, t.part].find((v) => Number.isFinite(v));
      return value === undefined ? [] : [[tests[t.test].id, value]];
    }),
  );
  return rankCauses(
    stageOf(x),
    {
      volts: voltsOf(x),
      meterOf: (v) => 1 / meterOhm(x.meter, v),
      meterShare: Math.max(0.01, meterShareOf(x.meter)),
      meterFloorV: 0.02,
      tests: evidence,
    },
    // a tolerance band of a part is taken as even over its width
    { resistor: x.resistorTolerance / Math.sqrt(3), tube: x.tubeSpread, supply: x.supplySpread },
    {
      // without an AVC line behind the grid there is none to leak, to oscillate into, or to stand positive
      ...(x.gridReturn === "fixed" ? { "avc-bypass-leaky": 0, oscillating: 0.1, "return-positive": 0.05 } : {}),
      ...Object.fromEntries(x.priors.map((p) => [faultIds[p.fault], p.weight])),
    },
  );
}

/** Currents that the readings say by Ohm's law, and what follows of them; NaN where a reading is missing. */
export function ohmsLaw(x: SuspectInputs) {
  const v = voltsOf(x);
  const at = (n: Node): number => v[n] ?? Number.NaN;
  const supply = v.supply ?? x.supply;
  const cathodeA = at("cathode") / x.cathodeResistor;
  const drop = supply - at("screen");
  const screenA = drop > 0.05 * supply && x.screenFeed > 0 ? drop / x.screenFeed : Number.NaN;
  const plateA = x.pointScreen > 0 ? cathodeA * (x.pointPlateCurrent / (x.pointPlateCurrent + x.pointScreenCurrent)) : cathodeA;
  return {
    cathodeA,
    screenA,
    plateWatts: plateA * (at("plate") - at("cathode")),
    screenFeedWatts: (supply - at("screen")) ** 2 / x.screenFeed,
    /** leak of the coupling capacitor that would put the grid where it stands */
    leakOhm: at("grid") > 0.05 ? (x.gridResistor * (x.beforeVolts - at("grid"))) / at("grid") : Number.NaN,
  };
}
