import type { Node, Stage } from "../../physics/tube-stage";

/** Sizes that a fault may have: even in their logarithm from one to the other, or one alone where both are the same. */
export interface Sizes {
  readonly from: number;
  readonly to: number;
  /** how often the fault is of these sizes, against its other ones; 1 where not said */
  readonly share?: number;
}
/** What a stage's readings may come of. `size` is how bad it is, in the words of the fault. */
export interface Fault {
  readonly id: string;
  /** what it is called, for a person */
  readonly says: string;
  /** how often, against the others, when a set has stood for decades; common practice, no source, and it may be changed */
  readonly prior: number;
  readonly sizes: readonly Sizes[];
  /** left as it is, it ruins a tube, a transformer or a resistor: it is the last to be dropped from a tie */
  readonly harmful?: boolean;
  /** readings beside which it stands in every tie that a fault is named in, however unlikely: it burns something, or only ohms tell it from what does */
  readonly neverDropped?: (read: Partial<Readonly<Record<Node, number>>>, s: Stage) => boolean;
  readonly apply: (s: Stage, size: number) => Stage;
  /** what to measure with the power off, or with a wire lifted, is worked out from the stage so changed */
  readonly sizeSays: (size: number, s: Stage) => string;
}

const ohms = (v: number): string =>
  v >= 1e9
    ? `${Number((v / 1e9).toPrecision(2))} GΩ`
    : v >= 1e6
      ? `${Number((v / 1e6).toPrecision(2))} MΩ`
      : v >= 1e3
        ? `${Number((v / 1e3).toPrecision(2))} kΩ`
        : `${Number(v.toPrecision(2))} Ω`;
const times = (k: number): string => `about ${Number(k.toPrecision(2))} times its value`;
const one = (size: number): readonly Sizes[] => [{ from: size, to: size }];
const even = (from: number, to: number): readonly Sizes[] => [{ from, to }];
/** A resistor out of its tolerance: old ones mostly go up. Beyond ten times it counts as open, or nearly. */
const drift = [
  { from: 0.3, to: 0.8, share: 1 },
  { from: 1.25, to: 10, share: 4 },
] as const;
const open = even(10, 1e7);
/** A screen at less than this part of the supply may stand on a short. Common practice, no source. */
const screenNearZero = 0.02;
const nearZeroScreen: Fault["neverDropped"] = (read, s) => read.screen !== undefined && read.screen < screenNearZero * s.supplyV;

/** The faults of a tube stage that show, or fail to show, in its DC. Sizes and how common each is: common practice, no source. */
export const faults: readonly Fault[] = [
  { id: "none-visible", says: "no fault visible in these readings", prior: 16, sizes: one(1), apply: (s) => s, sizeSays: () => "" },
  {
    id: "cathode-resistor-drifted",
    says: "cathode resistor drifted",
    prior: 1,
    sizes: drift,
    apply: (s, k) => ({ ...s, cathodeOhm: s.cathodeOhm * k }),
    sizeSays: (k, s) => `${times(k)}, ${ohms(s.cathodeOhm * k)}`,
  },
  {
    id: "cathode-open",
    says: "cathode resistor or its wiring open, or nearly",
    prior: 0.4,
    sizes: open,
    apply: (s, k) => ({ ...s, cathodeOhm: s.cathodeOhm * k }),
    sizeSays: () => "open",
  },
  {
    id: "screen-resistor-drifted",
    says: "screen resistor drifted",
    prior: 1.5,
    sizes: drift,
    apply: (s, k) => ({ ...s, screenOhm: s.screenOhm * k }),
    sizeSays: (k, s) => `${times(k)}, ${ohms(s.screenOhm * k)}`,
  },
  {
    id: "screen-resistor-open",
    says: "screen resistor open, or nearly",
    prior: 0.5,
    sizes: open,
    neverDropped: nearZeroScreen,
    apply: (s, k) => ({ ...s, screenOhm: s.screenOhm * k }),
    sizeSays: () => "open",
  },
  {
    id: "plate-feed-drifted",
    says: "plate resistor or feed drifted",
    prior: 1,
    sizes: drift,
    apply: (s, k) => ({ ...s, plateOhm: s.plateOhm * k }),
    sizeSays: (k, s) => `${times(k)}, ${ohms(s.plateOhm * k)}`,
  },
  {
    id: "plate-open",
    says: "plate feed open, or nearly: resistor, or the winding of the transformer at the plate",
    prior: 0.6,
    sizes: open,
    apply: (s, k) => ({ ...s, plateOhm: s.plateOhm * k }),
    sizeSays: () => "open",
  },
  {
    id: "screen-bypass-leaky",
    says: "screen bypass capacitor leaky or shorted",
    prior: 2.5,
    sizes: [
      { from: 0.3, to: 10, share: 1 },
      { from: 10, to: 1e7, share: 4 },
    ],
    harmful: true,
    neverDropped: nearZeroScreen,
    apply: (s, r) => ({ ...s, screenLeak: s.screenLeak + 1 / r }),
    sizeSays: (r) =>
      r < 10
        ? "a dead short: the screen resistor carries the whole supply and burns"
        : `${r < 3e3 ? "partly shorted" : "a leak"}, about ${ohms(r)}`,
  },
  {
    id: "cathode-bypass-shorted",
    says: "cathode bypass capacitor leaky or shorted, or the cathode grounded",
    prior: 0.6,
    sizes: even(0.3, 3e3),
    harmful: true,
    apply: (s, r) => ({ ...s, cathodeLeak: s.cathodeLeak + 1 / r }),
    sizeSays: (r) => (r < 3 ? "a short" : `about ${ohms(r)}`),
  },
  {
    id: "weak-tube",
    says: "tube worn",
    prior: 2,
    sizes: [
      { from: 0.02, to: 0.25, share: 1 },
      { from: 0.25, to: 0.8, share: 4 },
    ],
    apply: (s, k) => ({ ...s, tube: { ...s.tube, perveance: s.tube.perveance * k } }),
    sizeSays: (k) => `about ${Number((100 * k).toPrecision(2))} % of its emission`,
  },
  {
    id: "dead-tube",
    says: "tube dead, its heater open, or no contact in its socket",
    prior: 0.6,
    sizes: even(1e-4, 0.02),
    apply: (s, k) => ({ ...s, tube: { ...s.tube, perveance: s.tube.perveance * k } }),
    sizeSays: () => "no current to speak of",
  },
  {
    id: "coupling-leaky",
    says: "coupling capacitor to the grid leaky",
    prior: 2,
    sizes: even(1e4, 1e10),
    harmful: true,
    apply: (s, r) => ({ ...s, couplingLeak: s.couplingLeak + 1 / r }),
    sizeSays: (r) => `a leak of about ${ohms(r)}`,
  },
  {
    id: "tube-gassy",
    says: "tube gassy, or its grid emits",
    prior: 0.8,
    sizes: even(1e-8, 1e-3),
    harmful: true,
    // a current out of the grid is a leak from very far up
    apply: (s, a) => ({ ...s, gridCurrentA: (s.gridCurrentA ?? 0) + a }),
    sizeSays: (a) => `about ${Number((a * 1e6).toPrecision(2))} µA out of the grid`,
  },
  {
    id: "return-positive",
    says: "the line that the grid returns to is positive: leaky AVC bypass to a positive point, or silver-mica leakage in an IF can (it crackles)",
    prior: 1,
    sizes: even(0.1, 100),
    harmful: true,
    apply: (s, v) => ({ ...s, returnV: s.returnV + v }),
    sizeSays: (v) => `about +${Number(v.toPrecision(2))} V on it`,
  },
  {
    id: "oscillating",
    says: "the stage, or another one, oscillates: AVC is negative with no signal",
    prior: 0.5,
    sizes: even(0.3, 60),
    apply: (s, v) => ({ ...s, returnV: s.returnV - v }),
    sizeSays: (v) => `about -${Number(v.toPrecision(2))} V on the AVC line`,
  },
  {
    id: "supply-off",
    says: "the supply to this stage is off its value, and the stage follows it",
    prior: 0.8,
    sizes: [
      { from: 1e-3, to: 0.03, share: 2 },
      { from: 0.03, to: 0.9, share: 5 },
      { from: 1.1, to: 1.6, share: 3 },
    ],
    apply: (s, k) => ({ ...s, supplyV: s.supplyV * k, beforeV: s.beforeV * k }),
    sizeSays: (k) => (k < 0.03 ? "none at all" : `about ${k > 1 ? "+" : ""}${Math.round(100 * (k - 1))} %`),
  },
  {
    id: "decoupling-leaky",
    says: "decoupling capacitor leaky behind its feed resistor",
    prior: 1.2,
    sizes: even(0.05, 0.97),
    harmful: true,
    apply: (s, part) => ({ ...s, decoupledPart: part }),
    sizeSays: (part, s) => `a leak of about ${ohms(((s.feedOhm ?? 0) * part) / (1 - part))}: the feed resistor carries it and runs hot`,
  },
  {
    id: "avc-bypass-leaky",
    says: "AVC bypass leaky to the chassis: shows only while AVC volts are there",
    prior: 1,
    sizes: even(3e5, 3e6),
    apply: (s, r) => ({ ...s, returnV: (s.returnV * r) / (r + 1e6) }),
    sizeSays: (r) => `a leak of about ${ohms(r)}`,
  },
  {
    id: "heater-cathode-leak",
    says: "leakage from heater to cathode: hum, and next to nothing in the DC",
    prior: 0.8,
    sizes: even(2e4, 2e6),
    apply: (s, r) => ({ ...s, cathodeLeak: s.cathodeLeak + 1 / r }),
    sizeSays: (r) => `about ${ohms(r)}`,
  },
];
