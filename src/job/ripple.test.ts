import { describe, expect, it } from "vitest";
import { sheetById } from "../sheets/index";
import { isOpen } from "../standards/cautions";
import { edgesOf, ripple, workKinds } from "./ripple";
import { orderOf, stepById, steps } from "./steps";

describe("the table of what makes what due again", () => {
  it("names only works, steps, sheets and results that exist", () => {
    for (const e of ripple) {
      expect(
        workKinds.some((w) => w.id === e.work),
        e.work,
      ).toBe(true);
      expect(stepById(e.target), `${e.work} -> ${e.target}`).toBeDefined();
      if (e.after) expect(stepById(e.after)).toBeDefined();
      if (e.sheet) expect(Object.keys(sheetById(e.sheet)?.results ?? {})).toContain(e.result);
      expect(e.why.length).toBeGreaterThan(10);
    }
    for (const w of workKinds) {
      expect(edgesOf(w.id).length, w.id).toBeGreaterThan(0);
      if (w.does) expect(stepById(w.does)).toBeDefined();
    }
  });
  it("has each edge once", () => {
    const keys = ripple.map((e) => `${e.work} ${e.target}`);
    expect(new Set(keys).size).toBe(keys.length);
  });
  it("makes the final safety test due after anything done inside, and after nothing else but what brings B+ to a connector", () => {
    for (const w of workKinds)
      expect(
        edgesOf(w.id).some((e) => e.target === "35"),
        w.id,
      ).toBe(isOpen(w.state) || ["accessory-set", "soak-fault", "described-taps", "described-fittings"].includes(w.id));
  });
  it("sends a changed supply, rectifier or line tap back behind the bulb, and cord, fuse or bypass back to isolation", () => {
    expect(edgesOf("supply-changed").map((e) => e.target)).toEqual(expect.arrayContaining(["08", "09"]));
    for (const w of ["cord-changed", "line-capacitor-replaced"]) expect(edgesOf(w).map((e) => e.target)).toContain("03");
  });
});

/** Whole redos that follow when a step is done; from the dependency graph, by the work that does the step. */
const redoAfter = (step: string): string[] =>
  workKinds
    .filter((w) => w.does === step)
    .flatMap((w) => edgesOf(w.id))
    .filter((e) => e.makes === "redo")
    .map((e) => e.target);
describe("the order of the steps", () => {
  it("stands after everything that it rests on", () => {
    for (const s of steps) for (const r of s.rests) expect(orderOf(r), `${s.id} rests on ${r}`).toBeGreaterThanOrEqual(0);
    for (const s of steps) for (const r of s.rests) expect(orderOf(r), `${s.id} rests on ${r}`).toBeLessThan(orderOf(s.id));
  });
  it("has no full redo that points backwards, but for three with a reason", () => {
    const backwards = steps.flatMap((s) =>
      redoAfter(s.id)
        .filter((t) => orderOf(t) < orderOf(s.id))
        .map((t) => `${s.id}->${t}`),
    );
    // 05->03: a line bypass replaced later than the isolation check sends one back to it, by design.
    // 05->04: a new filter capacitor may be reversed or shorted, so ohms come once more before power.
    // 31a->13: the mixer stage's gain is a record made before the cable; it can only be made again after.
    expect(backwards).toEqual(["05->03", "05->04", "31a->13"]);
  });
  it("names every step once, and the safety steps are those before first power and the final test", () => {
    expect(new Set(steps.map((s) => s.id)).size).toBe(steps.length);
    expect(steps.filter((s) => s.safety).map((s) => s.id)).toEqual(["02", "03", "04", "08", "35"]);
  });
});
