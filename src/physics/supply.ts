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

/** What a Newton on the map of a period begins with: a state and, from a like supply, how the map changes with it. */
interface Start {
  readonly state: Float64Array;
  readonly map?: Float64Array | undefined;
}
/** A solved supply that others like it are solved from. */
export interface SupplyAtRest extends SupplySolved {
  /** where a like supply should come to rest, by the slopes of this one: state at the start of a period */
  readonly stateOf: (like: Supply) => Float64Array;
  /** where it was worked out: a like supply is, too, once this one is done with it */
  readonly ladder: Ladder;
}

/** The numbers of a supply in their order: what its state at rest depends on. */
function numbersOf(s: Supply): number[] {
  const node = (x: Supply["first"]): number[] => [
    x.farad,
    x.ampere,
    x.siemens,
    x.tube?.ampere ?? 0,
    x.tube?.atV ?? 0,
    x.tube?.exponent ?? 0,
  ];
  return [
    s.plateV,
    s.lineHz,
    s.sourceOhm,
    s.diode.perveance ?? 0,
    s.diode.drop,
    ...node(s.first),
    ...s.sections.flatMap((x) => [x.ohm, x.henry, ...node(x)]),
  ];
}
/** The same supply with other numbers. */
function withNumbers(s: Supply, numbers: readonly number[]): Supply {
  let at = 5;
  const node = (x: Supply["first"]) => {
    const [farad, ampere, siemens, tubeA, atV, exponent] = numbers.slice(at, at + 6);
    at += 6;
    return { farad, ampere, siemens, ...(x.tube ? { tube: { ampere: tubeA, atV, exponent } } : {}) };
  };
  const [plateV, lineHz, sourceOhm, perveance, drop] = numbers;
  const first = node(s.first);
  const sections = s.sections.map((x) => {
    const [ohm, henry] = numbers.slice(at, at + 2);
    at += 2;
    return { ohm, henry, ...node(x) };
  });
  return { ...s, plateV, lineHz, sourceOhm, diode: { ...(s.diode.perveance === undefined ? {} : { perveance }), drop }, first, sections };
}

/** A solved supply, with the slopes of its state over its numbers worked out when first asked for: one period for each number. */
function atRest(s: Supply, ladder: Ladder, solved: SupplySolved): SupplyAtRest {
  let at: number[] = [];
  let slopes: (Float64Array | undefined)[] | undefined;
  const slopeOver = (k: number): Float64Array | undefined => {
    if (at[k] === 0) return undefined;
    const step = 1e-4 * at[k];
    ladder.load(
      withNumbers(
        s,
        at.map((v, i) => (i === k ? v + step : v)),
      ),
    );
    const end = new Float64Array(ladder.size);
    ladder.tune(solved.state);
    ladder.run(solved.state, end);
    // the map less one must make up for what the number moved
    return solvedLinear(
      solved.change,
      solved.state.map((v, i) => (v - end[i]) / step),
    );
  };
  return {
    ...solved,
    ladder,
    stateOf: (like) => {
      if (!slopes) {
        at = numbersOf(s);
        slopes = at.map((_, k) => slopeOver(k));
      }
      const to = numbersOf(like);
      const state = solved.state.slice();
      for (const [k, slope] of slopes.entries())
        if (slope && to[k] !== at[k]) for (let i = 0; i < state.length; i++) state[i] += slope[i] * (to[k] - at[k]);
      // far from this supply its slopes say nothing
      const near = state.every((v, i) => Number.isFinite(v) && Math.abs(v - solved.state[i]) <= 0.5 * Math.abs(solved.state[i]) + 1);
      return near ? state : solved.state.slice();
    },
  };
}

/**
 * Newton on the map of a period, its slope mended from step to step by what the step did (Broyden); undefined where it does not settle.
 *
 * @source Broyden 1965, the "good" update, from memory; chokes weigh a thousand times their amperes as in `missOf`
 */
function byNewton(ladder: Ladder, { state: x, map }: Start, volts: number): SupplySolved | undefined {
  const n = ladder.size;
  const end = new Float64Array(n);
  const miss = new Float64Array(n);
  let change: Float64Array<ArrayBufferLike> | undefined = map?.slice();
  let step: Float64Array | undefined;
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
    if (!change || worst > 0.5 * last) change = changeAt(ladder, x, end, volts);
    else if (step) mendSlope(change, step, miss, x, end, volts);
    last = worst;
    for (let k = 0; k < n; k++) miss[k] = x[k] - end[k];
    step = solvedLinear(change, miss);
    for (let k = 0; k < n; k++) x[k] += step[k];
  }
  return undefined;
}

/** x of matrix x = right; both are left as they were. */
function solvedLinear(matrix: Float64Array, right: Float64Array): Float64Array {
  const [a, b] = [matrix.slice(), right.slice()];
  householderInPlace(a, b, b.length, b.length);
  return backSubstitute(a, b, b.length);
}

/** Broyden's update: the slope that explains what the last step did, and is else as it was. */
function mendSlope(
  change: Float64Array,
  step: Float64Array,
  missBefore: Float64Array,
  x: Float64Array,
  end: Float64Array,
  volts: number,
): void {
  const n = step.length;
  let size = 0;
  for (let k = 0; k < n; k++) size += (k < volts ? 1 : 1e6) * step[k] * step[k];
  if (!(size > 0)) return;
  for (let i = 0; i < n; i++) {
    let told = 0;
    for (let k = 0; k < n; k++) told += change[i * n + k] * step[k];
    // the map's value less the state moved from -missBefore to end - x
    const off = end[i] - x[i] + missBefore[i] - told;
    for (let k = 0; k < n; k++) change[i * n + k] += (off * (k < volts ? 1 : 1e6) * step[k]) / size;
  }
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
 * @param how steps in a period; `like` is a solved supply of the same shape and steps to begin from, which spares most of the work
 * @returns DC, ripple and currents; undefined where no steady state was found (a load that draws more than the supply can give)
 * @source the network's own equations, trapezoidal rule; Schade 1943 and RDH4 chapter 30 give the same as charts
 */
export function solveSupply(s: Supply, how: { readonly steps?: number; readonly like?: SupplyAtRest } = {}): SupplyAtRest | undefined {
  const steps = how.steps ?? 192;
  const volts = s.sections.length + 1;
  const like = how.like?.ladder.steps === steps && how.like.ladder.fits(s) ? how.like : undefined;
  // its slopes are worked out on the same ladder, so they come first
  const start = like && { state: like.stateOf(s), map: like.change };
  const ladder = like?.ladder ?? new Ladder(s, steps);
  ladder.load(s);
  const solved =
    (start && byNewton(ladder, start, volts)) ??
    byNewton(ladder, { state: firstGuess(s, ladder.size) }, volts) ??
    byPeriods(ladder, firstGuess(s, ladder.size), volts);
  return solved?.volts.every((v) => v >= 0) ? atRest(s, ladder, solved) : undefined;
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
