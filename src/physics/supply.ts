import { backSubstitute, householderInPlace } from "../numerics/linear";
import { Ladder, type Supply, type SupplySolved } from "./supply-ladder";

/**
 * Perveance of a vacuum diode from one published drop.
 *
 * @param drop V at
 * @param ampere A per plate
 * @returns K of i = K v^1.5, A/V^1.5
 * @source Child's law; Langmuir 1913
 */
export const perveanceOf = (drop: number, ampere: number): number => ampere / drop ** 1.5;

/**
 * Resistance of a winding as one plate sees it.
 *
 * @param secondaryOhm of the half that conducts
 * @param primaryOhm of the primary
 * @param ratio rms volts of that half over those of the primary
 * @returns ohm
 * @source reflected impedance; Schade 1943 uses it so
 */
export const sourceOhmOf = (secondaryOhm: number, primaryOhm: number, ratio: number): number => secondaryOhm + ratio ** 2 * primaryOhm;

/** Changes of a period that count as none, V. */
const settledV = 1e-4;

/** How far a period leaves a state from itself, V; chokes count a thousand times their amperes. */
function missOf(x: Float64Array, end: Float64Array, volts: number): number {
  let worst = 0;
  for (let k = 0; k < x.length; k++) worst = Math.max(worst, Math.abs(end[k] - x[k]) * (k < volts ? 1 : 1000));
  return worst;
}

/** Newton on the map of a period, from a state and, where a like supply gave one, with its map; undefined where it does not settle. */
function byNewton(ladder: Ladder, x: Float64Array, volts: number, map: Float64Array | undefined): SupplySolved | undefined {
  const n = ladder.size;
  const end = new Float64Array(n);
  let change = map;
  let last = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 40; round++) {
    ladder.tune(x);
    ladder.run(x, end);
    const worst = missOf(x, end, volts);
    if (!Number.isFinite(worst)) return undefined;
    if (change && worst < settledV) return ladder.solved(x, change);
    // a choke that runs dry bends the map: some periods as they come bring it near, then Newton goes on
    if (worst > 2 * last && worst > 1) {
      for (let k = 0; k < 12; k++) {
        x.set(end);
        ladder.tune(x);
        ladder.run(x, end);
      }
      last = Number.POSITIVE_INFINITY;
      change = undefined;
      continue;
    }
    if (!change || !map || worst > 0.3 * last) change = changeAt(ladder, x, end, volts);
    last = worst;
    const miss = Float64Array.from(end, (v, k) => x[k] - v);
    const matrix = change.slice();
    householderInPlace(matrix, miss, n, n);
    const delta = backSubstitute(matrix, miss, n);
    for (let k = 0; k < n; k++) x[k] += delta[k];
  }
  return undefined;
}

/** How the state a period later depends on the state, less one: by differences. */
function changeAt(ladder: Ladder, x: Float64Array, end: Float64Array, volts: number): Float64Array {
  const n = ladder.size;
  const change = new Float64Array(n * n);
  const moved = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    const step = j < volts ? 0.05 : 5e-5;
    const kept = x[j];
    x[j] = kept + step;
    ladder.run(x, moved);
    x[j] = kept;
    for (let k = 0; k < n; k++) change[k * n + j] = (moved[k] - end[k]) / step - (k === j ? 1 : 0);
  }
  return change;
}

/** Period after period, as the supply itself comes to rest. */
function byPeriods(ladder: Ladder, x: Float64Array, volts: number): SupplySolved | undefined {
  const end = new Float64Array(ladder.size);
  for (let round = 0; round < 3000; round++) {
    ladder.tune(x);
    ladder.run(x, end);
    const worst = missOf(x, end, volts);
    x.set(end);
    if (!Number.isFinite(worst)) return undefined;
    if (worst < 10 * settledV) return ladder.solved(x, new Float64Array(ladder.size ** 2));
  }
  return undefined;
}

/**
 * Steady state of a supply: the state that one period gives back, sought by Newton on the map of a period. What its tubes draw follows along: the
 * tangent of their law is taken anew in each round.
 *
 * @param s the supply
 * @param how steps in a period; `like` is a solved supply of the same shape to begin from, which spares most of the work
 * @returns DC, ripple and currents; undefined where no steady state was found (a load that draws more than the supply can give)
 * @source the network's own equations, trapezoidal rule; Schade 1943 and RDH4 chapter 30 give the same as charts
 */
export function solveSupply(s: Supply, how: { readonly steps?: number; readonly like?: SupplySolved } = {}): SupplySolved | undefined {
  const ladder = new Ladder(s, how.steps ?? 192);
  const volts = s.sections.length + 1;
  const like = how.like?.state.length === ladder.size ? how.like : undefined;
  const solved =
    (like && byNewton(ladder, like.state.slice(), volts, like.change)) ??
    byNewton(ladder, firstGuess(s, ladder.size), volts, undefined) ??
    byPeriods(ladder, firstGuess(s, ladder.size), volts);
  return solved?.volts.every((v) => v >= 0) ? solved : undefined;
}

function firstGuess(s: Supply, n: number): Float64Array {
  const x = new Float64Array(n);
  const total = s.first.ampere + s.sections.reduce((a, b) => a + b.ampere + (b.tube?.ampere ?? 0), 0);
  let v = s.first.farad > 0 ? 1.1 * s.plateV : 0.85 * s.plateV;
  x[0] = v;
  let at = s.sections.length + 1;
  s.sections.forEach((sec, i) => {
    v = Math.max(0, v - sec.ohm * total);
    x[i + 1] = v;
    if (sec.henry > 0) x[at++] = total;
  });
  return x;
}
