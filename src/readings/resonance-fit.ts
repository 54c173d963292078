import { leastSquares } from "../numerics/least-squares";
import { bad, good, type Read } from "../units/issue";
import type { Sweep } from "./sweep";

export interface ResonanceFit {
  readonly centreHz: number;
  readonly loadedQ: number;
  readonly widthHz: number;
  /** standard uncertainties from the scatter of the readings */
  readonly centreU: number;
  readonly loadedQU: number;
  readonly rmsResidual: number;
}

/**
 * One resonance fitted to a complex sweep: S = A + B / (1 + 2 j Q (f - f0)/f0), A and B complex.
 *
 * @param sweep complex transmission near one resonance; at least 10 points
 * @param name file, for the error
 * @returns centre, loaded Q and their uncertainties, or why there is none
 * @source one-pole form of a resonance; published loaded Q in resonance-fit.published.test.ts
 */
export function fitResonance(sweep: Sweep, name: string): Read<ResonanceFit> {
  const { complex, frequencyHz: f } = sweep;
  const n = f.length;
  if (!complex) return bad(name, "not-complex", sweep.quantity, "real and imaginary parts, or S parameters");
  if (n < 10) return bad(name, "too-few", `${n} points`, "at least 10 points");
  let top = 0;
  for (let i = 1; i < n; i++) if (sweep.levelDb[i] > sweep.levelDb[top]) top = i;
  const size = Math.hypot(complex.re[top], complex.im[top]) || 1;
  const half = (i: number) => sweep.levelDb[i] > sweep.levelDb[top] - 3;
  let a = top;
  let b = top;
  while (a > 0 && half(a)) a--;
  while (b < n - 1 && half(b)) b++;
  const span = f[n - 1] - f[0];
  const f0 = f[top];
  const q = f0 / Math.max(f[b] - f[a], span / n);
  const found = leastSquares({
    rows: 2 * n,
    start: [0, Math.log(q), complex.re[top] / size, complex.im[top] / size, 0, 0],
    scale: [0.1, 1, 1, 1, 1, 1],
    residuals: (p, out) => {
      const centre = f0 + p[0] * span;
      const loaded = Math.exp(p[1]);
      for (let i = 0; i < n; i++) {
        const x = (2 * loaded * (f[i] - centre)) / centre;
        const d = 1 + x * x;
        out[2 * i] = p[4] + (p[2] + p[3] * x) / d - complex.re[i] / size;
        out[2 * i + 1] = p[5] + (p[3] - p[2] * x) / d - complex.im[i] / size;
      }
    },
  });
  if (!found.normalInverse || found.status === "iterations-exhausted")
    return bad(name, "no-fit", found.status, "one resonance within the sweep");
  const s2 = found.cost / (2 * n - 6);
  const loadedQ = Math.exp(found.p[1]);
  const centreHz = f0 + found.p[0] * span;
  return good({
    centreHz,
    loadedQ,
    widthHz: centreHz / loadedQ,
    centreU: Math.sqrt(s2 * found.normalInverse[0]) * span,
    loadedQU: Math.sqrt(s2 * found.normalInverse[7]) * loadedQ,
    rmsResidual: Math.sqrt(found.cost / n) * size,
  });
}
