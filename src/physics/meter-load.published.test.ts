import { expect, it } from "vitest";
import { meterOhm } from "../standards/meters";
import { meterReads } from "./meter-load";

/** Source: an army instruction text, a multimeter manual and a textbook question (read; titles not kept). */
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
