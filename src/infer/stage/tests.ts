import { type Stage, solveStage } from "../../physics/tube-stage";
import type { State } from "../../standards/cautions";
import { findingById } from "../../units/by-id";
import type { Fault } from "./faults";

/** A test beyond the volts at the pins: what each cause predicts of it, in a scale where its error is even. */
export interface Test {
  readonly id: string;
  readonly says: string;
  readonly how: string;
  /** how readily it is done: one that tells nearly as much and is easier or safer comes first */
  readonly ease: number;
  /** what it wants of the set where it is read */
  readonly state: State;
  readonly reads: "resistance" | "voltage" | "fraction";
  readonly predict: (s: Stage, fault: Fault, size: number) => number | undefined;
  readonly toScale: (v: number) => number;
  /** standard deviation on that scale, its part's tolerance apart */
  readonly error: number;
}
const logScale = (v: number): number => Math.log(Math.max(v, 0.3));
const parallel = (a: number, leak: number): number => 1 / (1 / a + leak);
export const tests: readonly Test[] = [
  {
    id: "screen-ohm",
    says: "the screen resistor, cold, one lead lifted",
    how: "set unplugged, discharged and measured; lift one lead of the screen resistor, ohmmeter across it",
    ease: 1.3,
    state: "open-dead",
    reads: "resistance",
    predict: (s) => (s.tube.kind === "pentode" ? Math.min(s.screenOhm, 2e8) : undefined),
    toScale: logScale,
    error: 0.02,
  },
  {
    id: "cathode-ohm",
    says: "the cathode to the chassis, in ohms",
    how: "set unplugged, discharged and measured; ohmmeter from the cathode pin to the chassis",
    ease: 1.3,
    state: "open-dead",
    reads: "resistance",
    predict: (s) => Math.min(parallel(s.cathodeOhm, s.cathodeLeak), 2e8),
    toScale: logScale,
    error: 0.02,
  },
  {
    id: "plate-ohm",
    says: "the plate to B+, in ohms",
    how: "set unplugged, discharged and measured; ohmmeter from the plate pin to the B+ point that feeds it",
    ease: 1.3,
    state: "open-dead",
    reads: "resistance",
    predict: (s) => Math.min(s.plateOhm, 2e8),
    toScale: logScale,
    error: 0.03,
  },
  {
    id: "screen-leak-ohm",
    says: "the screen bypass to the chassis, one lead lifted, at its working volts",
    how: "set unplugged, discharged and measured; lift the bypass, leakage tester at its working voltage (an ohmmeter misses leaks that need volts)",
    ease: 1.1,
    state: "open-dead",
    reads: "resistance",
    predict: (s) => (s.tube.kind === "pentode" ? Math.min(1 / Math.max(s.screenLeak, 5e-9), 2e8) : undefined),
    toScale: logScale,
    error: 0.5,
  },
  {
    id: "grid-lifted",
    says: "the grid's volts with the coupling capacitor's driver end lifted",
    how: "set off, discharged and measured before the wire is lifted; 10 MΩ meter clipped on, stand clear, switch on: it falls to zero where the capacitor leaked, and stays where the tube or the AVC line is at fault",
    ease: 1,
    state: "open-live",
    reads: "voltage",
    predict: (s) => solveStage({ ...s, couplingLeak: 0 })?.grid,
    toScale: (v) => v,
    error: 0.05,
  },
  {
    id: "grid-new-tube",
    says: "the grid's volts with another tube in the socket",
    how: "set off and cooled; change the tube for a good one, 10 MΩ meter on the grid, switch on",
    ease: 0.95,
    state: "open-live",
    reads: "voltage",
    predict: (s, f) => solveStage({ ...s, gridCurrentA: f.id === "tube-gassy" ? 0 : (s.gridCurrentA ?? 0) })?.grid,
    toScale: (v) => v,
    error: 0.05,
  },
  {
    id: "cathode-new-tube",
    says: "the cathode's volts with another tube in the socket",
    how: "set off and cooled; change the tube for a good one, meter on the cathode, switch on",
    ease: 0.95,
    state: "open-live",
    reads: "voltage",
    predict: (s, f, size) =>
      solveStage(f.id === "weak-tube" || f.id === "dead-tube" ? { ...s, tube: { ...s.tube, perveance: s.tube.perveance / size } } : s)
        ?.cathode,
    toScale: (v) => Math.log(Math.max(v, 0.01)),
    error: 0.12,
  },
  {
    id: "return-volts",
    says: "the AVC or bias line that the grid returns to, no signal, on a meter of 10 MΩ or more",
    how: "meter clipped on with the set off, antenna off, gain up, stand clear, switch on",
    ease: 1.05,
    state: "open-live",
    reads: "voltage",
    predict: (s) => s.returnV,
    toScale: (v) => v,
    error: 0.1,
  },
  {
    id: "tester",
    says: "a tube tester's reading, as part of a new tube's",
    how: "tube tester; its reading is good to a quarter or so, and a good reading rules out neither hum nor grid current",
    ease: 1,
    state: "open-dead",
    reads: "fraction",
    predict: (_s, f, size) => (f.id === "weak-tube" || f.id === "dead-tube" ? Math.max(size, 0.01) : 1),
    toScale: (v) => Math.log(Math.max(v, 0.01)),
    error: 0.25,
  },
  {
    id: "screen-lifted",
    says: "the screen's volts with its bypass lifted",
    how: "set off, discharged and measured before the wire is lifted; meter clipped on, stand clear, switch on: near its chart where the bypass leaked; for the reading only, since the stage may oscillate without it",
    ease: 1,
    state: "open-live",
    reads: "voltage",
    predict: (s) => (s.tube.kind === "pentode" ? solveStage({ ...s, screenLeak: 0 })?.screen : undefined),
    toScale: (v) => Math.log(Math.max(v, 0.3)),
    error: 0.15,
  },
  {
    id: "decoupling-lifted",
    says: "the plate's volts with the decoupling capacitor lifted",
    how: "set off, discharged and measured before the wire is lifted: that capacitor holds its charge; meter clipped on, stand clear, switch on: the plate comes up where the capacitor leaked, and stays where resistor, tube or supply is at fault",
    ease: 1,
    state: "open-live",
    reads: "voltage",
    predict: ({ decoupledPart: _, ...s }) => ((s.feedOhm ?? 0) > 0 ? solveStage(s)?.plate : undefined),
    toScale: (v) => Math.log(Math.max(v, 1)),
    error: 0.05,
  },
  {
    id: "cathode-resistor-ohm",
    says: "the cathode resistor alone, one lead lifted",
    how: "set unplugged, discharged and measured; lift one lead of the cathode resistor, ohmmeter across it: as marked where the bypass beside it leaks",
    ease: 1.1,
    state: "open-dead",
    reads: "resistance",
    predict: (s) => Math.min(s.cathodeOhm, 2e8),
    toScale: logScale,
    error: 0.02,
  },
];
export const testById = findingById(tests);
/**
 * Standard deviation of a test on its own scale, the tolerance of the part that it measures in it.
 *
 * @param test which
 * @param tolerances of a sound stage
 * @returns the deviation
 * @source JCGM 100:2008 5.1.2
 */
export const errorOf = (test: Test, tolerances: { readonly resistor: number }): number =>
  Math.hypot(test.error, test.toScale === logScale ? tolerances.resistor : 0);
