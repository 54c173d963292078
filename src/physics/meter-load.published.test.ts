import { expect, it } from "vitest";
import { meterOhm } from "../standards/meters";
import { meterReads, nodeVolts, nodeVoltsFromTwo } from "./meter-load";

/** Source: an army instruction text, a multimeter manual and a textbook question (read); the rest recomputed. */
it("10 V across 10k and 10k on a meter of 10k reads 3.3 V for 5 V (army instruction text, read)", () => {
  expect(meterReads(5, 5e3, 10e3)).toBeCloseTo(3.333, 3);
});
it("12 V across 500 and 500 ohm on 7500 ohm reads 5.81 V (textbook question read, answer recomputed)", () => {
  expect(meterReads(6, 250, 7500)).toBeCloseTo(5.806, 3);
});
it("20 kohm/V on its 250 V range is 5 Mohm (multimeter manual, read), by the range and not the reading", () => {
  expect(meterOhm("20 kΩ/V", 105)).toBe(5e6);
  expect(meterOhm("20 kΩ/V", 240)).toBe(5e6);
  expect(meterOhm("20 kΩ/V", 8, 50)).toBe(1e6);
});
it.each([
  [-5, 1e6, "20 kΩ/V", 10, -0.83],
  [-5, 1e6, "VTVM, 11 MΩ", 10, -4.58],
  [-5, 1e6, "digital, 10 MΩ", 10, -4.55],
  [-10, 2.2e6, "20 kΩ/V", 50, -3.12],
  [150, 1e5, "1 kΩ/V", 250, 107.1],
  [150, 1e5, "20 kΩ/V", 250, 147.1],
])("%f V behind %f ohm on %s reads %f (recomputed)", (volts, ohm, meter, range, want) => {
  const r = meterOhm(meter as string, volts as number, range as number);
  expect(meterReads(volts as number, ohm as number, r)).toBeCloseTo(want as number, Math.abs(want as number) > 50 ? 1 : 2);
});
it("a perfect meter reads the true volts; there and back, and from two ranges, is the same", () => {
  expect(meterReads(212, 220e3, 1e15)).toBeCloseTo(212, 6);
  expect(nodeVolts(meterReads(212, 220e3, 5e6), 220e3, 5e6)).toBeCloseTo(212, 9);
  const read = (r: number): readonly [number, number] => [meterReads(212, 220e3, r), r];
  expect(nodeVoltsFromTwo(read(1e6), read(5e6))).toBeCloseTo(212, 6);
});
