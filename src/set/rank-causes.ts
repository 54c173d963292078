import { choleskyFactor } from "../numerics/linear";
import { type Node, nodes, readStage, type Stage, solveStage } from "../physics/tube-stage";
import { type Fault, faults, logScale, type Test, testById, tests } from "./stage-faults";

/** Standard deviations of what the parts and the tube of a healthy stage may be off by, relative. */
export interface Tolerances {
  readonly resistor: number;
  readonly tube: number;
  readonly supply: number;
}
/** What was read: volts at nodes on a meter; ohms and other evidence with the power off. */
export interface Evidence {
  readonly volts: Partial<Readonly<Record<Node, number>>>;
  /** conductance of the meter at a reading, S, by the volts that stand there */
  readonly meterOf: (volts: number) => number;
  /** of the meter: relative, and V */
  readonly meterShare: number;
  readonly meterFloorV: number;
  /** results of the other tests, by id */
  readonly tests: Readonly<Record<string, number>>;
}

/** A grid near its cathode stands where contact potential puts it, which differs from tube to tube, V; common practice, no source. */
const contactDoubtV = 0.15;

interface Case {
  readonly fault: Fault;
  readonly size: number;
  readonly stage: Stage;
  readonly logLikelihood: number;
}
export interface Ranked {
  readonly fault: Fault;
  readonly probability: number;
  /** its likeliest size, in words */
  readonly size: string;
  readonly sizeValue: number;
  /** what the meter would read at each node in that case */
  readonly predicted: Partial<Readonly<Record<Node, number>>>;
}
export interface NextTest {
  readonly test: Test;
  /** expected information on which cause it is, bits */
  readonly bits: number;
}
export interface Ranking {
  readonly causes: readonly Ranked[];
  /** those that the readings can't tell from the first: none of them less than a third as likely for its prior */
  readonly ties: readonly Ranked[];
  readonly next: readonly NextTest[];
  /** how far the readings lie from what the best cause predicts, in standard deviations, the worst node */
  readonly worstMiss: number;
}

/** Logarithm of a Gaussian's density at these residuals; the meter's floor keeps its covariance definite. */
function gaussianLog(covariance: readonly (readonly number[])[], residuals: readonly number[]): number {
  const n = residuals.length;
  const l = choleskyFactor(covariance.flat(), n);
  if (!l) return Number.NEGATIVE_INFINITY;
  const z = new Float64Array(n);
  let log = -0.5 * n * Math.log(2 * Math.PI);
  for (let i = 0; i < n; i++) {
    let y = residuals[i];
    for (let k = 0; k < i; k++) y -= l[i * n + k] * z[k];
    z[i] = y / l[i * n + i];
    log -= 0.5 * z[i] ** 2 + Math.log(l[i * n + i]);
  }
  return log;
}

/** Parts of a stage that vary from set to set, each by its own relative deviation. */
const variations = (t: Tolerances): readonly { readonly by: number; readonly change: (s: Stage, k: number) => Stage }[] => [
  { by: t.resistor, change: (s, k) => ({ ...s, plateOhm: s.plateOhm * k }) },
  { by: t.resistor, change: (s, k) => ({ ...s, screenOhm: s.screenOhm * k }) },
  { by: t.resistor, change: (s, k) => ({ ...s, cathodeOhm: s.cathodeOhm * k }) },
  { by: t.resistor, change: (s, k) => ({ ...s, gridOhm: s.gridOhm * k }) },
  { by: t.tube, change: (s, k) => ({ ...s, tube: { ...s.tube, perveance: s.tube.perveance * k } }) },
  { by: 0.4 * t.tube, change: (s, k) => ({ ...s, tube: { ...s.tube, mu: s.tube.mu * k } }) },
  { by: t.supply, change: (s, k) => ({ ...s, supplyV: s.supplyV * k, beforeV: s.beforeV * k }) },
];

/**
 * Ranks what the readings of a stage come of. Each fault is solved at each of its sizes, with the meter at each node; what parts, tube and supply
 * of a sound stage may be off by is carried as a covariance, the meter's error on top; a fault's sizes count alike.
 *
 * @param healthy the stage as it should be
 * @param evidence what was read
 * @param tolerances of a sound stage
 * @param priors other priors, by fault
 * @returns causes by probability, the ties, and what to measure next, best first
 * @source Bayes' rule with a Gaussian of the linearised spread; expected information after Lindley 1956
 */
export function rankCauses(
  healthy: Stage,
  evidence: Evidence,
  tolerances: Tolerances,
  priors: Readonly<Record<string, number>> = {},
): Ranking | undefined {
  const read = nodes.filter((n) => evidence.volts[n] !== undefined);
  const vary = variations(tolerances);
  const own = healthy.tube.kind === "triode" ? faults.filter((f) => !f.id.startsWith("screen")) : faults;
  const evaluate = (fault: Fault, size: number): (Case & { readonly worst: number }) | undefined => {
    const stage = fault.apply(healthy, size);
    const ideal = solveStage(stage);
    const at = ideal && readStage(stage, evidence.meterOf, read, ideal);
    if (!ideal || !at) return undefined;
    const spreads = vary.map(({ by, change }) => {
      const step = 0.05;
      const changed = change(stage, 1 + step);
      const there = solveStage(changed, {}, ideal) ?? solveStage(changed);
      return read.map(
        (n) => ((((n === "supply" ? changed.supplyV : there?.[n]) ?? ideal[n]) - (n === "supply" ? stage.supplyV : ideal[n])) / step) * by,
      );
    });
    const covariance = read.map((n, i) =>
      read.map(
        (_, j) =>
          spreads.reduce((s, g) => s + g[i] * g[j], 0) +
          (i === j ? (evidence.meterShare * (at[n] ?? 0)) ** 2 + evidence.meterFloorV ** 2 + (n === "grid" ? contactDoubtV ** 2 : 0) : 0),
      ),
    );
    const off = read.map((n) => (evidence.volts[n] ?? 0) - (at[n] ?? 0));
    let log = gaussianLog(covariance, off);
    for (const [id, value] of Object.entries(evidence.tests)) {
      const t = testById(id);
      const p = t?.predict(stage, fault, size);
      if (!t || p === undefined) continue;
      const sd = Math.hypot(t.error, t.toScale === logScale ? tolerances.resistor : 0);
      log += -0.5 * ((t.toScale(value) - t.toScale(p)) / sd) ** 2 - Math.log(sd * Math.sqrt(2 * Math.PI));
    }
    const worst = off.reduce((w, o, i) => Math.max(w, Math.abs(o) / Math.sqrt(covariance[i][i])), 0);
    return { fault, size, stage, logLikelihood: log, worst };
  };
  const cases: Case[] = [];
  let misses: { readonly log: number; readonly worst: number } | undefined;
  for (const fault of own)
    for (const size of fault.sizes) {
      const c = evaluate(fault, size);
      if (!c) continue;
      if (!misses || c.logLikelihood > misses.log) misses = { log: c.logLikelihood, worst: c.worst };
      cases.push(c);
    }
  /** The likeliest size between the neighbours of the best one tried: for saying it, not for weighing it. */
  const refined = (c: Case): Case => {
    const k = c.fault.sizes.indexOf(c.size);
    const [low, high] = [c.fault.sizes[k - 1] ?? c.size, c.fault.sizes[k + 1] ?? c.size];
    if (!(low > 0) || low === high) return c;
    const between = Array.from({ length: 9 }, (_, i) => evaluate(c.fault, low * (high / low) ** ((i + 1) / 10)));
    return between.reduce<Case>((a, b) => (b && b.logLikelihood > a.logLikelihood ? b : a), c);
  };
  if (cases.length === 0 || !misses) return undefined;
  const top = cases.reduce((m, c) => Math.max(m, c.logLikelihood), Number.NEGATIVE_INFINITY);
  const weightOf = (c: Case): number => ((priors[c.fault.id] ?? c.fault.prior) / c.fault.sizes.length) * Math.exp(c.logLikelihood - top);
  const total = cases.reduce((s, c) => s + weightOf(c), 0);
  const causes = own
    .map((fault): Ranked | undefined => {
      const mine = cases.filter((c) => c.fault === fault);
      if (mine.length === 0) return undefined;
      const tried = mine.reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
      // a size is refined where the cause has a chance at all
      const best = mine.reduce((s, c) => s + weightOf(c), 0) / total > 0.02 ? refined(tried) : tried;
      return {
        fault,
        probability: mine.reduce((s, c) => s + weightOf(c), 0) / total,
        size: fault.sizeSays(best.size, healthy),
        sizeValue: best.size,
        predicted: readStage(best.stage, evidence.meterOf, nodes) ?? {},
      };
    })
    .filter((c) => c !== undefined)
    .sort((a, b) => b.probability - a.probability);
  const perPrior = (c: Ranked): number => c.probability / (priors[c.fault.id] ?? c.fault.prior);
  // a cause whose weight is nothing cannot tie
  const ties = causes.filter((c) => c.probability > 0.02 && perPrior(c) >= perPrior(causes[0]) / 3);
  const likely = cases.map((c) => ({ c, p: weightOf(c) / total })).filter((x) => x.p > 2e-4);
  return { causes, ties, next: nextTests(likely, evidence, tolerances), worstMiss: misses.worst };
}

/** Nodes and weights of Gauss-Hermite, for a standard normal. Source: Abramowitz and Stegun table 25.10, seven points, scaled. */
const hermite: readonly (readonly [number, number])[] = [
  [0, 0.4571428571],
  [1.1544053948, 0.2401231786],
  [-1.1544053948, 0.2401231786],
  [2.366759411, 0.030757124],
  [-2.366759411, 0.030757124],
  [3.7504397177, 0.00054826886],
  [-3.7504397177, 0.00054826886],
];

function nextTests(likely: readonly { readonly c: Case; readonly p: number }[], evidence: Evidence, tolerances: Tolerances): NextTest[] {
  const ids = [...new Set(likely.map((l) => l.c.fault.id))];
  const prior = ids.map((id) => likely.filter((l) => l.c.fault.id === id).reduce((s, l) => s + l.p, 0));
  const out: NextTest[] = [];
  for (const test of tests) {
    if (test.id in evidence.tests) continue;
    const sd = Math.hypot(test.error, test.toScale === logScale ? tolerances.resistor : 0);
    const seen = likely.map((l) => {
      const v = test.predict(l.c.stage, l.c.fault, l.c.size);
      return v === undefined ? undefined : { at: test.toScale(v), p: l.p, k: ids.indexOf(l.c.fault.id) };
    });
    if (seen.some((x) => x === undefined)) continue;
    const known = seen as { at: number; p: number; k: number }[];
    let bits = 0;
    for (const x of known)
      for (const [z, w] of hermite) {
        const y = x.at + z * sd;
        let all = 0;
        let mine = 0;
        for (const o of known) {
          const d = (y - o.at) / sd;
          const n = o.p * Math.exp(-0.5 * d * d);
          all += n;
          if (o.k === x.k) mine += n;
        }
        bits += x.p * w * Math.log2(mine / all / prior[x.k]);
      }
    out.push({ test, bits });
  }
  return out.sort((a, b) => b.bits * b.test.ease - a.bits * a.test.ease);
}
