import { describe, expect, it } from "vitest";
import { contactMoved } from "./contact-moved";
import { lawFrom } from "./tube-stage";

/** Typical operation and amplification factor of common triodes, source: their makers' manuals, from memory: volts, grid volts, mA, umho, mu. */
const triodes: readonly (readonly [string, number, number, number, number, number])[] = [
  ["12AX7", 250, -2, 1.2, 1600, 100],
  ["12AU7", 250, -8.5, 10.5, 2200, 17],
  ["6SN7", 250, -8, 9, 2600, 20],
  ["6SL7", 250, -2, 2.3, 1600, 70],
];
describe("mu of a triode's law by its manual's point, against the manual's own mu", () => {
  it.each(triodes)("%s", (_, plateV, gridV, mA, umho, mu) => {
    const law = lawFrom({ plateV, gridV, plateA: mA / 1e3, transconductance: umho / 1e6 });
    // contact potential left out, it would be 20 % low for a 12AX7
    expect(Math.abs(law.mu / mu - 1)).toBeLessThan(0.07);
    const drive = gridV + (law.contactV ?? 0) + plateV / law.mu;
    expect((law.perveance * drive ** 1.5 * 1e3) / mA).toBeCloseTo(1, 9);
  });
});
it("moved to more contact potential, a law gives the same current where it stands, and more with no volts at the screen", () => {
  const law = lawFrom({ plateV: 250, screenV: 100, gridV: -1, plateA: 0.011, screenA: 0.0042, transconductance: 4.4e-3 });
  const moved = contactMoved(law, 60, 0.5);
  expect(60 / moved.mu + (moved.contactV ?? 0)).toBeCloseTo(60 / law.mu, 12);
  expect(moved.contactV).toBe(0.5);
  expect(contactMoved(law, 0, 0.5)).toBe(law);
});
