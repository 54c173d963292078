/**
 * 300 single faults of tube stages, simulated in another language by other tube laws: what it takes to settle which part it is, by the worth of each
 * test and by the bench's usual order. What the laws here can't name at all is left out and counted: capacitors that are open, a grid that hangs free, and
 * pentagrids, of which the table of tubes has no working point.
 */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { type Study, study, tableOf, tookBy } from "./world-study.testdata";

let done: Study;
let [worth, habit, atOnce]: readonly ReturnType<typeof tookBy>[] = [];
beforeAll(() => {
  done = study();
  [worth, habit, atOnce] = ([0, 1, 3] as const).map((way) => tookBy(done.studied, way));
});

describe("which part it is, of 300 invented faults", () => {
  it("is asked of those that volts and ohms can show: two thirds of them all", () => {
    expect(done.all).toBe(300);
    expect(done.studied.length).toBeGreaterThanOrEqual(200);
  });
  it("is settled by worth with less than half the measurements, and less than half the minutes, of the usual order", () => {
    expect(worth.measurements / habit.measurements, `${worth.measurements}, ${habit.measurements}`).toBeLessThan(0.4);
    expect(worth.minutes / habit.minutes, `${worth.minutes} min, ${habit.minutes} min`).toBeLessThan(0.4);
  });
  it("is settled as often, and is as often right", () => {
    expect(worth.settled).toBeGreaterThan(0.85);
    expect(worth.settled).toBeGreaterThan(habit.settled - 0.03);
    expect(worth.right).toBeGreaterThan(0.93);
    expect(worth.right).toBeGreaterThan(habit.right - 0.03);
  });
  it("takes fewer minutes to the mend by the plan than by the usual order, or by mending at once without a test", () => {
    const said = `${worth.toMend}, ${habit.toMend}, ${atOnce.toMend} min`;
    expect(worth.toMend / habit.toMend, said).toBeLessThan(0.9);
    expect(worth.toMend / atOnce.toMend, said).toBeLessThan(0.95);
  });
  it("stands in the page on worth as it comes out now", () => {
    expect(readFileSync("docs/worth.md", "utf8")).toContain(tableOf(done));
  });
});
