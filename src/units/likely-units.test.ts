import { describe, expect, it } from "vitest";
import { type Dimension, dimensions } from "./dimensions";
import { parseQuantity, withLikelyUnits } from "./parse";

describe("a bare figure that is refused for want of its unit", () => {
  const names = Object.keys(dimensions) as Dimension[];
  const refused = names.flatMap((d) => {
    const r = parseQuantity("47", d, "x");
    return !r.ok && ["no-unit", "ambiguous-unit"].includes(r.issues[0].code) ? [[d, r.issues[0].expected] as const] : [];
  });
  it("is refused of most dimensions", () => expect(refused.length).toBeGreaterThan(8));
  it.each(refused)("%s: is offered with units that are then read", (d, expected) => {
    const offered = withLikelyUnits("47", d);
    expect(offered.length).toBeGreaterThan(0);
    for (const text of offered) {
      expect(parseQuantity(text, d, "x")).toMatchObject({ ok: true });
      expect(expected).toContain(text);
    }
  });
  it("of a capacitor is pF where it is whole, and a part of one is µF", () => {
    expect(withLikelyUnits("47", "capacitance")[0]).toBe("47 pF");
    expect(withLikelyUnits("0.05", "capacitance")[0]).toBe("0.05 µF");
  });
});
