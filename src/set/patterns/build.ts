import { exact, type Quantity, tolerance } from "../../units/quantity";
import type { Fitting, SetDescription } from "../describe";
import type { DescribedStrip } from "../strip";
import type { StageKind } from "../words";

const from = "pattern: invented, typical of the kind";
const q = (value: number, half: number): Quantity => ({
  value,
  spread: half > 0 ? tolerance(half) : exact,
  origin: "assumed",
  source: from,
});
const stated = (value: number): Quantity => ({ value, spread: exact, origin: "stated", source: "type plate of the pattern, invented" });
export const stage = (id: string, kind: StageKind, label: string, part: string, ...steps: string[]) => ({ id, kind, label, part, steps });
export const band = (id: string, label: string, lowHz: number, highHz: number, spread = false) => ({
  id,
  label,
  low: stated(lowHz),
  high: stated(highHz),
  oscillator: "above" as const,
  spread,
});
export const node = (id: string, label: string, volts: number) => ({ id, label, volts: q(volts, volts * 0.1) });

/** An accessory that may be planned for any of them: on the mixer plate through a cable. */
const multiplier = (tap: string): Fitting => ({
  id: "qm",
  kind: "q-multiplier",
  label: "Q multiplier",
  tap,
  state: "offered",
  values: {
    cableLength: q(1, 0.05),
    cableCapacitancePerLength: { value: 101.7e-12, spread: tolerance(2e-12), origin: "stated", source: "RG-58A/U, printed 31 pF/ft" },
    velocityFactor: { value: 0.66, spread: tolerance(0.01), origin: "stated", source: "data sheet of RG-58A/U" },
    couplingCapacitance: q(1e-9, 100e-12),
    coilQ: q(70, 15),
    tankCapacitance: q(1.5e-9, 75e-12),
    tankQ: q(130, 20),
    tuningRange: q(3000, 500),
    dividerRatio: q(0.5, 0.03),
    transconductance: q(1.6e-3, 0.3e-3),
    amplificationFactor: q(100, 15),
    bleederResistance: q(1e6, 50e3),
  },
  choices: { nullCircuit: "inverse-feedback" },
});

/** A crystal marker generator at the antenna terminal. */
const markerGenerator: Fitting = {
  id: "markers",
  kind: "marker-generator",
  label: "Marker generator",
  tap: "antenna",
  state: "offered",
  values: { spacing: q(100e3, 0), markerCoupling: q(1e-12, 0.3e-12) },
  choices: {},
};

/** A crystal-controlled converter before the antenna terminal, for a high band. */
export const plannedConverter: Fitting = {
  id: "converter",
  kind: "converter",
  label: "Crystal converter",
  tap: "antenna",
  state: "offered",
  values: {},
  choices: {},
};

/** What tells one set of this trade from another; the rest follows. */
export interface Sketch {
  readonly pattern: string;
  readonly title: string;
  readonly note: string;
  readonly live: boolean;
  readonly lineV: number;
  readonly lineHz: number;
  readonly watts: number;
  readonly rectifier: string;
  /** type of the table of rectifiers */
  readonly rectifierType: string;
  readonly secondaryV: number;
  readonly nodes: SetDescription["supplies"]["nodes"];
  readonly stages: SetDescription["stages"];
  readonly strip: DescribedStrip;
  readonly trimmerF: number;
  readonly bands: SetDescription["bands"];
  readonly tubes: readonly (readonly [string, string, string, string])[];
  readonly mixerNode: string;
}

/** A whole description from a sketch. What the sketch does not say is assumed, and marked so. */
export const build = (s: Sketch): SetDescription => ({
  title: s.title,
  pattern: s.pattern,
  note: s.note,
  chassis: s.live
    ? { state: "live", isolation: "none", note: "transformerless: one side of the line on the chassis, through the switch" }
    : { state: "isolated", isolation: "none", note: "own power transformer; prove it all the same" },
  line: { voltage: stated(s.lineV), frequency: stated(s.lineHz), highRatio: q(1.085, 0.02) },
  plateWatts: q(s.watts, s.watts * 0.1),
  supplies: {
    rectifier: s.rectifier,
    secondaryVoltage: q(s.secondaryV, s.secondaryV * 0.05),
    plateFeedResistance: q(2200, 1000),
    nodes: s.nodes,
    choices: { rectifierType: s.rectifierType },
  },
  stages: s.stages,
  strip: { ...s.strip, cans: [...s.strip.cans] },
  adjusters: { slugRange: q(0.12, 0.04), trimmerRange: q(s.trimmerF, s.trimmerF / 3) },
  audio: { low: q(300, 50), high: q(2700, 300) },
  bands: s.bands,
  tubes: s.tubes.map(([socket, type, fn, at]) => ({ socket, type, function: fn, stage: at })),
  taps: [
    { id: "mixer-plate", label: "mixer plate", stage: "mixer", node: s.mixerNode, can: 1 },
    { id: "antenna", label: "antenna terminal", stage: "antenna", node: "", can: 1 },
  ],
  fittings: [multiplier("mixer-plate"), markerGenerator, plannedConverter],
});
