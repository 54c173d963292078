import { expect, it } from "vitest";
import { exact, type Quantity } from "../units/quantity";
import { setSchema } from "./describe";
import { lookUp, putValue, quantityAt, withValue } from "./paths";
import { patterns } from "./patterns/kinds";

const q: Quantity = { value: 7, spread: exact, origin: "stated", source: "test" };

it("finds and replaces by path, and leaves the first set as it was", () => {
  const set = patterns[1];
  for (const path of ["line.voltage", "supplies.nodes.b2.volts", "fittings.qm.cableLength", "strip.can2.primaryQ", "bands.a.low"]) {
    const copy = withValue(set, path, q)!;
    expect(quantityAt(copy, path) ?? copy.strip.cans[1].primaryQ, path).toEqual(q);
    expect(JSON.stringify(set)).not.toContain('"source":"test"');
  }
  expect(withValue(set, "fittings.qm.somethingNew", q)).toBeDefined();
  expect(withValue(set, "line.nothing", q)).toBeUndefined();
  expect(withValue(set, "no.such.path", q)).toBeUndefined();
});
it("keeps values and choices at a band by their name, from the first one on, and finds them again", () => {
  const set = structuredClone(patterns[1]);
  expect(putValue(set, "bands.80.lowEdge", q)).toBe(true);
  expect(putValue(set, "bands.80.licence", "own")).toBe(true);
  expect(quantityAt(set, "bands.80.lowEdge")).toEqual(q);
  expect(lookUp(set, "bands.80.licence")).toBe("own");
  expect(setSchema.parse(set)).toEqual(set);
});
it.each(["__proto__.toString", "constructor.prototype.toString", "line.__proto__", "fittings.qm.__proto__", "fittings.constructor.name"])(
  "reaches nothing but the set itself by %s",
  (path) => {
    const before = Object.prototype.toString;
    const set = structuredClone(patterns[1]);
    expect(putValue(set, path, "x"), path).toBe(false);
    expect(lookUp(set, path)).toBeUndefined();
    expect(Object.prototype.toString).toBe(before);
    expect(set).toEqual(patterns[1]);
  },
);
