/** Noisy sweeps with one and two humps from a simulation in another language: how often the widths told hold. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { standardUncertainty } from "../units/quantity";
import { sweepFigures } from "./sweep-figures";

interface Top {
  readonly frequencyHz: readonly number[];
  readonly outputDb: readonly number[];
  readonly truth: { readonly peakHz: number; readonly width3Hz: number; readonly width6Hz: number };
}
const { sweeps } = JSON.parse(readFileSync("samples/worlds/noisy-tops.json", "utf8")) as { sweeps: Top[] };

it("95 % intervals hold the width at -6 dB and the peak on at least 93 %, the width at -3 dB on at least 88 % of sixty sweeps", () => {
  let [three, six, peak] = [0, 0, 0];
  for (const s of sweeps) {
    const sweep = {
      frequencyHz: Float64Array.from(s.frequencyHz),
      levelDb: Float64Array.from(s.outputDb),
      resolutionHz: 0,
      quantity: "level",
      warnings: [],
    };
    const figures = new Map(sweepFigures(sweep, "x").map((f) => [f.name, f.quantity]));
    const holds = (name: string, truth: number): boolean => {
      const q = figures.get(name);
      return q !== undefined && Math.abs(q.value - truth) < 1.96 * standardUncertainty(q.spread);
    };
    if (holds("width at -3 dB", s.truth.width3Hz)) three++;
    if (holds("width at -6 dB", s.truth.width6Hz)) six++;
    if (holds("peak frequency", s.truth.peakHz)) peak++;
  }
  expect(six / sweeps.length).toBeGreaterThanOrEqual(0.93);
  expect(peak / sweeps.length).toBeGreaterThanOrEqual(0.93);
  expect(three / sweeps.length).toBeGreaterThanOrEqual(0.88);
});
