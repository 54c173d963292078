import { normalStream, uniformStream } from "../numerics/random";
import { lawFrom, nodes, readStage, type Stage, solveStage } from "../physics/tube-stage";
import { type Fault, faults } from "./stage-faults";

/** An IF stage as it should be, for studies: a remote-cutoff pentode by its manual's point. Invented circuit. */
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
/** How a set is made that the ranking is tried on. */
export interface Making {
  readonly id: string;
  /** the ranking's own law and spreads, or another law with wider parts */
  readonly other: boolean;
  readonly faultCount: 1 | 2;
}
export const makings: readonly Making[] = [
  { id: "the law and spreads that the ranking assumes", other: false, faultCount: 1 },
  { id: "another tube law, parts drifted and wider", other: true, faultCount: 1 },
  { id: "that, and two faults at once", other: true, faultCount: 2 },
];
/** What the ranking is told of sound parts. */
export const toldTolerances = { resistor: 0.2 / Math.sqrt(3), tube: 0.15, supply: 0.05 } as const;
/** Faults that DC at the pins can show. */
export const visibleFaults = faults.filter((f) => !["none-visible", "avc-bypass-leaky", "heater-cathode-leak"].includes(f.id));

/** Another tube: it leaves cutoff gradually and by a lower power, at the same current where the manual's point lies. */
function otherTube(mu: number): Stage["tube"] {
  const own = studiedStage.tube;
  const [exponent, softV] = [1.35, 0.4];
  const driveV = 100 / mu - 1.0336;
  const soft = softV * Math.log1p(Math.exp(driveV / softV));
  return { ...own, mu, exponent, softV, perveance: (0.011 + 0.0042) / soft ** exponent };
}

/**
 * One invented set: a stage with its own parts, its faults and what a meter of 10 megohm reads of it.
 *
 * @param making how it is made
 * @param fault the fault it has, and a second one where the making has two
 * @param seed of its draws
 * @returns readings; undefined where the stage has no operating point
 */
export function inventStage(making: Making, fault: readonly Fault[], seed: number) {
  const name = `${making.id} ${fault.map((f) => f.id).join()}`;
  const u = uniformStream(seed, `${name} uniform`, 12);
  const z = normalStream(seed, `${name} normal`, 12);
  const [half, drift, tubeS] = making.other ? [0.2, 1.08, 0.25] : [0.2, 1, 0.15];
  const part = (ohm: number, k: number): number => ohm * drift * (1 + half * (2 * u[k] - 1));
  const base = making.other ? otherTube(0.9 * studiedStage.tube.mu) : studiedStage.tube;
  let stage: Stage = {
    ...studiedStage,
    tube: {
      ...base,
      perveance: base.perveance * Math.max(0.3, 1 + tubeS * z[0]),
      mu: base.mu * (1 + 0.4 * tubeS * z[1]),
    },
    supplyV: 250 * (1 + 0.05 * z[2]),
    plateOhm: part(2200, 0),
    screenOhm: part(33e3, 1),
    cathodeOhm: part(68, 2),
    gridOhm: part(1e6, 3),
  };
  fault.forEach((f, i) => {
    const [from, to] = [f.sizes[0], f.sizes[f.sizes.length - 1]];
    const size =
      f.sizes.length === 1 ? from : f.id === "supply-off" ? f.sizes[Math.floor(u[4 + i] * f.sizes.length)] : from * (to / from) ** u[4 + i];
    stage = f.apply(stage, size);
  });
  const ideal = solveStage(stage);
  const read = ideal && readStage(stage, () => 1e-7, nodes, ideal);
  if (!read) return undefined;
  return Object.fromEntries(nodes.map((n, i) => [n, (read[n] ?? 0) * (1 + 0.007 * z[4 + i]) + 0.01 * z[9]]));
}
