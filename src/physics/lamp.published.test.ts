import { describe, expect, it } from "vitest";
import { lampColdShare, lampExponent } from "./lamp";

/** Source: lamp re-rating exponents (current as V^0.55) and the ratio of cold to hot resistance as an encyclopedia's article on incandescent lamps and a maker's sheet give them; read, editions not kept. */
describe("tungsten lamps", () => {
  it("100 W at 120 V: 144 ohm hot, about 9.5 cold (read)", () => {
    expect(120 ** 2 / 100).toBe(144);
    expect(144 * lampColdShare).toBeCloseTo(9.5, 1);
  });
  it("12 % less volts: 7 % less current and 18 % less power (re-rating law, read)", () => {
    expect(0.88 ** lampExponent).toBeCloseTo(0.93, 2);
    expect(0.88 ** (1 + lampExponent)).toBeCloseTo(0.82, 2);
  });
});
