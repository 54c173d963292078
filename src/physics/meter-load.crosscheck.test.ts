/** Second implementation: figures worked out apart from this code. */
import { expect, it } from "vitest";
import { meterOhm } from "../standards/meters";
import { meterReads } from "./meter-load";

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
