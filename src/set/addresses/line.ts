import { addresses, exactly, quantity } from "./declare";

/** The set as a whole, by its type plate. */
export const itself = addresses("", {
  plateWatts: quantity(
    "power",
    "power on the type plate",
    "type plate; else count tubes and heaters",
    [70, 10, "usual for a set of this class"],
    { positive: true, max: 2000 },
  ),
});

/** The line that it is made for, and the one that it is on today. */
export const line = addresses("line", {
  voltage: exactly(
    quantity(
      "voltage",
      "rated line: the voltage that the set is made for, never what the meter says today",
      "type plate",
      [117, 0, "rated voltage of the era, from memory"],
      { positive: true, min: 50, max: 300 },
    ),
  ),
  highRatio: quantity(
    "ratio",
    "highest line voltage as a multiple of the rated one",
    "log the line for some days",
    [1.0854700854700854, 0.02, "127 V on a set made for 117 V, common practice, no source"],
    { positive: true, max: 1.5 },
  ),
  frequency: exactly(
    quantity("frequency", "line frequency", "the country's", [60, 0, "usual where the line is 117 V"], {
      positive: true,
      min: 20,
      max: 500,
    }),
  ),
  today: quantity(
    "voltage",
    "today's line, at the outlet; not the rated line of the type plate",
    "voltmeter at the outlet, set on; somebody trained for it, insulated probes",
    [117, 4, "rated voltage of the era, from memory"],
    { positive: true, min: 50, max: 300 },
  ),
});
