import { choleskyFactor } from "../../numerics/linear";
import { type Node, nodes, readStage, type Stage, solveStage, type Volts } from "../../physics/tube-stage";
import type { Fault, Sizes } from "./faults";
import { doubtOf, type Evidence, type Readings, type Tolerances, variations } from "./reading-doubt";
import { errorOf, type Test, testById } from "./tests";

/** Degrees of freedom of the readings' density: parts, law and readings go far off more often than a Gaussian has it. Common practice, no source. */
const tails = 30;

/** A fault of one size, and its volts against those that were read. */
interface Solved {
  readonly fault: Fault;
  readonly size: number;
  readonly stage: Stage;
  /** the worst single miss, in times its doubt, and where */
  readonly worst: number;
  readonly worstAt: Node | undefined;
  /** volts without a meter, and how they move with what varies: to start the next size from */
  readonly ideal: Volts;
  readonly moves: readonly number[];
  /** what a test would find, SI, worked out once; nothing where it foretells nothing */
  readonly foretold: (test: Test) => number | undefined;
}
/** The same, and how well it explains what was read. */
interface Settled extends Solved {
  readonly volts: Density;
}
export interface Case extends Solved {
  readonly logLikelihood: number;
  /** squares of what it misses, in its own doubt, the readings' correlation counted; and how many readings and tests there are */
  readonly chiSquare: number;
  readonly count: number;
}
/** A fault over its sizes. */
export interface Profile {
  readonly fault: Fault;
  /** logarithm of the mean likelihood over its sizes */
  readonly logMean: number;
  readonly best: Case;
  /** sizes with the part of the fault's weight that falls to each; they sum to 1 */
  readonly parts: readonly { readonly c: Case; readonly part: number }[];
}

interface Density {
  readonly log: number;
  readonly chiSquare: number;
}
/** Whitened residuals and the logarithm of Student's density, its constant left out; the meter's floor keeps its covariance definite. */
function density(covariance: readonly number[], residuals: readonly number[]): Density {
  const n = residuals.length;
  const l = choleskyFactor(covariance, n);
  if (!l) return { log: Number.NEGATIVE_INFINITY, chiSquare: Number.POSITIVE_INFINITY };
  const z = new Float64Array(n);
  let [log, chiSquare] = [0, 0];
  for (let i = 0; i < n; i++) {
    let y = residuals[i];
    for (let k = 0; k < i; k++) y -= l[i * n + k] * z[k];
    z[i] = y / l[i * n + i];
    chiSquare += z[i] ** 2;
    log -= Math.log(l[i * n + i]);
  }
  return { log: log - 0.5 * (tails + n) * Math.log1p(chiSquare / tails), chiSquare };
}

/**
 * Weighs faults of one stage by what was read of it; asked again with other tests, it settles no stage a second time.
 *
 * @param healthy the stage as it should be
 * @param evidence volts that were read
 * @param tolerances of a sound stage
 * @returns a function of a fault and the results of the other tests, by id: its profile over its sizes; undefined where the stage has no operating point with it
 * @source Bayes' rule with Student's density of the linearised spread; sizes even in their logarithm, integrated where the likelihood bends
 */
export function weigher(
  healthy: Stage,
  evidence: Readings,
  tolerances: Tolerances,
): (fault: Fault, made: Evidence["tests"]) => Profile | undefined {
  const read = nodes.filter((n) => evidence.volts[n] !== undefined);
  const vary = variations(tolerances, healthy);
  const own = { vary, evidence, chart: tolerances.chart ?? {} };
  const settle = (fault: Fault, size: number, near?: Case): Settled | undefined => {
    const stage = fault.apply(healthy, size);
    const ideal = (near && solveStage(stage, {}, near.ideal)) ?? solveStage(stage);
    const at = ideal && readStage(stage, evidence.meterOf, read, ideal);
    if (!ideal || !at) return undefined;
    const { covariance, moves } = doubtOf({ stage, ideal, at }, read, own, near?.moves);
    const off = read.map((n) => (evidence.volts[n] ?? 0) - (at[n] ?? 0));
    const misses = off.map((o, i) => Math.abs(o) / Math.sqrt(covariance[i * (read.length + 1)]));
    const worst = misses.reduce((w, m) => Math.max(w, m), 0);
    const foretells = new Map<Test, number | undefined>();
    const foretold = (t: Test): number | undefined => {
      if (!foretells.has(t)) foretells.set(t, t.predict(stage, fault, size));
      return foretells.get(t);
    };
    return { fault, size, stage, ideal, moves, volts: density(covariance, off), worst, worstAt: read[misses.indexOf(worst)], foretold };
  };
  /** what was settled of each fault, by its size: volts are the same whatever other tests tell */
  const settled = new Map<Fault, Map<number, Settled | undefined>>();
  const once = (fault: Fault, size: number, near?: Case): Settled | undefined => {
    const sizes = settled.get(fault) ?? new Map<number, Settled | undefined>();
    settled.set(fault, sizes);
    if (!sizes.has(size)) sizes.set(size, settle(fault, size, near));
    return sizes.get(size);
  };
  return (fault, made) => {
    const found = Object.entries(made).flatMap(([id, value]) => {
      const test = testById(id);
      return test ? [{ test, at: test.toScale(value), sd: errorOf(test, tolerances) }] : [];
    });
    return profileOf(fault, (of, size, near) => {
      const s = once(of, size, near);
      if (!s) return undefined;
      let [log, chiSquare, count] = [s.volts.log, s.volts.chiSquare, read.length];
      for (const { test, at, sd } of found) {
        const p = s.foretold(test);
        if (p === undefined) continue;
        const z = (at - test.toScale(p)) / sd;
        log += -0.5 * z ** 2 - Math.log(sd * Math.sqrt(2 * Math.PI));
        chiSquare += z ** 2;
        count++;
      }
      // named one by one: a spread takes as long as all the rest
      const { stage, worst, worstAt, ideal, moves, foretold } = s;
      return { fault, size, stage, worst, worstAt, ideal, moves, foretold, logLikelihood: log, chiSquare, count };
    });
  };
}

type Evaluate = (fault: Fault, size: number, near?: Case) => Case | undefined;
/** Step of the first look along a size's logarithm; change of the log-likelihood over an interval that is looked into; how far down it counts. */
const [firstStep, bend, depth, mostSplits] = [0.5, 0.8, 10, 60] as const;

function profileOf(fault: Fault, evaluate: Evaluate): Profile | undefined {
  const shares = fault.sizes.reduce((s, r) => s + (r.share ?? 1), 0);
  const stretches = fault.sizes.map((r) => ({ share: (r.share ?? 1) / shares, cases: alongSizes(fault, r, evaluate) }));
  const all = stretches.flatMap((s) => s.cases);
  if (all.length === 0) return undefined;
  const best = all.reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
  const top = best.logLikelihood;
  const mass = new Map<Case, number>();
  const add = (c: Case, m: number): void => void mass.set(c, (mass.get(c) ?? 0) + m);
  for (const { share, cases } of stretches) {
    if (cases.length === 1) add(cases[0], share * Math.exp(cases[0].logLikelihood - top));
    const length = cases.length > 1 ? Math.log(cases[cases.length - 1].size / cases[0].size) : 1;
    for (let i = 1; i < cases.length; i++) {
      const [a, b] = [cases[i - 1], cases[i]];
      const m = (share * Math.log(b.size / a.size) * exponentialMean(a.logLikelihood - top, b.logLikelihood - top)) / length;
      add(a, m / 2);
      add(b, m / 2);
    }
  }
  const total = [...mass.values()].reduce((s, m) => s + m, 0);
  return {
    fault,
    best,
    logMean: top + Math.log(Math.max(total, 1e-300)),
    parts: [...mass].map(([c, m]) => ({ c, part: total > 0 ? m / total : 0 })),
  };
}
/** Mean of exp over an interval along which its logarithm runs straight from a to b. */
const exponentialMean = (a: number, b: number): number =>
  Math.abs(b - a) < 1e-6 ? Math.exp((a + b) / 2) : (Math.exp(b) - Math.exp(a)) / (b - a);

/** Cases along one stretch of sizes, in order: an even first look, the peak between its best, and halves wherever the likelihood bends. */
function alongSizes(fault: Fault, range: Sizes, evaluate: Evaluate): Case[] {
  const { from, to } = range;
  if (from === to) {
    const c = evaluate(fault, from);
    return c ? [c] : [];
  }
  const steps = Math.max(2, Math.ceil(Math.log(to / from) / firstStep));
  const cases: Case[] = [];
  for (let i = 0; i <= steps; i++) {
    const c = evaluate(fault, from * (to / from) ** (i / steps), cases[cases.length - 1]);
    if (c) cases.push(c);
  }
  const midOf = (k: number): Case | undefined => evaluate(fault, Math.sqrt(cases[k - 1].size * cases[k].size), cases[k - 1]);
  const topOf = (): number => cases.reduce((m, c) => Math.max(m, c.logLikelihood), Number.NEGATIVE_INFINITY);
  // a peak may hide between its neighbours: look on either side of it, ever closer
  for (let round = 0; round < 8 && cases.length > 1; round++) {
    const top = topOf();
    const k = cases.findIndex((c) => c.logLikelihood === top);
    for (const at of [k + 1, k]) {
      const c = at > 0 && at < cases.length && cases[at].size / cases[at - 1].size > 1.004 ? midOf(at) : undefined;
      if (c) cases.splice(at, 0, c);
    }
  }
  for (let split = 0; split < mostSplits; split++) {
    const floor = topOf() - depth;
    const k = cases.findIndex(
      (c, i) =>
        i > 0 &&
        Math.max(c.logLikelihood, cases[i - 1].logLikelihood) > floor &&
        Math.abs(c.logLikelihood - cases[i - 1].logLikelihood) > bend &&
        c.size / cases[i - 1].size > 1.004,
    );
    const c = k > 0 ? midOf(k) : undefined;
    if (!c) break;
    cases.splice(k, 0, c);
  }
  return cases;
}
