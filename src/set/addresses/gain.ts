import { addresses, choice, exactly, list, quantity } from "./declare";

export const gain = addresses("gain", {
  injected: list(
    {
      point: {
        options: [
          "output grid",
          "volume control",
          "detector",
          "last IF grid",
          "IF grid before that",
          "mixer grid at the IF",
          "mixer grid at the signal",
          "RF grid",
          "antenna",
        ],
        meaning: "where the generator is",
      },
      chart: { dimension: "voltage", bare: "uV", optional: true, meaning: "level by the chart at this point" },
      measured: { dimension: "voltage", bare: "uV", meaning: "level needed at this point for the same output" },
    },
    "level at each point for one standard output, from the output back to the antenna",
    "generator through a capacitor to each grid in turn, output meter held at the chart's output (10 or 50 mW)",
    20,
  ),
  gridCurrents: list(
    {
      low: { dimension: "voltage", bare: "V", meaning: "volts across the oscillator's grid leak at the low end" },
      middle: { dimension: "voltage", bare: "V", meaning: "volts across the oscillator's grid leak in the middle" },
      high: { dimension: "voltage", bare: "V", meaning: "volts across the oscillator's grid leak at the high end" },
    },
    "volts across the oscillator's grid leak on every band, a row a band: its grid current",
    "high-impedance meter through a resistor at the grid, or across the leak's cold end",
    12,
  ),
  avcState: choice(
    ["not stated", "clamped", "on"],
    "AVC while the levels were read",
    "battery of 1.5 to 3 V on its line, or its switch",
    "not stated",
  ),
  generatorUnknown: quantity(
    "decibel",
    "error of the generator's level, alike in all rows",
    "its calibration",
    [0, 2, "service generator, common practice, no source"],
    { min: -40, max: 40 },
  ),
  readingUnknown: exactly(
    quantity("decibel", "how closely one row is read", "read one twice", [0.5, 0, "common practice, no source"], {
      positive: true,
      max: 10,
    }),
  ),
  stageLimit: exactly(
    quantity("decibel", "how far a stage may be short of the chart", "6 dB", [6, 0, "common practice, no source"], {
      positive: true,
      max: 30,
    }),
  ),
  seriesCapacitance: quantity("capacitance", "capacitor in the generator's lead", "its marking", [1e-8, 1e-9, "0.01 µF, the usual one"], {
    positive: true,
    max: 1e-5,
  }),
  loadResistance: quantity(
    "resistance",
    "load of the point on the generator at the IF",
    "its tuned circuit, detuned by the generator: some kilohms",
    [5000, 3000, "common practice, no source"],
    { positive: true, max: 1e7 },
  ),
  gridLeak: quantity(
    "resistance",
    "oscillator's grid leak",
    "service sheet, or ohms with the power off",
    [20000, 2000, "common practice, no source"],
    { positive: true, max: 1e7 },
  ),
});
