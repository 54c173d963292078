import { describe, expect, it } from "vitest";
import type { Fault } from "./faults";
import { shownBy } from "./told";

const fault = (state: Fault["state"], says: readonly string[]) => ({
  words: "V3, screen is low: 64 V",
  state,
  signs: says.map((s) => ({ says: s }) as Fault["signs"][number]),
});
describe("what a fault showed", () => {
  it("is told as it is while its readings say so, and as of then once it was mended or they say something else", () => {
    expect(shownBy(fault("noticed", ["V3, screen is low: 64 V"]))).toEqual(["V3, screen is low: 64 V"]);
    for (const state of ["mended", "proved", "closed"] as const)
      expect(shownBy(fault(state, []))).toEqual(["when noticed: V3, screen is low: 64 V"]);
    expect(shownBy(fault("open again", ["V3, screen is low: 60 V"]))).toEqual([
      "when noticed: V3, screen is low: 64 V",
      "read since: V3, screen is low: 60 V",
    ]);
  });
});
