import { type Fault, faults, type Sizes } from "../infer/stage/faults";
import { leastSquares } from "../numerics/least-squares";
import { normalStream, uniformStream } from "../numerics/random";
import { lawFrom, type Node, nodes, type Stage } from "../physics/tube-stage";

/**
 * Invented stages for studies. Their tubes share nothing with the law that the ranking assumes but that more volts draw more current: two tubes of
 * unlike cutoff in parallel, a power of their own, the plate's pull on the current, a screen that takes more as the plate falls, and a grid whose
 * current grows exponentially.
 */
interface WorldTube {
  readonly pentode: boolean;
  /** A/V^power of the whole tube */
  readonly strength: number;
  readonly mu: number;
  readonly power: number;
  /** part of the current that cuts off late, and how late */
  readonly remotePart: number;
  readonly remoteMu: number;
  /** how much less the plate pulls than the screen */
  readonly plateMu: number;
  readonly screenPart: number;
  /** grid volts against the cathode at which a microampere flows */
  readonly contactV: number;
}
/** An IF stage as it should be, by the ranking's own law: a remote-cutoff pentode by its manual's point. Invented circuit. */
export const studiedStage: Stage = {
  tube: lawFrom({ plateV: 250, screenV: 100, gridV: -1.0336, plateA: 0.011, screenA: 0.0042, transconductance: 4400e-6 }),
  supplyV: 250,
  plateOhm: 2200,
  screenOhm: 33e3,
  cathodeOhm: 68,
  gridOhm: 1e6,
  returnV: 0,
  screenLeak: 0,
  cathodeLeak: 0,
  couplingLeak: 0,
  beforeV: 245,
};
/** Designs: the circuit, and the manual's point of its tube, which the ranking is told. */
export interface Design {
  readonly id: string;
  readonly stage: Stage;
  /** what the world's tube draws there: drive in V that gives the point's cathode current */
  readonly world: Omit<WorldTube, "strength">;
  readonly gridReturn: "AVC" | "fixed";
}
const circuit = (tube: Stage["tube"], more: Partial<Stage>): Stage => ({ ...studiedStage, tube, ...more });
export const designs: readonly Design[] = [
  {
    id: "IF pentode",
    stage: studiedStage,
    world: { pentode: true, mu: 19, power: 1.4, remotePart: 0.3, remoteMu: 9, plateMu: 400, screenPart: 0.28, contactV: -0.3 },
    gridReturn: "AVC",
  },
  {
    id: "RF pentode, sharp cutoff",
    stage: circuit(lawFrom({ plateV: 200, screenV: 150, gridV: -2.21, plateA: 0.0095, screenA: 0.0028, transconductance: 6.2e-3 }), {
      ...{ supplyV: 230, plateOhm: 4700, screenOhm: 22e3, cathodeOhm: 180, gridOhm: 470e3 },
    }),
    world: { pentode: true, mu: 36, power: 1.6, remotePart: 0, remoteMu: 20, plateMu: 900, screenPart: 0.22, contactV: -0.5 },
    gridReturn: "AVC",
  },
  {
    id: "first audio triode",
    stage: circuit(lawFrom({ plateV: 250, gridV: -2, plateA: 0.0012, transconductance: 1.6e-3 }), {
      ...{ supplyV: 240, plateOhm: 220e3, cathodeOhm: 2200, gridOhm: 470e3, beforeV: 40 },
    }),
    world: { pentode: false, mu: 95, power: 1.45, remotePart: 0.1, remoteMu: 50, plateMu: 95, screenPart: 0, contactV: -0.6 },
    gridReturn: "fixed",
  },
  {
    id: "output tube",
    stage: circuit(lawFrom({ plateV: 250, screenV: 250, gridV: -12.5, plateA: 0.045, screenA: 0.0045, transconductance: 4.1e-3 }), {
      ...{ supplyV: 265, plateOhm: 420, screenOhm: 470, cathodeOhm: 270, gridOhm: 470e3, beforeV: 120 },
    }),
    world: { pentode: true, mu: 8.4, power: 1.4, remotePart: 0.15, remoteMu: 5, plateMu: 90, screenPart: 0.09, contactV: -0.8 },
    gridReturn: "fixed",
  },
];

const softly = (drive: number): number => 0.25 * Math.log1p(Math.exp(Math.min(drive / 0.25, 400)));
/** Cathode, plate and screen currents of the world's tube, A. */
function currents(t: WorldTube, [p, d, k, g]: ArrayLike<number> & Iterable<number>): { plateA: number; screenA: number; gridA: number } {
  const pull = t.pentode ? (d - k) / t.mu + (p - k) / t.plateMu : (p - k) / t.mu;
  const late = t.pentode ? (d - k) / t.remoteMu + (p - k) / t.plateMu : (p - k) / t.remoteMu;
  const main = softly(g - k + pull) ** t.power;
  const tail = (softly(g - k + late) * (t.remoteMu / t.mu)) ** t.power;
  const total = t.strength * ((1 - t.remotePart) * main + t.remotePart * tail);
  const reach = p > k ? 1 - Math.exp(-(p - k) / 9) : 0;
  const screenPart = t.pentode ? 1 - (1 - t.screenPart) * reach : 1 - Math.min(1, reach * 1.0001);
  return {
    plateA: total * (1 - screenPart),
    screenA: t.pentode ? total * screenPart : 0,
    gridA: 1e-6 * Math.expm1(Math.min((g - k - t.contactV) / 0.22, 14)) * (g - k > t.contactV ? 1 : 0),
  };
}
/** Volts of a circuit with the world's tube in it, with meters at its nodes, S; undefined where none were found. */
function solveWorld(s: Stage, t: WorldTube, meter: Partial<Record<Node, number>>, start: readonly number[]): number[] | undefined {
  const at = (n: Node): number => meter[n] ?? 0;
  const fit = leastSquares({
    residuals: (v, out) => {
      const [p, d, k, g] = v;
      const { plateA, screenA, gridA } = currents(t, v);
      out[0] = s.supplyV - p - s.plateOhm * (plateA + p * at("plate"));
      out[1] = t.pentode ? s.supplyV - d - s.screenOhm * (screenA + d * (s.screenLeak + at("screen"))) : s.supplyV - d;
      out[2] = k - (plateA + screenA + gridA) / (1 / s.cathodeOhm + s.cathodeLeak + at("cathode"));
      out[3] = s.returnV - g + s.gridOhm * (s.couplingLeak * (s.beforeV - g) + (s.gridCurrentA ?? 0) - gridA - g * at("grid"));
    },
    rows: 4,
    start,
    low: [0, 0, 0, -300],
    high: [2 * s.supplyV + 1, 2 * s.supplyV + 1, s.supplyV + 1, 400],
    scale: [10, 10, 0.1, 0.1],
    iterations: 300,
    enoughRatio: 1e-12,
  });
  return fit.cost < 1e-2 ? [...fit.p] : undefined;
}
function worldVolts(s: Stage, t: WorldTube, meter: Partial<Record<Node, number>> = {}): number[] | undefined {
  const g = Math.min(s.returnV, 0);
  for (const [p, d, k] of [
    [0.8, 0.4, 0.01],
    [0.99, 0.9, 0.001],
    [0.3, 0.3, 0.03],
    [0.01, 0.2, 0.01],
  ]) {
    const v = solveWorld(s, t, meter, [p * s.supplyV, (t.pentode ? d : 1) * s.supplyV, k * s.supplyV, g]);
    if (v) return v;
  }
  return undefined;
}
/** What a meter shows at each node, each read by itself. */
function readWorld(s: Stage, t: WorldTube, meterS: (volts: number) => number): Partial<Record<Node, number>> | undefined {
  const own = worldVolts(s, t);
  if (!own) return undefined;
  const out: Partial<Record<Node, number>> = { supply: s.supplyV };
  for (const [i, n] of (["plate", "screen", "cathode", "grid"] as const).entries()) {
    if (n === "screen" && !t.pentode) continue;
    const v = solveWorld(s, t, { [n]: meterS(own[i]) }, own) ?? worldVolts(s, t, { [n]: meterS(own[i]) });
    if (!v) return undefined;
    out[n] = v[i];
  }
  return out;
}
/** How a set is made that the ranking is tried on: how its parts and tube are spread, and how many faults it has. */
export interface Making {
  readonly id: string;
  readonly drift: number;
  readonly tube: number;
  readonly faultCount: 1 | 2;
}
export const makings: readonly Making[] = [
  { id: "another tube law, parts in their tolerance", drift: 1, tube: 0.12, faultCount: 1 },
  { id: "that, parts drifted up 5 %, tubes wider", drift: 1.05, tube: 0.2, faultCount: 1 },
  { id: "that, and two faults at once", drift: 1.05, tube: 0.2, faultCount: 2 },
];
/** What the ranking is told of sound parts. */
export const toldTolerances = { resistor: 0.2 / Math.sqrt(3), tube: 0.15, supply: 0.05 } as const;
/** Faults that DC at the pins can show. */
export const visibleFaults = faults.filter((f) => !["none-visible", "avc-bypass-leaky", "heater-cathode-leak"].includes(f.id));
/** Usual ranges of a moving-coil meter, V, for the chart's. */
const chartMeterS = (volts: number): number => 1 / (20e3 * ([2.5, 10, 50, 250, 1000].find((r) => r >= Math.abs(volts)) ?? 1000));
const sizeOf = (sizes: readonly Sizes[], u: number): number => {
  const total = sizes.reduce((s, r) => s + (r.share ?? 1), 0);
  let left = u * total;
  for (const r of sizes) {
    const share = r.share ?? 1;
    if (left <= share) return r.from * (r.to / r.from) ** (left / share);
    left -= share;
  }
  return sizes[sizes.length - 1].to;
};

/**
 * One invented set of a design: what its chart says, by a set with marked parts on a meter of 20 kohm/V, and what a meter of 10 megohm reads of it.
 *
 * @param design circuit and tube
 * @param making how far its parts and tube are from the marked ones
 * @param fault what is wrong with it; nothing for a sound one
 * @param seed of its draws
 * @returns chart and readings by node; undefined where the stage has no operating point
 * @source invented: tolerances and drift of old parts are common practice, no source; operating points by physics/tube-stage.ts
 */
export function inventStage(design: Design, making: Making, fault: readonly Fault[], seed: number) {
  const name = `${design.id} ${making.id} ${fault.map((f) => f.id).join()}`;
  const u = uniformStream(seed, `${name} uniform`, 12);
  const z = normalStream(seed, `${name} normal`, 16);
  const nominal = nominalTube(design);
  const part = (ohm: number, k: number): number => ohm * Math.min(1.2, making.drift * (1 + 0.2 * (2 * u[k] - 1)));
  const { stage: marked } = design;
  const chart = readWorld(marked, nominal, chartMeterS);
  let stage: Stage = {
    ...marked,
    supplyV: marked.supplyV * (1 + 0.04 * z[2]),
    plateOhm: part(marked.plateOhm, 0),
    screenOhm: part(marked.screenOhm, 1),
    cathodeOhm: part(marked.cathodeOhm, 2),
    gridOhm: part(marked.gridOhm, 3),
  };
  const own: WorldTube = {
    ...nominal,
    strength: nominal.strength * Math.max(0.5, 1 + making.tube * z[0]),
    mu: nominal.mu * (1 + 0.05 * z[1]),
    contactV: nominal.contactV + 0.1 * z[10],
  };
  let tube = own;
  fault.forEach((f, i) => {
    const size = sizeOf(f.sizes, u[4 + i]);
    // a fault of the tube is one of the world's tube
    const before = stage.tube.perveance;
    stage = f.apply(stage, size);
    tube = { ...tube, strength: (tube.strength * stage.tube.perveance) / before };
  });
  const read = readWorld(stage, tube, () => 1e-7);
  if (!chart || !read) return undefined;
  return {
    chart: Object.fromEntries(
      nodes.flatMap((n) => (chart[n] === undefined || n === "supply" ? [] : [[n, Number(chart[n].toPrecision(3))]])),
    ),
    volts: Object.fromEntries(
      nodes.flatMap((n, i) => (read[n] === undefined ? [] : [[n, read[n] * (1 + 0.007 * z[4 + i]) + 0.01 * z[9]]])),
    ),
  };
}
/** The world's tube, as strong as gives the manual's point on the marked circuit. */
function nominalTube(design: Design): WorldTube {
  const { stage, world } = design;
  const wanted = stage.tube.perveance;
  // the same current as the manual's law at the circuit's own working drive
  const drive = 0.6 * (stage.supplyV / (world.pentode ? 2.4 : 1.6) / stage.tube.mu);
  const main = softly(drive) ** world.power;
  const manual = wanted * drive ** 1.5;
  return { ...world, strength: manual / main };
}
