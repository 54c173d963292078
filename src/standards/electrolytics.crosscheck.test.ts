/** Second implementation: the rules worked out apart from this code. */
import { expect, it } from "vitest";
import { leakageLimitA } from "./electrolytics";

it.each([
  [8, 450, 0.62],
  [16, 450, 0.94],
  [40, 350, 1.3],
  [25, 25, 0.55],
])("JAN-C-62: %f uF at %f V may leak %f mA", (microfarad, volts, milliampere) => {
  expect(leakageLimitA("JAN-C-62", microfarad * 1e-6, volts) * 1000).toBeCloseTo(milliampere, 4);
});
