import { addresses, choice, exactly, list, quantity } from "./declare";

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
    wantedLow: exactly(
      quantity("frequency", "lowest frequency wanted", "the band", [2.8e7, 0, "an example"], { positive: true, max: 1.5e8 }),
    ),
    wantedHigh: exactly(
      quantity("frequency", "highest frequency wanted", "the band", [2.85e7, 0, "an example"], { positive: true, max: 1.5e8 }),
    ),
    crystal: exactly(
      quantity("frequency", "crystal; 0 for the best that is found", "its marking", [0, 0, "the best that is found"], {
        min: 0,
        max: 2e8,
      }),
    ),
    crystalStep: exactly(
      quantity("frequency", "step between the crystals tried where none are named", "chosen", [1e5, 0, "common practice, no source"], {
        min: 1000,
        max: 1e7,
      }),
    ),
    order: exactly(
      quantity("ratio", "largest sum of harmonics to look at", "chosen", [15, 0, "common practice, no source"], { min: 2, max: 15 }),
    ),
    inputCircuits: exactly(
      quantity(
        "ratio",
        "tuned circuits at the converter's input, peaked at each place",
        "its schematic; fixed-tuned ones give less toward the ends",
        [2, 0, "common practice, no source"],
        { min: 0, max: 6 },
      ),
    ),
    inputQ: quantity(
      "ratio",
      "loaded Q of each of the converter's input circuits",
      "width of its peak",
      [60, 15, "common practice, no source"],
      { positive: true, max: 500 },
    ),
    intermediate: exactly(
      quantity(
        "frequency",
        "IF that the tuned oscillator works with",
        "service sheet, or a generator on the counter",
        [4.55e5, 0, "the usual IF"],
        { positive: true, min: 20000, max: 6e7 },
      ),
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
    converterHeard: list(
      {
        signal: { dimension: "frequency", meaning: "known frequency of the signal" },
        dial: { dimension: "frequency", meaning: "what the receiver's dial says" },
      },
      "signals of known frequency heard through the converter",
      "a marker, a beacon or a generator at the converter's input, both warm: zero beat it and read the dial, from the usual side",
      20,
    ),
    heardDoubt: quantity(
      "frequency",
      "how well these dial readings are set and read, all together",
      "one signal set three times",
      [0, 200, "a general-coverage dial at best, common practice, no source"],
      { min: -1e5, max: 1e5 },
    ),
    crystalCounted: quantity(
      "frequency",
      "frequency of the converter's crystal by a counter",
      "counter on a loop of wire near its oscillator, not clipped to it, warm",
      undefined,
      { positive: true, max: 2e8 },
    ),
    crystalWanted: exactly(
      quantity(
        "frequency",
        "error of the converter's crystal that is good enough",
        "chosen",
        [200, 0, "a quarter of a kHz is lost in the dial, common practice, no source"],
        { positive: true },
      ),
    ),
    crystalCut: choice(
      ["fundamental", "third overtone", "fifth overtone"],
      "how the crystal oscillates",
      "its marking and circuit",
      "fundamental",
    ),
    pullMotional: quantity(
      "capacitance",
      "motional capacitance of the converter's crystal on its fundamental",
      "data sheet, or two load capacitors",
      [1.5e-14, 1e-14, "assumed: varies widely"],
      { positive: true },
    ),
    pullHolder: quantity(
      "capacitance",
      "holder capacitance of the converter's crystal",
      "bridge, well off resonance",
      [5e-12, 2e-12, "assumed"],
      { positive: true },
    ),
    pullLoad: quantity(
      "capacitance",
      "load of the converter's crystal as it is now, trimmer included",
      "schematic, strays included",
      [3e-11, 8e-12, "the usual 20 to 32 pF"],
      { positive: true },
    ),
    pullTravel: quantity(
      "capacitance",
      "range left to the converter's trimmer from its present setting, up and down",
      "its marking, half its range",
      [1e-11, 5e-12, "common practice, no source"],
      { positive: true, max: 1e-9 },
    ),
    levelAtLow: quantity(
      "voltage",
      "generator level for the usual output at the lower end of the band",
      "generator through the dummy antenna at the converter's input, AVC off or clamped",
      undefined,
      { positive: true, max: 1 },
    ),
    levelAtMiddle: quantity(
      "voltage",
      "generator level for the same output in the middle of the band",
      "generator at the converter's input, AVC off or clamped",
      undefined,
      {
        positive: true,
        max: 1,
      },
    ),
    levelAtHigh: quantity(
      "voltage",
      "generator level for the same output at the upper end of the band",
      "generator at the converter's input, AVC off or clamped",
      undefined,
      {
        positive: true,
        max: 1,
      },
    ),
    ownNoise: quantity("decibel", "noise figure of the converter", "noise source", [6, 2, "one tube before the mixer, from memory"], {
      positive: true,
      max: 40,
    }),
    behindNoise: quantity(
      "decibel",
      "noise figure of the receiver on the range behind the converter",
      "the sheet on sensitivity",
      [15, 3, "usual for a set of this class, assumed"],
      { positive: true, max: 60 },
    ),
    airNoise: choice(
      ["city", "residential", "rural", "quiet-rural"],
      "surroundings of the converter's antenna, for the external noise",
      "look out of the window",
      "residential",
    ),
    padResistance: quantity(
      "resistance",
      "resistance that a pad between converter and receiver sees on both sides",
      "the cable's own, where the receiver's input is near it",
      [75, 25, "a cable of 50 to 93 ohm, common practice, no source"],
      { positive: true, max: 1000 },
    ),
  },
  "converter",
);
