import { meterNames } from "../../standards/meters";
import { addresses, choice, exactly, quantity } from "./declare";

export const chart = addresses("chart", {
  chartMeter: choice(meterNames, "meter that the chart was taken with", "what is printed on it, or in its manual", "20 kΩ/V"),
  meter: choice(meterNames, "meter that today's volts were read with", "what is printed on it, or in its manual", "digital, 10 MΩ"),
  chartRange: quantity(
    "voltage",
    "range that the chart's meter stood at for the whole chart, where the chart states one",
    "printed on the chart",
    undefined,
    { positive: true, max: 5000 },
  ),
  chartLine: exactly(
    quantity("voltage", "line voltage of the chart", "printed on the chart", [117, 0, "usual on charts of the era, from memory"], {
      positive: true,
      min: 50,
      max: 300,
    }),
  ),
  chartFirst: quantity(
    "voltage",
    "B+ that the service chart gives on the first filter capacitor",
    "printed on the chart, at the rectifier",
    undefined,
    { positive: true, max: 1500 },
  ),
  supplyTolerance: exactly(
    quantity(
      "fraction",
      "tolerance of B+ and heaters",
      "chosen",
      [0.1, 0, "10 %, read for one maker's heaters, else common practice, no source"],
      { positive: true, max: 1 },
    ),
  ),
  partTolerance: exactly(
    quantity(
      "fraction",
      "tolerance of plates and screens",
      "chosen",
      [0.2, 0, "10 to 20 % on charts of the era, common practice, no source"],
      { positive: true, max: 1 },
    ),
  ),
  tubeTolerance: exactly(
    quantity(
      "fraction",
      "tolerance of points set by the tube: cathodes, grids, AVC",
      "chosen",
      [0.3, 0, "a commentary gives 30 % about the mean as normal for receiving tubes (read)"],
      { positive: true, max: 1 },
    ),
  ),
});
