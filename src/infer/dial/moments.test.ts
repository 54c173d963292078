import { expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { orThrow } from "../../units/issue";
import { fitDial } from "./fit";
import type { Part } from "./fitted";
import { dialCases, inventDial } from "./possible-dials";
import { dialTerms } from "./scaling";

const assumed = { readingNoise: 0.1, zeroBeatHz: 20, backlash: 0.2, backlashU: 0.2 };
const dot = (a: Float64Array, b: Float64Array): number => a.reduce((s, v, i) => s + v * b[i], 0);
/** Mean and variance of a row of coefficients under one part, by forward substitution in its own factor. */
function underPart(p: Part, row: Float64Array): { readonly mean: number; readonly variance: number } {
  const scaled = row.map((v, i) => v * p.size[i]);
  const solved = new Float64Array(dialTerms);
  for (let i = 0; i < dialTerms; i++) {
    let s = scaled[i];
    for (let k = 0; k < i; k++) s -= p.factor[i * dialTerms + k] * solved[k];
    solved[i] = s / p.factor[i * dialTerms + i];
  }
  return { mean: dot(scaled, p.mean), variance: dot(solved, solved) };
}

it.each([0, 1, 2, 3])("mean and root are those of the mixture of parts, for any combination of coefficients: dial %i", (k) => {
  const { points } = inventDial(dialCases[k], 5, "both");
  const fit = orThrow(fitDial(points, dialCases[k].conversion, assumed));
  for (let n = 0; n < 5; n++) {
    const row = normalStream(n, "row", dialTerms);
    const parts = fit.parts.map((p) => ({ weight: p.weight, ...underPart(p, row) }));
    const mean = parts.reduce((s, p) => s + p.weight * p.mean, 0);
    const variance = parts.reduce((s, p) => s + p.weight * (p.variance + (p.mean - mean) ** 2), 0);
    let squared = 0;
    for (let i = 0; i < dialTerms; i++) squared += dot(fit.root.subarray(i * dialTerms, (i + 1) * dialTerms), row) ** 2;
    expect(dot(fit.mean, row)).toBeCloseTo(mean, 10);
    expect(Math.abs(squared / variance - 1)).toBeLessThan(1e-9);
  }
});
