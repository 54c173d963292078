import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { sheets } from "../sheets/index";
import { orThrow } from "../units/issue";
import { pathInThree } from "./migrations";
import { readJob } from "./read-job";
import { renamedInThree } from "./renamed";
import { declaredAt, placeIssues } from "./slots";
import stored from "./version-2.testdata.json";
import { benchOf, fallWith, viewOf } from "./view";

const { document, unreadable } = orThrow(readJob(structuredClone(stored)));
const view = viewOf(document);
const at = (path: string) => benchOf(view, "").quantity(path)?.value;

describe("a job of version 2, as that version stored it", () => {
  it("is read whole, every value at an address of today", () => {
    expect(document.version).toBe(5);
    expect(unreadable).toEqual([]);
    for (const e of document.entries) {
      if (e.kind === "values") for (const [p, q] of Object.entries(e.values)) expect(placeIssues(view.set, p, q), p).toEqual([]);
      if (e.kind === "fact") expect(placeIssues(view.set, e.path, e.value), e.path).toEqual([]);
      if (e.kind === "rows") expect(placeIssues(view.set, e.path, e.rows), e.path).toEqual([]);
    }
  });
  it("has its values under their new names, those that the set was copied with too", () => {
    expect(at("coil.turns")).toBe(24);
    expect(at("coil.diameter")).toBeCloseTo(0.025, 12);
    expect(at("regulator.supply")).toBe(255);
    expect(at("line.today")).toBe(121);
    expect(at("sensitivity.level")).toBe(2e-6);
    expect(benchOf(view, "").choice("sensitivity.place")).toBe("rural");
    expect(at("supplies.turns")).toBeUndefined();
  });
  it("has its rows in SI, by their columns", () => {
    const log = benchOf(view, "").rows("drift.driftLog");
    expect(log).toHaveLength(5);
    expect(log?.[1]).toMatchObject({ time: 600, frequency: 7100.9e3 });
    expect(log?.[1].temperature).toBeNaN();
    expect(benchOf(view, "").rows("bands.a.imageReadings")).toEqual([{ signal: 1.4e6, way: 0, rejection: 46 }]);
    expect(benchOf(view, "").rows("bands.b.imageReadings")).toEqual([{ signal: 3.75e6, way: 1, rejection: 55 }]);
  });
  it("knows by name what a fit gave, and takes back both without a word being read", () => {
    const fitted = document.entries.find((e) => e.kind === "values" && e.fit !== undefined);
    const reading = document.entries.find((e) => e.kind === "reading");
    expect(reading && fallWith(view, reading)).toContain(fitted);
  });
  it("is the same when it is read once more", () => {
    expect(orThrow(readJob(JSON.parse(JSON.stringify(document)))).document).toEqual(document);
  });
  it("answers with what it holds", () => {
    const coil = sheets.find((s) => s.id === "coil");
    const a = coil && orThrow(answer(coil, benchOf(view, ""), { draws: 200, points: 11 }));
    expect(a?.quantities.find((q) => q.path === "turns")?.quantity).toMatchObject({ value: 24, origin: "stated" });
  });
});
it("every new name is an address, and none of the old ones is", () => {
  for (const [old, now] of Object.entries(renamedInThree)) {
    expect(declaredAt(now.replace("*", "x")), now).toBeDefined();
    expect(declaredAt(old.replace("*", "x")), old).toBeUndefined();
    expect(pathInThree(old.replace("*", "x"))).toBe(now.replace("*", "x"));
  }
});
