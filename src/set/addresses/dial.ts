import { addresses, choice, exactly, list, quantity } from "./declare";

export const dial = addresses("bands.*", {
  tableStep: choice(["10 kHz", "25 kHz", "50 kHz", "100 kHz"], "step of the correction table", "chosen", "50 kHz"),
  where: exactly(quantity("frequency", "frequency that is asked about", "chosen", [3.725e6, 0, "chosen"], { positive: true })),
  readingNoiseDivisions: exactly(
    quantity(
      "division",
      "standard deviation of one reading of the scale",
      "read the same zero beat ten times over",
      [0.1, 0, "a tenth of a division, common practice, no source; the points themselves correct it"],
      { positive: true, max: 100 },
    ),
  ),
  zeroBeat: exactly(
    quantity(
      "frequency",
      "standard deviation of a zero beat",
      "by ear the audio chain swallows 20 to 50 Hz; by the S meter's flutter less",
      [20, 0, "by ear, common practice, no source"],
      { positive: true, max: 2000 },
    ),
  ),
  backlash: exactly(
    quantity(
      "division",
      "backlash to expect",
      "zero beat one marker from both sides; points from both sides tell it too",
      [0.2, 0, "common practice, no source"],
      { min: 0, max: 100 },
    ),
  ),
  setPointOff: quantity(
    "frequency",
    "how far the main dial may be off its set-point, at the low end of the bandspread scale",
    "reset it ten times and see where the lowest marker falls",
    [1000, 300, "to show what it does, common practice, no source"],
  ),
  scaleLow: exactly(quantity("division", "lowest reading of the scale", "look at it", [0, 0, "a scale of 0 to 100"])),
  scaleHigh: exactly(quantity("division", "highest reading of the scale", "look at it", [100, 0, "a scale of 0 to 100"])),
  line: choice(
    ["unstated", "100 to 130 V, 60 Hz", "another"],
    "line that the set is made for; it only suggests where the set may be",
    "rating plate",
    "unstated",
  ),
  side: choice(
    ["same", "either"],
    "whether settings are made from the side that the zero beats were taken from, or from either",
    "chosen",
    "same",
  ),
  confidence: exactly(
    quantity("fraction", "confidence of being inside, at each edge", "chosen", [0.99, 0, "chosen"], {
      positive: true,
      min: 0.5,
      max: 0.9999,
    }),
  ),
  lowEdge: exactly(quantity("frequency", "lower edge, where the licence is own", "the owner's licence", undefined, { positive: true })),
  highEdge: exactly(quantity("frequency", "upper edge, where the licence is own", "the owner's licence", undefined, { positive: true })),
  driftDoubt: exactly(
    quantity(
      "frequency",
      "standard uncertainty of the drift since the zero beats",
      "follow one marker over the time that a session lasts, the set warm",
      [200, 0, "a set that has been on for an hour, common practice, no source"],
      { min: 0, max: 50000 },
    ),
  ),
  drift: quantity(
    "frequency",
    "known drift since the zero beats (the set is high: positive)",
    "zero beat one marker again",
    [0, 0, "none known"],
    { min: -1e5, max: 1e5 },
  ),
  keyedWidth: exactly(
    quantity(
      "frequency",
      "width of a keyed carrier",
      "keying speed and shape",
      [150, 0, "ITU-R SM.1138: 100HA1A at 25 words a minute, from memory; half as much again for hard keying"],
      { positive: true, max: 5000 },
    ),
  ),
  audioHigh: exactly(
    quantity(
      "frequency",
      "highest audio frequency of the transmitter",
      "audio sweep of the transmitter",
      [3000, 0, "ITU-R SM.1138: 6K00A3E and 2K70J3E, from memory"],
      { positive: true, max: 20000 },
    ),
  ),
  stationTolerance: exactly(
    quantity("frequency", "how far off a station may be and still count as where it should be", "chosen", [1000, 0, "chosen"], {
      positive: true,
    }),
  ),
  setPointsMarks: list(
    {
      says: { dimension: "frequency", meaning: "what the bandspread scale says" },
      is: { dimension: "frequency", meaning: "marker in zero beat at the mark" },
    },
    "marks of the bandspread scale, and where the set is on each",
    "with the main dial on its set-point, turn the bandspread dial to zero beat on each marker and read its scale",
  ),
  markReading: exactly(
    quantity(
      "frequency",
      "standard deviation of reading a mark",
      "read the same marker ten times over",
      [500, 0, "a tenth of a 5 kHz division, common practice, no source"],
      { positive: true },
    ),
  ),
  tolerance: exactly(
    quantity(
      "frequency",
      "how far off a mark may be and still be called true",
      "chosen",
      [2000, 0, "2 to 5 kHz, common practice, no source"],
      { positive: true },
    ),
  ),
});
