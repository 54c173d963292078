import { expect, it } from "vitest";
import { addressAt, addressed, topics } from "./index";

it("declares each address once, and no address of one subject where another holds all", () => {
  const all = addressed.map((a) => a.address);
  expect(all.filter((a, i) => all.indexOf(a) !== i)).toEqual([]);
  expect(all.length).toBeGreaterThan(250);
});
it("finds what is declared at a path, the subject standing for the star", () => {
  expect(addressAt("bands.80.low")?.address).toBe("bands.*.low");
  expect(addressAt("line.voltage")?.address).toBe("line.voltage");
  expect(addressAt("supplies.nodes.b2.volts")?.address).toBe("supplies.nodes.*.volts");
  for (const nowhere of ["bands.80", "coil", "constructor.prototype", "bands.80.low.more", ""]) expect(addressAt(nowhere)).toBeUndefined();
});
it("keeps what is no part of the description by topic", () => {
  expect(topics).toContain("coil");
  expect(topics).not.toContain("bands");
  expect(addressAt("coil.turns")).toMatchObject({ kind: "quantity", dimension: "ratio" });
});
it("says of each what it means and how it is known, and what is usual lies within its limits", () => {
  for (const a of addressed) {
    expect(a.meaning.length, a.address).toBeGreaterThan(3);
    expect(a.howMeasured.length, a.address).toBeGreaterThan(3);
    if (a.kind === "choice" && a.usual !== undefined) expect(a.options, a.address).toContain(a.usual);
    if (a.kind !== "quantity" || !a.usual) continue;
    const [value] = a.usual;
    expect(value, a.address).toBeGreaterThanOrEqual(a.min ?? Number.NEGATIVE_INFINITY);
    expect(value, a.address).toBeLessThanOrEqual(a.max ?? Number.POSITIVE_INFINITY);
    if (a.positive) expect(value, a.address).toBeGreaterThan(0);
  }
});
