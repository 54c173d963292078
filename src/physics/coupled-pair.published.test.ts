import { describe, expect, it } from "vitest";
import { pairWidthHz, valleyDb } from "./coupled-pair";

describe("a pair at 2.41 times critical coupling", () => {
  // source: textbook rule of the overcoupled pair (from memory): 3 dB dip, width 3.1 f0/Q
  it("dips by 3 dB and is 3.1 f0/Q wide", () => {
    expect(valleyDb(2.41)).toBeCloseTo(3, 1);
    expect(pairWidthHz(2.4142, 100, 455e3, 3.0103) / 4550).toBeCloseTo(3.1, 1);
  });
});

it("one critical pair: 3.01 dB at 1.4142 f0/Q, 6.02 dB at 1.8612, 20 dB at 4.4609 (source: universal resonance curves, exact)", () => {
  for (const [db, y] of [
    [3.0103, Math.SQRT2],
    [6.0206, 1.8612],
    [20, 4.4609],
  ])
    expect(pairWidthHz(1, 100, 455e3, db) / 4550).toBeCloseTo(y, 4);
});
