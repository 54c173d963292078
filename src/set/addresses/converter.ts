import { addresses, choice, list, quantity } from "./declare";

export const converter = addresses(
  "fittings.*",
  {
    oscillator: choice(["above", "below"], "side of the oscillator on this band", "service sheet; a generator at the image tells", "above"),
    converterRanges: list(
      { low: { dimension: "frequency", meaning: "lowest frequency" }, high: { dimension: "frequency", meaning: "highest frequency" } },
      "ranges that the receiver tunes",
      "its dials",
      40,
    ),
    converterCrystals: list(
      { frequency: { dimension: "frequency", meaning: "frequency marked on the crystal" } },
      "crystals to choose from; none: every multiple of the step that would do",
      "the drawer, or a maker's list",
      1000,
    ),
    converterTwoPath: list(
      {
        beat: { dimension: "frequency", meaning: "beat of one marker heard by both paths" },
        sense: {
          options: ["not said", "high", "low"],
          optional: true,
          meaning: "whether the crystal is high or low: pull it a little with a trimmer and listen",
        },
      },
      "beat between a marker heard through the converter and the one heard directly at the same place",
      "marker generator at the converter's input and a wire of it near the receiver's; zero beat neither, count the difference",
      20,
    ),
    wantedLow: quantity("frequency", "lowest frequency wanted", "the band", [2.8e7, 0, "an example"], { positive: true, max: 1.5e8 }),
    wantedHigh: quantity("frequency", "highest frequency wanted", "the band", [2.85e7, 0, "an example"], { positive: true, max: 1.5e8 }),
    crystal: quantity("frequency", "crystal; 0 for the best that is found", "its marking", [0, 0, "the best that is found"], {
      min: 0,
      max: 2e8,
    }),
    crystalStep: quantity(
      "frequency",
      "step between the crystals tried where none are named",
      "chosen",
      [1e5, 0, "common practice, no source"],
      { min: 1000, max: 1e7 },
    ),
    order: quantity("ratio", "largest sum of harmonics to look at", "chosen", [15, 0, "common practice, no source"], { min: 2, max: 15 }),
    inputCircuits: quantity(
      "ratio",
      "tuned circuits at the converter's input, peaked at each place",
      "its schematic; fixed-tuned ones give less toward the ends",
      [2, 0, "common practice, no source"],
      { min: 0, max: 6 },
    ),
    inputQ: quantity(
      "ratio",
      "loaded Q of each of the converter's input circuits",
      "width of its peak",
      [60, 15, "common practice, no source"],
      { positive: true, max: 500 },
    ),
    intermediate: quantity(
      "frequency",
      "IF that the tuned oscillator works with",
      "service sheet, or a generator on the counter",
      [4.55e5, 0, "the usual IF"],
      { positive: true, min: 20000, max: 6e7 },
    ),
    crystalError: quantity(
      "ppm",
      "error of the crystal (its frequency is high: positive)",
      "a counter, or the beat of a marker by both paths",
      [0, 5e-5, "50 ppm as cut, common practice, no source"],
      { min: -0.005, max: 0.005 },
    ),
    readsLow: quantity(
      "frequency",
      "how far the receiver's own dial reads low on the range in use",
      "zero beat a marker on the range; the sheet on the dial",
      [0, 3000, "common practice, no source"],
      { min: -1e6, max: 1e6 },
    ),
    drift: quantity("frequency", "how far the receiver has drifted since", "a marker again, warm", [0, 500, "common practice, no source"], {
      min: -1e5,
      max: 1e5,
    }),
  },
  "converter",
);
