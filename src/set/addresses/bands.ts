import { addresses, choice, exactly, list, quantity } from "./declare";

export const bands = addresses("bands.*", {
  oscillator: choice(["above", "below"], "side of the oscillator on this band", "service sheet; a generator at the image tells", "above"),
  intermediate: exactly(
    quantity(
      "frequency",
      "IF that the tuned oscillator works with",
      "service sheet, or a generator on the counter",
      [4.55e5, 0, "the usual IF"],
      { positive: true, min: 20000, max: 6e7 },
    ),
  ),
  low: exactly(
    quantity(
      "frequency",
      "lower end of this band, as described",
      "service sheet, or the scale itself",
      [3.5e6, 0, "the invented bandspread scale"],
      { positive: true, max: 2e8 },
    ),
  ),
  high: exactly(
    quantity(
      "frequency",
      "upper end of this band, as described",
      "service sheet, or the scale itself",
      [4e6, 0, "the invented bandspread scale"],
      { positive: true, max: 2e8 },
    ),
  ),
  signalQ: quantity("ratio", "loaded Q of the signal circuit", "width of its peak", [60, 20, "common practice, no source"], {
    positive: true,
    max: 1000,
  }),
  secondPlace: choice(
    ["not tried", "two IF lower", "two IF higher", "louder there than on its mark"],
    "second place on the dial where a strong generator on a known mark is heard",
    "strong generator on a dial mark of this band; note its own mark, then look two IF to both sides for the weaker place",
    "not tried",
  ),
  imageReadings: list(
    {
      signal: { dimension: "frequency", meaning: "frequency that the set is tuned to" },
      way: { options: ["image", "IF", "half IF"], meaning: "what was rejected" },
      rejection: { dimension: "decibel", bare: "dB", meaning: "how much more signal the generator must give for the same output" },
    },
    "rejection as measured",
    "generator on the signal, then on the other frequency, turned up to the same output; AVC off or the detector's volts held",
  ),
  signal: exactly(
    quantity("frequency", "frequency that the set is tuned to", "the dial", [3.75e6, 0, "an example"], { positive: true, max: 2e8 }),
  ),
  circuits: exactly(
    quantity(
      "ratio",
      "tuned circuits between antenna and mixer grid",
      "service sheet: sections of the gang, not counting the oscillator's",
      [2, 0, "common practice, no source"],
      { min: 0, max: 6 },
    ),
  ),
  strays: quantity(
    "decibel",
    "how far down a signal is that leaks round the tuned circuits",
    "best rejection that any tuning gives",
    [70, 10, "one chassis seldom does better, common practice, no source"],
    { positive: true, max: 140, state: "panel" },
  ),
});
