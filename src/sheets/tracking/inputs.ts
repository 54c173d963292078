import { practice } from "../../ask/declare";
import { choice, quantity, rows } from "../../ask/in-short";
import type { QuantityInput } from "../../ask/inputs";
import { type PadderLayout, padderLayouts } from "../../physics/oscillator-parts";
import type { Bench } from "../../set/bench";
import { exact } from "../../units/quantity";
import { intermediateInput, oscillatorInput, scaleUnitHz } from "../inputs/dial";

export const pointChoices = ["least worst error", "ends and middle", "Chebyshev", "own"] as const;
export const dialChoices = ["oscillator", "signal circuit"] as const;
export const trialOf = ["slug", "trimmer"] as const;
/** A mark of the dial, and what is received there, or the oscillator's frequency by a counter. */
export interface DialReading {
  readonly dial: number;
  readonly received: number;
  readonly counted: number;
}
/** A mark of the dial, and how the signal circuit stands there: where it peaks, or what its trimmer would need. */
export interface PeakReading {
  readonly dial: number;
  readonly peaksAt: number;
  readonly needs: number;
}
/** What one trial of an adjuster did: which, by how many turns (clockwise positive), at which mark, received before and after. */
export interface Trial {
  readonly what: number;
  readonly turns: number;
  readonly dial: number;
  readonly before: number;
  readonly after: number;
}
export interface TrackingInputs {
  readonly readings: readonly DialReading[];
  readonly peaks: readonly PeakReading[];
  readonly trials: readonly Trial[];
  readonly dialDrawnTo: (typeof dialChoices)[number];
  readonly oscillator: "above" | "below";
  readonly padderLayout: PadderLayout;
  readonly points: (typeof pointChoices)[number];
  readonly exactAt: readonly { readonly at: number }[];
  readonly low: number;
  readonly high: number;
  readonly intermediate: number;
  readonly gangLow: number;
  readonly gangHigh: number;
  readonly signalQ: number;
  readonly readingNoise: number;
  readonly peakDoubt: number;
  readonly ifMoved: number;
  readonly slugRange: number;
  readonly trimmerTravel: number;
  readonly coilDoubt: number;
  readonly trimmerDoubt: number;
  readonly padderDoubt: number;
  readonly gangDoubt: number;
}

const share = (meaning: string, value: number): QuantityInput => quantity("fraction", meaning, "chosen", [value, 0, practice], { max: 1 });
const bandEnd = (end: "low" | "high", meaning: string, value: number): QuantityInput =>
  quantity("frequency", meaning, "the dial", [value, 0, "an example"], { max: 60e6, from: (b) => b.quantity(`${b.at}.${end}`) });
/** A scale that is marked in frequency says both by itself. */
const readFromScale = (bench: Bench) => {
  const points = bench.points(bench.at);
  const unit = scaleUnitHz(points);
  return unit === undefined ? undefined : points.map((p) => ({ dial: p.reading * unit, received: p.frequencyHz, counted: Number.NaN }));
};

const readInputs = {
  readings: rows(
    {
      dial: { dimension: "frequency", meaning: "what the dial says" },
      received: { dimension: "frequency", meaning: "what is received at the mark", optional: true },
      counted: {
        dimension: "frequency",
        meaning: "the oscillator's frequency at the mark by a counter, where one was used",
        optional: true,
      },
    },
    "dial marks, and what is truly received on each",
    "zero beat a marker, read the dial; near both ends, and in the middle. A counter on a loop of wire near the oscillator, not clipped to it, does as well",
    { mostRows: 100, from: readFromScale },
  ),
  peaks: rows(
    {
      dial: { dimension: "frequency", meaning: "what the dial says" },
      peaksAt: { dimension: "frequency", meaning: "frequency at which the signal circuit peaks at the mark", optional: true },
      needs: {
        dimension: "capacitance",
        meaning: "change of the signal trimmer that would bring the peak to the mark, more is positive",
        optional: true,
        bare: "pF",
      },
    },
    "where the signal circuit (RF or antenna trimmer) peaks at two marks",
    "generator on the mark, trimmer to its peak, and how far that was from where it stood; or a weak generator moved for most output, the oscillator rocked with it",
    { mostRows: 20 },
  ),
  trials: rows(
    {
      what: { options: trialOf, meaning: "what was turned" },
      turns: { dimension: "ratio", meaning: "turns, clockwise positive" },
      dial: { dimension: "frequency", meaning: "mark that the dial stood on" },
      before: { dimension: "frequency", meaning: "received before" },
      after: { dimension: "frequency", meaning: "received after" },
    },
    "trial turns of the oscillator's slug and trimmer",
    "mark the slot with a pencil, turn a quarter, read the same mark again",
    { mostRows: 20 },
  ),
} as const;

const designInputs = {
  dialDrawnTo: choice(
    dialChoices,
    "what the dial is drawn to",
    "makers draw it to the oscillator as designed, so that a set in order is right all over; the signal circuit's law only where the service sheet says so",
  ),
  oscillator: oscillatorInput,
  padderLayout: choice(
    padderLayouts,
    "where the oscillator's trimmer sits, and whether a padder is in series with the gang",
    "service sheet: across the gang, or straight across the coil; short bands often have no padder",
  ),
  points: choice(
    pointChoices,
    "where the circuit is designed to be exact",
    "service sheet; least worst error where nothing is known; own points go into exactAt",
  ),
  exactAt: rows(
    { at: { dimension: "frequency", meaning: "signal frequency where the oscillator is exact" } },
    "own points where the circuit is exact: three, or two without a padder",
    "service sheet: the alignment frequencies",
    { mostRows: 3 },
  ),
  low: bandEnd("low", "lowest frequency of the band", 1.6e6),
  high: bandEnd("high", "highest frequency of the band", 4.8e6),
  intermediate: intermediateInput,
  gangLow: quantity(
    "capacitance",
    "least capacitance of a section of the gang",
    "bridge, plates fully out",
    [10e-12, 2e-12, "usual of a 365 pF gang"],
    { max: 1e-9 },
  ),
  gangHigh: quantity(
    "capacitance",
    "most capacitance of a section of the gang, on this band",
    "bridge, plates fully in",
    [365e-12, 10e-12, "usual of a 365 pF gang"],
    { max: 2e-9 },
  ),
  signalQ: quantity("ratio", "loaded Q of the signal circuit", "width of its peak", [60, 20, practice], { max: 1000 }),
} as const;

const doubtInputs = {
  readingNoise: {
    kind: "quantity",
    // by its own name in divisions the dial keeps what one reading of a scale is good for
    keptAs: "readingNoiseFrequency",
    dimension: "frequency",
    positive: true,
    meaning: "standard deviation of a dial reading in the middle of the band; it grows with frequency as the marks crowd",
    howMeasured: "read the same mark ten times over",
    assumed: { value: 2e3, spread: exact, source: practice },
  },
  peakDoubt: share("how well a peak is found, of its frequency", 0.003),
  ifMoved: quantity("frequency", "by how much the IF was moved off the IF recorded", "the sheet on aligning the IF", [0, 0, "not moved"], {
    min: -50e3,
    max: 50e3,
  }),
  slugRange: quantity(
    "fraction",
    "how far the oscillator's slug changes its coil, up and down",
    "resonance at both stops",
    [0.12, 0.04, "assumed: no published range found"],
    { max: 0.9 },
  ),
  trimmerTravel: quantity(
    "capacitance",
    "how far the oscillator's trimmer goes, up and down",
    "its marking, half its range",
    [12e-12, 4e-12, practice],
    { max: 1e-9 },
  ),
  coilDoubt: share("what the coil may be off by beforehand, one standard deviation", 0.1),
  trimmerDoubt: share("what trimmer and strays may be off by beforehand", 0.3),
  padderDoubt: share("what the padder may be off by beforehand", 0.1),
  gangDoubt: quantity(
    "capacitance",
    "what the gang's own capacitance may differ from the design's beforehand, alike at every place",
    "bent plates and a shifted rotor: bridge, plates fully out",
    [2e-12, 0, practice],
    { max: 50e-12 },
  ),
} as const;

export const trackingInputs = { ...readInputs, ...designInputs, ...doubtInputs } as const;
