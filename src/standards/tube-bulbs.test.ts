import { describe, expect, it } from "vitest";
import { type TubeClass, tubeClassOf } from "./receiving-tubes";
import { bulbOf, bulbs, isAmplifying, type UnitKind } from "./tube-bulbs";

const unitsOf: Readonly<Record<TubeClass, readonly UnitKind[]>> = {
  pentode: ["pentode"],
  "beam output": ["output"],
  triode: ["triode"],
  "double triode": ["triode", "triode"],
  "double diode triode": ["triode", "diode", "diode"],
  "triode pentode": ["triode", "pentode"],
  converter: ["converter"],
  "double diode": ["diode", "diode"],
};
/** Two tables from memory, written apart: what stands in a bulb, and the points of the manuals. They must agree. */
describe("what stands in a bulb", () => {
  const both = bulbs.flatMap((b) => {
    const own = tubeClassOf(b.type);
    return own === undefined ? [] : [[b.type, b.units, own] as const];
  });
  it("is known of most types that have a manual's point", () => expect(both.length).toBeGreaterThan(35));
  it.each(both)("%s: %j is a %s", (_, units, own) => {
    // the output pentodes of the points table stand there among the pentodes
    expect([unitsOf[own], ...(own === "pentode" ? [["output"]] : [])]).toContainEqual(units);
  });
  it.each(bulbs.filter((b) => b.pins.size > 0).map((b) => [b.type, b] as const))(
    "%s has a plate of each unit at its pins, and a screen where it has one",
    (_, b) => {
      const at = [...b.pins.values()];
      const plates = new Set(at.filter((p) => p.electrode === "plate").map((p) => p.unit ?? 0));
      expect(plates.size).toBe(b.units.length);
      expect(at.some((p) => p.electrode === "screen")).toBe(b.units.some((u) => ["pentode", "output", "converter"].includes(u)));
      if (b.units.some(isAmplifying))
        expect(at.some((p) => p.electrode === "grid") || /^6(?:K7|J7|S7|U7|Q7|R7)$|^12(?:K7|J7|Q7)$/.test(b.type)).toBe(true);
    },
  );
  it.each([
    ["6V6-GT/G", "6V6"],
    ["12ax7a", "12AX7"],
    ["OA2", "0A2"],
    ["VR150/30", "VR150"],
    ["6U8 triode", "6U8"],
    ["5Y3GT", "5Y3"],
  ])("%s is a %s, however it is written", (said, type) => expect(bulbOf(said)?.type).toBe(type));
  it("knows nothing of what is in no table", () => expect(bulbOf("9ZZ9")).toBeUndefined());
});
