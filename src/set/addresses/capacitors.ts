import { leakageRuleNames } from "../../standards/electrolytics";
import { addresses, choice, exactly, quantity } from "./declare";

export const capacitors = addresses("capacitors", {
  rule: choice(leakageRuleNames, "rule for the leakage of electrolytics", "chosen", "JAN-C-62"),
  highestVolts: quantity(
    "voltage",
    "volts that the filter capacitors can meet: the crest at the highest line",
    "the sheet on B+: with nothing drawn",
    [450, 30, "usual for a set of this class"],
    { positive: true, max: 2000 },
  ),
  formingCurrent: exactly(
    quantity(
      "current",
      "largest current while reforming",
      "chosen",
      [0.001, 0, "a maker's re-ageing note of 1993: 1 mA at most (read); older practice allows up to 10 mA"],
      { positive: true, max: 0.01 },
    ),
  ),
});
