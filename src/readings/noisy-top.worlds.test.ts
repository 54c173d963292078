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
const sweepsOf = (file: string): readonly Top[] => (JSON.parse(readFileSync(`samples/worlds/${file}`, "utf8")) as { sweeps: Top[] }).sweeps;
const told = [
  ["width at -3 dB", "width3Hz"],
  ["width at -6 dB", "width6Hz"],
  ["peak frequency", "peakHz"],
] as const;
/** How many standard uncertainties each figure of a file's sweeps is off the truth. */
function offsOf(file: string): Record<(typeof told)[number][0], number[]> {
  const out = { "width at -3 dB": [] as number[], "width at -6 dB": [] as number[], "peak frequency": [] as number[] };
  for (const s of sweepsOf(file)) {
    const sweep = {
      frequencyHz: Float64Array.from(s.frequencyHz),
      levelDb: Float64Array.from(s.outputDb),
      resolutionHz: 0,
      quantity: "level",
      warnings: [],
    };
    const figures = new Map(sweepFigures(sweep, "x").map((f) => [f.name, f.quantity]));
    for (const [name, truth] of told) {
      const q = figures.get(name);
      out[name].push(q ? (q.value - s.truth[truth]) / standardUncertainty(q.spread) : Number.POSITIVE_INFINITY);
    }
  }
  return out;
}
const rate = (offs: readonly number[]): number => offs.filter((z) => Math.abs(z) < 1.96).length / offs.length;
const mean = (offs: readonly number[]): number => offs.reduce((t, z) => t + z, 0) / offs.length;

it("95 % intervals hold the width at -6 dB and the peak on at least 93 %, the width at -3 dB on at least 88 % of sixty sweeps", () => {
  const offs = offsOf("noisy-tops.json");
  expect(rate(offs["width at -6 dB"])).toBeGreaterThanOrEqual(0.93);
  expect(rate(offs["peak frequency"])).toBeGreaterThanOrEqual(0.93);
  expect(rate(offs["width at -3 dB"])).toBeGreaterThanOrEqual(0.88);
});
it("of 240 sweeps of whole strips, 61 points each, widths at -3 and -6 dB hold on 93 % and more, lean to no side, and are no wider than that needs", () => {
  const offs = offsOf("coarse-sweeps.json");
  for (const name of ["width at -3 dB", "width at -6 dB"] as const) {
    expect(rate(offs[name]), name).toBeGreaterThanOrEqual(0.93);
    // joined by straight lines the points would give a third of an uncertainty too little
    expect(Math.abs(mean(offs[name])), name).toBeLessThan(0.2);
    expect(mean(offs[name].map((z) => z * z)), name).toBeGreaterThan(0.7);
  }
  expect(rate(offs["peak frequency"])).toBeGreaterThanOrEqual(0.93);
});
