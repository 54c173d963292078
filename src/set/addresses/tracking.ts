import { addresses, choice, exactly, list, quantity } from "./declare";

export const tracking = addresses("bands.*", {
  trackingReadings: list(
    {
      dial: { dimension: "frequency", meaning: "what the dial says" },
      received: { dimension: "frequency", optional: true, meaning: "what is received at the mark" },
      counted: {
        dimension: "frequency",
        optional: true,
        meaning: "the oscillator's frequency at the mark by a counter, where one was used",
      },
    },
    "dial marks, and what is truly received on each",
    "zero beat a marker, read the dial; near both ends, and in the middle. A counter on a loop of wire near the oscillator, not clipped to it, does as well",
    100,
  ),
  trackingPeaks: list(
    {
      dial: { dimension: "frequency", meaning: "what the dial says" },
      peaksAt: { dimension: "frequency", optional: true, meaning: "frequency at which the signal circuit peaks at the mark" },
      needs: {
        dimension: "capacitance",
        bare: "pF",
        optional: true,
        meaning: "change of the signal trimmer that would bring the peak to the mark, more is positive",
      },
    },
    "where the signal circuit (RF or antenna trimmer) peaks at two marks",
    "generator on the mark, trimmer to its peak, and how far that moved it; or a weak generator tuned for maximum output, rocking the oscillator with it",
    20,
  ),
  trackingTrials: list(
    {
      what: { options: ["slug", "trimmer"], meaning: "what was turned" },
      turns: { dimension: "ratio", meaning: "turns, clockwise positive" },
      dial: { dimension: "frequency", meaning: "mark that the dial was on" },
      before: { dimension: "frequency", meaning: "received before" },
      after: { dimension: "frequency", meaning: "received after" },
    },
    "trial turns of the oscillator's slug and trimmer",
    "mark the slot with a pencil, turn a quarter, read the same mark again",
    20,
  ),
  dialDrawnTo: choice(
    ["oscillator", "signal circuit"],
    "what the dial is drawn to",
    "makers draw it to the oscillator as designed, so that a set in order is right all over; the signal circuit's law only where the service sheet says so",
    "oscillator",
  ),
  padderLayout: choice(
    ["across the gang", "across the coil", "no padder"],
    "where the oscillator's trimmer sits, and whether a padder is in series with the gang",
    "service sheet: across the gang, or straight across the coil; short bands often have no padder",
    "across the gang",
  ),
  points: choice(
    ["least worst error", "ends and middle", "Chebyshev", "own"],
    "where the circuit is designed to be exact",
    "service sheet; least worst error where nothing is known; own points go into exactAt",
    "least worst error",
  ),
  trackingExactAt: list(
    { at: { dimension: "frequency", meaning: "signal frequency where the oscillator is exact" } },
    "own points where the circuit is exact: three, or two without a padder",
    "service sheet: the alignment frequencies",
    3,
  ),
  gangLow: quantity(
    "capacitance",
    "minimum capacitance of a section of the gang",
    "bridge, plates fully out",
    [1e-11, 2e-12, "usual of a 365 pF gang"],
    { positive: true, max: 1e-9 },
  ),
  gangHigh: quantity(
    "capacitance",
    "maximum capacitance of a section of the gang, on this band",
    "bridge, plates fully in",
    [3.65e-10, 1e-11, "usual of a 365 pF gang"],
    { positive: true, max: 2e-9 },
  ),
  readingNoiseShare: exactly(
    quantity(
      "fraction",
      "standard deviation of a dial reading, of the frequency read: the marks crowd as it rises",
      "read the same mark ten times over, and divide the scatter by its frequency",
      [0.001, 0, "common practice, no source"],
      { positive: true, max: 0.1 },
    ),
  ),
  peakDoubt: exactly(
    quantity("fraction", "how well a peak is found, of its frequency", "chosen", [0.003, 0, "common practice, no source"], {
      positive: true,
      max: 1,
    }),
  ),
  ifMoved: quantity("frequency", "how far the IF was moved from the recorded IF", "the sheet on aligning the IF", [0, 0, "not moved"], {
    min: -50000,
    max: 50000,
  }),
  slugRange: quantity(
    "fraction",
    "how far the oscillator's slug changes its coil, up and down",
    "resonance at both stops",
    [0.12, 0.04, "assumed: no published range found"],
    { positive: true, max: 0.9 },
  ),
  trimmerTravel: quantity(
    "capacitance",
    "how far the oscillator's trimmer goes, up and down",
    "its marking, half its range",
    [1.2e-11, 4e-12, "common practice, no source"],
    { positive: true, max: 1e-9 },
  ),
  coilDoubt: exactly(
    quantity(
      "fraction",
      "how far off the coil may be before any reading, one standard deviation",
      "chosen",
      [0.1, 0, "common practice, no source"],
      { positive: true, max: 1 },
    ),
  ),
  trimmerDoubt: exactly(
    quantity("fraction", "how far off trimmer and strays may be before any reading", "chosen", [0.3, 0, "common practice, no source"], {
      positive: true,
      max: 1,
    }),
  ),
  padderDoubt: exactly(
    quantity("fraction", "how far off the padder may be before any reading", "chosen", [0.1, 0, "common practice, no source"], {
      positive: true,
      max: 1,
    }),
  ),
  gangDoubt: exactly(
    quantity(
      "capacitance",
      "how far the gang's own capacitance may differ from the design's before any reading, alike at every place",
      "bent plates and a shifted rotor: bridge, plates fully out",
      [2e-12, 0, "common practice, no source"],
      { positive: true, max: 5e-11 },
    ),
  ),
});
