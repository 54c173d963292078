import type { Sweep } from "../../readings/sweep";

/**
 * Where a fit of a resonance may start: the best places of a grid of centres, widths and turns, amplitudes solved at each, the sweep taken as
 * A + B / (1 + jx) behind a turn.
 *
 * @param law what is fitted: its kind, and how many parameters (six have no turn)
 * @param f frequencies, Hz
 * @param complex the sweep in the plane
 * @param size its largest magnitude
 * @returns parameters to start from, best first: centre in parts of the span from its middle, log Q, complex pairs, slopes
 * @source complex linear least squares, textbook
 */
export function resonanceStarts(
  law: { readonly kind: "transmission" | "reflection"; readonly count: number },
  f: Float64Array,
  { re, im }: NonNullable<Sweep["complex"]>,
  size: number,
): Float64Array[] {
  const n = f.length;
  const span = f[n - 1] - f[0];
  const middle = (f[0] + f[n - 1]) / 2;
  const phase = (i: number): number => Math.atan2(im[i], re[i]);
  let whole = 0;
  for (let i = 1; i < n; i++) {
    const d = phase(i) - phase(i - 1);
    whole += d - 2 * Math.PI * Math.round(d / 2 / Math.PI);
  }
  const still = law.count === 6;
  const turns = still ? [0] : [0, whole, whole + 2 * Math.PI, whole - 2 * Math.PI, whole + Math.PI, whole - Math.PI];
  const tried: { readonly cost: number; readonly start: Float64Array }[] = [];
  for (const t of turns)
    for (let a = 1; a < 40; a++)
      for (let w = span / 1.2; w > (2 * span) / n; w /= 1.7) {
        const centre = f[0] + (span * a) / 40;
        const { cost, A, B } = amplitudesAt(f, re, im, { centre, q: centre / w, turn: t / span, middle, size });
        const d2 = A[0] ** 2 + A[1] ** 2 || 1e-12;
        const over = [-(B[0] * A[0] + B[1] * A[1]) / d2, -(B[1] * A[0] - B[0] * A[1]) / d2];
        const head = [(centre - middle) / span, Math.log(centre / w)];
        const start = law.kind === "reflection" ? [...head, ...A, ...over, t, 0] : [...head, ...B, ...A, ...(still ? [] : [t, 0, 0])];
        tried.push({ cost, start: Float64Array.from(start) });
      }
  const sorted = tried.sort((p, q) => p.cost - q.cost);
  return [0, 1, Math.min(8, sorted.length - 1)].map((k) => sorted[k].start);
}
/** Complex amplitudes A, B of A + B / (1 + jx), and what they leave, by two complex normal equations. */
function amplitudesAt(
  f: Float64Array,
  re: Float64Array,
  im: Float64Array,
  at: { readonly centre: number; readonly q: number; readonly turn: number; readonly middle: number; readonly size: number },
): { readonly cost: number; readonly A: readonly number[]; readonly B: readonly number[] } {
  let [hh, hRe, hIm, yRe, yIm, vRe, vIm, yy] = [0, 0, 0, 0, 0, 0, 0, 0];
  const n = f.length;
  for (let i = 0; i < n; i++) {
    const x = at.q * (f[i] / at.centre - at.centre / f[i]);
    const d = 1 / (1 + x * x);
    const rad = -at.turn * (f[i] - at.middle);
    const [c, s] = [Math.cos(rad) / at.size, Math.sin(rad) / at.size];
    const [a, b] = [re[i] * c - im[i] * s, re[i] * s + im[i] * c];
    hh += d;
    hRe += d;
    hIm -= x * d;
    yRe += a;
    yIm += b;
    // conj(h) y
    vRe += d * a - x * d * b;
    vIm += d * b + x * d * a;
    yy += a * a + b * b;
  }
  const det = n * hh - hRe * hRe - hIm * hIm || 1e-300;
  // [n h; conj(h) hh] [A; B] = [y; v]
  const A = [(hh * yRe - (hRe * vRe - hIm * vIm)) / det, (hh * yIm - (hRe * vIm + hIm * vRe)) / det];
  const B = [(n * vRe - (hRe * yRe + hIm * yIm)) / det, (n * vIm - (hRe * yIm - hIm * yRe)) / det];
  return { cost: yy - (A[0] * yRe + A[1] * yIm + B[0] * vRe + B[1] * vIm), A, B };
}
