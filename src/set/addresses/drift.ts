import { addresses, exactly, list, quantity } from "./declare";

export const drift = addresses("drift", {
  driftLog: list(
    {
      time: { dimension: "time", bare: "min", meaning: "time since switching on" },
      frequency: { dimension: "frequency", meaning: "what is received, or the oscillator" },
      temperature: { dimension: "temperature", bare: "°C", optional: true, meaning: "temperature by the oscillator" },
      line: { dimension: "voltage", bare: "V", optional: true, meaning: "line volts" },
      room: { dimension: "temperature", bare: "°C", optional: true, meaning: "temperature of the room" },
    },
    "log of a frequency from a cold start",
    "counter loosely coupled to the oscillator, or the beat with a marker, each minute or two for an hour and a half; cover on",
    3000,
  ),
  oscillatorFrequency: quantity(
    "frequency",
    "oscillator's frequency where the log was taken",
    "dial and IF, above or below",
    [7.555e6, 1e4, "an example, by a dial"],
    { positive: true, max: 2e8 },
  ),
  minuteLimit: exactly(
    quantity("frequency", "drift per minute that is still acceptable", "chosen", [100, 0, "common practice, no source"], {
      positive: true,
      max: 1e5,
    }),
  ),
  warmUp: exactly(quantity("time", "warm-up time to be judged", "chosen", [1800, 0, "half an hour"], { min: 0, max: 86400 })),
  temperatureRise: quantity(
    "temperature",
    "temperature rise at the oscillator, cold to warm",
    "thermometer inside, cover on; the log's own column is taken where it was written",
    [20, 5, "common practice, no source"],
    { positive: true, max: 150 },
  ),
  gangNow: quantity(
    "capacitance",
    "gang's capacitance where the log was taken",
    "the sheet on tracking, or a bridge, power off and discharged",
    [1e-10, 2e-11, "common practice, no source"],
    { positive: true, max: 2e-9 },
  ),
  fixedCapacitance: quantity(
    "capacitance",
    "what else is across the coil: trimmer, fixed, strays",
    "the sheet on tracking",
    [8e-11, 1.5e-11, "common practice, no source"],
    { positive: true, max: 5e-9 },
  ),
  gangEnd: quantity(
    "capacitance",
    "gang's capacitance at a second place on the dial, to compare",
    "its end",
    [1.5e-11, 3e-12, "common practice, no source"],
    { positive: true, max: 2e-9 },
  ),
  coilCoefficient: quantity(
    "ppm",
    "coil's own coefficient, per kelvin",
    "solid formers 10 to 100 ppm",
    [6e-5, 3e-5, "common practice, no source"],
    { min: -0.001, max: 0.001 },
  ),
  gangCoefficient: quantity("ppm", "gang's own coefficient, per kelvin", "air, 10 to 50 ppm", [2e-5, 1e-5, "common practice, no source"], {
    min: -0.001,
    max: 0.001,
  }),
  compensator: quantity(
    "ppm",
    "coefficient of the capacitor to try, as a positive number: N750 is 750 ppm",
    "its marking",
    [7.5e-4, 1.2e-4, "N750 within 120 ppm, the usual tolerance of that colour (EIA, from memory)"],
    { positive: true, max: 0.005 },
  ),
  replacedCoefficient: quantity(
    "ppm",
    "temperature coefficient of the capacitor that the compensator replaces; NP0 is 0",
    "its marking",
    [0, 3e-5, "NP0, 30 ppm"],
    { min: -0.001, max: 0.002 },
  ),
});
