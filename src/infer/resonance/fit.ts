import { leastSquares } from "../../numerics/least-squares";
import { judgeMisfit, type Misfit } from "../../numerics/misfit";
import type { Sweep } from "../../readings/sweep";
import { bad, good, type Read } from "../../units/issue";
import { resonanceStarts } from "./start";

export interface ResonanceFit {
  readonly kind: "transmission" | "reflection";
  readonly centreHz: number;
  readonly loadedQ: number;
  readonly widthHz: number;
  /** standard uncertainties from the scatter of the readings, widened by the rule of misfits */
  readonly centreU: number;
  readonly loadedQU: number;
  /** of a reflection: coupling (unloaded Q over external Q) and the Q without the loop, with standard uncertainties */
  readonly unloaded: { readonly coupling: number; readonly couplingU: number; readonly q: number; readonly qU: number } | undefined;
  readonly rmsResidual: number;
  readonly misfit: Misfit;
  /** points within the half-power width */
  readonly pointsWithin: number;
}
/** Fewer points than this within the half-power width tell no width. House rule, no source. */
const fewestWithin = 3;
/** A passive one-port sends back no more than it gets; calibration and noise are allowed this much. House rule, no source. */
const mostReflected = 1.05;

/** Losses and coupling change along a width that is 1/Q of the frequency; the laws take them as fixed: standard uncertainty of Q, relative, times Q. Checked on invented circuits. */
const lawMissParts = 0.25;

/** A law in the plane: parameters are the centre (parts of the span), log Q, then complex pairs and slopes; writes real and imaginary part. */
interface Law {
  readonly kind: ResonanceFit["kind"];
  readonly count: number;
  readonly at: (p: Float64Array, x: number, place: number, out: Float64Array, i: number) => void;
}
/** S = A + B / (1 + jx). */
const plain: Law = {
  kind: "transmission",
  count: 6,
  at: (p, x, _, out, i) => {
    const d = 1 + x * x;
    out[i] = p[4] + (p[2] + p[3] * x) / d;
    out[i + 1] = p[5] + (p[3] - p[2] * x) / d;
  },
};
const turn = (re: number, im: number, rad: number, out: Float64Array, i: number): void => {
  const [c, s] = [Math.cos(rad), Math.sin(rad)];
  out[i] = re * c - im * s;
  out[i + 1] = re * s + im * c;
};
/** The same behind a line, with a leak that changes along the sweep. */
const leaky: Law = {
  kind: "transmission",
  count: 9,
  at: (p, x, place, out, i) => {
    const d = 1 + x * x;
    turn(p[4] + p[7] * place + (p[2] + p[3] * x) / d, p[5] + p[8] * place + (p[3] - p[2] * x) / d, p[6] * place, out, i);
  },
};
/** Reflection of a coupled circuit: S = A exp((s + jt) place) (1 - D / (1 + jx)); D is the circle's diameter over the reflection far off. */
const reflected: Law = {
  kind: "reflection",
  count: 8,
  at: (p, x, place, out, i) => {
    const d = 1 + x * x;
    const [re, im] = [1 - (p[4] + p[5] * x) / d, -(p[5] - p[4] * x) / d];
    const grow = Math.exp(p[7] * place);
    turn((p[2] * re - p[3] * im) * grow, (p[2] * im + p[3] * re) * grow, p[6] * place, out, i);
  },
};

/**
 * One resonance fitted to a complex sweep, by the law of what was measured: transmission through it, or the reflection of a loop coupled to it.
 *
 * Transmission: S = A + B / (1 + jx), x = Q (f/f0 - f0/f); where that misses in a pattern, behind a line and with a leak that changes along the sweep.
 * Reflection: S = A exp((s + jt) f) (1 - D / (1 + jx)); coupling k = D / (2 - D), unloaded Q = Q (1 + k).
 *
 * @param sweep complex transmission or reflection near one resonance; at least 10 points
 * @param name file, for the error
 * @returns centre, loaded Q, of a reflection the unloaded Q too, with their uncertainties; or why there is none
 * @source circle of a resonator's reflection: D. Kajfez, Q Factor Measurements, Analog and Digital (1999), from memory; published loaded Q in
 *   real-readings.crosscheck.test.ts; coverage on invented circuits in resonance.worlds.test.ts
 */
export function fitResonance(sweep: Sweep, name: string): Read<ResonanceFit> {
  const { complex, frequencyHz: f } = sweep;
  const n = f.length;
  if (!complex) return bad(name, "not-complex", sweep.quantity, "real and imaginary parts, or S parameters");
  if (n < 10) return bad(name, "too-few", `${n} points`, "at least 10 points");
  if (sweep.reflection) {
    const most = complex.re.reduce((m, re, i) => Math.max(m, Math.hypot(re, complex.im[i])), 0);
    if (most > mostReflected) return bad(name, "reflects-more", `|S11| of ${most.toFixed(2)}`, reflectsMore);
  }
  const laws = sweep.reflection ? [reflected] : [plain, leaky];
  let best: ResonanceFit | undefined;
  for (const law of laws) {
    const found = fitLaw(law, f, complex);
    if (found && (!best || found.misfit.timesNoise < 0.8 * best.misfit.timesNoise)) best = found;
    if (best?.misfit.verdict === "ok" && !best.misfit.patterned) break;
  }
  if (!best) return bad(name, "no-fit", "no resonance found", "one resonance within the sweep");
  if (best.pointsWithin < fewestWithin)
    return bad(
      name,
      "too-coarse",
      `${best.pointsWithin.toFixed(1)} points within its width`,
      `at least ${fewestWithin} points within the half-power width: sweep a narrower span, or with more points`,
    );
  if (best.misfit.verdict === "law-fails")
    return bad(
      name,
      "no-law",
      `misses of ${best.misfit.timesNoise.toFixed(0)} times the noise`,
      "one resonance: a narrower sweep, or a file that says what was measured",
    );
  return good(best);
}
/** Why a reflection above one is refused. */
export const reflectsMore = "at most 1.05: a coil can't send back more than it gets. Calibrate again, at the plane of the loop";

/**
 * Spacing of the sweep's points about a frequency, Hz.
 *
 * @source definition
 */
export function stepAt(f: Float64Array, hz: number): number {
  let k = 1;
  while (k < f.length - 1 && f[k] < hz) k++;
  return f[k] - f[k - 1];
}
/** The law fitted from the best place of a grid of centres, widths and turns. */
function fitLaw(law: Law, f: Float64Array, complex: NonNullable<Sweep["complex"]>): ResonanceFit | undefined {
  const n = f.length;
  const size = Math.max(...complex.re.map((re, i) => Math.hypot(re, complex.im[i]))) || 1;
  const span = f[n - 1] - f[0];
  const middle = (f[0] + f[n - 1]) / 2;
  const centreOf = (p: ArrayLike<number>): number => middle + p[0] * span;
  const values = (p: Float64Array, out: Float64Array): void => {
    const centre = centreOf(p);
    const q = Math.exp(p[1]);
    for (let i = 0; i < n; i++) law.at(p, q * (f[i] / centre - centre / f[i]), (f[i] - middle) / span, out, 2 * i);
  };
  const residuals = (p: Float64Array, out: Float64Array): void => {
    values(p, out);
    for (let i = 0; i < n; i++) {
      out[2 * i] -= complex.re[i] / size;
      out[2 * i + 1] -= complex.im[i] / size;
    }
  };
  let found: ReturnType<typeof leastSquares> | undefined;
  for (const start of resonanceStarts(law, f, complex, size)) {
    const tried = leastSquares({
      rows: 2 * n,
      start,
      scale: new Float64Array(law.count).fill(1).fill(0.1, 0, 1),
      residuals,
      iterations: 100,
    });
    if (tried.normalInverse && tried.status !== "singular" && (!found || tried.cost < found.cost)) found = tried;
  }
  if (!found?.normalInverse) return undefined;
  const { p, normalInverse: c } = found;
  const out = new Float64Array(2 * n);
  residuals(p, out);
  // real parts in order, then imaginary ones, so that a pattern along the sweep shows
  const apart = Float64Array.from(out, (_, i) => out[i < n ? 2 * i : 2 * (i - n) + 1]);
  const misfit = judgeMisfit({ residuals: apart, parameters: law.count });
  const s2 = Math.max(found.cost / Math.max(1, 2 * n - law.count), (misfit.noise * misfit.widenRatio) ** 2);
  const u = (i: number): number => Math.sqrt(s2 * c[i * law.count + i]);
  const loadedQ = Math.exp(p[1]);
  const centreHz = centreOf(p);
  const widthHz = centreHz / loadedQ;
  return {
    kind: law.kind,
    centreHz,
    loadedQ,
    widthHz,
    centreU: Math.hypot(u(0) * span, (lawMissParts / loadedQ) * widthHz),
    loadedQU: Math.hypot(u(1) * loadedQ, lawMissParts),
    unloaded: law.kind === "reflection" ? unloadedOf(p, size, (i, j) => s2 * c[i * law.count + j]) : undefined,
    rmsResidual: Math.sqrt(found.cost / n) * size,
    misfit,
    pointsWithin: widthHz / stepAt(f, centreHz),
  };
}

/**
 * Coupling and unloaded Q out of the circle's diameter, with their uncertainties to first order. What is missing of the reflection far off was lost in the
 * line (then the diameter counts by that reflection) or in the loop (then by up to half the loss less): it lies between, evenly.
 */
function unloadedOf(p: Float64Array, size: number, c: (i: number, j: number) => number): NonNullable<ResonanceFit["unloaded"]> {
  const lost = Math.min(0.6, Math.max(0, 1 - size * Math.hypot(p[2], p[3])));
  const whole = Math.hypot(p[4], p[5]);
  const d = Math.min(1.99, whole * (1 - lost / 5));
  const coupling = d / (2 - d);
  const q = Math.exp(p[1]) * (1 + coupling);
  // d(ln q) = d(ln QL) + dD / (2 - D)
  const along = [p[4] / whole, p[5] / whole];
  const ofFit = along[0] ** 2 * c(4, 4) + along[1] ** 2 * c(5, 5) + 2 * along[0] * along[1] * c(4, 5);
  const dd = ofFit + (0.3 * d * lost) ** 2 / 3 + ((d * lawMissParts) / Math.exp(p[1])) ** 2;
  const dq = along[0] * c(1, 4) + along[1] * c(1, 5);
  const ofQ = c(1, 1) + (lawMissParts / Math.exp(p[1])) ** 2;
  return {
    coupling,
    couplingU: (Math.sqrt(dd) * 2) / (2 - d) ** 2,
    q,
    qU: q * Math.sqrt(Math.max(0, ofQ + dd / (2 - d) ** 2 + (2 * dq) / (2 - d))),
  };
}
