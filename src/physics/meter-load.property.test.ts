/** Laws and limiting cases. */
import { expect, it } from "vitest";
import { meterReads, nodeVolts, nodeVoltsFromTwo } from "./meter-load";

it("a perfect meter reads the true volts; there and back, and from two ranges, is the same", () => {
  expect(meterReads(212, 220e3, 1e15)).toBeCloseTo(212, 6);
  expect(nodeVolts(meterReads(212, 220e3, 5e6), 220e3, 5e6)).toBeCloseTo(212, 9);
  const read = (r: number): readonly [number, number] => [meterReads(212, 220e3, r), r];
  expect(nodeVoltsFromTwo(read(1e6), read(5e6))).toBeCloseTo(212, 6);
});
