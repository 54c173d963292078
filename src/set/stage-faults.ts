import { type Stage, solveStage } from "../physics/tube-stage";

/** What a stage's readings may come of. `size` is how bad it is, in the words of the fault. */
export interface Fault {
  readonly id: string;
  /** what it is called, for a person */
  readonly says: string;
  /** how often, against the others, when a set has stood for decades; common practice, no source, and it may be changed */
  readonly prior: number;
  readonly sizes: readonly number[];
  readonly apply: (s: Stage, size: number) => Stage;
  /** what to measure with the power off, or with a wire lifted, is worked out from the stage so changed */
  readonly sizeSays: (size: number, s: Stage) => string;
}

const spread = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from * (to / from) ** (i / Math.max(1, count - 1)));
const ohms = (v: number): string =>
  v >= 1e6
    ? `${Number((v / 1e6).toPrecision(2))} MΩ`
    : v >= 1e3
      ? `${Number((v / 1e3).toPrecision(2))} kΩ`
      : `${Number(v.toPrecision(2))} Ω`;
const times = (k: number): string => `about ${Number(k.toPrecision(2))} times its value`;
const isOpen = 1e9;

/** The faults of a tube stage that show, or fail to show, in its DC. */
export const faults: readonly Fault[] = [
  { id: "none-visible", says: "no fault visible in these readings", prior: 3, sizes: [1], apply: (s) => s, sizeSays: () => "" },
  {
    id: "cathode-resistor-high",
    says: "cathode resistor drifted up",
    prior: 1,
    sizes: spread(1.25, 4, 8),
    apply: (s, k) => ({ ...s, cathodeOhm: s.cathodeOhm * k }),
    sizeSays: (k, s) => `${times(k)}, ${ohms(s.cathodeOhm * k)}`,
  },
  {
    id: "cathode-open",
    says: "cathode resistor or its wiring open",
    prior: 0.4,
    sizes: [isOpen],
    apply: (s) => ({ ...s, cathodeOhm: s.cathodeOhm * isOpen }),
    sizeSays: () => "open",
  },
  {
    id: "screen-resistor-high",
    says: "screen resistor drifted up",
    prior: 1.5,
    sizes: spread(1.25, 4, 8),
    apply: (s, k) => ({ ...s, screenOhm: s.screenOhm * k }),
    sizeSays: (k, s) => `${times(k)}, ${ohms(s.screenOhm * k)}`,
  },
  {
    id: "screen-resistor-open",
    says: "screen resistor open",
    prior: 0.5,
    sizes: [isOpen],
    apply: (s) => ({ ...s, screenOhm: s.screenOhm * isOpen }),
    sizeSays: () => "open",
  },
  {
    id: "plate-feed-high",
    says: "plate resistor or feed drifted up",
    prior: 1,
    sizes: spread(1.3, 20, 9),
    apply: (s, k) => ({ ...s, plateOhm: s.plateOhm * k }),
    sizeSays: (k, s) => `${times(k)}, ${ohms(s.plateOhm * k)}`,
  },
  {
    id: "plate-open",
    says: "plate feed open: resistor, or the winding of the transformer at the plate",
    prior: 0.6,
    sizes: [isOpen],
    apply: (s) => ({ ...s, plateOhm: s.plateOhm * isOpen }),
    sizeSays: () => "open",
  },
  {
    id: "screen-bypass-leaky",
    says: "screen bypass capacitor leaky",
    prior: 2,
    sizes: spread(1e4, 1e6, 9),
    apply: (s, r) => ({ ...s, screenLeak: s.screenLeak + 1 / r }),
    sizeSays: (r) => `a leak of about ${ohms(r)}`,
  },
  {
    id: "screen-bypass-shorted",
    says: "screen bypass capacitor shorted",
    prior: 0.5,
    sizes: [5],
    apply: (s, r) => ({ ...s, screenLeak: s.screenLeak + 1 / r }),
    sizeSays: () => "a dead short: the screen resistor carries the whole supply and burns",
  },
  {
    id: "cathode-bypass-shorted",
    says: "cathode bypass capacitor shorted, or the cathode grounded",
    prior: 0.6,
    sizes: [1],
    apply: (s, r) => ({ ...s, cathodeLeak: s.cathodeLeak + 1 / r }),
    sizeSays: () => "a short",
  },
  {
    id: "weak-tube",
    says: "tube worn",
    prior: 2,
    sizes: spread(0.25, 0.8, 8),
    apply: (s, k) => ({ ...s, tube: { ...s.tube, perveance: s.tube.perveance * k } }),
    sizeSays: (k) => `about ${Math.round(100 * k)} % of its emission`,
  },
  {
    id: "dead-tube",
    says: "tube dead, its heater open, or it is not in contact",
    prior: 0.6,
    sizes: [1e-4],
    apply: (s, k) => ({ ...s, tube: { ...s.tube, perveance: s.tube.perveance * k } }),
    sizeSays: () => "no current at all",
  },
  {
    id: "coupling-leaky",
    says: "coupling capacitor to the grid leaky",
    prior: 2,
    sizes: spread(2e6, 5e8, 9),
    apply: (s, r) => ({ ...s, couplingLeak: s.couplingLeak + 1 / r }),
    sizeSays: (r) => `a leak of about ${ohms(r)}`,
  },
  {
    id: "tube-gassy",
    says: "tube gassy, or its grid emits",
    prior: 0.8,
    sizes: spread(1e-7, 1e-4, 10),
    // a current out of the grid is a leak from very far up
    apply: (s, a) => ({ ...s, gridCurrentA: (s.gridCurrentA ?? 0) + a }),
    sizeSays: (a) => `about ${Number((a * 1e6).toPrecision(2))} µA out of the grid`,
  },
  {
    id: "return-positive",
    says: "the line that the grid returns to is positive: leaky AVC bypass to a positive point, or silver-mica leakage in an IF can (it crackles)",
    prior: 1,
    sizes: spread(0.3, 20, 8),
    apply: (s, v) => ({ ...s, returnV: s.returnV + v }),
    sizeSays: (v) => `about +${Number(v.toPrecision(2))} V on it`,
  },
  {
    id: "oscillating",
    says: "the stage, or another one, oscillates: AVC stands negative with no signal",
    prior: 0.5,
    sizes: spread(0.7, 15, 6),
    apply: (s, v) => ({ ...s, returnV: s.returnV - v }),
    sizeSays: (v) => `about -${Number(v.toPrecision(2))} V on the AVC line`,
  },
  {
    id: "supply-off",
    says: "the supply to this stage is off its value, and the stage follows it",
    prior: 0.8,
    sizes: [0.001, 0.3, 0.6, 0.7, 0.8, 0.88, 1.14, 1.25],
    apply: (s, k) => ({ ...s, supplyV: s.supplyV * k }),
    sizeSays: (k) => (k < 0.01 ? "none at all" : `about ${Math.round(100 * (k - 1))} %`),
  },
  {
    id: "avc-bypass-leaky",
    says: "AVC bypass leaky to the chassis: shows only while AVC volts are there",
    prior: 1,
    sizes: spread(1e5, 5e6, 4),
    apply: (s, r) => ({ ...s, returnV: (s.returnV * r) / (r + 1e6) }),
    sizeSays: (r) => `a leak of about ${ohms(r)}`,
  },
  {
    id: "heater-cathode-leak",
    says: "leakage from heater to cathode: hum, and next to nothing in the DC",
    prior: 0.8,
    sizes: spread(2e4, 1e6, 4),
    apply: (s, r) => ({ ...s, cathodeLeak: s.cathodeLeak + 1 / r }),
    sizeSays: (r) => `about ${ohms(r)}`,
  },
];

/** A test beyond the volts at the pins: what each cause predicts of it, in a scale where its error is even. */
export interface Test {
  readonly id: string;
  readonly says: string;
  readonly how: string;
  /** how readily it is done: one that tells nearly as much and is easier or safer comes first */
  readonly ease: number;
  readonly predict: (s: Stage, fault: Fault, size: number) => number | undefined;
  readonly toScale: (v: number) => number;
  /** standard deviation on that scale, its part's tolerance apart */
  readonly error: number;
}
export const logScale = (v: number): number => Math.log(Math.max(v, 0.3));
const parallel = (a: number, leak: number): number => 1 / (1 / a + leak);
export const tests: readonly Test[] = [
  {
    id: "screen-ohm",
    says: "the screen resistor, cold, one lead lifted",
    how: "plug out, discharged and measured; lift one lead of the screen resistor, ohmmeter across it",
    ease: 1.3,
    predict: (s) => (s.tube.kind === "pentode" ? Math.min(s.screenOhm, 2e8) : undefined),
    toScale: logScale,
    error: 0.02,
  },
  {
    id: "cathode-ohm",
    says: "the cathode to the chassis, in ohms",
    how: "plug out, discharged and measured; ohmmeter from the cathode pin to the chassis",
    ease: 1.3,
    predict: (s) => Math.min(parallel(s.cathodeOhm, s.cathodeLeak), 2e8),
    toScale: logScale,
    error: 0.02,
  },
  {
    id: "plate-ohm",
    says: "the plate to B+, in ohms",
    how: "plug out, discharged and measured; ohmmeter from the plate pin to the B+ point that feeds it",
    ease: 1.3,
    predict: (s) => Math.min(s.plateOhm, 2e8),
    toScale: logScale,
    error: 0.03,
  },
  {
    id: "screen-leak-ohm",
    says: "the screen bypass to the chassis, one lead lifted, at its working volts",
    how: "plug out, discharged and measured; lift the bypass, leakage tester at its working voltage (an ohmmeter misses leaks that need volts)",
    ease: 1.1,
    predict: (s) => (s.tube.kind === "pentode" ? Math.min(1 / Math.max(s.screenLeak, 5e-9), 2e8) : undefined),
    toScale: logScale,
    error: 0.5,
  },
  {
    id: "grid-lifted",
    says: "the grid's volts with the coupling capacitor's driver end lifted",
    how: "set off, discharged and measured before the wire is lifted; meter of 10 MΩ clipped on, stand clear, switch on: it falls to zero where the capacitor leaked, and stays where the tube or the AVC line is at fault",
    ease: 1,
    predict: (s) => solveStage({ ...s, couplingLeak: 0 })?.grid,
    toScale: (v) => v,
    error: 0.05,
  },
  {
    id: "grid-new-tube",
    says: "the grid's volts with another tube in the socket",
    how: "set off and cooled; change the tube for a good one, meter of 10 MΩ on the grid, switch on",
    ease: 0.95,
    predict: (s, f) => solveStage({ ...s, gridCurrentA: f.id === "tube-gassy" ? 0 : (s.gridCurrentA ?? 0) })?.grid,
    toScale: (v) => v,
    error: 0.05,
  },
  {
    id: "cathode-new-tube",
    says: "the cathode's volts with another tube in the socket",
    how: "set off and cooled; change the tube for a good one, meter on the cathode, switch on",
    ease: 0.95,
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
    predict: (s) => s.returnV,
    toScale: (v) => v,
    error: 0.1,
  },
  {
    id: "tester",
    says: "a tube tester's figure, as part of a new tube's",
    how: "tube tester; its figure is worth give or take a quarter, and a good one clears no hum and no grid current",
    ease: 1,
    predict: (_s, f, size) => (f.id === "weak-tube" || f.id === "dead-tube" ? Math.max(size, 0.01) : 1),
    toScale: (v) => Math.log(Math.max(v, 0.01)),
    error: 0.25,
  },
];
export const testById = (id: string): Test | undefined => tests.find((t) => t.id === id);
