import { addresses, choice, quantity } from "./declare";

export const alignment = addresses("alignment", {
  slugsTouched: choice(
    ["perhaps", "not", "yes"],
    "whether somebody has turned the slugs since the maker set them",
    "ask the owner; look for bare metal in the slots, broken wax or a missing seal",
    "perhaps",
  ),
  sweepReaches60dB: choice(
    ["no", "yes"],
    "whether a sweep of this strip reaches -60 dB on both sides",
    "read a sweep in as if-sweep",
    "no",
  ),
  oscillator: choice(["above", "below"], "side of the oscillator on this band", "service sheet; a generator at the image tells", "above"),
  narrowest: choice(["none", "single crystal", "ceramic or mechanical filter"], "sharp filter in the strip", "look for it", "none"),
  humpFrom: choice(
    ["one can alone", "the whole strip"],
    "what showed the double hump",
    "generator through a small capacitor to the plate before the can, detector with a small capacitor after it: that is one can alone",
    "one can alone",
  ),
  feel: choice(
    ["not tried", "a clear peak", "tunes broadly", "no peak", "peak at the stop", "two peaks a turn or two apart"],
    "how a slug or trimmer feels",
    "turn it, after marking its slot with a pencil",
    "not tried",
  ),
  humpSpacing: quantity("frequency", "distance of the two humps; 0 where none were seen", "sweep or slow generator", [0, 0, "none seen"], {
    min: 0,
    max: 1e5,
  }),
  humpValley: quantity("decibel", "how far the middle is below the humps", "sweep or slow generator", [0, 0, "none seen"], {
    min: 0,
    max: 20,
  }),
  humpDifference: quantity("decibel", "how far one hump is below the other", "sweep or slow generator", [0, 0, "none seen"], {
    min: 0,
    max: 30,
  }),
  canCapacitance: quantity(
    "capacitance",
    "capacitor across a winding of the can with two humps",
    "service sheet, or a bridge with one lead lifted",
    [1.2e-10, 1.2e-11, "common practice, no source"],
    { positive: true, max: 1e-8 },
  ),
  filterCentre: quantity(
    "frequency",
    "centre of the sharp filter as measured; 0 where not measured",
    "crystal: generator where its output peaks; ceramic: mean of its -6 dB points; generator by counter",
    [0, 0, "not measured"],
    { min: 0, max: 2e7 },
  ),
  crystalWidth: quantity(
    "frequency",
    "narrowest width of the crystal filter at -3 dB",
    "its selectivity switch at sharp",
    [300, 100, "common practice, no source"],
    { positive: true, max: 10000 },
  ),
});
